/** `npm run bench:supply`: what a season's water costs to reckon. Ends with 1 where it takes longer than it must. */
import { median, range } from "d3-array";
import { lineFilling } from "../../model/advice/line/lineFilling.ts";
import { releaseOf } from "../../model/advice/season/release.ts";
import { seasonProblems } from "../../model/advice/season/season.ts";
import { bedDays } from "../../model/advice/season/seasonDemand.ts";
import { bedWeather, seasonSupply, supplyYears } from "../../model/advice/season/seasonSupply.ts";
import { reliabilityGrid } from "../../model/advice/season/supplySize.ts";
import { layOutPots } from "../../model/bed/layout.ts";
import { simulateToEnd } from "../../model/flow/simulate.ts";
import { soundValue } from "../../model/input/faults.ts";
import { resolvePlan } from "../../model/plan/plan.ts";
import { supplyBed } from "../../model/supply/bedSupply.ts";
import { weatherYears } from "../../model/weather/generator.ts";
import demoPlan from "../../notebooks/demo-plan.json" with { type: "json" };
import { toEnd } from "../../notebooks/runtime/toEnd.ts";

const plan = soundValue(resolvePlan(demoPlan));

interface Figure {
  name: string;
  milliseconds: number;
  /** null: none is asked. */
  must: number | null;
}

/** The first time counts: a person waits for that one. */
function once<T>(name: string, must: number | null, work: () => T): { figure: Figure; value: T } {
  const start = performance.now();
  const value = work();
  return { figure: { name, milliseconds: performance.now() - start, must }, value };
}

const release = once("a season's runs at the quick setting", null, () =>
  releaseOf(
    plan,
    Object.fromEntries(
      Object.entries(seasonProblems(plan)).map(([name, problem]) => [
        name,
        simulateToEnd({ ...problem, accuracy: "live" }),
      ]),
    ),
  ),
);

/** The bed's pots by themselves, none alike another. */
const POTS = 20;

function years(count: number) {
  const weather = bedWeather(plan, weatherYears(plan.weather.months, { years: count, seed: 1 }));
  return { weather, days: bedDays(plan, release.value, weather), pots: POTS };
}

const whole = once("200 weather years: weather, demand, pots, tank", 10_000, () => {
  const asked = years(200);
  return supplyYears(seasonSupply(plan, asked));
});

const tenYears = once(`ten years of ${POTS} pots, each by itself, in daily steps`, 1000, () => {
  const { weather, days } = years(10);
  const groups = range(POTS).map((k) => ({ count: 1, capacity: 11 + 0.1 * k, share: 0.9 + 0.01 * k }));
  const tanks = { capacity: [1500, 1000], transfer: 100, topUp: null, useComes: "after spilling" } as const;
  const inflow = Float64Array.from(weather.rainMm, (mm) => 40 * mm);
  return supplyBed(tanks, groups, { inflow, evaporation: weather.EToMm, drawn: days.drawnLitres, refill: days.refill });
});

const sizes = once("roofs and tanks of all sizes, 60 years each", null, () => toEnd(reliabilityGrid(plan, years(61))));

/** Median of warm fillings. */
function filling(length: number): Figure {
  const bed = { shape: "rectangle", length, width: 4 };
  const own = soundValue(resolvePlan({ ...demoPlan, bed }));
  const pots = layOutPots(own.bed.outline, own.bed);
  const times = range(7).map(() => once("", null, () => lineFilling(own, pots)).figure.milliseconds);
  return { name: `a line fills ${pots.length} pots`, milliseconds: median(times.slice(2))!, must: null };
}

const figures = [release.figure, whole.figure, tenYears.figure, sizes.figure, ...[16, 23, 46].map(filling)];
for (const { name, milliseconds, must } of figures)
  console.log(
    `${name.padEnd(52)} ${milliseconds.toFixed(0).padStart(6)} ms${must === null ? "" : `   must: ${must} ms`}`,
  );

process.exitCode = figures.some(({ milliseconds, must }) => must !== null && milliseconds > must) ? 1 : 0;
