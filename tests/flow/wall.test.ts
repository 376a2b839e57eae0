import { range } from "d3-array";
import { expect, it } from "vitest";
import { potWall } from "../../model/flow/wall.ts";
import { buildPot } from "../../model/pot/buildPot.ts";
import { soilTable } from "../../model/soil/soilTable.ts";
import { vanGenuchten } from "../../model/soil/vanGenuchten.ts";
import { evenGround } from "../support/ground.ts";
import { evaluateAt, oneCell, systemOn } from "../support/kernel.ts";
import { cylinder } from "../support/pots.ts";
import { classMean } from "../support/problems.ts";

const two = (first: number, second: number) => Float64Array.of(first, second);

/** The lowest stretch of the side, 18 to 20 cm deep, and the base, of 100 cm² each, beside a cell at −300 cm. */
function flowAt(): (dw: number) => { Q: number; dQddw: number } {
  const table = soilTable(vanGenuchten(classMean("loam")));
  const faces = { area: two(100, 100), T: two(100, 100), upper: two(18, 20), lower: two(20, 20), drop: two(0, 1) };
  const mesh = oneCell(10, 10);
  const system = systemOn(mesh, evenGround(mesh, table), [
    potWall({ cell: Int32Array.of(0, 0), ...faces }, buildPot(cylinder)),
  ]);
  return (dw) => {
    const { release } = evaluateAt(system, { heads: () => -300, pot: { dw, isEmpty: false } });
    return { ...release };
  };
}

// A step that overdraws the pot is tried at levels below its base: a flow that stops there at once has no solution.
it("the wall's flow has no jump as the level falls past side and base", () => {
  const flow = flowAt();
  const levels = range(17, 22, 0.01);
  const steepest = Math.max(...levels.map((dw) => Math.abs(flow(dw).dQddw)));
  for (const dw of levels) expect(Math.abs(flow(dw + 0.01).Q - flow(dw).Q)).toBeLessThanOrEqual(0.0101 * steepest);
});

it.each([17.5, 19, 19.9, 20.5, 21.5])("with the level at %d cm its slope is that of the flow", (dw) => {
  const flow = flowAt();
  expect(flow(dw).dQddw).toBeCloseTo((flow(dw + 1e-4).Q - flow(dw - 1e-4).Q) / 2e-4, 3);
});
