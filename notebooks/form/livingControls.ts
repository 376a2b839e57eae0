/** Controls of a living bed: the mix on top of it, its weather, its plants, and the water it gets by hand. */
import { MONTHS, type Month, monthName, NAMED_STAGES } from "../../model/public/plan.ts";
import { exampleWeather, rowNamed, textureClasses } from "../../reference-data/load.ts";
import { gridControls } from "./bedControls.ts";
import { choice, fine, named, number, when } from "./controlMakers.ts";
import { type Control, isShown, type Settings } from "./controlTypes.ts";
import { parameterControls, parametersOf } from "./soilControls.ts";

export const bedMixControls: Control[] = [
  choice("bedMix.kind", "Bed mix over native soil", {
    style: "select",
    options: [
      { value: "none", label: "none" },
      { value: "class", label: "by its name" },
      { value: "own", label: "by its own parameters" },
    ],
  }),
  choice("bedMix.name", "Mix", {
    style: "select",
    options: named(textureClasses().rows.map(({ name }) => name)),
    shownWhen: when("bedMix.kind", "class"),
  }),
  ...parameterControls("bedMix"),
  number("bedMix.depth", "Depth of the mix", {
    measure: "length",
    min: 6,
    max: 100,
    step: { metric: 1, us: 0.5 },
    shownWhen: when("bedMix.kind", "class", "own"),
  }),
];

const ownWeather = when("weather.kind", "own");
const ownPlace = when("weather.kind", "own", "daily");
const knownAir = (settings: Settings) => ownWeather(settings) && settings.airHow === "known";

function monthControls(month: Month): Control[] {
  const field = (name: string) => `weather.months.${month}.${name}`;
  const of = monthName(month);
  const temperature = { measure: "temperature", min: -40, max: 50, step: { metric: 0.5, us: 1 } } as const;
  const rest = { shownWhen: ownWeather };
  return [
    number(field("high"), `Mean of the days’ highs in ${of}`, { ...temperature, ...rest }),
    number(field("low"), `Mean of the nights’ lows in ${of}`, { ...temperature, ...rest }),
    number(field("rain"), `Rain in ${of}`, {
      measure: "rain",
      min: 0,
      max: 1000,
      step: { metric: 1, us: 0.05 },
      ...rest,
    }),
    number(field("rainDays"), `Days with rain in ${of}`, { measure: "days", min: 0, max: 31, step: fine(1), ...rest }),
    number(field("humidity"), `Mean relative humidity in ${of}`, {
      measure: "%",
      min: 0,
      max: 100,
      step: fine(1),
      shownWhen: knownAir,
    }),
    number(field("wind"), `Mean wind at head height in ${of}`, {
      measure: "wind",
      min: 0,
      max: 15,
      step: { metric: 0.1, us: 0.5 },
      shownWhen: knownAir,
    }),
    number(field("sunHours"), `Hours of sunshine a day in ${of}`, {
      measure: "hours",
      min: 0,
      max: 24,
      step: fine(0.5),
      shownWhen: knownAir,
    }),
  ];
}

const placeControls: Control[] = [
  choice("month", "Month", { style: "select", options: MONTHS.map((value) => ({ value, label: monthName(value) })) }),
  choice("weather.kind", "Weather", {
    style: "radio",
    options: [
      { value: "example", label: "an invented example" },
      { value: "own", label: "months of my own place" },
      { value: "daily", label: "a daily record of it" },
    ],
  }),
  number("weather.latitude", "Latitude", {
    measure: "degrees",
    min: -66,
    max: 66,
    step: fine(1),
    help: () => "Negative in the south.",
    shownWhen: ownPlace,
  }),
  number("weather.altitude", "Altitude", {
    measure: "distance",
    min: -45_000,
    max: 450_000,
    step: { metric: 10, us: 50 },
    shownWhen: ownPlace,
  }),
  choice("airHow", "Humidity, wind and sunshine", {
    style: "radio",
    options: [
      { value: "unknown", label: "not known" },
      { value: "known", label: "known for each month" },
    ],
    shownWhen: ownWeather,
  }),
  choice("weather.recordUnits", "The record is in", {
    style: "radio",
    options: [
      { value: "metric", label: "°C and mm" },
      { value: "us", label: "°F and inches" },
    ],
    shownWhen: when("weather.kind", "daily"),
  }),
  {
    kind: "text",
    field: "weather.record",
    label: "Daily record, as a CSV text",
    help: () =>
      "First a line of headings: date, high, low, rain, and if you know them humidity, wind, sun. Then a line for each day, at least a whole year from 1 January: 2023-01-01, 12.5, 3, 0. Paste it, or choose a file.",
    shownWhen: when("weather.kind", "daily"),
  },
];

