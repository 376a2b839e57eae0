import { expect, it } from "vitest";
import { givenHead } from "../../model/checks/givenEdges.ts";
import { potWall } from "../../model/flow/wall.ts";
import { buildPot } from "../../model/pot/buildPot.ts";
import { soilTable } from "../../model/soil/soilTable.ts";
import { vanGenuchten } from "../../model/soil/vanGenuchten.ts";
import { evenGround } from "../support/ground.ts";
import { evaluateAt, oneCell, systemOn } from "../support/kernel.ts";
import { cylinder } from "../support/pots.ts";
import { classMean } from "../support/problems.ts";

const mesh = oneCell(10, 10);
const ground = evenGround(mesh, soilTable(vanGenuchten(classMean("clay")), { wetEnd: -0.5 }));
const [cell, one, drop] = [Int32Array.of(0), Float64Array.of(1), Float64Array.of(0.5)];
const [h, step] = [-0.33, 1e-6];

/** Relative, of a slope and the slope of differences. */
const apart = (slope: number, up: number, down: number) => Math.abs((slope * 2 * step) / (up - down) - 1);

// A slope that left out how K̄ changes made the search for the wall's flow swing about its answer for ever.
it.each([0, 5e-5, -5e-5, 0.01, -0.01])(
  "in wet clay the flow from a face %d cm wetter than its cell has the slopes of differences",
  (wetter) => {
    const system = systemOn(mesh, ground, [givenHead({ cell, T: one, drop }, h + wetter)]);
    const { Q, dQdu } = system.flows[0]!;
    const flowAt = (head: number) => {
      evaluateAt(system, { heads: () => head });
      return { Q: Q[0]!, byHead: dQdu[0]! / system.kernel.cells.dH[0]! };
    };
    expect(apart(flowAt(h).byHead, flowAt(h + step).Q, flowAt(h - step).Q)).toBeLessThan(1e-3);
  },
);

it.each([0, 5e-5, -5e-5, 0.01, -0.01])(
  "beside wet clay the flow through a wall with %d cm more in it has the slope of differences",
  (wetter) => {
    const flat = Float64Array.of(10);
    const wall = { cell, area: one, T: one, upper: flat, lower: flat, drop };
    const pot = buildPot({ ...cylinder, wallConductivity: 1000 });
    const system = systemOn(mesh, ground, [potWall(wall, pot)]);
    const flowAt = (dw: number) => ({
      ...evaluateAt(system, { heads: () => h, pot: { dw, isEmpty: false } }).release,
    });
    const dw = 10 - h - wetter;
    expect(apart(flowAt(dw).dQddw, flowAt(dw + step).Q, flowAt(dw - step).Q)).toBeLessThan(1e-3);
  },
);
