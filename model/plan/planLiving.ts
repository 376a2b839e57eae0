/** The living bed of a plan, resolved: its mix, its weather, its plants, and the water it gets by hand. */

import { exampleWeather, rowNamed, textureClasses } from "../../reference-data/load.ts";
import { byMonth, type Month } from "../calendar/months.ts";
import { soundValue } from "../input/faults.ts";
import type { NamedStage } from "../plants/growthStages.ts";
import type { Air } from "../plants/referenceEvapotranspiration.ts";
import type { TextureClass } from "../soil/textureTriangle.ts";
import type { VanGenuchtenParameters } from "../soil/vanGenuchten.ts";
import { CM_PER_M } from "../units/factors.ts";
import type { RecordReader } from "../weather/dailyCsv.ts";
import type { DayWeather } from "../weather/dayWeather.ts";
import { monthMeans } from "../weather/monthMeans.ts";
import type { MonthMeans, MonthWeather } from "../weather/monthTable.ts";
import type { CheckedPlan } from "./typed/planSchema.ts";

export interface LivingBed {
  /** Another soil on top of the bed's own, down to a depth; null where there is none. */
  bedMix: BedMix | null;
  weather: Weather;
  /** The month that questions about thirst are asked for. */
  month: Month;
  plantsFromWall: number;
  plantStage: NamedStage;
  /** Share of the ground under organic mulch, 0 to 1. */
  mulchCover: number;
  lid: boolean;
  /** The ground about the pot, watered by hand. */
  handWatering: { days: number; mm: number } | null;
  carrying: { canLitres: number; hoseLitresPerMinute: number };
}

export interface BedMix {
  /** null for own parameters. */
  className: TextureClass | null;
  parameters: VanGenuchtenParameters;
  depth: number;
}

export interface Weather {
  /** The invented climate of the examples: no place has it. */
  isExample: boolean;
  /** Degrees, negative in the south. */
  latitude: number;
  altitudeMetres: number;
  months: MonthMeans;
  /** Of a daily record, its whole years; null where only the months are known. */
  years: DayWeather[][] | null;
}

export function toLiving(checked: CheckedPlan, readRecord: RecordReader): LivingBed {
  const { bedMix, weather, month, plantsFromWall, plantStage, mulch, lid } = checked;
  const { handWatering, carrying } = checked;
  return {
    bedMix: toBedMix(bedMix),
    weather: toWeather(weather, readRecord),
    month,
    plantsFromWall,
    plantStage,
    mulchCover: mulch.kind === "none" ? 0 : mulch.cover / 100,
    lid,
    handWatering: handWatering.kind === "none" ? null : { days: handWatering.days, mm: handWatering.amount },
    carrying: { canLitres: carrying.can, hoseLitresPerMinute: carrying.hose },
  };
}

function toBedMix(mix: CheckedPlan["bedMix"]): BedMix | null {
  if (mix.kind === "none") return null;
  if (mix.kind === "class")
    return { className: mix.name, parameters: rowNamed(textureClasses(), mix.name).mean, depth: mix.depth };
  const { kind, depth, ...parameters } = mix;
  return { className: null, parameters, depth };
}

function toWeather(weather: CheckedPlan["weather"], readRecord: RecordReader): Weather {
  switch (weather.kind) {
    case "example":
      return invented();
    case "own":
      return ownWeather(weather);
    case "daily":
      return recordedWeather(weather, readRecord);
  }
}

type RecordedWeather = Extract<CheckedPlan["weather"], { kind: "daily" }>;

function recordedWeather(
  { latitude, altitude, record, recordUnits }: RecordedWeather,
  readRecord: RecordReader,
): Weather {
  const years = soundValue(readRecord(record, recordUnits)).years.map(({ days }) => days);
  return {
    isExample: false,
    latitude,
    altitudeMetres: altitude / CM_PER_M,
    months: monthMeans(years),
    years,
  };
}

type OwnWeather = Extract<CheckedPlan["weather"], { kind: "own" }>;

function ownWeather({ latitude, altitude, months }: OwnWeather): Weather {
  return {
    isExample: false,
    latitude,
    altitudeMetres: altitude / CM_PER_M,
    months: byMonth((month) => toMonth(months[month])),
    years: null,
  };
}

function toMonth({ high, low, rain: rainMm, rainDays, ...typedAir }: OwnWeather["months"][Month]): MonthWeather {
  return { high, low, rainMm, rainDays: rainDays ?? usualRainDays(rainMm), air: toAir(typedAir) };
}

type TypedAir = Pick<OwnWeather["months"][Month], "humidity" | "wind" | "sunHours">;

/** The plan's rules see to it that all three are given, or none. */
function toAir({ humidity, wind, sunHours }: TypedAir): Air | null {
  if (humidity === undefined || wind === undefined || sunHours === undefined) return null;
  return { humidity, wind, sunHours };
}

/** As if each wet day brought 5 mm, within what a month allows: our own choice. */
function usualRainDays(rainMm: number): number {
  return rainMm === 0 ? 0 : Math.min(Math.max(Math.round(rainMm / 5), 1), 28);
}

function invented(): Weather {
  const example = exampleWeather();
  const months = byMonth((month) => {
    const { highC: high, lowC: low, rainMm, rainDays } = rowNamed(example, month);
    return { high, low, rainMm, rainDays, air: null };
  });
  return { isExample: true, latitude: example.latitude, altitudeMetres: 0, months, years: null };
}
