import { assembly } from "../../model/flow/assembly.ts";
import type { Boundary, PotState } from "../../model/flow/boundary.ts";
import type { Ground } from "../../model/flow/ground.ts";
import type { Mesh } from "../../model/flow/mesh.ts";
import { meshKernel } from "../../model/flow/meshKernel.ts";
import { minimumDegreeOrder } from "../../model/flow/ordering.ts";
import type { PotSupply } from "../../model/flow/potSupply.ts";
import type { Spell } from "../../model/flow/problem.ts";
import { spellAt } from "../../model/flow/spells.ts";
import { stageSolver } from "../../model/flow/stage.ts";
import { type FlowState, flowState, stepper } from "../../model/flow/timeStep.ts";
import { march } from "../../model/flow/timeStepping.ts";
import { waterBalance } from "../../model/flow/waterBalance.ts";
import type { SoilTable } from "../../model/soil/soilTable.ts";
import { evenGround } from "./ground.ts";

export interface SystemInput {
  mesh: Mesh;
  /** One soil everywhere, or the soils in the cells. */
  table?: SoilTable;
  ground?: Ground;
  boundaries: Boundary[];
  /** One head for all cells, or one by cell. */
  start: number | ((r: number, d: number) => number);
  /** Times at which the state is kept, increasing. */
  stops: number[];
  /** Error allowed in a time step, as a share of the pore space; fixed steps when `fixedStep` is given. */
  timeError?: number;
  /** Residual allowed in a stage, as a share of the pore space. */
  newtonError?: number;
  firstStep?: number;
  fixedStep?: number;
  /** Where the water stands in the pot, when a boundary is a pot's wall; it falls when there is a supply. */
  pot?: PotState;
  supply?: PotSupply;
  weather?: Spell[];
}

export interface SystemState {
  t: number;
  h: Float64Array;
  theta: Float64Array;
  /** Water through each boundary into the soil since the start. */
  entered: Float64Array;
  /** Flow through each boundary into the soil now. */
  Q: number[];
  pot: PotState;
}

/** Soil on any mesh with any boundaries through time: no pot, no gardener's problem. Throws when the run fails. */
export function solveSystem(input: SystemInput): { states: SystemState[]; steps: number; balanceError: number } {
  const { mesh, boundaries, start, stops, timeError = 1e-5, firstStep = 1e-3, fixedStep } = input;
  const ground = input.ground ?? evenGround(mesh, input.table!);
  const { weather = [] } = input;
  const { pot = { dw: 0, isEmpty: true }, supply, newtonError = 1e-10 } = input;
  const kernel = meshKernel(mesh, minimumDegreeOrder(mesh, mesh.rCell), 0);
  const system = assembly(mesh, ground, boundaries, kernel);
  const { h, theta, thetaR, thetaS } = kernel.cells;
  const headAt = typeof start === "number" ? () => start : start;
  const u = mesh.rCell.map((r, i) => ground.uAtHead(i, headAt(r, mesh.dCell[i]!)));
  const state = flowState(system, u, pot);
  const balance = waterBalance(system);
  const pores = mesh.V.reduce((sum, V, i) => sum + V * (thetaS[i]! - thetaR[i]!), 0);
  const step = fixedStep === undefined ? timeError * pores : Number.POSITIVE_INFINITY;
  const stepped = stepper(system, stageSolver(system), (t) => spellAt(weather, t));
  const asked = new Set(stops);
  const lastStop = stops.at(-1)!;
  const course = march(state, stepped, {
    stops: marksOf(input, lastStop),
    firstStep: fixedStep ?? firstStep,
    restartStep: fixedStep ?? firstStep,
    toleranceAt: () => ({ step, newton: newtonError * pores }),
    levelLaw: (now) => supply?.law(now),
    remaining: (now) => supply?.remaining(now),
    emptyWithin: 0,
    // Errors far below a plan's take many more steps than a plan's.
    mostIterations: Number.POSITIVE_INFINITY,
  });
  const states: SystemState[] = [];
  let steps = 0;
  for (let next = course.next(); ; next = course.next()) {
    if (next.done) {
      if (next.value) throw new Error(`${next.value.reason} at ${next.value.day}, cell ${next.value.cell}`);
      return { states, steps, balanceError: closedError(balance.errorAt(state), state, pores) };
    }
    steps = next.value.step;
    if (next.value.event !== "stop" || !(asked.has(state.t) || state.t === lastStop)) continue;
    states.push({
      t: state.t,
      h: h.slice(),
      theta: theta.slice(),
      entered: state.entered.slice(),
      Q: system.flows.map((flow) => flow.Q.reduce((sum, q) => sum + q, 0)),
      pot: { ...state.pot },
    });
  }
}

/** The balance's error; throws where it is large. Of soil at rest nothing moves but rounding. */
function closedError(balanceError: number, { entered }: FlowState, pores: number): number {
  const hasMoved = entered.some((volume) => Math.abs(volume) > 1e-9 * pores);
  if (hasMoved && !(balanceError < 1e-6)) throw new Error(`water balance open by ${balanceError}`);
  return balanceError;
}

/** The cell whose centre is nearest to a place. */
export function cellNearest({ rCell, dCell }: Mesh, r: number, d: number): number {
  const distance = (i: number) => Math.hypot(rCell[i]! - r, dCell[i]! - d);
  return rCell.reduce((best, _, i) => (distance(i) < distance(best) ? i : best), 0);
}

const marksOf = ({ stops, fixedStep }: SystemInput, lastStop: number) =>
  fixedStep === undefined ? stops : evenTimes(fixedStep, lastStop);

function evenTimes(size: number, last: number): number[] {
  return Array.from({ length: Math.round(last / size) }, (_, k) =>
    k + 1 === Math.round(last / size) ? last : (k + 1) * size,
  );
}

/** Where a quantity of a row of cells takes a value, linear between the two centres about the last place above it. */
export function lastCrossing(x: Float64Array, y: Float64Array, value: number): number {
  const k = y.findLastIndex((at) => at > value);
  return x[k]! + ((x[k + 1]! - x[k]!) * (y[k]! - value)) / (y[k]! - y[k + 1]!);
}
