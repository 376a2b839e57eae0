import { test } from "vitest";
import { givenHead } from "../../../model/checks/givenEdges.ts";
import { sorptivities } from "../../../model/checks/loadFlowChecks.ts";
import { gradedEdges } from "../../../model/flow/gridSpacing.ts";
import { soilTable } from "../../../model/soil/soilTable.ts";
import { vanGenuchten } from "../../../model/soil/vanGenuchten.ts";
import { rowNamed, textureClasses } from "../../../reference-data/load.ts";
import { expectClose } from "../../support/close.ts";
import { horizontalRow } from "../../support/horizontal.ts";
import { solveSystem } from "../../support/solveSystem.ts";

// Sorptivities by the method of Philip & Knight (1974): reference-data/checks/flow-sorptivity.json.
const cases = sorptivities().rows.flatMap(({ name, sorptivities: known }) =>
  known.map((value) => ({ name, ...value })),
);

test.each(cases)(
  "horizontal $name from $startHead cm takes up S √t, S to 0.1 %, whenever",
  ({ name, startHead, value }) => {
    const table = soilTable(vanGenuchten(rowNamed(textureClasses(), name).mean), { wetEnd: -0.002 });
    const mesh = horizontalRow(gradedEdges(0, 60 * value, "from", 0.002 * value, 1.03, 0.5 * value));
    const { states } = solveSystem({
      mesh,
      table,
      start: startHead,
      boundaries: [givenHead(mesh.sides.inner, 0)],
      stops: [0.1, 1],
      firstStep: 1e-6,
      timeError: 1e-6,
    });
    for (const { t, entered } of states) {
      const S = entered[0]! / Math.sqrt(t);
      expectClose(S, value, { tolerance: 0.001, relative: true, unit: "cm/day^½", what: `I/√t of ${name}, ${t} d` });
    }
  },
);