/** For a page: of a place's own weather only the chosen month stands open. */
export const weatherControls: Control[] = [
  ...placeControls,
  ...MONTHS.flatMap((month) =>
    monthControls(month).map((control) => ({
      ...control,
      shownWhen: (settings: Settings) => isShown(control, settings) && settings.month === month,
    })),
  ),
];

/** For the plan: all twelve months are written. */
export const wholeYearControls: Control[] = [...placeControls, ...MONTHS.flatMap(monthControls)];

export const groundControls: Control[] = [
  ...gridControls,
  number("plantsFromWall", "Distance of the plants from the pot’s wall", {
    measure: "length",
    min: 0,
    max: 100,
    step: { metric: 1, us: 0.5 },
  }),
  choice("plantStage", "Stage of the plants", { style: "select", options: named(NAMED_STAGES) }),
  choice("mulch.kind", "Mulch", {
    style: "radio",
    options: [
      { value: "none", label: "none" },
      { value: "organic", label: "straw, leaves, bark" },
    ],
  }),
  number("mulch.cover", "Share of the ground under mulch", {
    measure: "%",
    min: 0,
    max: 100,
    step: fine(5),
    shownWhen: when("mulch.kind", "organic"),
  }),
  choice("lid", "Lid on the pot", {
    style: "radio",
    options: [
      { value: "yes", label: "yes", typed: true },
      { value: "no", label: "no", typed: false },
    ],
  }),
  choice("handWatering.kind", "Watering the ground by hand", {
    style: "radio",
    options: [
      { value: "none", label: "never" },
      { value: "every", label: "every few days" },
    ],
  }),
  number("handWatering.days", "Days between waterings by hand", {
    measure: "days",
    min: 0.5,
    max: 60,
    step: fine(0.5),
    shownWhen: when("handWatering.kind", "every"),
  }),
  number("handWatering.amount", "Water given by hand each time", {
    measure: "rain",
    min: 2,
    max: 100,
    step: { metric: 1, us: 0.05 },
    shownWhen: when("handWatering.kind", "every"),
  }),
];

export const carryingControls: Control[] = [
  number("carrying.can", "Watering can", { measure: "volume", min: 1, max: 30, step: { metric: 0.5, us: 0.25 } }),
  number("carrying.hose", "Flow of the hose", {
    measure: "hose flow",
    min: 1,
    max: 60,
    step: { metric: 0.5, us: 0.25 },
  }),
];

/** A living bed to start from, in each of the ways in which it may be known: the plan's defaults, and the example's weather. */
export const startingLife: Settings = {
  "bedMix.kind": "none",
  "bedMix.name": "sandy loam",
  ...parametersOf("sandy loam", "bedMix"),
  "bedMix.depth": 30,
  ...exampleSettings(),
  month: "july",
  plantsFromWall: 15,
  plantStage: "full grown",
  "mulch.kind": "none",
  "mulch.cover": 80,
  lid: "yes",
  "handWatering.kind": "none",
  "handWatering.days": 3,
  "handWatering.amount": 10,
  "carrying.can": 10,
  "carrying.hose": 12,
};

function exampleSettings(): Settings {
  const weather = exampleWeather();
  const months = MONTHS.flatMap((month) => {
    const { highC, lowC, rainMm, rainDays } = rowNamed(weather, month);
    const air = { humidity: 60, wind: 2, sunHours: 7 };
    const values = Object.entries({ high: highC, low: lowC, rain: rainMm, rainDays, ...air });
    return values.map(([name, value]) => [`weather.months.${month}.${name}`, value]);
  });
  return {
    "weather.kind": "example",
    "weather.latitude": weather.latitude,
    "weather.altitude": 0,
    airHow: "unknown",
    "weather.recordUnits": "metric",
    "weather.record": "",
    ...Object.fromEntries(months),
  };
}
