/** Controls of the soil: what it is, and how dry it starts. */
import type { TextureClass } from "../../model/index.ts";
import { TEXTURE_SD } from "../../model/index.ts";
import { rowNamed, textureClasses } from "../../reference-data/load.ts";
import { choice, fine, named, number, when } from "./controlMakers.ts";
import type { Control, Settings } from "./controlTypes.ts";

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

export const startControls: Control[] = [
  number("startSuctionKPa", "Suction of the soil at the start", {
    measure: "kPa",
    min: 5,
    max: 1500,
    step: fine(5),
    help: () => "10 is moist, 100 rather dry, 1500 dust-dry to most plants.",
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
  ...parametersOf("loam"),
  startSuctionKPa: 100,
};

function parametersOf(soil: TextureClass): Settings {
  const { mean } = rowNamed(textureClasses(), soil);
  return Object.fromEntries(Object.entries(mean).map(([name, value]) => [`soil.${name}`, value]));
}
