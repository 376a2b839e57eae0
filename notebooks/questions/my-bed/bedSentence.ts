/** The whole plan in one sentence. */

import { type BedWater, capacityOf, carriesCrop, type WholeBed } from "../../../model/public/advice.ts";
import { monthName } from "../../../model/public/plan.ts";
import { formatBoth, type UnitSystem } from "../../../model/public/units.ts";
import { bedWords } from "../../words/bedWords.ts";
import { minutesWords } from "../../words/lineWords.ts";
import { placeWords } from "../../words/placeWords.ts";
import { cropName } from "../../words/planWords.ts";
import { litresWords, yearsWords } from "../../words/waterWords.ts";
import { dateWords, fillingWords } from "./tables.ts";

/** `watered` is null while it is not known. */
export function answerSentence(gathered: WholeBed, watered: BedWater | null, units: UnitSystem): string {
  const { plan, bed, outlook, hardest } = gathered;
  const pots = `${bed.pots.length} ${bed.pots.length === 1 ? "pot" : "pots"}`;
  const apart = bed.isByHand || bed.pots.length === 1 ? "" : ` ${formatBoth(plan.bed.spacing, "length", units)} apart`;
  const where = bed.band
    ? `${cropName(plan)} ${placeWords(bed.band, units)} from their walls on ${dateWords(plan.plantingDay)}`
    : `no place moist enough to ${plan.sowing.kind === "seed" ? "sow" : "plant"} ${cropName(plan)}`;
  const fill = carriesCrop(gathered)
    ? `pots ${filledWords(gathered, watered)}`
    : `pots ${filledWords(gathered, watered)}, which leaves plants thirsty in ${monthName(hardest.month)}`;
  const tank = `a ${litresWords(capacityOf(plan), units)} tank that lasts through ${yearsWords(outlook.carried, outlook.yearCount)}`;
  return `Your ${bedWords(plan.bed.outline, units)} bed: ${pots}${apart}, ${where}, ${fill}, and ${tank}.`;
}

function filledWords({ plan }: WholeBed, watered: BedWater | null): string {
  if (plan.filling.kind === "float") return fillingWords(plan);
  const minutes = watered?.minutes.filter((each) => each !== null) ?? [];
  const longest = minutes.length === 0 ? "" : ` with the valve open for up to ${minutesWords(Math.max(...minutes))}`;
  return `filled ${fillingWords(plan)}${longest}`;
}
