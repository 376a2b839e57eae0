/** The controls of everything in the plan that a notebook may offer, by path in the plan; all notebooks share them. */
import { format, fromModel, rounded, suctionKPa, TEXTURE_SD, type TextureClass, unitOf } from "../../model/index.ts";
import { crops, type PotRow, pots, rowNamed, seeds, textureClasses, walls } from "../../reference-data/load.ts";
import type { ChoiceControl, Control, NumberControl, Option, Settings } from "./controlTypes.ts";

type Shown = (settings: Settings) => boolean;

const when =
  (field: string, ...values: string[]): Shown =>
  (settings) =>
    values.includes(String(settings[field]));

const named = (names: readonly string[]): Option[] => names.map((name) => ({ value: name, label: name }));

function number(field: string, label: string, rest: Omit<NumberControl, "kind" | "field" | "label">): NumberControl {
  return { kind: "number", field, label, ...rest };
}

function choice(field: string, label: string, rest: Omit<ChoiceControl, "kind" | "field" | "label">): ChoiceControl {
  return { kind: "choice", field, label, ...rest };
}

const percent = {
  measure: "%",
  min: 0,
  max: 100,
  step: { metric: 1, us: 1 },
  shownWhen: when("soil.kind", "texture"),
} as const;
const layer = {
  measure: "length",
  min: 0,
  max: 50,
  step: { metric: 0.1, us: 0.05 },
  shownWhen: when("soil.kind", "jar"),
} as const;
const ownSoil = { shownWhen: when("soil.kind", "own") };
const fine = (step: number) => ({ metric: step, us: step });

/** Which soil, in the four ways in which a person may know it. */
export const soilControls: Control[] = [
  choice("soil.kind", "How the soil is known", {
    style: "select",
    options: [
      { value: "class", label: "by its name" },
      { value: "texture", label: "by sand, silt and clay" },
      { value: "jar", label: "by a jar test" },
      { value: "own", label: "by its own parameters" },
    ],
  }),
  choice("soil.name", "Soil", {
    style: "select",
    options: named(textureClasses().rows.map(({ name }) => name)),
    shownWhen: when("soil.kind", "class"),
  }),
  number("soil.sand", "Sand", percent),
  number("soil.silt", "Silt", percent),
  number("soil.clay", "Clay", percent),
  number("soil.sandHeight", "Sand layer in the jar", layer),
  number("soil.siltHeight", "Silt layer in the jar", layer),
  number("soil.clayHeight", "Clay layer in the jar", layer),
  number("soil.thetaR", "Holding water: residual water content", {
    measure: "",
    min: 0,
    max: 0.3,
    step: fine(0.005),
    ...ownSoil,
  }),
  number("soil.thetaS", "Holding water: saturated water content", {
    measure: "",
    min: 0.2,
    max: 0.8,
    step: fine(0.01),
    ...ownSoil,
  }),
  number("soil.alpha", "Holding water: alpha", {
    measure: "1/cm",
    min: 0.001,
    max: 0.3,
    step: fine(0.001),
    ...ownSoil,
  }),
  number("soil.n", "Holding water: n", { measure: "", min: 1.05, max: 4, step: fine(0.01), ...ownSoil }),
  number("soil.Ks", "Passing water: saturated conductivity", {
    measure: "cm/day",
    min: 0.1,
    max: 2000,
    step: fine(0.1),
    ...ownSoil,
  }),
  number("soil.l", "Passing water: pore exponent l", { measure: "", min: -2, max: 2, step: fine(0.1), ...ownSoil }),
];

/** Offered where soils are drawn. */
export const uncertaintyControls: Control[] = [
  number("soil.uncertainty", "Sand and clay may be off by", {
    measure: "points",
    min: 0,
    max: 20,
    step: fine(1),
    shownWhen: when("soil.kind", "texture", "jar"),
    help: () =>
      "Percentage points, one standard deviation: 5 for a jar test or a feel of the soil (our own choice), less for a laboratory.",
  }),
];

/** Outer diameters of a pot, in cm as everywhere in the form. */
const diameter = (field: string, label: string, ...shapes: string[]) =>
  number(field, label, {
    measure: "length",
    min: 6,
    max: 80,
    step: { metric: 0.5, us: 0.25 },
    shownWhen: when("pot.shape", ...shapes),
  });

const potRows = pots().rows;

/** Fills the measures below it, which all stay open; shows the size that they agree with. */
export const potSize = choice("potSize", "Common sizes", {
  style: "select",
  help: () => "Common practice, no source. Measure your own pot where you can.",
  options: [{ value: "", label: "own measures" }, ...named(potRows.map(({ name }) => name))],
  fills: (name) => measuresOf(potRows.find((pot) => pot.name === name)),
  chosen: (settings) => potRows.find((pot) => agree(measuresOf(pot), settings))?.name ?? "",
});

function measuresOf(pot: PotRow | undefined): Settings {
  if (!pot) return {};
  const { name, source, flags, ...measures } = pot;
  return Object.fromEntries(Object.entries(measures).map(([key, value]) => [`pot.${key}`, value]));
}

const agree = (some: Settings, all: Settings) => Object.entries(some).every(([field, value]) => all[field] === value);

