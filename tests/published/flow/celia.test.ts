import { expect, test } from "vitest";
import { evenEdges } from "../../../model/checks/evenEdges.ts";
import { givenHead } from "../../../model/checks/givenEdges.ts";
import { lineMesh } from "../../../model/checks/lineMesh.ts";
import { celiaInfiltration } from "../../../model/checks/loadFlowChecks.ts";
import { soilTable } from "../../../model/soil/soilTable.ts";
import { vanGenuchten } from "../../../model/soil/vanGenuchten.ts";
import { expectClose } from "../../support/close.ts";
import { lastCrossing, solveSystem } from "../../support/solveSystem.ts";

// Celia, Bouloutas & Zarba (1990): reference-data/checks/flow-celia.json. Retention read in a listing, Ks recalled.
const soil = vanGenuchten({ thetaR: 0.102, thetaS: 0.368, alpha: 0.0335, n: 2, Ks: 0.00922 * 86_400, l: 0.5 });
const table = soilTable(soil);
const mesh = lineMesh("column", evenEdges(0, 100, 100));
const { rows } = celiaInfiltration();
const { states, balanceError } = solveSystem({
  mesh,
  table,
  start: -1000,
  boundaries: [givenHead(mesh.sides.bottom, -1000), givenHead(mesh.sides.top, -75)],
  stops: rows.map(({ hours }) => hours / 24),
});

test.each(rows)("100 cells take up the water of Celia et al. $name to 1 %", ({ name, infiltrated }) => {
  const { entered } = states[rows.findIndex((row) => row.name === name)]!;
  expectClose(entered[1]!, infiltrated, { tolerance: 0.01, relative: true, unit: "cm", what: `infiltrated ${name}` });
});

test.each(rows)(
  "100 cells put the fronts and heads of Celia et al. $name within one cell",
  ({ name, fronts, heads }) => {
    const { h } = states[rows.findIndex((row) => row.name === name)]!;
    for (const front of fronts) {
      const depth = lastCrossing(mesh.dCell, h, front.h);
      expectClose(depth, front.depth, { tolerance: 1, unit: "cm", what: `depth of ${front.h} cm ${name}` });
    }
    for (const { depth, h: head } of heads.filter((known) => known.h > -100)) {
      const [above, below] = [h[depth - 2]!, h[depth + 1]!];
      console.info(
        `head at ${depth} cm ${name}: between ${above} and ${below} a cell and a half away, expected ${head}`,
      );
      expect(head > below && head < above).toBe(true);
    }
  },
);

test("no water of the column of Celia et al. is lost: less than 1e-6 of it", () => {
  expectClose(balanceError, 0, { tolerance: 1e-6, what: "balance error" });
});
