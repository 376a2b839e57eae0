/** The answer of the start command as text, in the person's units, for someone who has never seen it. */
import { union } from "d3-array";
import {
  edgeSeries,
  type FillingLasts,
  HAND,
  isAtSide,
  onDay,
  potsFor,
  RUN_IN_DAYS,
  type SowingAdvice,
  type SowingBand,
  type SpacingAdvice,
  sowingAdvice,
  WATCHED_DAYS,
  watchedOutcome,
  waterGiven,
} from "../../../model/public/advice.ts";
import { outlineOf, plantedDepth, potLitres, TOLD_DAYS } from "../../../model/public/flow.ts";
import { monthName, type Plan } from "../../../model/public/plan.ts";
import {
  bothSystems,
  format,
  formatBoth,
  formatSuction,
  fromModel,
  rounded,
  type UnitSystem,
  unitOf,
} from "../../../model/public/units.ts";
import { troubleOf } from "../../runtime/runs.ts";
import { bedWords } from "../../words/bedWords.ts";
import { answerSentence as lineSentence } from "../../words/lineWords.ts";
import { cropName, dayWords, soilName } from "../../words/planWords.ts";
import { answerSentence as tankSentence, weatherWords } from "../../words/tankWords.ts";
import { cautions, runLimits, sentenceCase } from "../../words/words.ts";
import { table, unbroken, wrap } from "../terminal.ts";
import { fullPotLasts, isFinished, type SoilAnswer, type WaterAnswer } from "./answers.ts";

const LENGTH_WORDS = { metric: "centimetres", us: "inches" };

export interface BedAnswers {
  answers: readonly SoilAnswer[];
  /** null where it could not be worked out. */
  water: WaterAnswer | null;
  isInvented: boolean;
}

export function startReport(plan: Plan, { answers, water: supply, isInvented }: BedAnswers): string {
  const told = answers.filter(isFinished);
  const sections = [
    heading(plan, isInvented),
    ...(told.length > 0
      ? [
          spread(plan, told),
          sowing(plan, told),
          water(plan, told),
          thirst(plan, told),
          spacing(plan, told),
          ...(supply ? [roofTankLine(plan, supply)] : []),
          balance(told),
        ]
      : []),
    ...answers.filter((answer) => !isFinished(answer)).map(failure),
    ["Before you rely on it", ...[...runLimits, ...cautions].map((line) => wrap(`- ${line}`, "  "))].join("\n"),
  ];
  return `\n${sections.join("\n\n")}\n`;
}

function heading(plan: Plan, isInvented: boolean): string {
  const name = plan.name || "Your bed";
  const invented =
    "This bed is invented, to show what an answer looks like. Answers for a bed of your own: npm start -- --help";
  return [name, ...(isInvented ? [wrap(invented), ""] : []), wrap(bed(plan))].join("\n");
}

function bed(plan: Plan): string {
  const { pot, units, soil, bedMix, startHead } = plan;
  const length = (cm: number) => unbroken(formatBoth(cm, "length", units));
  const across = 2 * Math.max(...outlineOf(pot).map(({ r }) => r));
  return [
    `Pot: unglazed clay, ${length(across)} across, ${length(pot.outerDepth - pot.rimDepth)} high,`,
    `holds ${unbroken(formatBoth(potLitres(plan.pot), "volume", units))}, ${fillingWords(plan)}.`,
    `Soil: ${bedMix === null && soil.className === null ? "your own" : soilName(plan)}, holding its water at a suction of ${formatSuction(startHead)} to begin with`,
    "(10 is moist, 1500 too dry for most plants).",
    `Crop: ${cropName(plan)} from ${plan.sowing.kind === "seed" ? "seed" : "starter plants"}.`,
  ].join(" ");
}

function fillingWords({ filling }: Plan): string {
  switch (filling.kind) {
    case "float":
      return "kept full by a float";
    case "once":
      return "filled once";
    case "every":
      return `filled to the rim every ${filling.days === 1 ? "day" : dayWords(filling.days)}`;
  }
}

function spread(plan: Plan, answers: readonly SoilAnswer[]): string {
  const days = [...union([...TOLD_DAYS.filter((day) => day < plan.days), plan.days])];
  const depth = unbroken(formatBoth(plan.rootDepth, "length", plan.units));
  return [
    `How far water spreads, in ${bothSystems(plan.units)
      .map((units) => LENGTH_WORDS[units])
      .join(" (")})`,
    wrap(
      `Wetted radius: from the pot's middle to where soil is still moist enough for ${cropName(plan)}, ${depth} deep.`,
    ),
    "",
    table([
      ["after", ...days.map(dayWords)],
      ...answers.map((answer) => [answer.name, ...days.map((day) => radiusWords(plan, answer, day))]),
    ]),
  ].join("\n");
}

