/** Whether the tank lasts, in words. */
import {
  bothSystems,
  formatBoth,
  fromModel,
  MONTHS,
  monthName,
  ROOF_SIZES,
  rounded,
  TANK_SIZES,
  type UnitSystem,
  unitOf,
} from "../../model/index.ts";
import { cropName } from "../lib/planWords.ts";
import { capacityOf, type Outlook } from "./outlook.ts";

export const litresWords = (litres: number, units: UnitSystem): string =>
  formatBoth(roundedVolume(litres), "volume", units);

/** In two figures: more would say more than the reckoning knows. */
const roundedVolume = (litres: number): number => (litres < 10 ? litres : Number(litres.toPrecision(2)));

/** "nine of ten years", of a share of years. */
export function yearsWords(share: number, count: number): string {
  if (share === 1) return `all of ${count} years`;
  if (share === 0) return `none of ${count} years`;
  const tenths = Math.round(10 * share);
  if (tenths === 10) return `${Math.round(share * count)} of ${count} years`;
  if (tenths === 0) return `${Math.max(Math.round(share * count), 1)} of ${count} years`;
  return `${COUNTED[tenths]} of ten years`;
}

export function answerSentence(outlook: Outlook, units: UnitSystem): string {
  const { plan, carried, short, shortDays, firstShortMonth, yearCount, pots, wanted } = outlook;
  const tank = litresWords(capacityOf(plan), units);
  const roof = areaWords(plan.roof.area, units);
  const what = `Your ${tank} tank under ${roof} of roof`;
  const bed = `${pots} ${pots === 1 ? "pot" : "pots"} of ${cropName(plan)}`;
  const carries = `${what} carries ${bed} through ${yearsWords(carried, yearCount)}`;
  if (carried === 1) return `${carries}${spareWords(outlook, units)}.`;
  const first = firstShortMonth === null ? "" : `, mostly from ${monthName(MONTHS[firstShortMonth]!)} on`;
  const lack = `; in an average year the pots go short by ${litresWords(short, units)} on ${Math.round(shortDays)} days${first}`;
  return `${carries}${lack}${carried >= wanted.share ? "" : `; ${needWords(outlook, units)}`}.`;
}

function spareWords({ wanted }: Outlook, units: UnitSystem): string {
  return wanted.tank === null
    ? ""
    : `; one of ${litresWords(wanted.tank, units)} would do in ${shareWords(wanted.share)}`;
}

export const shareWords = (share: number): string =>
  share === 0.95 ? "19 of 20 years" : `${COUNTED[Math.round(10 * share)]} of ten years`;

/** What would do. */
function needWords({ plan, wanted }: Outlook, units: UnitSystem): string {
  const { tank, roof, share } = wanted;
  const years = shareWords(share);
  if (tank !== null)
    return `it would take ${plan.spareTanks ? "a main tank" : "a tank"} of ${litresWords(tank, units)} to carry them through ${years}`;
  if (roof !== null) return `no tank does so in ${years} under that roof, but ${areaWords(roof, units)} of roof would`;
  return `neither a tank of ${litresWords(TANK_SIZES.most, units)} nor a roof of ${areaWords(ROOF_SIZES.most, units)} alone would carry them through ${years}`;
}

export const weatherWords = ({ isRecorded, yearCount, plan }: Outlook): string =>
  isRecorded
    ? `the ${yearCount} years of your record`
    : `${yearCount} years drawn by chance from ${plan.weather.isExample ? "the invented example’s months" : "your months"}`;
