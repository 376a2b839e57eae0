/** Whether the tank lasts, in words. */

import { capacityOf, type Needs, type Outlook, ROOF_SIZES, TANK_SIZES } from "../../model/public/advice.ts";
import { entry, MONTHS, monthName, type PlanPart } from "../../model/public/plan.ts";
import { formatBoth, type UnitSystem } from "../../model/public/units.ts";
import { cropName } from "./planWords.ts";
import { litresWords, shareWords, yearsWords } from "./waterWords.ts";

/** `needs` is null while it is not known. */
export function answerSentence(outlook: Outlook, needs: Needs | null, units: UnitSystem): string {
  const { plan, carried, short, shortDays, firstShortMonth, yearCount, pots } = outlook;
  const tank = litresWords(capacityOf(plan), units);
  const what = `Your ${tank} ${plan.spareTanks ? "of tanks" : "tank"} under ${formatBoth(plan.roof.area, "area", units)} of roof`;
  const bed = `${pots} ${pots === 1 ? "pot" : "pots"} of ${cropName(plan)}`;
  const carries = `${what} ${plan.spareTanks ? "carry" : "carries"} ${bed} through ${yearsWords(carried, yearCount)}`;
  if (carried === 1) return `${carries}${needs ? spareWords(needs, units) : ""}.`;
  const first = firstShortMonth === null ? "" : `, mostly from ${monthName(entry(MONTHS, firstShortMonth))} on`;
  const days = Math.max(Math.round(shortDays), 1);
  const lack = `; in an average year the pots go short by ${litresWords(short, units)} on ${days} ${days === 1 ? "day" : "days"}${first}`;
  return `${carries}${lack}${!needs || carried >= needs.share ? "" : `; ${needWords(plan, needs, units)}`}.`;
}

function spareWords({ tank, share }: Needs, units: UnitSystem): string {
  return tank === null ? "" : `; one of ${litresWords(tank, units)} would do in ${shareWords(share)}`;
}

/** What would do. */
function needWords({ spareTanks }: PlanPart<"spareTanks">, { tank, roof, share }: Needs, units: UnitSystem): string {
  const years = shareWords(share);
  const area = (cm2: number) => formatBoth(cm2, "area", units);
  if (tank !== null)
    return `it would take ${spareTanks ? "a main tank" : "a tank"} of ${litresWords(tank, units)} to carry them through ${years}`;
  if (roof !== null) return `no tank does so in ${years} under that roof, but ${area(roof)} of roof would`;
  return `neither a tank of ${litresWords(TANK_SIZES.most, units)} nor a roof of ${area(ROOF_SIZES.most)} alone would carry them through ${years}`;
}

export const weatherWords = ({ isRecorded, yearCount, plan }: Outlook): string =>
  isRecorded
    ? `the ${yearCount} years of your record`
    : `${yearCount} years drawn by chance from ${plan.weather.isExample ? "the invented example’s months" : "your months"}`;
