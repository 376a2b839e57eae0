/** A laid-out bed in words. */

import type { BedLayout } from "../../model/public/advice.ts";
import { type PlaceTrouble, type Plan, stringError } from "../../model/public/plan.ts";
import { format, formatBoth, type UnitSystem } from "../../model/public/units.ts";
import { bedWords } from "./bedWords.ts";
import { cropName, soilName } from "./planWords.ts";
import { sentenceCase } from "./words.ts";

export function answerSentence(bed: BedLayout, units: UnitSystem): string {
  const { plan, pots, wetShare, parts, isByHand, troubles } = bed;
  const { spacing, grid } = plan.bed;
  const set = isByHand
    ? "where you have put them"
    : `${formatBoth(spacing, "length", units)} apart in ${grid === "square" ? "squares" : "triangles"}`;
  const easy = `easy water for ${cropName(plan)} reaches ${Math.round(100 * wetShare)} % of it in your ${soilName(plan)}`;
  const fill = `one round of filling takes ${formatBoth(parts.litresInAll, "volume", units)}`;
  const [trouble] = troubles.map((each) => `, and ${troubleWords(each, plan, units)}`);
  return `Your ${bedWords(plan.bed.outline, units)} bed takes ${counted(pots.length, "pot")}, ${set}: ${easy}, ${fill}${trouble ?? ""}.`;
}

const counted = (count: number, unit: string) => `${count} ${unit}${count === 1 ? "" : "s"}`;

/** "pot 3 stands 31 cm from pot 2, nearer than the spacing of 60 cm". */
function troubleWords(trouble: PlaceTrouble, { bed }: Plan, units: UnitSystem): string {
  const length = (cm: number) => format(cm, "length", units);
  const pot = `pot ${trouble.pot + 1}`;
  switch (trouble.kind) {
    case "outside":
      return `${pot} stands outside the bed`;
    case "nearEdge":
      return `${pot} stands ${length(trouble.distance)} from the bed’s edge, nearer than the ${length(bed.edgeDistance)} of the plan`;
    case "nearPot":
      return `${pot} stands ${length(trouble.distance)} from pot ${trouble.other + 1}, nearer than the spacing of ${length(bed.spacing)}`;
  }
}

export const troubleLines = ({ troubles, plan }: BedLayout, units: UnitSystem): string[] =>
  troubles.map((trouble) => `${sentenceCase(troubleWords(trouble, plan, units))}.`);

export function reachWords({ plan, wetRadius }: BedLayout, units: UnitSystem): string {
  return wetRadius > 0
    ? `The blue-green ground is where easy water for ${cropName(plan)} reaches at the depth of most roots, ${formatBoth(wetRadius, "length", units)} from the middle of each pot, just before a refill`
    : `Easy water for ${cropName(plan)} reaches no ground at the depth of most roots just before a refill`;
}

export function plantWords({ plants, band, plan }: BedLayout, units: UnitSystem): string {
  if (!band) return "No distance from the pots stays moist enough to sow in, so no plants are drawn";
  return `green dots are ${counted(plants.length, "plant")}, ${formatBoth(plan.bed.plantSpacing, "length", units)} apart at least, in the band in which to sow`;
}

/** How to mark out, with what the strings may be off by. */
export function markingWords({ pegs, pots }: BedLayout, units: UnitSystem): string[] {
  const step = units === "us" ? 2.54 / 8 : 0.5;
  const worst = Math.max(...pots.map((pot) => stringError(pegs, pot, step)));
  const reading = units === "us" ? "to the nearest eighth of an inch" : "to the nearest half centimetre";
  return [
    "Drive a peg at A and one at B, and hook a tape to each. For each pot pull the tape from A to its first number and the tape from B to its second, both tight and level: the pot’s middle is where they meet. Mark it with a stick before you dig any hole.",
    `Check: the tape from A to B must read ${formatBoth(Math.hypot(pegs[1].x - pegs[0].x, pegs[1].y - pegs[0].y), "length", units)}. Read ${reading}, no pot is off by more than ${format(Math.max(worst, 0.1), "length", units)}.`,
    "Then lay the tape between two neighbours and hold it against the spacing: a slip shows there at once.",
  ];
}

/** What to do with fewer pots than the grid asks for. */
export function fewerWords(bed: BedLayout, units: UnitSystem): string[] {
  const { plan, pots, wetRadius } = bed;
  const ring = Math.max(2 * Math.PI * (wetRadius - plan.bed.plantSpacing / 2), 0);
  return [
    `Fewer, and plants only in their rings: about each pot ${counted(Math.max(1, Math.floor(ring / plan.bed.plantSpacing)), "plant")} ${formatBoth(plan.bed.plantSpacing, "length", units)} apart fit into its easy water; leave the rest of the bed to mulch, or to what needs no watering. Take a pot away with the Delete key and see what share is left.`,
    `Fewer and larger: a pot of twice the size has some ${format(2 * bed.parts.litresPerFill, "volume", units)} and reaches farther. “How far apart do the pots go?” tells by how much.`,
    `Fewer and shifted: in triangles the same pots leave no dry middle between four of them. Of ${counted(pots.length, "pot")} it is the outermost that serve least ground: half of their reach lies in the path.`,
  ];
}
