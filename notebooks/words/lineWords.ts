/** A line that fills in words. */
import {
  type FilledLine,
  isSoonEnough,
  type LeastOutletHeight,
  MOST_OUTLET_HEIGHT,
  type NeverFull,
} from "../../model/public/advice.ts";
import { entry, present } from "../../model/public/plan.ts";
import {
  CM_PER_M,
  format,
  formatBoth,
  MINUTES_PER_HOUR,
  SECONDS_PER_MINUTE,
  type UnitSystem,
} from "../../model/public/units.ts";

/** "12.5 minutes", "38 minutes", "3.4 hours". */
export function minutesWords(minutes: number): string {
  if (minutes < 1) return `${Math.max(1, Math.round(SECONDS_PER_MINUTE * minutes))} seconds`;
  if (minutes >= 120) return `${Number((minutes / MINUTES_PER_HOUR).toFixed(1))} hours`;
  const value = minutesNumber(minutes);
  return `${value} ${value === "1" ? "minute" : "minutes"}`;
}

export const minutesNumber = (minutes: number): string => String(Number(minutes.toFixed(minutes < 10 ? 1 : 0)));

/** Of a place above or below the soil, cm. */
function heightWords(cm: number, units: UnitSystem): string {
  if (Math.abs(cm) < 0.5) return "level with the soil";
  return `${formatBoth(Math.abs(cm), "length", units)} ${cm < 0 ? "below" : "above"} the soil`;
}

const whyWords: Record<NeverFull, string> = {
  dry: "the tank runs empty",
  low: "the tank’s water sinks to the level at which the tubes end",
  air: "a high place of the line stands out of the tank’s water and holds air",
  slow: "a day with the valve open is not enough",
};

/** An Error for a pot that is full in the end. */
export const whyNever = (why: NeverFull | null): string => whyWords[present(why, "reason why a pot is never full")];

/** `least` is null while it is not known. */
export function answerSentence(filled: FilledLine, least: LeastOutletHeight | null, units: UnitSystem): string {
  return `With the tank full, ${fillWords(filled, units)}${least ? `; ${leastWords(filled, least, units)}` : ""}.`;
}

function fillWords({ pots, filling }: FilledLine, units: UnitSystem): string {
  const { valveMinutes, firstMinutes } = filling;
  if (firstMinutes === null) return `no pot is ever full: ${shortWords(filling, units)}`;
  const firstWords = `the first after ${minutesWords(firstMinutes)}`;
  if (valveMinutes === null) {
    const full = filling.pots.filter(({ minutes }) => minutes !== null).length;
    return `${full} of ${pots.length} pots get full, ${firstWords}, and ${shortWords(filling, units)}`;
  }
  if (pots.length === 1) return `the one pot is full after ${minutesWords(valveMinutes)}`;
  return `all ${pots.length} pots are full after ${minutesWords(valveMinutes)}, ${firstWords}`;
}

/** What the pot that gets least is short of, and why. */
function shortWords({ pots, slowest }: FilledLine["filling"], units: UnitSystem): string {
  const { litres, why } = entry(pots, slowest);
  return `pot ${slowest + 1} gets only ${formatBoth(litres, "volume", units)}, for ${whyNever(why)}`;
}

function leastWords(filled: FilledLine, least: LeastOutletHeight, units: UnitSystem): string {
  const within = `within ${minutesWords(filled.plan.line.wantedMinutes)}`;
  if (least.height === null)
    return `no tank up to ${formatBoth(MOST_OUTLET_HEIGHT, "length", units)} above the soil would fill all of them ${within}`;
  const height = heightWords(least.height, units);
  if (isSoonEnough(filled) && least.height <= 0)
    return `its outlet could even lie level with the soil and still fill them ${within}`;
  return isSoonEnough(filled)
    ? `its outlet could stand as low as ${height} and still fill them ${within}`
    : `to fill them ${within} its outlet must stand at least ${height}`;
}

export function evennessWords({ filling }: FilledLine): string {
  const { ofFlows, ofWater } = filling.evenness;
  if (ofFlows === null) return "No water flows at the start, so that nothing can be said of evenness.";
  const percent = (value: number) => `${value.toFixed(value > 99 ? 1 : 0)} %`;
  const water =
    ofWater === null ? "" : `; of the water that the pots have got when the first is full, ${percent(ofWater)}`;
  return `Christiansen’s coefficient of uniformity (1942, from memory) of the flows at the start is ${percent(ofFlows)}${water}. 100 % is each the same; sprinklers are called good from some 85 % (common practice, no source).`;
}

export function overflowWords({ plan, filling }: FilledLine, units: UnitSystem): string {
  const { overflowLitres } = filling;
  if (plan.line.whenFull === "stop") return "A float stops each full pot, so that none runs over.";
  if (overflowLitres < 0.05) return "By then nothing to speak of has run over a rim.";
  return `By then ${formatBoth(overflowLitres, "volume", units)} have run over the rims of pots that were full before. It soaks into the ground about them; a float in each pot would save it, or a valve that you close a little early.`;
}

/** Which pot to look into before the valve is closed. */
export function valveWords(filled: FilledLine): string {
  const { valveMinutes, slowest } = filled.filling;
  if (valveMinutes === null) return "Not every pot gets full, so that there is no time after which to close the valve.";
  const wanted = minutesWords(filled.plan.line.wantedMinutes);
  const late = isSoonEnough(filled) ? "" : `, later than the ${wanted} that you want`;
  return `Close the valve after ${minutesWords(valveMinutes)}${late}. Pot ${slowest + 1} is full last: look into that one.`;
}

export const headWords = (metres: number, units: UnitSystem): string => format(CM_PER_M * metres, "length", units);

export const lineCautions = [
  "Never join the tank or this line to drinking water without the air gap or the device against backflow that your local code asks for. Never drink from tank, line or pots.",
  "A litre weighs a kilogram, a US gallon 8.3 pounds: a raised tank needs a firm stand on firm ground that cannot tip. Have one built or checked where its fall could hurt someone; local codes come first.",
  "Keep a lid on the tank and on every pot that children and animals cannot lift and that leaves no gap for mosquitoes.",
  "Before frost, drain the line at its low places, and the tank and the pots.",
];
