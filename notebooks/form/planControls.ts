/** The controls of the plan in groups, as pages offer them; all notebooks share them. */
import { MONTHS, type Month } from "../../model/public/plan.ts";
import { type Control, isShown, type Settings } from "./controlTypes.ts";
import { controls } from "./inputControls.ts";

/** The paths of what stands together in the plan. */
const within = (group: string, ...names: string[]) => controls(...names.map((name) => `${group}.${name}`));

const PARAMETERS = ["thetaR", "thetaS", "alpha", "n", "Ks", "l"];
const TEXTURE = ["sand", "silt", "clay", "sandHeight", "siltHeight", "clayHeight"];

/** Which soil, in the four ways in which a person may know it. */
export const soil = within("soil", "kind", "name", ...TEXTURE, ...PARAMETERS);

/** Offered where soils are drawn. */
export const uncertainty = controls("soil.uncertainty");

export const bedMix = within("bedMix", "kind", "name", ...PARAMETERS, "depth");

/** How moist the bed starts: in words, or by a suction. */
export const start = controls("startMoisture", "startSuctionKPa");

const JAR = ["neckDiameter", "bellyDiameter", "bellyBelowRim"];
export const pot = within(
  "pot",
  ...["shape", "diameter", "rimDiameter", ...JAR, "baseDiameter", "height", "rimAboveSoil"],
);

export const wall = within("pot", "wallThickness", "wallConductivity");

export const filling = within("filling", "kind", "days");

export const horizon = controls("days");

export const crop = [
  ...within("crop", "kind", "name", "easyWaterSuctionKPa", "tooWetSuctionKPa"),
  ...controls("rootDepth"),
];

/** Offered where plants drink: how a crop of one's own grows, and how long it holds out. */
export const growth = within(
  "crop",
  ...["cropCoefficientInitial", "cropCoefficientMid", "cropCoefficientEnd", "depletionShare", "daysToFullSize"],
  ...["height", "deepestRoots", "wiltingSuctionKPa"],
);

export const sowing = within(
  "sowing",
  ...["kind", "sowingDepth", "emergenceDays", "sproutingSuctionKPa"],
  ...["rootBallDepth", "rootBallRadius", "handWateringDays"],
);

/** When to sow: on the first day that suits, or on a day of the person's own. */
export const sowingDay = controls("sowWhen", "sowingDay");

const MONTH = ["high", "low", "rain", "rainDays", "humidity", "wind", "sunHours"];
const monthControls = (month: Month) => within(`weather.months.${month}`, ...MONTH);

const placeControls = [
  ...controls("month", "weather.kind", "weather.latitude", "weather.altitude", "airHow"),
  ...controls("weather.recordUnits", "weather.record"),
];

/** Of a place's own weather only the chosen month stands open. */
export const weather: Control[] = [
  ...placeControls,
  ...MONTHS.flatMap((month) =>
    monthControls(month).map((control) => ({
      ...control,
      shownWhen: (settings: Settings) => isShown(control, settings) && settings.month === month,
    })),
  ),
];

/** All twelve months stand open. */
export const wholeYear = [...placeControls, ...MONTHS.flatMap(monthControls)];

export const grid = controls("spacing", "potGrid");

/** The ground between the pots, without how far apart these stand. */
export const between = [
  ...controls("plantsFromWall", "plantStage", "mulch.kind", "mulch.cover", "lid"),
  ...within("handWatering", "kind", "days", "amount"),
];

export const ground = [...grid, ...between];

export const carrying = within("carrying", "can", "hose");

/** The corners of a bed of any shape have no control: they stand with the plan. */
export const outline = within("bed", "shape", "length", "width", "diameter");

export const placing = controls("rowAngle", "edgeHow", "edgeDistance", "placesHow", "plantSpacing");

export const planting = within("planting", "month", "day");

export const roof = controls("roof.area");
export const runoff = within("roof", "runoff", "firstFlush");

export const tank = controls("tank.volume");
export const tankBody = [
  ...within("tank", "waterHeight", "lid"),
  ...within("spareTanks", "kind", "count", "volume", "transfer"),
  ...within("topUp", "kind", "share", "amount"),
];
export const outletHeight = controls("tank.outletHeight");

export const tube = within("line.tube", "bore", "length");

export const main = [
  ...within("line", "main.length", "main.bore", "rowPipe.bore", "rowPipe.height", "valve"),
  ...within("line.main.way", "kind", "highest", "lowest"),
];

export const end = [
  ...controls("tubeEndHow", "line.tube.endHeight"),
  ...within("line.tube.end", "kind", "flowAtOneMetre", "exponent"),
  ...within("line", "fullPots", "joints.kind", "joints.bore", "joints.depth"),
  ...within("line", "waterTemperature", "wantedMinutes", "slack"),
];
