/** The same water from the same pot in several soils, read from their runs. */
import { bisector } from "d3-array";
import { firstDayAtLeast, onDay } from "../../../model/public/advice.ts";
import {
  capillaryLength,
  type Edge,
  gravityNumber,
  planEdges,
  type Run,
  type Soil,
  sampleField,
  type VanGenuchtenParameters,
  vanGenuchten,
  wallRadiusAt,
} from "../../../model/public/flow.ts";
import { entry, first, last, type Plan } from "../../../model/public/plan.ts";
import type { seriesLooks } from "../../figures/look.ts";
import { frameOnDay } from "../../runtime/runs.ts";

/** One soil with its run. */
export interface Entrant {
  name: string;
  look: keyof typeof seriesLooks;
  parameters: VanGenuchtenParameters;
  soil: Soil;
  run: Run;
}

/** An entrant at the moment at which its pot has given a volume. */
export interface Racer extends Entrant {
  day: number;
  /** Soil moisture by cell, and the pot's level, cm. */
  theta: Float64Array;
  waterLevelDepth: number;
  /** Front's radius at half the pot's depth and its depth on the axis, cm; 0 where no front shows. */
  radius: number;
  depth: number;
  /** Full width of the front over its depth; 0 where no front shows. */
  ratio: number;
  /** Pressure head of the soil just outside the wall, half way down, cm. */
  wallHead: number;
  soaked: Pull;
  behindWall: Pull;
}

/** How far capillarity carries (cm), and weight against it for this pot. */
export interface Pull {
  length: number;
  number: number;
}

const halfDepth = ({ pot }: Plan): number => pot.outerDepth / 2;

/** The wetting front is followed at half the pot's depth. */
export function frontOptions(
  plan: Plan,
  soil: VanGenuchtenParameters,
): { soil: VanGenuchtenParameters; edges: Edge[] } {
  return { soil, edges: [{ head: planEdges(plan, soil).front.head, depth: halfDepth(plan) }] };
}

export const entrant = (name: string, look: Entrant["look"], parameters: VanGenuchtenParameters, run: Run) =>
  ({ name, look, parameters, soil: vanGenuchten(parameters), run }) satisfies Entrant;

export const givenBy = ({ run }: Entrant, day: number): number => onDay(run, run.history.seepageLitres, day);

/** The asked volume, or the least that all of the pots have given by a day where that is less; litres. */
export const sharedLitres = (entrants: Entrant[], asked: number, lastDay: number): number =>
  Math.min(asked, ...entrants.map((each) => givenBy(each, lastDay)));

export function raceTo(litres: number, plan: Plan, contestant: Entrant): Racer {
  const { run, soil } = contestant;
  const { day: days, seepageLitres, edges, waterLevelDepth } = run.history;
  const front = first(edges);
  const day = firstDayAtLeast({ day: days, value: seepageLitres }, litres) ?? last(days);
  const radius = onDay(run, front.radius, day);
  const depth = onDay(run, front.wettedDepth, day);
  const wallHead = headOutsideWall(run, plan, day);
  return {
    ...contestant,
    day,
    theta: moistureAt(contestant, litres),
    waterLevelDepth: onDay(run, waterLevelDepth, day),
    radius,
    depth,
    ratio: depth > 0 ? (2 * radius) / depth : 0,
    wallHead,
    soaked: pull(soil, plan, 0),
    behindWall: pull(soil, plan, wallHead),
  };
}

function pull(soil: Soil, plan: Plan, wet: number): Pull {
  const length = capillaryLength(soil, wet, plan.startHead);
  return { length, number: gravityNumber(wallRadiusAt(plan.pot, halfDepth(plan)), length) };
}

/** A hair outside the wall, half way down, in the kept field nearest to a day. */
function headOutsideWall(run: Run, { pot }: Plan, day: number): number {
  const depth = pot.outerDepth / 2;
  const { h } = frameOnDay(run, day);
  return Math.min(0, sampleField(run.grid, h, wallRadiusAt(pot, depth) + 0.1, depth));
}

interface Kept {
  given: number;
  theta: Float64Array;
}

/** Between two kept fields in proportion to the water given, so that the field holds just that water. */
function moistureAt(contestant: Entrant, litres: number): Float64Array {
  const { frames, startTheta } = contestant.run;
  const kept = frames.map(({ day, theta }) => ({ given: givenBy(contestant, day), theta }));
  const k = Math.min(bisector(({ given }: Kept) => given).left(kept, litres), kept.length - 1);
  const after = entry(kept, k);
  const before = kept[k - 1] ?? { given: 0, theta: startTheta };
  const share = (litres - before.given) / (after.given - before.given || 1);
  return after.theta.map((theta, i) => {
    const start = entry(before.theta, i);
    return start + share * (theta - start);
  });
}

export const twoFigures = (value: number): string => String(Number(value.toPrecision(2)));
