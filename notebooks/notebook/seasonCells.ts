/** A season of the plan's bed: what filled pots give by the flow of water, years of weather, and what that asks of a tank. */

import {
  bedDays,
  bedWeather,
  bedWithSupply,
  releaseOf,
  type SeasonBed,
  seasonProblems,
  withSupply,
  yearsFor,
} from "../../model/public/advice.ts";
import { type Plan, potPlacesOf } from "../../model/public/plan.ts";
import { derive, solution } from "../runtime/cells.ts";
import { plan } from "../runtime/sources.ts";
import { unplaced } from "../solving/sameBed.ts";

/** How many pots the bed has. */
const potCount = derive({ plan }, ({ plan }) => potPlacesOf(plan).length);

const ground = derive({ plan }, ({ plan }) => JSON.stringify(unplaced(plan)));

const seasonRuns = solution(
  derive({ ground }, ({ ground }) => {
    const plan = JSON.parse(ground) as Plan;
    return { of: plan, problems: seasonProblems(plan), isCoarseEnough: true };
  }),
);

/** What filled pots give, and the plan that it belongs to: its roof, tanks and pots' places are anyone's. */
const seasonRelease = derive({ seasonRuns }, ({ seasonRuns: { of, runs } }) => ({
  plan: of,
  release: releaseOf(of, runs),
}));

const weatherText = derive({ plan }, ({ plan: { weather } }) => JSON.stringify(weather));

export const yearsOfWeather = derive({ weatherText }, ({ weatherText }) =>
  yearsFor(JSON.parse(weatherText) as Plan["weather"]),
);

const weather = derive({ weatherText, yearsOfWeather }, ({ weatherText, yearsOfWeather: { years } }) =>
  bedWeather({ weather: JSON.parse(weatherText) as Plan["weather"] }, years),
);

export const askingBed = derive(
  { seasonRelease, weather, potCount },
  ({ seasonRelease: { plan, release }, weather, potCount }): SeasonBed => ({
    plan,
    release,
    asked: { weather, days: bedDays(plan, release, weather), pots: potCount },
  }),
);

export const suppliedBed = derive({ plan, askingBed }, ({ plan, askingBed }) =>
  bedWithSupply(withSupply(askingBed.plan, plan), askingBed),
);
