/** How large roof and tank must be for the pots not to fall short in a wanted share of years. */
import { range } from "d3-array";
import { type BedDemand, carriedShare, type PotSupply, seasonSupply } from "./seasonSupply.ts";

/** Sizes that are looked at: litres of the tank that feeds the bed, cm² of roof. */
export const TANK_SIZES = { least: 100, most: 50_000 };
export const ROOF_SIZES = { least: 2e4, most: 400e4 };
/** A size is found to so much of itself. */
const CLOSE = 0.02;

/** What feeds the pots, whatever the sizes of roof and tank. */
export interface UnsizedSupply extends Pick<PotSupply, "pot" | "spareTanks" | "topUp" | "line"> {
  roof: Omit<PotSupply["roof"], "area">;
  tank: Omit<PotSupply["tank"], "litres">;
}

/** The same supply without the area of its roof and the litres of its first tank. */
export function unsizedSupply({ pot, roof, tank, spareTanks, topUp, line }: PotSupply): UnsizedSupply {
  const { area, ...rain } = roof;
  const { litres, ...body } = tank;
  return { pot, roof: rain, tank: body, spareTanks, topUp, line };
}

/** Share of years that carry the bed under a roof (cm²) with a tank (litres). */
export function carriedWith(
  supply: UnsizedSupply,
  asked: BedDemand,
  { roofArea: area, litres }: { roofArea: number; litres: number },
): number {
  const sized = { ...supply, roof: { ...supply.roof, area }, tank: { ...supply.tank, litres } };
  return carriedShare(seasonSupply(sized, asked));
}

/** The least tank under the plan's roof that carries a share of years, litres; null where none that is looked at does. */
export function leastTank(plan: PotSupply, asked: BedDemand, share: number): number | null {
  return leastSize(TANK_SIZES, (litres) => carriedWith(plan, asked, { roofArea: plan.roof.area, litres }) >= share);
}

/** The least roof over the plan's tank that carries a share of years, cm²; null where none that is looked at does. */
export function leastRoof(plan: PotSupply, asked: BedDemand, share: number): number | null {
  return leastSize(ROOF_SIZES, (roofArea) => carriedWith(plan, asked, { roofArea, litres: plan.tank.litres }) >= share);
}

/** The first of sizes twice each other that does, then halved: an open tank that is wider loses more, so that too large may fail. */
function leastSize({ least, most }: { least: number; most: number }, does: (size: number) => boolean): number | null {
  let high = least;
  while (!does(high)) {
    if (high >= most) return null;
    high = Math.min(2 * high, most);
  }
  if (high === least) return least;
  let low = high / 2;
  while (high / low > 1 + CLOSE) {
    const middle = Math.sqrt(low * high);
    if (does(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** Sizes that are compared, litres and cm². */
const COMPARED = { tanks: { least: 200, most: 20_000, count: 18 }, roofs: { least: 5e4, most: 200e4, count: 12 } };

/** Shares of years carried by roofs and tanks evenly apart on a scale of ratios; row by row, the smallest tank first. */
export interface ReliabilityGrid {
  roofs: number[];
  tanks: number[];
  share: number[];
}

/**
 * Shares of years (0 to 1) carried by roofs (cm²) and tanks (litres) of many sizes. Takes a while: yields between two
 * tanks.
 */
export function* reliabilityGrid(plan: UnsizedSupply, asked: BedDemand): Generator<void, ReliabilityGrid> {
  const [roofs, tanks] = [scaleOf(COMPARED.roofs), scaleOf(COMPARED.tanks)];
  const share: number[] = [];
  for (const litres of tanks) {
    share.push(...roofs.map((roofArea) => carriedWith(plan, asked, { roofArea, litres })));
    yield;
  }
  return { roofs, tanks, share };
}

const scaleOf = ({ least, most, count }: { least: number; most: number; count: number }) =>
  range(count).map((k) => least * (most / least) ** (k / (count - 1)));
