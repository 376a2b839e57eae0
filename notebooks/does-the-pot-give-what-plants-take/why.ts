/** Why a pot's release hardly knows of the plants, in words. */
import {
  buildPot,
  formatBoth,
  formatSuction,
  headFromWall,
  releaseIntoStandingWater,
  releaseIntoSuction,
  type UnitSystem,
} from "../../model/index.ts";
import type { DemandLine, Demands } from "./demandFigure.ts";
import { type Bed, type Beds, plantsOf } from "./stages.ts";
import { moreWords, percent } from "./verdict.ts";

/** So near to the wall its neighbour soil is looked at, cm. */
const BESIDE = 1;

export function wallWords({ bare, grown }: Pick<Beds, "bare" | "grown">, units: UnitSystem): string {
  const pot = buildPot(bare.plan.pot);
  const flow = (litres: number) => formatBoth(litres, "flow", units);
  const [without, withPlants] = [bare, grown].map(suctionBeside) as [number, number];
  const full = releaseIntoSuction(pot, pot.fullDepth, without);
  const pulled = releaseIntoSuction(pot, pot.fullDepth, withPlants);
  const half = releaseIntoSuction(pot, pot.levelAt(pot.capacity / 2), without);
  const told = (suction: number) => `${formatSuction(-suction)} (${formatBoth(suction, "length", units)} of water)`;
  return `On the last day soil at the wall, at the depth of most roots, holds its water at ${told(without)} with nothing planted and at ${told(withPlants)} among full-grown ${plantsOf(grown.plan)}. Into soil that holds its water like this all around, the full wall passes ${flow(full)} and ${flow(pulled)}: the plants’ pull makes ${flow(Math.abs(pulled - full))} of difference. Half full, with nothing planted, it passes ${flow(half)}: ${moreOrLess(full - half, pulled - full)}`;
}

function suctionBeside({ plan, run }: Bed): number {
  return Math.max(-headFromWall(plan, run, run.frames.at(-1)!, BESIDE), 0);
}

function moreOrLess(byLevel: number, byPlants: number): string {
  return byLevel > Math.abs(byPlants)
    ? "the height of the pot’s own water counts for more than the plants."
    : "here the plants’ pull counts for more than the height of the pot’s own water.";
}

export function wetWords({ bare }: Pick<Beds, "bare">, units: UnitSystem): string {
  const pot = buildPot(bare.plan.pot);
  const flow = (litres: number) => formatBoth(litres, "flow", units);
  const share = percent(releaseIntoStandingWater(pot, pot.fullDepth) / releaseIntoSuction(pot, pot.fullDepth, 0));
  const rim =
    pot.fullDepth < 0
      ? ` Filled to the rim, which stands ${formatBoth(-pot.fullDepth, "length", units)} above the soil, only that height is left to drive it: ${flow(releaseIntoStandingWater(pot, pot.fullDepth))}, ${share} of what it passes into soaked soil that drains.`
      : "";
  return `Into wet surroundings: where water stands in the soil as high as in the pot, the law of the wall gives exactly nothing, whatever its clay, for no difference of head is left.${rim} That much of the claim holds: a pot stops for water, and so it stops after a soaking rain.`;
}

/** How steep and how straight, and where the published relation stands beside it. */
export function demandWords({ spread, gathered }: Demands, soil: string): string {
  return `In ${soil} the pot gives ${rise(spread)} at 8 than at 2 mm/day where roots are spread, and ${rise(gathered)} where they gather at the wall. ${straightness(spread, gathered)}`;
}

/** How much more is given at the highest demand than at the lowest. */
export const riseOf = ({ given }: DemandLine): number => (given[0]! > 0 ? given.at(-1)! / given[0]! - 1 : 0);

function rise(demands: DemandLine): string {
  const words = moreWords(riseOf(demands));
  return words === "as much" ? "no more" : words;
}

function straightness(...all: DemandLine[]): string {
  const [spread, gathered] = all.map(({ line }) => line.explained.toFixed(2));
  const isStraight = all.every(({ line }) => line.explained >= 0.9);
  return `A straight line accounts for ${spread} and ${gathered} of the differences (R²), so ${isStraight ? "the model’s release is close to linear in the thirst of the air" : "the model’s release is not well told by a straight line"}${all.every((each) => Math.abs(riseOf(each)) < 0.1) ? ", but nearly flat" : ""}.`;
}
