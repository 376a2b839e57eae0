import { FINENESS, type Fineness } from "../../model/flow/gridRule.ts";
import { CALM, type Problem, type Roots } from "../../model/flow/problem.ts";
import type { Run } from "../../model/flow/run.ts";
import { classMean, cylinderProblem } from "./problems.ts";

/** A vegetable's roots in a ring a hand from the pot, deeper and wider by the day; limits of lettuce. */
const roots: Roots = {
  plantRadius: 25,
  growth: [
    { day: 0, depth: 40, spread: 25 },
    { day: 14, depth: 50, spread: 30 },
  ],
  limits: { h1: -10, h2: -25, h3: { highDemand: -400, lowDemand: -600 }, h4: -8000 },
  adaptability: 0.5,
};

/** 5 mm a day by plants, 1 mm by the soil between them, and a pot without a lid. */
const sun = { ...CALM, transpiration: 0.5, evaporation: 0.1, potEvaporation: 0.5 };
const shower = { rain: 8, potRain: 8, evaporation: 0, potEvaporation: 0 };

/** The test problem's pot, refilled every third day in a bed mix over a soil: two weeks of sun and roots. */
export const livingCylinder = (soil: string, changes: Partial<Problem> = {}): Problem =>
  cylinderProblem({
    soil: classMean(soil),
    topLayer: { soil: classMean("sandy loam"), depth: 15 },
    startHead: -300,
    filling: { kind: "refilled", atDays: [0, 3, 6, 9, 12] },
    region: { radius: 40, depth: 120 },
    days: [1, 3, 7, 14],
    weather: [sun],
    roots,
    ...changes,
  });

/** The same with a shower of an inch on the eighth day. */
export const withShower = (problem: Problem): Problem => ({
  ...problem,
  weather: [sun, { ...sun, ...shower, fromDay: 8 }, { ...sun, fromDay: 8.3 }],
});

/** The same pot and ground with nothing of it: one soil, a lid, no sun, nothing planted. */
export const lifeless = (problem: Problem): Problem => ({ ...problem, topLayer: null, weather: [], roots: null });

/** The test problem's pot kept full in bare ground that the sun dries, 2 mm a day: what soil gives on the first day hangs on millimetres. */
export const dryingCylinder = (soil: string, startHead: number): Problem =>
  cylinderProblem({
    soil: classMean(soil),
    startHead,
    region: { radius: 40, depth: 80 },
    days: [1],
    weather: [{ ...CALM, evaporation: 0.2 }],
  });

export const DRYING_SOILS = ["clay", "sand", "sandy loam", "loam"] as const;
/** Heads at the start, cm. */
export const DRYING_STARTS = [-15000, -1000] as const;

/** Rows so low, and steps so short, that lower and shorter ones change evaporation by less than 0.3 %. */
export const DRYING_TRUTH: Fineness = {
  ...FINENESS.standard,
  atSurface: 0.03,
  timeError: FINENESS.standard.timeError / 4,
};

/** The same pot kept full among roots in sandy loam: what they take until the third day hangs on where the front is. */
export const drinkingCylinder = (): Problem =>
  livingCylinder("sandy loam", {
    topLayer: null,
    startHead: -500,
    filling: { kind: "held", levelDepth: 0 },
    days: [3],
  });

/** Of evaporation on the first day, of uptake until the third: largest errors allowed, as shares. */
export const EARLY_ALLOWED = {
  live: { evaporation: 0.05, uptake: 0.03 },
  standard: { evaporation: 0.02, uptake: 0.01 },
};

/** By how much what air or roots have taken by the end is off, as a share. */
export const takenError = (run: Run, truth: Run, key: "evaporationLitres" | "uptakeLitres"): number =>
  Math.abs(run.history[key].at(-1)! / truth.history[key].at(-1)! - 1);

/** Largest differences from a reference on the kept days: of what the pot gave, of it; of uptake and evaporation, of what was asked for. */
export interface LivingErrors {
  seepage: number;
  uptake: number;
  evaporation: number;
}

/** Largest ones allowed, as shares. */
export const LIVING_ALLOWED = {
  live: { seepage: 0.015, uptake: 0.02, evaporation: 0.02 },
  standard: { seepage: 0.005, uptake: 0.01, evaporation: 0.01 },
};

export function livingErrors(run: Run, reference: Run): LivingErrors {
  const days = run.rows.map(({ day }) => day);
  const on = ({ history }: Run, values: number[], day: number) => values[history.day.lastIndexOf(day)]!;
  const asked = (day: number) => on(reference, reference.history.wantedLitres, day);
  const largest = (key: "seepageLitres" | "uptakeLitres" | "evaporationLitres", size: (day: number) => number) =>
    Math.max(
      ...days.map(
        (day) => Math.abs(on(run, run.history[key], day) - on(reference, reference.history[key], day)) / size(day),
      ),
    );
  return {
    seepage: largest("seepageLitres", (day) => on(reference, reference.history.seepageLitres, day)),
    uptake: largest("uptakeLitres", asked),
    // The soil is asked for a fifth of what plants are.
    evaporation: largest("evaporationLitres", (day) => asked(day) / 5),
  };
}
