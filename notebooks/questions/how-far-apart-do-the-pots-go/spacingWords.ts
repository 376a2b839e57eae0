/** Spacings in words. */

import type { BedSpacings } from "../../../model/public/advice.ts";
import { type CountedBed, potsFor } from "../../../model/public/advice.ts";
import type { SpacingBand } from "../../../model/public/ensemble.ts";
import { first, type PlanPart, type UnspacedGround } from "../../../model/public/plan.ts";
import {
  bothSystems,
  format,
  formatBoth,
  fromModel,
  rounded,
  type UnitSystem,
  unitOf,
} from "../../../model/public/units.ts";
import { soilsCalled, spanWords } from "../../words/bandWords.ts";
import { bedWords } from "../../words/bedWords.ts";
import { cropName, soilName } from "../../words/planWords.ts";
import { listed } from "../../words/words.ts";

export interface SpacingAnswer {
  /** The ground of what was found, and the plan's bed as it is now. */
  plan: UnspacedGround & PlanPart<"units"> & { bed: CountedBed };
  /** In the mean soil of the name. */
  found: BedSpacings;
  /** null where it is not known, or not yet. */
  band: SpacingBand | null;
}

const plantsIn = (plan: PlanPart<"crop">) => `${cropName(plan)} in easy water`;

export function answerSentence({ plan, found, band }: SpacingAnswer, units: UnitSystem): string {
  const { advice } = found;
  const soil = `your ${soilName(plan)}`;
  if (advice.kind === "none")
    return `In ${soil}, even pots as near as ${formatBoth(advice.spacing, "length", units)} do not keep ${plantsIn(plan)} midway between them: fill more often, or set out fewer plants near the pots${band ? `, though ${band.high > advice.spacing ? "some" : "no"} ${soilsCalled(plan)} do better` : ""}.`;
  if (advice.kind === "beyond")
    return `In ${soil}, easy water for ${cropName(plan)} still meets between pots ${formatBoth(advice.spacing, "length", units)} apart, so it is not spacing that limits them yet${plan.startHead >= plan.crop.easyWaterHead ? ", for the ground was moist enough by itself from the start" : ""}: look again farther on in the season.`;
  const bedNeeds = `your ${bedWords(plan.bed.outline, units)} bed needs`;
  if (!band) {
    const pots = potsFor(plan, advice.spacing);
    return `In ${soil}, pots up to ${formatBoth(advice.spacing, "length", units)} apart keep ${plantsIn(plan)}; ${bedNeeds} ${potCount(pots)}; wider than that leaves a dry strip midway.`;
  }
  const { low, high } = band;
  const [most, fewest] = [potsFor(plan, low), potsFor(plan, high)];
  const count = most === fewest ? potCount(most) : `${fewest} to ${potCount(most)}`;
  return `In ${soil}, pots ${spanWords({ low, high }, units)} apart keep ${plantsIn(plan)}, the nearer figure in nine of ten such soils, the wider in one of ten; ${bedNeeds} ${count}; wider than ${formatBoth(high, "length", units)} leaves a dry strip midway in most of them${beyondWords(band)}.`;
}

/** What the figures of a band cannot say. */
function beyondWords({ none, beyond, solved }: SpacingBand): string {
  const parts = [
    ...(none > 0 ? [`in ${none} of ${solved} even the nearest pots do not do`] : []),
    ...(beyond > 0 ? [`in ${beyond} of ${solved} they may stand farther apart than any spacing tried`] : []),
  ];
  return parts.length > 0 ? `; ${listed(parts)}` : "";
}

const potCount = (pots: number): string => (pots === 1 ? "one pot" : `${pots} pots`);

/** How near pots keep the ground between them too wet. */
export function tooNearWords({ plan, advice, readings }: BedSpacings, units: UnitSystem): string | null {
  const { soakedUntil } = advice;
  if (soakedUntil === null) return null;
  if (soakedUntil > first(readings).spacing)
    return `Too near is no better: with pots nearer than ${formatBoth(soakedUntil, "length", units)} the ground between them stays so wet in ${soilName({ ...plan, units })} that the roots of ${cropName(plan)} lack air.`;
  return null;
}

/** How deep the reading is taken, and where roots have left easy water. */
export function depthWords({ readings }: BedSpacings, rooted: number, day: number, units: UnitSystem): string {
  const capped = readings.filter(({ isCapped }) => isCapped);
  const read = `Read on day ${Number(day.toFixed(2))}, just before the pot is filled again, at the depth of most roots by then, ${formatBoth(rooted, "length", units)}.`;
  if (capped.length === 0) return read;
  const least = Math.min(...capped.map(({ spacing }) => spacing));
  return `${read} From a spacing of ${format(least, "length", units)} on, easy water on the pot’s own axis does not reach that deep: the roots have left it, and midway is read at its lower end.`;
}

/** In both systems, as a range: "24 to 35 in (60 to 90 cm)". */
export const practiceWords = (from: number, to: number, units: UnitSystem): string =>
  bothSystems(units)
    .map(
      (system) =>
        [from, to].map((cm) => rounded(fromModel(cm, "length", system), unitOf("length", system))).join(" to ") +
        ` ${unitOf("length", system)}`,
    )
    .map((words, k) => (k === 0 ? words : `(${words})`))
    .join(" ");

/** What pots of twice the size would do; nothing where no spacing is known for both. */
export function largerWords(
  plan: SpacingAnswer["plan"],
  own: BedSpacings,
  larger: BedSpacings,
  units: UnitSystem,
): string[] {
  if (own.advice.kind !== "found" || larger.advice.kind !== "found") return [];
  const [apart, wider] = [own, larger].map(({ advice }) => formatBoth(advice.spacing, "length", units));
  const [pots, fewer] = [own, larger].map(({ advice, plan: { pot } }) => potsFor({ ...plan, pot }, advice.spacing));
  return [
    `Fewer and larger: pots of twice the size may stand ${wider} apart in place of ${apart}; the bed then takes ${fewer} in place of ${pots}.`,
  ];
}

/** What triangles would do for pots in squares. */
export function triangleWords(plan: SpacingAnswer["plan"], { advice }: BedSpacings, units: UnitSystem): string[] {
  if (plan.bed.grid === "triangular" || advice.kind !== "found") return [];
  const pots = potsFor({ ...plan, bed: { ...plan.bed, grid: "triangular" } }, advice.spacing);
  return [
    `In triangles: ${potCount(pots)} ${formatBoth(advice.spacing, "length", units)} apart, and no dry middle is left between four of them.`,
  ];
}
