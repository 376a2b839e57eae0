/** Controls of the crop: what it needs, how and when it goes into the ground. */
import { CROP_DEFAULTS, knownCrops } from "../../model/public/plan.ts";
import { suctionKPa } from "../../model/public/units.ts";
import { seeds } from "../../reference-data/load.ts";
import { choice, fine, named, number, when } from "./controlMakers.ts";
import type { Control, Settings } from "./controlTypes.ts";

/** What a seed packet says, for crops that are sown. */
function seedOf(crop: string): Settings {
  const seed = seeds().rows.find(({ name }) => name === crop);
  if (!seed) return {};
  return {
    "sowing.sowingDepth": seed.sowingDepth.max,
    "sowing.emergenceDays": seed.emergenceDays.max,
    "sowing.sproutingSuctionKPa": Math.round(suctionKPa(-seed.sproutingSuction)),
  };
}

const ownCrop = { shownWhen: when("crop.kind", "own") };

export const cropControls: Control[] = [
  choice("crop.kind", "How the crop is known", {
    style: "radio",
    options: [
      { value: "listed", label: "from the list" },
      { value: "own", label: "by its own suction" },
    ],
  }),
  choice("crop.name", "Crop", {
    fills: seedOf,
    style: "select",
    options: named(knownCrops().map(({ name }) => name)),
    shownWhen: when("crop.kind", "listed"),
  }),
  number("crop.easyWaterSuctionKPa", "Suction at which the crop starts to suffer", {
    measure: "kPa",
    min: 5,
    max: 1500,
    step: fine(5),
    ...ownCrop,
  }),
  number("crop.tooWetSuctionKPa", "Suction below which roots lack air", {
    measure: "kPa",
    min: 0.1,
    max: 50,
    step: fine(0.1),
    ...ownCrop,
  }),
  number("rootDepth", "Depth of most roots", { measure: "length", min: 2, max: 60, step: { metric: 1, us: 0.5 } }),
];

/** Offered where plants drink: how a crop of one's own grows, and how long it holds out. */
export const growthControls: Control[] = [
  coefficient("cropCoefficientInitial", "Crop coefficient of young plants"),
  coefficient("cropCoefficientMid", "Crop coefficient of full-grown plants"),
  coefficient("cropCoefficientEnd", "Crop coefficient at the end"),
  number("crop.depletionShare", "Share of the available water used before stress", {
    measure: "",
    min: 0.1,
    max: 0.8,
    step: fine(0.05),
    ...ownCrop,
  }),
  number("crop.daysToFullSize", "Days to full size", {
    measure: "days",
    min: 10,
    max: 200,
    step: fine(5),
    ...ownCrop,
  }),
  number("crop.height", "Height of the crop", {
    measure: "length",
    min: 6,
    max: 300,
    step: { metric: 1, us: 0.5 },
    ...ownCrop,
  }),
  number("crop.deepestRoots", "Depth of the deepest roots", {
    measure: "length",
    min: 6,
    max: 250,
    step: { metric: 1, us: 0.5 },
    ...ownCrop,
  }),
  number("crop.wiltingSuctionKPa", "Suction at which the crop wilts", {
    measure: "kPa",
    min: 100,
    max: 3000,
    step: fine(10),
    ...ownCrop,
  }),
];

function coefficient(name: string, label: string): Control {
  return number(`crop.${name}`, label, { measure: "", min: 0.1, max: 1.5, step: fine(0.05), ...ownCrop });
}

const seed = { shownWhen: when("sowing.kind", "seed") };
const starter = { shownWhen: when("sowing.kind", "starter") };

export const sowingControls: Control[] = [
  choice("sowing.kind", "What goes into the ground", {
    style: "radio",
    options: [
      { value: "seed", label: "seeds" },
      { value: "starter", label: "starters (young plants)" },
    ],
  }),
  number("sowing.sowingDepth", "Sowing depth", {
    measure: "length",
    min: 0.2,
    max: 15,
    step: { metric: 0.1, us: 0.05 },
    ...seed,
  }),
  number("sowing.emergenceDays", "Days from sowing to emergence", {
    measure: "days",
    min: 0.5,
    max: 60,
    step: fine(0.5),
    ...seed,
  }),
  number("sowing.sproutingSuctionKPa", "Suction up to which the seed sprouts", {
    measure: "kPa",
    min: 5,
    max: 2000,
    step: fine(5),
    ...seed,
  }),
  number("sowing.rootBallDepth", "Depth of the root ball", {
    measure: "length",
    min: 1,
    max: 45,
    step: { metric: 0.5, us: 0.25 },
    ...starter,
  }),
  number("sowing.rootBallRadius", "Radius of the root ball", {
    measure: "length",
    min: 1,
    max: 25,
    step: { metric: 0.5, us: 0.25 },
    ...starter,
  }),
  number("sowing.handWateringDays", "Days of watering by hand", {
    measure: "days",
    min: 0,
    max: 60,
    step: fine(1),
    ...starter,
  }),
];

/** When to sow: on the first day that suits, or on a day of the person's own. */
export const sowingDayControls: Control[] = [
  choice("sowWhen", "Day of sowing", {
    style: "radio",
    options: [
      { value: "first", label: "the first that suits" },
      { value: "own", label: "a day of my own" },
    ],
  }),
  number("sowingDay", "Days after the first filling", {
    measure: "days",
    min: 0,
    max: 60,
    step: fine(0.5),
    shownWhen: when("sowWhen", "own"),
  }),
];

/** A crop to start from, in each of the ways in which it may be known and set. */
export const startingCrop: Settings = {
  "crop.kind": "listed",
  "crop.name": "lettuce",
  "crop.easyWaterSuctionKPa": 40,
  "crop.tooWetSuctionKPa": 2.5,
  "crop.cropCoefficientInitial": CROP_DEFAULTS.Kc.initial,
  "crop.cropCoefficientMid": CROP_DEFAULTS.Kc.mid,
  "crop.cropCoefficientEnd": CROP_DEFAULTS.Kc.end,
  "crop.depletionShare": CROP_DEFAULTS.p,
  "crop.daysToFullSize": CROP_DEFAULTS.daysToFullSize,
  "crop.height": CROP_DEFAULTS.height,
  "crop.deepestRoots": CROP_DEFAULTS.deepestRoots,
  "crop.wiltingSuctionKPa": Math.round(suctionKPa(CROP_DEFAULTS.wiltingHead)),
  rootDepth: 20,
  "sowing.kind": "seed",
  ...seedOf("lettuce"),
  "sowing.rootBallDepth": 8,
  "sowing.rootBallRadius": 4,
  "sowing.handWateringDays": 7,
  sowWhen: "first",
  sowingDay: 7,
};
