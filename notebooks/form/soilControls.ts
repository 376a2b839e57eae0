/** Controls of the soil: what it is, and how dry it starts. */

import type { TextureClass } from "../../model/public/flow.ts";
import { DEFAULT_MOISTURE, isStartMoisture, START_MOISTURE, TEXTURE_SD } from "../../model/public/plan.ts";
import { rowNamed, textureClasses } from "../../reference-data/load.ts";
import { choice, fine, named, number, when } from "./controlMakers.ts";
import type { Control, Settings } from "./controlTypes.ts";
import type { PlainUnit } from "./measures.ts";

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

/** The parameters of a soil of one's own; `group` is where they stand in the plan. */
export function parameterControls(group: "soil" | "bedMix"): Control[] {
  const shownWhen = when(`${group}.kind`, "own");
  const parameter = (
    name: string,
    label: string,
    measure: PlainUnit,
    range: { min: number; max: number; step: number },
  ) => number(`${group}.${name}`, label, { measure, ...range, step: fine(range.step), shownWhen });
  return [
    parameter("thetaR", "Holding water: residual water content", "", { min: 0, max: 0.3, step: 0.005 }),
    parameter("thetaS", "Holding water: saturated water content", "", { min: 0.2, max: 0.8, step: 0.01 }),
    parameter("alpha", "Holding water: alpha", "1/cm", { min: 0.001, max: 0.3, step: 0.001 }),
    parameter("n", "Holding water: n", "", { min: 1.05, max: 4, step: 0.01 }),
    parameter("Ks", "Passing water: saturated conductivity", "cm/day", { min: 0.1, max: 2000, step: 0.1 }),
    parameter("l", "Passing water: pore exponent l", "", { min: -2, max: 2, step: 0.1 }),
  ];
}

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
  ...parameterControls("soil"),
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

/** How moist the bed starts: in words, or by a suction. */
export const startControls: Control[] = [
  choice("startMoisture", "Soil at the start", {
    style: "select",
    options: [...named(Object.keys(START_MOISTURE)), { value: "own", label: "by its suction", typed: null }],
    fills: (word) => (isStartMoisture(word) ? { startSuctionKPa: START_MOISTURE[word] } : {}),
  }),
  number("startSuctionKPa", "Suction of the soil at the start", {
    measure: "kPa",
    min: 5,
    max: 1500,
    step: fine(5),
    help: () => "10 is just rained on, 50 moist, 500 dry to the touch, 1500 bone dry.",
    shownWhen: when("startMoisture", "own"),
  }),
];

/** A soil to start from, in each of the ways in which it may be known. */
export const startingSoil: Settings = {
  "soil.kind": "class",
  "soil.name": "loam",
  "soil.sand": 40,
  "soil.silt": 40,
  "soil.clay": 20,
  "soil.uncertainty": TEXTURE_SD,
  "soil.sandHeight": 4,
  "soil.siltHeight": 4,
  "soil.clayHeight": 2,
  ...parametersOf("loam", "soil"),
  startMoisture: DEFAULT_MOISTURE,
  startSuctionKPa: START_MOISTURE[DEFAULT_MOISTURE],
};

export function parametersOf(soil: TextureClass, group: "soil" | "bedMix"): Settings {
  const { mean } = rowNamed(textureClasses(), soil);
  return Object.fromEntries(Object.entries(mean).map(([name, value]) => [`${group}.${name}`, value]));
}
