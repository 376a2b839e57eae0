/** A season of pots beside the same season watered at the surface or by drip, and drip as a help where pots fall short. */

import { sum } from "d3-array";
import { otherWatering, rowNamed } from "../../../reference-data/load.ts";
import { DAYS_OF_YEAR } from "../../calendar/yearDays.ts";
import { entry } from "../../input/lists.ts";
import type { PottedGround } from "../../plan/planPart.ts";
import { layerLitres } from "../../units/factors.ts";
import { ENOUGH } from "../pot/refill.ts";
import type { BedDays } from "./seasonDemand.ts";

export interface Span {
  least: number;
  most: number;
}

/** A mean season of the whole bed, litres. */
export interface SeasonWater {
  /** What leaves filled pots. */
  pots: number;
  /** What plants use when they lack nothing, and of it what rain brings. */
  wanted: number;
  fromRain: number;
  /** What plants and the soil among them use in a bed that is watered from above, less the same rain (FAO-56, Kc ETo). */
  net: number;
  /** To be applied for that, by published application efficiencies. */
  surface: Span;
  drip: Span;
}

/** What a bed of so many pots uses in a mean year, and what other ways of watering would take; litres. */
export function seasonWater(plan: PottedGround, days: BedDays, pots: number): SeasonWater {
  const years = days.age.length / DAYS_OF_YEAR;
  const litres = (mm: number) => layerLitres(mm, pots * plan.areaPerPot) / years;
  const net = litres(sum(days.watered, (mm, t) => Math.max(mm - entry(days.fromRain, t), 0)));
  return {
    pots: (sum(days.drawnLitres) * pots) / years,
    wanted: litres(sum(days.wanted)),
    fromRain: litres(sum(days.fromRain)),
    net,
    surface: applied(net, "watering the surface"),
    drip: applied(net, "drip"),
  };
}

function applied(net: number, way: string): Span {
  const row = rowNamed(otherWatering(), way);
  if (!("efficiency" in row)) throw new RangeError(`${way} has no range of efficiencies`);
  return { least: net / row.efficiency.max, most: net / row.efficiency.min };
}

/** Share of water that pots save beside another way, all in litres: 0.4 for 40 % less; below 0 where they take more. */
export const savedBeside = (pots: number, { least, most }: Span): Span => ({
  least: 1 - pots / least,
  most: 1 - pots / most,
});

/** A mean year of a drip line as a help. */
export interface DripHelp {
  /** Days on which filled pots leave plants short of a tenth or more of what they want. */
  potDays: number;
  /** Days on which pots stand empty for want of water in the tank. */
  tankDays: number;
  /** What a drip line would apply on the first, and on both, litres. */
  forPots: Span;
}

/**
 * What a drip line would add to the pots of a whole bed; `shortDays`: days a year on which the tank leaves them empty.
 */
export function dripHelp(
  plan: PottedGround,
  days: BedDays,
  { pots, shortDays }: { pots: number; shortDays: number },
): DripHelp {
  const years = days.age.length / DAYS_OF_YEAR;
  const isShort = (mm: number, t: number) => mm > (1 - ENOUGH) * entry(days.wanted, t) + 1e-9;
  const lackingMm = sum(days.lacking, (mm, t) => (isShort(mm, t) ? mm : 0));
  const litres = layerLitres(lackingMm, pots * plan.areaPerPot) / years;
  return {
    potDays: days.lacking.filter(isShort).length / years,
    tankDays: shortDays,
    forPots: applied(litres, "drip"),
  };
}
