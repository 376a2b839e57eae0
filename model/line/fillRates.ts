/** How fast pots fill at one moment: through their tubes from the tank, and through joints from each other. */
import { Matrix } from "ml-matrix";
import { entry } from "../input/lists.ts";
import type { Line, Network } from "./network.ts";
import { flowUnder, headLoss, type Pipe } from "./pipe.ts";
import { type Flows, solveFlows, type Trouble, type Way } from "./solveFlows.ts";
import { type End, endsOf } from "./solveLine.ts";
import { flowChanges } from "./treeSweep.ts";
import { kinematicViscosity } from "./water.ts";

/** Upright, so that its level falls evenly with its volume. */
export interface LineTank {
  area: number;
  /** Height of its outlet; water below that stays. */
  bottom: number;
  /** Above the outlet. */
  volume: number;
}

export interface FilledPot {
  capacity: number;
  /** Height of its water level, from the inner base at 0 to the rim at `capacity`; rising. */
  levelAt(volume: number): number;
}

/** A pipe between two pots through which the higher level flows to the lower, as far as it stands above `height`. */
export interface Joint {
  a: number;
  b: number;
  height: number;
  pipe: Pipe;
}

export interface FillProblem {
  line: Line;
  tank: LineTank;
  pots: readonly FilledPot[];
  startVolumes: ArrayLike<number>;
  /** A full pot takes no more than it gives to pots it is joined to, as behind a float valve, or it runs over. */
  whenFull: "stops" | "overflows";
  joints: readonly Joint[];
  /** Pots give water back through tubes whose ends their water covers. */
  joined?: boolean;
  maxSeconds: number;
}

/** A filling under way. `y`, per pot, is the water it holds and has lost over its rim: what it has received. */
export interface FillCourse extends FillProblem {
  network: Network;
  ends: readonly End[];
  /** Of tank and pots at the start. */
  total: number;
  /** Lost over the rim, up to the last time that the pot stood at its rim. */
  lost: Float64Array;
  atRim: boolean[];
  /** Per outlet: shut for good, by air or for want of water; or open, and then whether it also lets water back. */
  ways: ("shut" | "out" | "both ways")[];
  nu: number;
}

export const tankVolume = ({ total }: FillCourse, y: Float64Array) => total - y.reduce((sum, value) => sum + value, 0);

/** In a tank that is empty the water stands at its outlet. */
export const tankHead = (course: FillCourse, y: Float64Array) =>
  course.tank.bottom + Math.max(0, tankVolume(course, y)) / course.tank.area;

/** Water in each pot, m³. */
export const potVolumes = ({ pots, lost, atRim }: FillCourse, y: Float64Array) =>
  y.map((received, i) => {
    const { capacity } = entry(pots, i);
    return atRim[i] ? capacity : Math.min(capacity, Math.max(0, received - entry(lost, i)));
  });

export interface Rates {
  /** dy/dt, m³/s. */
  net: Float64Array;
  flows: Flows;
  levels: Float64Array;
}

/** A line that does not solve ends the filling; `fillPots` catches this and says so. */
export class LineTrouble extends Error {
  constructor(readonly trouble: Trouble) {
    super(`no flows found: ${trouble.where} misses ${trouble.largestResidual} m of head`);
  }
}

export function ratesAt(course: FillCourse, y: Float64Array, start?: Float64Array): Rates {
  const { network, ends, pots } = course;
  const levels = potVolumes(course, y).map((volume, i) => entry(pots, i).levelAt(volume));
  const net = jointFlows(course, levels);
  const outside = ends.map(({ outlet, height }) => Math.max(height, entry(levels, outlet.pot)));
  const given = ends.map((_, k) => (course.ways[k] === "shut" ? 0 : heldFlow(course, k, net)));
  const ways = course.ways.map((way, k): Way => (way === "shut" || isHeld(course, k) ? "given" : way));
  const flows = solveFlows(network, { tankHead: tankHead(course, y), outside, ways, given }, start);
  if (flows.kind === "trouble") throw new LineTrouble(flows);
  ends.forEach(({ outlet }, k) => {
    net[outlet.pot]! += entry(flows.outletFlow, k);
  });
  return { net, flows, levels };
}

/** Whether an outlet's pot stands at its rim and takes no more than it gives. */
export const isHeld = ({ whenFull, atRim, ends, ways }: FillCourse, k: number) =>
  whenFull === "stops" && entry(atRim, entry(ends, k).outlet.pot) && ways[k] !== "shut";