function radiusWords(plan: Plan, { run }: SoilAnswer, day: number): string {
  if (plan.startHead >= plan.crop.easyWaterHead) return "all";
  const radius = onDay(run, edgeSeries(plan, run, "easyWater").value, day);
  if (radius === 0) return "none";
  const [first, second] = bothSystems(plan.units).map((units) => lengthIn(radius, units));
  return `${isAtSide(run, radius) ? "over " : ""}${first} (${second})`;
}

const lengthIn = (cm: number, units: UnitSystem): string =>
  rounded(fromModel(cm, "length", units), unitOf("length", units));

function sowing(plan: Plan, answers: readonly SoilAnswer[]): string {
  const width = Math.max(...answers.map(({ name }) => name.length));
  const line = ({ name, run }: SoilAnswer) =>
    wrap(`  ${name.padEnd(width)}  ${bandWords(sowingAdvice(plan, run), plan.units)}`, " ".repeat(width + 4));
  const isSeed = plan.sowing.kind === "seed";
  return [
    `Where to ${isSeed ? "sow" : "plant"}, as distances from the pot's wall`,
    wrap(`${sowingWords(plan)} ${sowingDayWords(plan)}`),
    "",
    ...answers.map(line),
  ].join("\n");
}

function sowingWords({ sowing, units }: Plan): string {
  const depth = unbroken(formatBoth(plantedDepth({ sowing }), "length", units));
  return sowing.kind === "seed"
    ? `There the soil ${depth} deep stays moist and airy until seedlings are up, ${dayWords(sowing.emergenceDays)} after sowing.`
    : `There the middle of the root ball, ${depth} deep, stays moist and airy until a week after watering by hand ends (${dayWords(sowing.handWateringDays)} after planting).`;
}

function sowingDayWords({ sowingDay, units }: Plan): string {
  return sowingDay === null
    ? `The day, counted from the first filling, is the first on which this band is a hand wide, ${unbroken(formatBoth(HAND, "length", units))}; or else on which it is widest.`
    : "The day, counted from the first filling, is the one you chose.";
}

/** Where to sow in one soil. */
export function bandWords(advice: SowingAdvice, units: UnitSystem): string {
  switch (advice.kind) {
    case "band": {
      const { sowingDay, isHandWide, innerCause } = advice.band;
      const notes = [!isHandWide && "less than a hand wide", innerCause === "soaked" && "nearer is soaked"];
      return [spanWords(advice.band, units), `on day ${rounded(sowingDay, "cm")}`, ...notes].filter(Boolean).join(", ");
    }
    case "everywhere":
      return advice.innerLimit === 0
        ? "anywhere: the soil is moist enough by itself"
        : `beyond ${formatBoth(advice.innerLimit, "length", units)}: the soil is moist enough by itself`;
    case "nowhere":
      return `nowhere: ${advice.reason === "dry" ? "soil near the surface does not stay moist enough" : "what stays moist is soaked"}`;
  }
}

/** "2.5 to 6.5 in (7 to 17 cm)". */
function spanWords({ inner, outer, isOuterAtLeast }: SowingBand, units: UnitSystem): string {
  const to = isOuterAtLeast ? "to at least" : "to";
  if (inner === 0) return `up ${to} ${formatBoth(outer, "length", units)}`;
  const [first, second] = bothSystems(units).map(
    (system) => `${lengthIn(inner, system)} ${to} ${format(outer, "length", system)}`,
  );
  return `${first} (${second})`;
}

function water(plan: Plan, answers: readonly SoilAnswer[]): string {
  const deepest = unbroken(formatBoth(plan.crop.deepestRoots, "length", plan.units));
  return [
    `Water in the first ${dayWords(plan.days)}`,
    wrap(
      `Lost is what has sunk deeper than the roots of ${cropName(plan)} reach, ${deepest}. The last column is for a pot that nobody fills again.`,
    ),
    "",
    table([
      ["", "given by the pot", "lost below roots", "a full pot is empty after"],
      ...answers.map((answer) => {
        const { total, lostShare } = waterGiven(plan, answer.run, plan.days);
        const given = formatBoth(total, "volume", plan.units);
        return [answer.name, given, percent(lostShare), lastsWords(fullPotLasts(plan, answer))];
      }),
    ]),
  ].join("\n");
}

