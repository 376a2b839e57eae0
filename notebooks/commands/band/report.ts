/** What an ensemble says, as text for a terminal; of a merged one the same as of one that was never split. */
import { rollups } from "d3-array";
import { type Band, type Bands, bandsOf, type Outcome } from "../../../model/public/ensemble.ts";
import { TOLD_DAYS } from "../../../model/public/flow.ts";
import type { Plan } from "../../../model/public/plan.ts";
import { bothSystems, fromModel, rounded, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import { bandSentence, finenessWords, roughDays, soilsCalled } from "../../words/bandWords.ts";
import { cropName, dayWords } from "../../words/planWords.ts";
import { runLimits } from "../../words/words.ts";
import { table, wrap } from "../terminal.ts";

export interface EnsembleResult {
  plan: Plan;
  seed: number;
  sowingDay: number;
  outcomes: readonly Outcome[];
  /** Soils that were asked for; with more than there are outcomes it was stopped. */
  total: number;
}

export function bandReport({ plan, seed, sowingDay, outcomes, total }: EnsembleResult): string {
  const bands = bandsOf(plan, outcomes);
  const sentence = bandSentence({ plan, sowingDay, bands, count: outcomes.length, total }, plan.units);
  const sections = [
    [plan.name || "Your bed", wrap(sentence)].join("\n"),
    ...(bands ? [bandTable(plan, bands), wrap(finenessWords(bands, plan.units))] : []),
    ...failures(outcomes),
    wrap(`The same plan, number of soils and seed (${seed}) give this band again.`),
    ["Before you rely on it", ...runLimits.map((line) => wrap(`- ${line}`, "  "))].join("\n"),
  ];
  return `\n${sections.join("\n\n")}\n`;
}

function bandTable(plan: Plan, bands: Bands): string {
  const [own, other] = bothSystems(plan.units).map((system) => unitOf("length", system));
  const days = (name: "radius" | "depth", what: string, told: readonly number[]) =>
    bands[name]
      .filter(({ day }) => told.includes(day))
      .map(({ day, ...band }) => [`${what}, day ${day}`, ...lengths(band, plan.units)]);
  return [
    wrap(
      `${bands.solved} ${soilsCalled(plan)}; lengths are ${own} (${other}); moist means moist enough for ${cropName(plan)}.`,
    ),
    "",
    table([
      ["", "1 of 10 below", "half below", "9 of 10 below"],
      ...days("radius", "moist out to", TOLD_DAYS),
      ...days("depth", "moist down to", TOLD_DAYS.slice(-2)),
      ["sow from (off the wall)", ...lengths(bands.sowing.inner, plan.units)],
      ["sow to", ...lengths(bands.sowing.outer, plan.units)],
      ["a filling lasts", ...lasting(bands)],
    ]),
  ].join("\n");
}

const lengths = ({ low, median, high }: Band, units: UnitSystem): string[] =>
  [low, median, high].map((cm) => both(cm, units));

function both(cm: number, units: UnitSystem): string {
  const [first, second] = bothSystems(units).map((system) =>
    rounded(fromModel(cm, "length", system), unitOf("length", system)),
  );
  return `${first} (${second})`;
}

function lasting({ emptying }: Bands): string[] {
  if (emptying.kind === "held") return ["a float", "keeps it", "full"];
  const { low, median, high, watched } = emptying;
  return [low, median, high].map((day) => (day === null ? `over ${dayWords(watched)}` : roughDays(day)));
}

function failures(outcomes: readonly Outcome[]): string[] {
  const failed = outcomes.flatMap(({ trouble }) => trouble ?? []);
  if (failed.length === 0) return [];
  const reasons = rollups(
    failed,
    (group) => group.length,
    (trouble) => trouble,
  );
  const lines = reasons.map(([reason, times]) => wrap(`  ${times}: ${reason}`, "  "));
  return [
    [
      wrap(`${failed.length} of ${outcomes.length} soils could not be worked out to the end and are left out:`),
      ...lines,
    ].join("\n"),
  ];
}
