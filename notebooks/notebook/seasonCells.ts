/** A season of the plan's bed: what filled pots give by the flow of water, years of weather, and what that asks of a tank. */

import {
  type AskedSupply,
  type BedSupply,
  bedDays,
  bedWeather,
  type Release,
  releaseOf,
  type SupplyYear,
  seasonProblems,
  seasonSupply,
  supplyYears,
} from "../../model/public/advice.ts";
import { type DayWeather, layOutPots, type Plan, weatherYears } from "../../model/public/plan.ts";
import { derive, solution } from "../runtime/cells.ts";
import { plan } from "../runtime/sources.ts";
import { unplaced } from "../solving/sameBed.ts";

/** Years of weather drawn by chance, after one in which the tanks fill; one draw for everyone. */
const DRAWN = { years: 61, seed: 1 };
/** A record of fewer years says too little of bad ones: years are then drawn from its months. Our own choice. */
const LEAST_RECORDED = 5;

export const potPlacesOf = ({ bed }: Plan) => bed.potPlaces ?? layOutPots(bed.outline, bed);

/** How many pots the bed has. */
export const potCount = derive({ plan }, ({ plan }) => potPlacesOf(plan).length);

const ground = derive({ plan }, ({ plan }) => JSON.stringify(unplaced(plan)));

const seasonRuns = solution(
  derive({ ground }, ({ ground }) => {
    const plan = JSON.parse(ground) as Plan;
    return { of: plan, problems: seasonProblems(plan), isCoarseEnough: true };
  }),
);

/** What filled pots give, and the plan that it belongs to: its roof, tanks and pots' places are anyone's. */
export const seasonRelease = derive({ seasonRuns }, ({ seasonRuns: { of, runs } }) => ({
  plan: of,
  release: releaseOf(of, runs),
}));

const weatherText = derive({ plan }, ({ plan: { weather } }) => JSON.stringify(weather));

export interface YearsOfWeather {
  years: DayWeather[][];
  isRecorded: boolean;
}

/** The first one is there for the tanks to fill in. */
export function yearsFor({ months, years }: Plan["weather"]): YearsOfWeather {
  if (years && years.length >= LEAST_RECORDED) return { years: [years[0]!, ...years], isRecorded: true };
  return { years: weatherYears(months, DRAWN), isRecorded: false };
}

export const yearsOfWeather = derive({ weatherText }, ({ weatherText }) =>
  yearsFor(JSON.parse(weatherText) as Plan["weather"]),
);

const weather = derive({ weatherText, yearsOfWeather }, ({ weatherText, yearsOfWeather: { years } }) =>
  bedWeather({ weather: JSON.parse(weatherText) as Plan["weather"] }, years),
);

/** A plan's bed with what it asks for. */
export interface AskingBed {
  plan: Plan;
  release: Release;
  asked: AskedSupply;
}

export const askingBed = derive(
  { seasonRelease, weather, potCount },
  ({ seasonRelease: { plan, release }, weather, potCount }): AskingBed => ({
    plan,
    release,
    asked: { weather, days: bedDays(plan, release, weather), pots: potCount },
  }),
);

export interface SuppliedBed extends AskingBed {
  supply: BedSupply;
  years: SupplyYear[];
}

/** Its asking bed, fed from the plan's roof and tanks. */
export function supplied(plan: Plan, asking: AskingBed): SuppliedBed {
  const supply = seasonSupply(plan, asking.asked);
  return { ...asking, plan, supply, years: supplyYears(supply) };
}

/** Roof and tanks as they are now, under the bed that is worked out. */
export const withSupply = (bed: Plan, { roof, tank, spareTanks, topUp }: Plan): Plan => ({
  ...bed,
  roof,
  tank,
  spareTanks,
  topUp,
});

export const suppliedBed = derive({ plan, askingBed }, ({ plan, askingBed }) =>
  supplied(withSupply(askingBed.plan, plan), askingBed),
);