function thirst(plan: Plan, answers: readonly SoilAnswer[]): string {
  const { month, weather, plantStage, bed, areaPerPot, units } = plan;
  const place = weather.isExample ? "an invented dry-summer place" : "your place";
  const ground = unbroken(formatBoth(areaPerPot, "area", units));
  const apart = unbroken(formatBoth(bed.spacing, "length", units));
  return [
    "Once plants drink",
    wrap(
      `${sentenceCase(plantStage.replace(" ", "-"))} ${cropName(plan)} in ${monthName(month)} at ${place}, pots ${apart} apart with ${ground} to each, ${fillingWords(plan)} for two weeks. The days count from the last refill, with no other after it. Thirst met is what plants had until then of the water they want.`,
    ),
    "",
    table([
      ["", "pot is empty after", "plants suffer after", "thirst met"],
      ...answers.map((answer) => [answer.name, ...thirstWords(plan, answer)]),
    ]),
  ].join("\n");
}

function spacing(plan: Plan, answers: readonly SoilAnswer[]): string {
  const bed = unbroken(bedWords(plan.bed.outline, plan.units));
  return [
    "How far apart the pots go",
    wrap(
      `The farthest at which ${cropName(plan)} of that age still has easy water midway between two pots, just before a refill, and how many pots your ${bed} bed then takes. Soils of one name differ: “How far apart do the pots go?” gives the band.`,
    ),
    "",
    table([["", "apart", "pots"], ...answers.map(({ name, apart }) => [name, ...apartWords(plan, apart)])]),
  ].join("\n");
}

function roofTankLine({ units }: Plan, { outlook, needs, line }: WaterAnswer): string {
  return [
    "Roof, tank and line",
    wrap(tankSentence(outlook, needs, units)),
    ...(line ? [wrap(lineSentence(line, null, units))] : []),
    wrap(`Weather: ${weatherWords(outlook)}. “Will the tank last?” and “Does the line fill every pot?” tell the rest.`),
  ].join("\n");
}

function apartWords(plan: Plan, apart: SpacingAdvice | null): string[] {
  if (!apart) return ["could not be worked out", ""];
  const length = formatBoth(apart.spacing, "length", plan.units);
  const words = { found: length, none: `not even ${length}`, beyond: `${length} or more` };
  return [words[apart.kind], apart.kind === "none" ? "" : String(potsFor(plan, apart.spacing))];
}

function thirstWords(plan: Plan, { planted }: SoilAnswer): string[] {
  const { fromDay, emptyDays, sufferDays, sufferCause, metBefore } = watchedOutcome(plan, planted);
  const never = `not in ${dayWords(RUN_IN_DAYS + WATCHED_DAYS - fromDay)}`;
  const after = (days: number | null) => (days === null ? never : days === 0 ? "at once" : roughly(days));
  const cause = sufferCause === "wet" ? ", too wet" : "";
  return [
    plan.filling.kind === "float" ? "never" : after(emptyDays),
    `${after(sufferDays)}${cause}`,
    percent(metBefore),
  ];
}

const percent = (share: number): string => (share > 0 && share < 0.01 ? "under 1 %" : `${Math.round(100 * share)} %`);

/** How long a full pot lasts when nobody fills it again. */
export function lastsWords(lasts: FillingLasts): string {
  switch (lasts.kind) {
    case "held":
      return "never";
    case "empty":
      return roughly(lasts.day);
    case "notEmpty":
      return `over ${roughly(lasts.day)} (${percent(lasts.shareLeft)} left)`;
  }
}

const roughly = (days: number): string => dayWords(days < 1 ? days : Number(days.toFixed(1)));

function balance(answers: readonly SoilAnswer[]): string {
  const worst = Math.max(
    ...answers.flatMap(({ run, filledOnce, planted }) => [run, filledOnce, planted].map((each) => each.balanceError)),
  );
  return wrap(
    `Check: water given, stored and lost agree. Water-balance error: ${worst.toExponential(0)} of the water moved, at most.`,
  );
}

const failure = ({ name, run, filledOnce, planted }: SoilAnswer): string =>
  wrap(`${sentenceCase(name)}: ${troubleOf(run) ?? troubleOf(filledOnce) ?? troubleOf(planted)}`);
