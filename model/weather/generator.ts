/**
 * Years of weather by chance that a month table may stand for. Wet and dry days are a first-order Markov chain of two
 * states, the rain of wet days has a gamma distribution, and temperatures are autocorrelated and lean on rain, as in
 * Richardson (1981), Water Resour. Res. 17:182-190; the chances of the chain and the shape of the gamma distribution
 * follow from month means alone, by Geng, Penning de Vries & Supit (1986), Agric. For. Meteorol. 36:363-376. Both from
 * memory.
 */

import { range } from "d3-array";
import { randomGamma, randomNormal } from "d3-random";
import { daysOfMonth, monthOfDay } from "../calendar/yearDays.ts";
import { present } from "../input/lists.ts";
import type { Air } from "../plants/referenceEvapotranspiration.ts";
import { randomStreams, type Uniform } from "../random/randomStreams.ts";
import type { DayWeather } from "./dayWeather.ts";
import { type DayMeans, dayMeans, type MonthMeans } from "./monthTable.ts";

export interface YearsAsked {
  years: number;
  /** A whole number from 0 to 2³² − 1. */
  seed: number;
}

/**
 * So many years of 365 days, each by itself: it knows nothing of the one before. A year of a seed is the same whatever
 * their number. In the long run each month has the table's temperatures, rain and days with rain, some of which
 * bring less than 1 mm. Real years differ more from each other, for nothing here lasts longer than weeks: long droughts and
 * wet years are too few.
 */
export function weatherYears(months: MonthMeans, { years, seed }: YearsAsked): DayWeather[][] {
  const normals = dayMeans(months).map((means, i) => dayNormal(months, means, i + 1));
  const named = range(years).flatMap((year) => QUANTITIES.map((quantity) => nameOf(quantity, year)));
  const streams = randomStreams(seed, named);
  return range(years).map((year) =>
    weatherYear(normals, (quantity) => present(streams[nameOf(quantity, year)], nameOf(quantity, year))),
  );
}

/** Each has random numbers of its own, so that a month's other rain leaves the temperatures alone. */
const QUANTITIES = ["wet", "rain", "temperature"] as const;
type Quantity = (typeof QUANTITIES)[number];

const nameOf = (quantity: Quantity, year: number) => `${quantity} of year ${year}`;

/** What a day of the year is drawn from. */
interface DayNormal extends DayMeans {
  /** Chance of rain where nothing is known of the day before. */
  wetShare: number;
  /** Mean rain of a wet day, mm. */
  wetMm: number;
  air: Air | null;
}

function dayNormal(months: MonthMeans, means: DayMeans, dayOfYear: number): DayNormal {
  const month = monthOfDay(dayOfYear);
  const { rainMm, rainDays, air } = months[month];
  const wetMm = rainDays === 0 ? 0 : rainMm / rainDays;
  return { ...means, wetShare: rainDays / daysOfMonth(month), wetMm, air };
}

function weatherYear(normals: DayNormal[], streamOf: (quantity: Quantity) => Uniform): DayWeather[] {
  const nextIsWet = wetDays(streamOf("wet"));
  const gamma = randomGamma.source(streamOf("rain"));
  const deviation = deviations(streamOf("temperature"));
  return normals.map((normal) => {
    const isWet = nextIsWet(normal);
    const lowC = normal.low + deviation();
    return {
      highC: lowC + rangeOf(normal, isWet),
      lowC,
      rainMm: isWet ? gamma(...gammaOf(normal.wetMm))() : 0,
      air: normal.air,
    };
  });
}

function wetDays(uniform: Uniform): (normal: DayNormal) => boolean {
  // A day before that is dry in every year tells nothing: the first day's chance is its share.
  let before = 0;
  let isWet = false;
  return ({ wetShare }) => {
    isWet = uniform() < wetChance(wetShare, before, isWet);
    before = wetShare;
    return isWet;
  };
}

/** How much likelier a day is wet after a wet day than after a dry one; Geng et al. (1986), from memory. */
const PERSISTENCE = 0.25;

/**
 * Chance of rain on a day, of which the share `f` is wet, after a wet or a dry one, of which `g` are. Within a month, where
 * f = g, it is that of Geng et al. (1986): 0.75 f after a dry day, 0.25 more after a wet one. Where a month begins, the
 * form keeps the share f, and days follow each other less strictly if no chance could do so otherwise.
 */
function wetChance(f: number, g: number, wasWet: boolean): number {
  const most = Math.min(g > 0 ? f / g : 1, g < 1 ? (1 - f) / (1 - g) : 1);
  return f + Math.min(PERSISTENCE, most) * ((wasWet ? 1 : 0) - g);
}

/**
 * Shape (without unit) and scale (mm) of the rain on wet days of a mean in mm: scale = 1.83 mean − 2.16, Geng et al. (1986),
 * from memory, and shape = mean/scale. Below 2.6 mm that would make wet days alike, and below 1.2 mm it has no answer:
 * there we take the shape 1, the exponential distribution, our own choice.
 */
function gammaOf(meanMm: number): [shape: number, scale: number] {
  const scale = Math.max(1.83 * meanMm - 2.16, meanMm);
  return meanMm === 0 ? [0, 0] : [meanMm / scale, scale];
}

/** How far a day is warmer than its mean, °C, and how much of that is left on the next: our own choice. */
const DEVIATION = { sd: 3, kept: 0.65 };
/** Part of the range from low to high that rain takes off the high: our own choice. */
const RAIN_OFF_RANGE = 0.25;

function deviations(uniform: Uniform): () => number {
  const normal = randomNormal.source(uniform)();
  const { sd, kept } = DEVIATION;
  let deviation = sd * normal();
  return () => {
    const today = deviation;
    deviation = kept * deviation + Math.sqrt(1 - kept ** 2) * sd * normal();
    return today;
  };
}

/** From low to high, °C; wider on dry days than the mean, so that with the wet ones it is the mean in the long run. */
function rangeOf({ high, low, wetShare }: DayNormal, isWet: boolean): number {
  return (high - low) * (1 - RAIN_OFF_RANGE * ((isWet ? 1 : 0) - wetShare));
}
