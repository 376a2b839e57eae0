/** How much the plants want, and how long a bed without any pot would last by FAO-56's bookkeeping. */

import { type Demand, demandOf, hasSand, rootZone, watchedProblem } from "../../../model/public/advice.ts";
import { buildPot } from "../../../model/public/flow.ts";
import {
  daysUntilStress,
  depletionShare,
  first,
  type Plan,
  present,
  readilyAvailableMm,
  totalAvailableMm,
} from "../../../model/public/plan.ts";
import { formatBoth, fromModel, layerLitres, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import type { Block, Table } from "../../notebook/notebook.ts";
import { tableOf } from "../../notebook/tables.ts";
import { soilName } from "../../words/planWords.ts";
import { sentenceCase } from "../../words/words.ts";
import { halfDays, monthWords, plantsName } from "./refillWords.ts";

const demandNow = (plan: Plan): Demand => demandOf(plan, plan.plantStage);

/** What the plants of one pot's ground want, litres a day. */
export const thirstLitres = (plan: Plan): number => layerLitres(demandNow(plan).transpiration, plan.areaPerPot);

export function thirstTable(plan: Plan, units: UnitSystem): Table {
  const { ETo, transpiration, evaporation, openWater } = demandNow(plan);
  const pot = buildPot(plan.pot);
  const row = (name: string, mm: number, area = plan.areaPerPot) => ({ name, mm, litres: layerLitres(mm, area) });
  const factor = (mm: number) => (ETo > 0 ? ` (${(mm / ETo).toFixed(2)} of the reference)` : "");
  const caption = `What air and plants ask for ${monthWords(plan)} on the ${formatBoth(plan.areaPerPot, "area", units)} that one pot serves, on the first of the days worked out`;
  const rows = [
    row("reference evapotranspiration, of short watered grass", ETo),
    row(`drunk by ${plantsName(plan)} that lacks nothing${factor(transpiration)}`, transpiration),
    row(`given off by soil while it is wet all over${factor(evaporation)}`, evaporation),
    ...(plan.lid ? [] : [row("given off by the water in the open pot", openWater, pot.surfaceAt(pot.fullDepth))]),
  ];
  return tableOf("thirst", caption, rows, [
    ["asked for", ({ name }) => name],
    [`${unitOf("rain", units)}/day`, ({ mm }) => fromModel(mm, "rain", units), 2],
    [`${unitOf("volume", units)}/day`, ({ litres }) => fromModel(litres, "volume", units), 2],
  ]);
}

export function thirstWords(plan: Plan, units: UnitSystem): Block[] {
  const { rainMm, rainDays, high, low } = plan.weather.months[plan.month];
  const temperature = (celsius: number) => formatBoth(celsius, "temperature", units);
  const thirst = thirstLitres(plan);
  return [
    `${sentenceCase(monthWords(plan))} the days’ highs are ${temperature(high)} and the nights’ lows ${temperature(low)}; from them and the latitude of ${plan.weather.latitude}° the reference evapotranspiration follows by Hargreaves (FAO-56, Allen et al. 1998, eq. 52). Times the crop’s basal coefficient (FAO-56, chapter 7) it is what plants would drink with all the water they want: ${formatBoth(thirst, "volume", units)} a day here, ${formatBoth(7 * thirst, "volume", units)} a week.`,
    `${rainDays === 0 ? "No rain falls." : `The month’s rain, ${formatBoth(rainMm, "rain", units)} on ${rainDays} ${rainDays === 1 ? "day" : "days"}, falls in equal parts.`} Soil gives off less than the table says as soon as its top is dry; how much less comes out of the flow of water.`,
    withoutPotWords(plan, units),
  ];
}

/** Of the root zone that the runs begin with. */
export const rootZoneAtStart = (plan: Plan) =>
  rootZone(plan, first(present(watchedProblem(plan).roots, "roots").growth).depth);

function withoutPotWords(plan: Plan, units: UnitSystem): string {
  const ETcMm = demandNow(plan).transpiration;
  if (ETcMm === 0)
    return "In such cold plants drink nothing, so a bed without a pot would last as long as it stays cold.";
  const zone = rootZoneAtStart(plan);
  const TAW = totalAvailableMm(zone);
  const p = depletionShare(plan.crop.p, ETcMm);
  const days = daysUntilStress(zone, { pTable: plan.crop.p, ETcMm });
  const rain = (mm: number) => formatBoth(mm, "rain", units);
  const heads = `field capacity, soil moisture at a suction of 33 kPa${hasSand(plan) ? " (of sands, which drain sooner, at 10 kPa)" : ""}, to the wilting point at 1500 kPa`;
  return `A check by another way, FAO-56’s bookkeeping, which knows no flow and no pot: roots ${formatBoth(100 * zone.rootDepthMetres, "length", units)} deep in your ${soilName(plan)} have ${rain(TAW)} of water from ${heads}, and use ${(100 * p).toFixed(0)} % of it, ${rain(readilyAvailableMm(TAW, p))}, before they suffer. A bed soaked once and left, with no pot, would last ${days > 60 ? "more than two months" : halfDays(days)}, counting what plants drink alone. What a pot adds to that is the answer above.`;
}
