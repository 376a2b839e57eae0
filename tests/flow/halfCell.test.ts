import { expect, it } from "vitest";
import { halfCellFlow, soilAtCell } from "../../model/flow/halfCell.ts";
import { cellState, soilTable } from "../../model/soil/soilTable.ts";
import { vanGenuchten } from "../../model/soil/vanGenuchten.ts";
import { classMean } from "../support/problems.ts";

// A slope that left out how K̄ changes made the search for the wall's flow swing about its answer for ever.
it.each([0, 5e-5, -5e-5, 0.01, -0.01])(
  "in wet clay the flow from a face %d cm wetter than its cell has the slopes of differences",
  (wetter) => {
    const table = soilTable(vanGenuchten(classMean("clay")), { wetEnd: -0.5 });
    const cells = cellState(1);
    const flowAt = (hf: number, h: number) => {
      cells.u[0] = table.uAtHead(h);
      table.evaluate(cells);
      return halfCellFlow(hf, table.atHead(hf), soilAtCell(cells, 0), 0.5);
    };
    const [h, step] = [-0.33, 1e-6];
    const { dhf, du } = flowAt(h + wetter, h);
    const between = (up: ReturnType<typeof flowAt>, down: ReturnType<typeof flowAt>) =>
      (up.flow - down.flow) / (2 * step);
    const overFace = between(flowAt(h + wetter + step, h), flowAt(h + wetter - step, h));
    const overCell = between(flowAt(h + wetter, h + step), flowAt(h + wetter, h - step)) * cells.dH[0]!;
    expect(Math.abs(dhf / overFace - 1)).toBeLessThan(1e-3);
    expect(Math.abs(du / overCell - 1)).toBeLessThan(1e-3);
  },
);
