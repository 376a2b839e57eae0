/**
 * What a bed asks of its pots day by day, in whatever weather. The loop over days goes through 60 years of them again at
 * every change of the bed: it reads its series with `!`, each as long as the weather.
 */

import { DAYS_OF_YEAR, daysUntil } from "../../calendar/yearDays.ts";
import type { PottedGround } from "../../plan/planPart.ts";
import { cropCoefficient } from "../../plants/cropCoefficient.ts";
import { depletionShare, readilyAvailableMm, totalAvailableMm } from "../../plants/depletion.ts";
import { rootReach } from "../../plants/rootGrowth.ts";
import { demandOf } from "../../problems/demand.ts";
import { rootGrowthOf } from "../../problems/livingProblem.ts";
import { REFILL } from "../../supply/bedSupply.ts";
import { layerLitres } from "../../units/factors.ts";
import { type Release, releaseAt } from "./release.ts";
import { rootZone } from "./rootZone.ts";
import { seasonOf } from "./season.ts";

/** Weather of some days on end; the first one is a 1 January, and a year has 365 days. */
export interface BedWeather {
  rainMm: ArrayLike<number>;
  EToMm: ArrayLike<number>;
}

/** Of the ground that one pot serves, per day: mm over it, unless they say litres. */
export interface BedDays {
  /** Days since planting; −1 outside the season. */
  age: Int16Array;
  /** What plants with all the water they want would use. */
  wanted: Float64Array;
  /** Of it, taken from rain that the ground has kept. */
  fromRain: Float64Array;
  /** Of it, what neither that nor filled pots give them. */
  lacking: Float64Array;
  /** What plants and the soil among them use where a bed is commonly watered from above (Kc ETo): for comparison alone. */
  watered: Float64Array;
  /** What a filled pot gives, litres. */
  drawnLitres: Float64Array;
  /** What is done with the pots: one of `REFILL`. */
  refill: Uint8Array;
}

/** Rain below this share of the day's ETo dries off before it goes in (FAO-56, ch. 8, from memory). */
const LEAST_RAIN = 0.2;
/** Water that the top of the soil can give off, mm: FAO-56, Table 19, has 6 to 29 by soil (from memory). */
const TOP_MM = 15;
/** The demand at which the share of a root zone's water is told that plants use freely, mm/day: a summer's day. */
const USUAL_DEMAND = 5;

/**
 * Rain goes into a store as large as the readily available water of the full-grown roots' depth (FAO-56, eqs. 82 and 83);
 * more drains away. The air takes from it through the top of the soil, and roots take from it as deep as they reach. What
 * plants lack then is for the pot: it gives `Release.base` and so much for each litre lacked, by the flow of water.
 */
export function bedDays(plan: PottedGround, release: Release, weather: BedWeather): BedDays {
  const length = weather.rainMm.length;
  const plants = plantsByAge(plan, release);
  const season = seasonOf(plan);
  const capacity = rainCapacity(plan);
  const litresPerMm = layerLitres(1, plan.areaPerPot);
  const days = emptyDays(length);
  let store = 0;
  let top = 0;
  for (let t = 0; t < length; t++) {
    const age = daysUntil(season.plantingDay, (t % DAYS_OF_YEAR) + 1);
    const isGrowing = age < season.days;
    const { transpiration, evaporation, Kc, reach, base, perLitre, met } = plants[isGrowing ? age : season.days]!;
    const ETo = weather.EToMm[t]!;
    const rain = weather.rainMm[t]! > LEAST_RAIN * ETo ? weather.rainMm[t]! : 0;
    store = Math.min(store + rain, capacity);
    top = Math.min(top + rain, TOP_MM, store);
    const dried = Math.min(top, evaporation * ETo);
    const wanted = transpiration * ETo;
    const fromRain = Math.min(wanted, (store - dried) * reach);
    store -= dried + fromRain;
    top = Math.min(top - dried, store);
    days.age[t] = isGrowing ? age : -1;
    days.refill[t] = isGrowing ? refillOn(plan, age) : REFILL.away;
    days.wanted[t] = wanted;
    days.fromRain[t] = fromRain;
    days.lacking[t] = (1 - met) * (wanted - fromRain);
    days.watered[t] = Kc * ETo;
    days.drawnLitres[t] = isGrowing ? base + perLitre * litresPerMm * (wanted - fromRain) : 0;
  }
  return days;
}

/** By the plan's way of filling: each so many days from planting on, every day for a float, or once at planting. */
function refillOn({ filling }: PottedGround, age: number): number {
  if (filling.kind === "float") return REFILL.held;
  if (age === 0) return REFILL.filled;
  if (filling.kind === "once") return REFILL.none;
  const fillings = (days: number) => Math.floor(days / filling.days + 1e-9);
  return fillings(age) > fillings(age - 1) ? REFILL.filled : REFILL.none;
}

function emptyDays(length: number): BedDays {
  const numbers = () => new Float64Array(length);
  return {
    age: new Int16Array(length),
    wanted: numbers(),
    fromRain: numbers(),
    lacking: numbers(),
    watered: numbers(),
    drawnLitres: numbers(),
    refill: new Uint8Array(length),
  };
}

/** What the ground of the bed can keep of rain for its plants, mm. */
export function rainCapacity(plan: PottedGround): number {
  const p = depletionShare(plan.crop.p, USUAL_DEMAND);
  return Math.max(readilyAvailableMm(totalAvailableMm(rootZone(plan, plan.crop.deepestRoots)), p), 0);
}

/** Multiples of ETo, and what the pot does, by age; the last one is the bare bed outside the season. */
function plantsByAge(plan: PottedGround, release: Release) {
  const { days } = seasonOf(plan);
  const growth = rootGrowthOf(plan);
  const growing = Array.from({ length: days }, (_, age) => ({
    ...demandOf(plan, age, 0, 1),
    Kc: cropCoefficient(plan.crop, age),
    reach: rootReach(growth, age).depth / growth.full.depth,
    ...releaseAt(release, age),
  }));
  return [...growing, { ...demandOf(plan, null, 0, 1), Kc: 0, reach: 0, base: 0, perLitre: 0, met: 1 }];
}
