/** The crop of a plan: what it needs, and how and when it goes into the ground. */
import { seeds } from "../../../reference-data/load.ts";
import { suctionKPa } from "../../units/units.ts";
import { CROP_DEFAULTS, knownCrops } from "./cropDefaults.ts";
import { choice, days, length, number, type Settings, text, union } from "./row.ts";

const suction = <const O extends object>(title: string, min: number, max: number, rest: O) =>
  number(title, "kPa", [min, max], rest);

const coefficient = (stage: string, value: number) =>
  number(`crop coefficient ${stage}`, "", [0.1, 1.5], {
    default: value,
    step: 0.05,
  });

const { Kc } = CROP_DEFAULTS;

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

const START = { crop: "lettuce", seed: seedOf("lettuce") };

export const cropRow = union(
  "crop",
  "kind",
  {
    listed: {
      name: choice(
        "crop",
        knownCrops().map(({ name }) => name),
        {
          style: "select",
          start: START.crop,
          fills: seedOf,
        },
      ),
    },
    own: {
      name: text("name of the crop", { default: "", noControl: "A crop of one's own is named in the plan's file." }),
      easyWaterSuctionKPa: suction("suction at which the crop starts to suffer", 1, 1500, {
        slider: [5, 1500],
        step: 5,
        start: 40,
      }),
      tooWetSuctionKPa: suction("suction below which the crop's roots lack air", 0.1, 50, {
        default: suctionKPa(CROP_DEFAULTS.tooWetHead),
        label: "Suction below which roots lack air",
        step: 0.1,
      }),
      deepestRoots: length("depth of the crop's deepest roots", [5, 300], {
        default: CROP_DEFAULTS.deepestRoots,
        label: "Depth of the deepest roots",
        slider: [6, 250],
        step: [1, 0.5],
      }),
      wiltingSuctionKPa: suction("suction at which the crop wilts", 100, 3000, {
        optional: true,
        step: 10,
        start: Math.round(suctionKPa(CROP_DEFAULTS.wiltingHead)),
      }),
      cropCoefficientInitial: coefficient("of young plants", Kc.initial),
      cropCoefficientMid: coefficient("of full-grown plants", Kc.mid),
      cropCoefficientEnd: coefficient("at the end", Kc.end),
      depletionShare: number("share of the available water used before stress", "", [0.1, 0.8], {
        default: CROP_DEFAULTS.p,
        step: 0.05,
      }),
      daysToFullSize: days("days to full size", [10, 200], {
        default: CROP_DEFAULTS.daysToFullSize,
        step: 5,
      }),
      height: length("height of the crop", [5, 400], {
        default: CROP_DEFAULTS.height,
        slider: [6, 300],
        step: [1, 0.5],
      }),
    },
  },
  {
    bearsOn: ["crop"],
    label: "How the crop is known",
    style: "radio",
    labels: { listed: "from the list", own: "by its own suction" },
    start: "listed",
  },
);

/** cm; our own choice. */
export const rootDepthRow = length("depth of most roots", [1, 100], {
  default: 20,
  bearsOn: ["rootDepth"],
  slider: [2, 60],
  step: [1, 0.5],
});

const ball = (part: string, max: number, sliderMax: number, start: number) =>
  length(`${part} of the root ball`, [0.5, max], {
    slider: [1, sliderMax],
    step: [0.5, 0.25],
    start,
  });

/** Left out, a seed's depth, days and suction are those of its crop. */
export const sowingRow = union(
  "sowing",
  "kind",
  {
    seed: {
      sowingDepth: length("sowing depth", [0.1, 15], {
        optional: true,
        slider: [0.2, 15],
        step: [0.1, 0.05],
        start: Number(START.seed["sowing.sowingDepth"]),
      }),
      emergenceDays: days("days from sowing to emergence", [0.5, 60], {
        optional: true,
        step: 0.5,
        start: Number(START.seed["sowing.emergenceDays"]),
      }),
      sproutingSuctionKPa: suction("suction up to which the seed sprouts", 5, 2000, {
        optional: true,
        step: 5,
        start: Number(START.seed["sowing.sproutingSuctionKPa"]),
      }),
    },
    starter: {
      rootBallDepth: ball("depth", 50, 45, 8),
      rootBallRadius: ball("radius", 30, 25, 4),
      handWateringDays: days("days of watering by hand", [0, 60], {
        default: 7,
        step: 1,
      }),
    },
  },
  {
    default: { kind: "seed" },
    bearsOn: ["sowing"],
    label: "What goes into the ground",
    style: "radio",
    labels: { seed: "seeds", starter: "starters (young plants)" },
  },
);

export const sowingDayRow = days("sowing day", [0, 120], {
  default: null,
  bearsOn: ["sowingDay"],
  label: "Days after the first filling",
  slider: [0, 60],
  step: 0.5,
  start: 7,
  way: {
    path: "sowWhen",
    label: "Day of sowing",
    leftOut: { value: "first", label: "the first that suits" },
    given: { value: "own", label: "a day of my own" },
  },
});
