/** A living bed: its weather, its plants, and the water it gets by hand. */
import { exampleWeather, rowNamed } from "../../../reference-data/load.ts";
import { MONTHS, type Month } from "../../calendar/months.ts";
import { NAMED_STAGES } from "../../plants/growthStages.ts";
import { UNIT_SYSTEMS } from "../../units/units.ts";
import { choice, days, flag, group, length, number, percent, text, UNITS_OF_THE_PLAN, union } from "./row.ts";

/** A month's name as it stands in a sentence. */
export const monthName = (month: Month): string => month.charAt(0).toUpperCase() + month.slice(1);

/** Every month, by its name. */
export const MONTH_LABELS = Object.fromEntries(MONTHS.map((month) => [month, monthName(month)]));

const example = exampleWeather();

const AIR = {
  path: "airHow",
  label: "Humidity, wind and sunshine",
  leftOut: { value: "unknown", label: "not known" },
  given: { value: "known", label: "known for each month" },
};

/** Means over the days of a month; rain is the month's whole. Humidity, wind and sunshine: of all months, or of none. */
function monthRow(month: Month) {
  const of = monthName(month);
  const { highC, lowC, rainMm, rainDays } = rowNamed(example, month);
  const temperature = (title: string, label: string, start: number) =>
    // Metric plans alone can tell: every °C is a possible °F.
    number(`${title} of ${of}`, "temperature", [-40, 50], {
      metricHint: "(is it in °F?)",
      label: `${label} in ${of}`,
      step: [0.5, 1],
      start,
    });
  const fields = {
    high: temperature("day's high", "Mean of the days’ highs", highC),
    low: temperature("night's low", "Mean of the nights’ lows", lowC),
    rain: number(`rain of ${of}`, "rain", [0, 1500], {
      label: `Rain in ${of}`,
      slider: [0, 1000],
      step: [1, 0.05],
      start: rainMm,
    }),
    rainDays: days(`days with rain of ${of}`, [0, 31], {
      optional: true,
      label: `Days with rain in ${of}`,
      step: 1,
      start: rainDays,
    }),
    humidity: percent(`relative humidity of ${of}`, {
      optional: true,
      label: `Mean relative humidity in ${of}`,
      step: 1,
      start: 60,
      way: AIR,
    }),
    wind: number(`wind at 2 m of ${of}`, "wind", [0, 20], {
      optional: true,
      label: `Mean wind at head height in ${of}`,
      slider: [0, 15],
      step: [0.1, 0.5],
      start: 2,
      way: AIR,
    }),
    sunHours: number(`hours of sunshine a day of ${of}`, "hours", [0, 24], {
      optional: true,
      label: `Hours of sunshine a day in ${of}`,
      step: 0.5,
      start: 7,
      way: AIR,
    }),
  };
  return group(`weather of ${of}`, fields, { isRequired: true });
}

const monthRows = Object.fromEntries(MONTHS.map((month) => [month, monthRow(month)])) as Record<
  Month,
  ReturnType<typeof monthRow>
>;

/** Latitude in degrees, negative in the south. */
const place = {
  latitude: number("latitude", "degrees", [-66, 66], {
    bearsOn: ["weather.latitude"],
    help: "Negative in the south.",
    step: 1,
    start: example.latitude,
  }),
  altitude: number("altitude", "distance", [-50_000, 500_000], {
    bearsOn: ["weather.altitudeMetres"],
    default: 0,
    slider: [-45_000, 450_000],
    step: [10, 50],
  }),
};

/** Letters: some two hundred years of days. */
const MOST_OF_A_RECORD = 3_000_000;

/** A daily record is the text of a CSV file; the months are then its means. */
const weatherRow = union(
  "weather",
  "kind",
  {
    example: {},
    own: { ...place, months: group("months", monthRows, { isRequired: true, bearsOn: ["weather.months"] }) },
    daily: {
      ...place,
      recordUnits: choice("units of the daily record", UNIT_SYSTEMS, {
        default: UNITS_OF_THE_PLAN,
        bearsOn: ["weather.months", "weather.years"],
        label: "The record is in",
        style: "radio",
        labels: { metric: "°C and mm", us: "°F and inches" },
        start: "metric",
      }),
      record: text("daily record", {
        longest: MOST_OF_A_RECORD,
        start: "",
        bearsOn: ["weather.months", "weather.years"],
        label: "Daily record, as a CSV text",
        help: "First a line of headings: date, high, low, rain, and if you know them humidity, wind, sun. Then a line for each day, at least a whole year from 1 January: 2023-01-01, 12.5, 3, 0. Paste it, or choose a file.",
      }),
    },
  },
  {
    default: { kind: "example" },
    bearsOn: ["weather.isExample", "weather.latitude", "weather.altitudeMetres", "weather.months", "weather.years"],
    label: "Weather",
    style: "radio",
    labels: { example: "an invented example", own: "months of my own place", daily: "a daily record of it" },
  },
);

/** Share of the ground under mulch. */
const mulchRow = union(
  "mulch",
  "kind",
  {
    none: {},
    organic: {
      cover: percent("share of the ground under mulch", {
        step: 5,
        start: 80,
      }),
    },
  },
  {
    default: { kind: "none" },
    bearsOn: ["mulchCover"],
    label: "Mulch",
    style: "radio",
    labels: { none: "none", organic: "straw, leaves, bark" },
  },
);

/** Of the ground about the pot. */
const handWateringRow = union(
  "watering by hand",
  "kind",
  {
    none: {},
    every: {
      days: days("days between waterings by hand", [0.5, 60], {
        step: 0.5,
        start: 3,
      }),
      amount: number("water given by hand each time", "rain", [1, 100], {
        slider: [2, 100],
        step: [1, 0.05],
        start: 10,
      }),
    },
  },
  {
    default: { kind: "none" },
    bearsOn: ["handWatering"],
    label: "Watering the ground by hand",
    style: "radio",
    labels: { none: "never", every: "every few days" },
  },
);

/** L, L/min; common practice, no source. */
const carryingRow = group(
  "carrying",
  {
    can: number("watering can", "volume", [1, 30], { default: 10, step: [0.5, 0.25] }),
    hose: number("flow of the hose", "hose flow", [1, 100], {
      default: 12,
      slider: [1, 60],
      step: [0.5, 0.25],
    }),
  },
  { bearsOn: ["carrying"] },
);

/** All of it may be left out. */
export const livingRows = {
  weather: weatherRow,
  month: choice("month", MONTHS, {
    default: "july",
    bearsOn: ["month"],
    style: "select",
    labels: MONTH_LABELS,
  }),
  plantsFromWall: length("distance of the plants from the pot's wall", [0, 200], {
    default: 15, // Common practice, no source.
    bearsOn: ["plantsFromWall"],
    label: "Distance of the plants from the pot’s wall",
    slider: [0, 100],
    step: [1, 0.5],
  }),
  plantStage: choice("stage of the plants", NAMED_STAGES, {
    default: "full grown",
    bearsOn: ["plantStage"],
    style: "select",
  }),
  mulch: mulchRow,
  lid: flag("lid", { default: true, bearsOn: ["lid"], label: "Lid on the pot" }),
  handWatering: handWateringRow,
  carrying: carryingRow,
};
