/** The soil of a plan, the mix on top of it, and how moist both are at the start. */
import { rowNamed, textureClasses } from "../../../reference-data/load.ts";
import { PORE_EXPONENT } from "../../soil/poreExponent.ts";
import { LEAST_PORE_SPACE } from "../../soil/poreSpace.ts";
import type { TextureClass } from "../../soil/textureTriangle.ts";
import { choice, length, number, union } from "./row.ts";
import { DEFAULT_MOISTURE, isStartMoisture, START_MOISTURE, type StartMoisture } from "./startMoisture.ts";

/**
 * Standard deviation of sand and of clay, percentage points: what a jar test or a feel of the soil may be off by (our own
 * choice).
 */
const TEXTURE_SD = 5;

const CLASSES = textureClasses().rows.map(({ name }) => name);

const share = (title: string, label: string, start: number) => number(title, "%", [0, 100], { label, step: 1, start });

const layer = (title: string, label: string, start: number) =>
  length(title, [0, 100], { label, slider: [0, 50], step: [0.1, 0.05], start });

const uncertainty = number("uncertainty of sand and clay", "points", [0, 20], {
  default: TEXTURE_SD,
  unit: "percentage points",
  label: "Sand and clay may be off by",
  help: "Percentage points, one standard deviation: 5 for a jar test or a feel of the soil (our own choice), less for a laboratory.",
  step: 1,
});

/** A soil's own parameters, cm and day in both unit systems; `of` tells one soil of a plan from the other. */
function parameters(of: string, like: TextureClass) {
  const { thetaR, thetaS, alpha, n, Ks } = rowNamed(textureClasses(), like).mean;
  return {
    thetaR: number(
      `residual water content thetaR${of}`,
      "",
      { min: 0, below: 1 },
      {
        label: "Holding water: residual water content",
        slider: [0, 0.3],
        step: 0.005,
        start: thetaR,
      },
    ),
    thetaS: number(`saturated water content thetaS${of}`, "", [LEAST_PORE_SPACE, 1], {
      label: "Holding water: saturated water content",
      slider: [0.2, 0.8],
      step: 0.01,
      start: thetaS,
    }),
    alpha: number(`alpha${of}`, "1/cm", [1e-4, 1], {
      label: "Holding water: alpha",
      slider: [0.001, 0.3],
      step: 0.001,
      start: alpha,
    }),
    n: number(`n${of}`, "", [1.05, 4], { label: "Holding water: n", step: 0.01, start: n }),
    Ks: number(`saturated conductivity Ks${of}`, "cm/day", [1e-4, 1e5], {
      label: "Passing water: saturated conductivity",
      slider: [0.1, 2000],
      step: 0.1,
      start: Ks,
    }),
    l: number(`l${of}`, "", PORE_EXPONENT, {
      default: 0.5,
      label: "Passing water: pore exponent l",
      slider: [-2, 2],
      step: 0.1,
    }),
  };
}

/** Which soil, in the four ways in which a person may know it. */
export const soilRow = union(
  "soil",
  "kind",
  {
    class: { name: choice("soil", CLASSES, { style: "select", start: "loam" }) },
    texture: {
      sand: share("sand", "Sand", 40),
      silt: share("silt", "Silt", 40),
      clay: share("clay", "Clay", 20),
      uncertainty,
    },
    jar: {
      sandHeight: layer("sand layer in the jar", "Sand layer in the jar", 4),
      siltHeight: layer("silt layer in the jar", "Silt layer in the jar", 4),
      clayHeight: layer("clay layer in the jar", "Clay layer in the jar", 2),
      uncertainty,
    },
    own: parameters("", "loam"),
  },
  {
    bearsOn: ["soil"],
    label: "How the soil is known",
    style: "select",
    labels: {
      class: "by its name",
      texture: "by sand, silt and clay",
      jar: "by a jar test",
      own: "by its own parameters",
    },
    wholes: {
      texture: { title: "sum of sand, silt and clay", measure: "%" },
      jar: { title: "height of soil in the jar", measure: "length" },
    },
    start: "class",
  },
);

const mixDepth = length("depth of the bed mix", [5, 100], {
  label: "Depth of the mix",
  slider: [6, 100],
  step: [1, 0.5],
  start: 30,
});

/** A layer of another soil on top of the bed's own. */
export const bedMixRow = union(
  "bed mix",
  "kind",
  {
    none: {},
    class: {
      name: choice("bed mix", CLASSES, { label: "Mix", style: "select", start: "sandy loam" }),
      depth: mixDepth,
    },
    own: { ...parameters(" of the bed mix", "sandy loam"), depth: mixDepth },
  },
  {
    default: { kind: "none" },
    bearsOn: ["bedMix"],
    label: "Bed mix over native soil",
    style: "select",
    labels: { none: "none", class: "by its name", own: "by its own parameters" },
  },
);

const BY_SUCTION = { value: "own", label: "by its suction" };

/** In words, or by a suction: a plan gives one of the two at most. */
export const startRows = {
  startMoisture: choice("moisture at the start", Object.keys(START_MOISTURE) as StartMoisture[], {
    optional: true,
    bearsOn: ["startHead"],
    label: "Soil at the start",
    style: "select",
    labels: { ...Object.fromEntries(Object.keys(START_MOISTURE).map((word) => [word, word])), own: BY_SUCTION.label },
    start: DEFAULT_MOISTURE,
    fills: (word) => (isStartMoisture(word) ? { startSuctionKPa: START_MOISTURE[word] } : {}),
  }),
  startSuctionKPa: number("suction at the start", "kPa", [1, 10_000], {
    optional: true,
    bearsOn: ["startHead"],
    label: "Suction of the soil at the start",
    help: "10 is just rained on, 50 moist, 500 dry to the touch, 1500 bone dry.",
    slider: [5, 1500],
    step: 5,
    start: START_MOISTURE[DEFAULT_MOISTURE],
    way: {
      path: "startMoisture",
      label: "Soil at the start",
      given: BY_SUCTION,
      leftOut: { value: DEFAULT_MOISTURE, label: DEFAULT_MOISTURE },
    },
  }),
};
