/**
 * Flows of a network at one moment. The unknowns are the flows q of the outlets; every pipe carries the sum of those
 * behind it, so that no water is lost. Along each path the head lost is the tank's head less the head outside. That is
 * the least of a convex function (each loss rises with its flow), with q ≥ 0 where water flows one way only: an outlet
 * that stays dry lacks head. Newton's method on the outlets that may flow, damped.
 */

import { entry } from "../input/lists.ts";
import { type Network, outletFlowUnder, outletLoss } from "./network.ts";
import { headLoss } from "./pipe.ts";
import { flowChanges, type LinearTree } from "./treeSweep.ts";
import { kinematicViscosity } from "./water.ts";

// In the loops over pieces and outlets `!` stands in place of a check, which would cost time.

/** `given`: as much as the moment says. */
export type Way = "given" | "out" | "both ways";

/** What a network is put under; arrays have one entry per outlet. */
export interface NetworkBoundary {
  tankHead: number;
  /** Head outside: the higher of the end's height and the pot's water level. */
  outside: ArrayLike<number>;
  ways: readonly Way[];
  /** Flows of the outlets whose way is `given`, m³/s. */
  given: ArrayLike<number>;
}

export interface Flows {
  kind: "solved";
  /** Per piece, m³/s, away from the tank positive. */
  flow: Float64Array;
  /** Per outlet, m³/s. */
  outletFlow: Float64Array;
  /** Total head at each piece's far end, fittings passed, m. */
  headAt: Float64Array;
  /** Per outlet: head that its path has left over, m; below 0 where it lacks. */
  left: Float64Array;
  iterations: number;
  /** How losses grow with the flows: for `flowChanges`. */
  tree: LinearTree;
}

export interface Trouble {
  kind: "trouble";
  iterations: number;
  /** Head, m, by which the worst path misses, and the name of the piece at its end. */
  largestResidual: number;
  where: string;
}

/** Head that a path may miss, m. */
const ALLOWED = 1e-10;
const MOST_ITERATIONS = 100;

/** `start`: outlet flows to begin with, such as those of a moment before. */
export function solveFlows(network: Network, moment: NetworkBoundary, start?: Float64Array): Flows | Trouble {
  const nu = kinematicViscosity(network.celsius);
  let at = stateAt(network, moment, firstGuess(network, moment, nu, start), nu);
  let iterations = 0;
  while (!(at.residual <= ALLOWED)) {
    const next = iterations < MOST_ITERATIONS ? betterState(network, moment, at, nu) : null;
    if (!next) return trouble(network, at, iterations);
    at = next;
    iterations++;
  }
  const { flow, q: outletFlow, headAt, left, tree } = at;
  return { kind: "solved", flow, outletFlow, headAt, left, iterations, tree };
}

interface State {
  q: Float64Array;
  flow: Float64Array;
  headAt: Float64Array;
  /** Per outlet, m: head that its path has left over; below 0 where it lacks. */
  left: Float64Array;
  /** The most that a path misses, m, and its outlet; not a number where a path's head is none. */
  residual: number;
  worst: number;
  tree: LinearTree;
}

function stateAt(network: Network, moment: NetworkBoundary, q: Float64Array, nu: number): State {
  const { pieces, parents, outlets } = network;
  const flow = flowsOf(network, q);
  const slopes = new Float64Array(pieces.length);
  const headAt = new Float64Array(pieces.length);
  for (let p = 0; p < pieces.length; p++) {
    const { loss, slope } = headLoss(pieces[p]!, flow[p]!, nu);
    const parent = parents[p]!;
    slopes[p] = slope;
    headAt[p] = (parent < 0 ? moment.tankHead : headAt[parent]!) - loss;
  }
  const left = new Float64Array(outlets.length);
  const outletSlopes = new Float64Array(outlets.length);
  const free = new Uint8Array(outlets.length);
  let [residual, worst] = [0, 0];
  for (let k = 0; k < outlets.length; k++) {
    const [p, flowing] = [outlets[k]!, q[k]!];
    const { loss, slope } = outletLoss(pieces[p]!, flowing);
    const rest = headAt[p]! - loss - moment.outside[k]!;
    outletSlopes[k] = Math.max(slope, network.restSlopes[k]!);
    left[k] = rest;
    free[k] = Number(mayChange(moment.ways[k]!, flowing, rest));
    if (!free[k] || Math.abs(rest) <= residual) continue;
    [residual, worst] = [Math.abs(rest), k];
  }
  const unknown = left.findIndex(Number.isNaN);
  if (unknown >= 0) [residual, worst] = [Number.NaN, unknown];
  return { q, flow, headAt, left, residual, worst, tree: { parents, outlets, slopes, outletSlopes, free } };
}

