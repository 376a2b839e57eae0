import { range, sum } from "d3-array";
import { describe, expect, it } from "vitest";
import type { Boundary } from "../../model/flow/boundary.ts";
import { CALM } from "../../model/flow/problem.ts";
import { stageSolver } from "../../model/flow/stage.ts";
import { tensorMesh } from "../../model/flow/tensorMesh.ts";
import { flowState, stepper } from "../../model/flow/timeStep.ts";
import { soilTable } from "../../model/soil/soilTable.ts";
import { vanGenuchten } from "../../model/soil/vanGenuchten.ts";
import { evenGround } from "../support/ground.ts";
import { systemOn } from "../support/kernel.ts";
import { classMean, cylinderProblem } from "../support/problems.ts";
import { runToEnd } from "../support/runs.ts";

const { PI } = Math;
/** Two cells 10 cm high and 10 cm wide, one on the other. */
const column = tensorMesh({
  geometry: "axisymmetric",
  rEdges: Float64Array.of(0, 10),
  dEdges: Float64Array.of(0, 10, 20),
});
const clay = soilTable(vanGenuchten(classMean("silty clay")));

/** Brings as much water to the upper cell whatever its state, cm³/day. */
const inflow = (Q: number): Boundary => ({
  name: "tap",
  isFromPot: false,
  cell: Int32Array.of(0),
  begin:
    ({ flows }) =>
    () =>
      void flows.Q.fill(Q),
});

/** One step of `dt` days from a head, with Q cm³/day into the upper cell. */
function stepOf({ dt, head, Q }: { dt: number; head: number; Q: number }) {
  const system = systemOn(column, evenGround(column, clay), [inflow(Q)]);
  const u = column.V.map(() => clay.uAtHead(head));
  const state = flowState(system, u, { dw: 0, isEmpty: true });
  const before = state.theta.slice();
  const steps = stepper(system, stageSolver(system), () => CALM);
  const result = steps.attempt(state, dt, { step: 1e9, newton: 1e-6 }, undefined);
  const gained = sum(column.V, (V, c) => V * (steps.next.theta[c]! - before[c]!));
  return { result, next: steps.next, gained, heads: system.kernel.cells.h };
}

describe("a step whose first flow goes on", () => {
  const room = (head: number) => clay.soil.thetaS - clay.soil.theta(head);

  it("is whole where the cells hold what it brings", () => {
    const { result, gained } = stepOf({ dt: 0.1, head: -100, Q: 100 });
    expect(result).toMatchObject({ isSolved: true, size: 0.1 });
    expect(gained).toBeCloseTo(10, 5);
  });

  it("ends with its first stage where a cell would hold more than it can, and loses no water", () => {
    // Half of the room in the upper cell within the first stage, γ dt long; all of it and more by the end.
    const weight = (1 - Math.SQRT1_2) * 0.1;
    const Q = (0.5 * room(-100) * PI * 1000) / weight;
    const { result, next, gained } = stepOf({ dt: 0.1, head: -100, Q });
    expect(result.isSolved).toBe(true);
    expect(result.size).toBeCloseTo(weight, 12);
    expect(next.t).toBe(result.size);
    expect(next.theta.every((theta) => theta <= clay.soil.thetaS + 1e-4)).toBe(true);
    expect(gained).toBeCloseTo(Q * weight, 5);
    expect(next.entered[0]).toBeCloseTo(Q * weight, 8);
  });
});

it("water from a leaking plug stands no higher than in the pot where the ground takes next to none", () => {
  runToEnd(
    cylinderProblem({
      soil: { thetaR: 0.094, thetaS: 0.229, alpha: 0.0051, n: 1.73, Ks: 5e-4, l: 5.3 },
      topLayer: { soil: { thetaR: 0.553, thetaS: 0.724, alpha: 1, n: 2.75, Ks: 1.22, l: 0.5 }, depth: 71 },
      pot: {
        shape: "tapered",
        rimRadius: 36,
        baseRadius: 57,
        wallThickness: 0.42,
        wallConductivity: 0.08,
        rimDepth: 54.4,
        outerDepth: 129.5,
        plugLeakLitres: 71,
      },
      startHead: -509,
      filling: { kind: "refilled", atDays: [0, 3, 6, 9, 12, 15, 18] },
      region: { radius: 290, depth: 290 },
      days: range(1, 22),
      accuracy: "live",
    }),
  );
});
