/** A season of the plan's bed: what filled pots give by the flow of water, years of weather, and what that asks of a tank. */

import {
  bedDays,
  bedWeather,
  bedWithSupply,
  POT_SUPPLY,
  releaseOf,
  type SeasonBed,
  seasonProblems,
  yearsFor,
} from "../../model/public/advice.ts";
import { planPart, potPlacesOf } from "../../model/public/plan.ts";
import { derive, picked, solution } from "../runtime/cells.ts";
import { plan } from "../runtime/sources.ts";
import { ground } from "./ground.ts";

/** How many pots the bed has. */
const potCount = derive({ plan }, ({ plan }) => potPlacesOf(plan).length);

const seasonRuns = solution(
  derive({ ground }, ({ ground }) => ({ of: ground, problems: seasonProblems(ground), isCoarseEnough: true })),
);

/** What filled pots give, and the ground that it belongs to. */
const seasonRelease = derive({ seasonRuns }, ({ seasonRuns: { of, runs } }) => ({
  plan: of,
  release: releaseOf(of, runs),
}));

const recorded = picked({ plan }, ({ plan: { weather } }) => weather);

export const yearsOfWeather = derive({ recorded }, ({ recorded }) => yearsFor(recorded));

const weather = derive({ recorded, yearsOfWeather }, ({ recorded, yearsOfWeather: { years } }) =>
  bedWeather({ weather: recorded }, years),
);

export const askingBed = derive(
  { seasonRelease, weather, potCount },
  ({ seasonRelease: { plan, release }, weather, potCount }): SeasonBed => ({
    plan,
    release,
    asked: { weather, days: bedDays(plan, release, weather), pots: potCount },
  }),
);

const potSupply = picked({ plan }, ({ plan }) => planPart(plan, POT_SUPPLY));

export const suppliedBed = derive({ potSupply, askingBed }, ({ potSupply, askingBed }) =>
  bedWithSupply(askingBed, potSupply),
);