/** An outlet that runs one way and stands still starts only where head is left over. */
const mayChange = (way: Way, q: number, left: number) => way === "both ways" || (way === "out" && (q > 0 || left > 0));

function flowsOf({ parents, outlets }: Network, q: Float64Array): Float64Array {
  const flow = new Float64Array(parents.length);
  for (const [k, p] of outlets.entries()) flow[p] = entry(q, k);
  for (let p = parents.length - 1; p >= 0; p--) {
    const parent = parents[p]!;
    if (parent >= 0) flow[parent]! += flow[p]!;
  }
  return flow;
}

/**
 * A Newton step, halved until it lowers the convex function, or halves the residual. It is lowered for sure where the
 * slope at the new place still leads on, (new − old) · left ≥ 0.
 */
function betterState(network: Network, moment: NetworkBoundary, from: State, nu: number): State | null {
  const { old, change } = withoutDribbles(network, moment, from, nu);
  for (let share = 1; share > 1e-12; share /= 2) {
    const q = allowed(
      moment,
      old.q.map((value, k) => value + share * entry(change, k)),
    );
    const next = stateAt(network, moment, q, nu);
    if (next.residual <= from.residual / 2) return next;
    const onward = q.reduce((sum, value, k) => sum + (value - entry(old.q, k)) * entry(next.left, k), 0);
    if (onward >= 0) return next;
  }
  return null;
}

/**
 * Outlets that lack head and would fall dry at the very start of a step do so before it: held at 0 on the way, they
 * would turn the step away from where it leads (Bertsekas 1982, SIAM J. Control Optim. 20:221, from memory).
 */
function withoutDribbles(
  network: Network,
  moment: NetworkBoundary,
  old: State,
  nu: number,
): { old: State; change: Float64Array } {
  const change = flowChanges(old.tree, old.left);
  const isDribble = (value: number, k: number) =>
    moment.ways[k] === "out" && value > 0 && entry(old.left, k) < 0 && value + 1e-3 * entry(change, k) < 0;
  if (!old.q.some(isDribble)) return { old, change };
  const q = old.q.map((value, k) => (isDribble(value, k) ? 0 : value));
  return withoutDribbles(network, moment, stateAt(network, moment, q, nu), nu);
}

const allowed = ({ ways, given }: NetworkBoundary, q: Float64Array) =>
  q.map((value, k) => (ways[k] === "given" ? entry(given, k) : ways[k] === "out" ? Math.max(0, value) : value));

/** The start, but no more than can flow: each outlet as if it alone had all of the head, at its end or in laminar friction. */
function firstGuess(
  { pieces, outlets }: Network,
  moment: NetworkBoundary,
  nu: number,
  start?: Float64Array,
): Float64Array {
  const most = Float64Array.from(outlets, (p, k) => {
    const [piece, head] = [entry(pieces, p), moment.tankHead - entry(moment.outside, k)];
    if (head <= 0) return 0;
    return Math.min(head / headLoss(piece, 0, nu).slope, outletFlowUnder(piece, head));
  });
  return allowed(moment, start ? most.map((value, k) => Math.min(value, entry(start, k))) : most);
}

function trouble({ pieces, outlets }: Network, { residual, worst }: State, iterations: number): Trouble {
  return { kind: "trouble", iterations, largestResidual: residual, where: entry(pieces, entry(outlets, worst)).name };
}