/** What a pot gives through joints, shared among its open tubes. */
function heldFlow({ ends, ways }: FillCourse, k: number, throughJoints: Float64Array): number {
  const { pot } = entry(ends, k).outlet;
  const tubes = ends.filter((end, other) => end.outlet.pot === pot && ways[other] !== "shut").length;
  return Math.max(0, -entry(throughJoints, pot)) / tubes;
}

/** Per pot, m³/s. */
function jointFlows({ pots, joints, nu }: FillCourse, levels: Float64Array): Float64Array {
  const net = new Float64Array(pots.length);
  for (const joint of joints) {
    const Q = flowUnder(joint.pipe, headOver(joint, joint.a, levels) - headOver(joint, joint.b, levels), nu);
    net[joint.a]! -= Q;
    net[joint.b]! += Q;
  }
  return net;
}

const headOver = ({ height }: Joint, pot: number, levels: Float64Array) => Math.max(height, entry(levels, pot));

/** ∂(dy/dt)/∂y, 1/s: what is stiff in it are short joints and wide tubes under water. */
export function rateSlopes(course: FillCourse, y: Float64Array, { flows, levels }: Rates): Matrix {
  const { ends, tank, pots } = course;
  const n = pots.length;
  const slopes = Matrix.zeros(n, n);
  const rises = potVolumes(course, y).map((volume, i) => levelRise(course, i, volume));
  const held = pots.map(
    (_, i) =>
      course.whenFull === "stops" &&
      entry(course.atRim, i) &&
      ends.some(({ outlet }, k) => isHeld(course, k) && outlet.pot === i),
  );
  const add = (to: number, from: number, value: number) => {
    if (!held[to]) slopes.set(to, from, slopes.get(to, from) + value);
  };
  const ofTank = flowChanges(flows.tree, new Float64Array(ends.length).fill(1));
  ends.forEach(({ outlet, height }, k) => {
    for (let i = 0; i < n; i++) add(outlet.pot, i, -entry(ofTank, k) / tank.area);
    if (!flows.tree.free[k] || entry(levels, outlet.pot) <= height) return;
    const rise = entry(rises, outlet.pot);
    const one = new Float64Array(ends.length);
    one[k] = -1;
    const ofLevel = flowChanges(flows.tree, one);
    ends.forEach((other, l) => {
      add(other.outlet.pot, outlet.pot, entry(ofLevel, l) * rise);
    });
  });
  for (const joint of course.joints) addJoint(course, joint, levels, rises, add);
  return slopes;
}

function addJoint(
  { nu }: FillCourse,
  joint: Joint,
  levels: Float64Array,
  rises: Float64Array,
  add: (to: number, from: number, value: number) => void,
) {
  const difference = headOver(joint, joint.a, levels) - headOver(joint, joint.b, levels);
  const ease = 1 / headLoss(joint.pipe, flowUnder(joint.pipe, difference, nu), nu).slope;
  for (const [from, to] of [
    [joint.a, joint.b],
    [joint.b, joint.a],
  ] as const) {
    if (entry(levels, from) <= joint.height) continue;
    const rise = entry(rises, from);
    add(from, from, -ease * rise);
    add(to, from, ease * rise);
  }
}

/** How the level rises with the volume, 1/m²; not at all at the rim. */
function levelRise({ pots, atRim }: FillCourse, pot: number, volume: number): number {
  const { capacity, levelAt } = entry(pots, pot);
  if (atRim[pot]) return 0;
  const [low, high] = [Math.max(0, volume - 1e-6 * capacity), Math.min(capacity, volume + 1e-6 * capacity)];
  return (levelAt(high) - levelAt(low)) / (high - low);
}

/** Nothing has flowed yet; pots that start full stand at their rims. */
export function startOf(filling: FillProblem, network: Network): { course: FillCourse; y: Float64Array } {
  const { line, tank, pots, startVolumes, joints } = filling;
  const y = Float64Array.from(pots, ({ capacity }, i) => Math.min(capacity, entry(startVolumes, i)));
  const ends = endsOf(network);
  const base = (pot: number) => entry(pots, pot).levelAt(0);
  const course: FillCourse = {
    ...filling,
    // A joint below a pot's base drains no more than the pot.
    joints: joints.map((joint) => ({ ...joint, height: Math.max(joint.height, base(joint.a), base(joint.b)) })),
    network,
    ends,
    total: y.reduce((sum, value) => sum + value, tank.volume),
    lost: new Float64Array(pots.length),
    atRim: pots.map(() => false),
    ways: ends.map(() => "out"),
    nu: kinematicViscosity(line.celsius),
  };
  return { course, y };
}