export const potControls: Control[] = [
  choice("pot.shape", "Shape", {
    style: "radio",
    options: [
      { value: "tapered", label: "flower pot" },
      { value: "jar", label: "round jar" },
      { value: "cylinder", label: "straight" },
    ],
  }),
  diameter("pot.diameter", "Pot diameter", "cylinder"),
  diameter("pot.rimDiameter", "Rim diameter", "tapered"),
  diameter("pot.neckDiameter", "Neck diameter", "jar"),
  diameter("pot.bellyDiameter", "Belly diameter", "jar"),
  number("pot.bellyBelowRim", "Belly below the rim", {
    measure: "length",
    min: 1,
    max: 60,
    step: { metric: 0.5, us: 0.25 },
    shownWhen: when("pot.shape", "jar"),
  }),
  diameter("pot.baseDiameter", "Base diameter", "tapered", "jar"),
  number("pot.height", "Pot height", {
    measure: "length",
    min: 6,
    max: 80,
    step: { metric: 0.5, us: 0.25 },
    shownWhen: when("pot.shape", "tapered", "jar", "cylinder"),
  }),
  number("pot.rimAboveSoil", "Rim above the soil", {
    measure: "length",
    min: -10,
    max: 20,
    step: { metric: 0.5, us: 0.25 },
  }),
];

/** Offered where a fault is tried out: a stopper that leaks. */
export const plugControls: Control[] = [
  number("pot.drainHoleDiameter", "Drain hole diameter", {
    measure: "length",
    min: 0,
    max: 15,
    step: { metric: 0.1, us: 0.05 },
  }),
  number("pot.plugLeak", "Loss through a leaking plug", {
    measure: "flow",
    min: 0,
    max: 20,
    step: { metric: 0.1, us: 0.05 },
  }),
];

const wallRange = walls().ranges.conductivity;

export const wallControls: Control[] = [
  number("pot.wallThickness", "Wall thickness", {
    measure: "length",
    min: 0.3,
    max: 5,
    step: { metric: 0.1, us: 0.05 },
  }),
  number("pot.wallConductivity", "Wall conductivity", {
    measure: "conductivity",
    min: 0.005,
    max: 1,
    step: { metric: 0.005, us: 0.002 },
    help(units) {
      const unit = unitOf("conductivity", units);
      const least = rounded(fromModel(wallRange.min, "conductivity", units), unit);
      return `Measured walls pass ${least} to ${format(wallRange.max, "conductivity", units)}; pots that look alike differ threefold.`;
    },
  }),
];

export const startControls: Control[] = [
  number("startSuctionKPa", "Suction of the soil at the start", {
    measure: "kPa",
    min: 5,
    max: 1500,
    step: fine(5),
    help: () => "10 is moist, 100 rather dry, 1500 dust-dry to most plants.",
  }),
];

export const fillingControls: Control[] = [
  choice("filling.kind", "How the pot is kept filled", {
    style: "radio",
    options: [
      { value: "every", label: "every few days" },
      { value: "float", label: "always full (float)" },
      { value: "once", label: "once" },
    ],
  }),
  number("filling.days", "Days between refills", {
    measure: "days",
    min: 0.25,
    max: 30,
    step: fine(0.25),
    shownWhen: when("filling.kind", "every"),
  }),
];

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
    options: named(
      crops()
        .rows.filter(({ easyWaterHead }) => easyWaterHead !== null)
        .map(({ name }) => name),
    ),
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

export const horizonControls: Control[] = [
  number("days", "Days to look ahead", { measure: "days", min: 1, max: 60, step: fine(1) }),
];

/** Everything of the plan that the form holds. */
export const planControls: Control[] = [
  ...soilControls,
  ...uncertaintyControls,
  ...potControls,
  ...plugControls,
  ...wallControls,
  ...horizonControls,
  ...startControls,
  ...fillingControls,
  ...cropControls,
  ...sowingControls,
  ...sowingDayControls.filter(({ field }) => field !== "sowWhen"),
];

/** Where a form starts before anything is known of the bed: cm, days, kPa. Not a bed of anyone's. */
export const emptyForm: Settings = {
  "soil.kind": "class",
  "soil.name": "loam",
  "soil.sand": 40,
  "soil.silt": 40,
  "soil.clay": 20,
  "soil.uncertainty": TEXTURE_SD,
  "soil.sandHeight": 4,
  "soil.siltHeight": 4,
  "soil.clayHeight": 2,
  ...parametersOf("loam"),
  "pot.shape": "tapered",
  ...measuresOf(potRows.find(({ shape }) => shape === "jar")),
  ...measuresOf(potRows.find(({ shape }) => shape === "tapered")),
  "pot.diameter": 20,
  "pot.rimAboveSoil": 2,
  "pot.plugLeak": 0,
  "pot.wallThickness": walls().ranges.thickness.default,
  "pot.wallConductivity": wallRange.default,
  startSuctionKPa: 100,
  "filling.kind": "every",
  "filling.days": 3,
  days: 14,
  "crop.kind": "listed",
  "crop.name": "lettuce",
  "crop.easyWaterSuctionKPa": 40,
  "crop.tooWetSuctionKPa": 2.5,
  rootDepth: 20,
  "sowing.kind": "seed",
  ...seedOf("lettuce"),
  "sowing.rootBallDepth": 8,
  "sowing.rootBallRadius": 4,
  "sowing.handWateringDays": 7,
  sowWhen: "first",
  sowingDay: 7,
};

function parametersOf(soil: TextureClass): Settings {
  const { mean } = rowNamed(textureClasses(), soil);
  return Object.fromEntries(Object.entries(mean).map(([name, value]) => [`soil.${name}`, value]));
}
