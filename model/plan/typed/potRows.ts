/** The pot of a plan, its wall and plug, and how it is kept filled. */
import { pots, walls } from "../../../reference-data/load.ts";
import { format, rounded } from "../../units/format.ts";
import { fromModel, type UnitSystem, unitOf } from "../../units/units.ts";
import { days, length, list, number, union } from "./row.ts";

const { thickness, conductivity } = walls().ranges;

/** Where a form starts: the first common pot of each shape, cm. */
function firstPot<S extends "tapered" | "jar">(shape: S) {
  const pot = pots().rows.find((row): row is Extract<typeof row, { shape: S }> => row.shape === shape);
  if (!pot) throw new Error(`no common pot is ${shape}`);
  return pot;
}
const [TAPERED, JAR] = [firstPot("tapered"), firstPot("jar")];

const STEP = [0.5, 0.25] as const;

const diameter = (title: string, label: string, start: number) =>
  length(title, [2, 200], { label, slider: [6, 80], step: STEP, start });

const height = length("pot height", [2, 150], {
  slider: [6, 80],
  step: STEP,
  start: TAPERED.height,
});
const baseDiameter = diameter("base diameter", "Base diameter", TAPERED.baseDiameter);

const anyPot = {
  wallThickness: length("pot wall", [0.2, 20], {
    default: thickness.default,
    label: "Wall thickness",
    slider: [0.3, 5],
    step: [0.1, 0.05],
  }),
  wallConductivity: number("wall conductivity", "conductivity", [1e-4, 10], {
    default: conductivity.default,
    help: measuredWalls,
    slider: [0.005, 1],
    step: [0.005, 0.002],
  }),
  rimAboveSoil: length("height of the rim above the soil", [-100, 100], {
    default: 2,
    label: "Rim above the soil",
    slider: [-10, 20],
    step: STEP,
  }),
  drainHoleDiameter: length("drain hole diameter", [0, 20], {
    default: 0,
    slider: [0, 15],
    step: [0.1, 0.05],
    bearsOn: ["drainHoleDiameter"],
  }),
  plugLeak: number("plug leak", "flow", [0, 100], {
    default: 0,
    label: "Loss through a leaking plug",
    slider: [0, 20],
    step: [0.1, 0.05],
  }),
};

function measuredWalls(units: UnitSystem): string {
  const least = rounded(fromModel(conductivity.min, "conductivity", units), unitOf("conductivity", units));
  return `Measured walls pass ${least} to ${format(conductivity.max, "conductivity", units)}; pots that look alike differ threefold.`;
}

const profile = list(
  "profile",
  {
    diameter: length("diameter of a profile point", [0, 200], {}),
    belowRim: length("depth of a profile point below the rim", [0, 150], {}),
  },
  {
    description: "a list of 2 to 100 points, from the rim down",
    length: { min: 2, max: 100 },
    noControl: "A profile is measured in many points: it stands with the plan.",
  },
);

const HELD = { title: "water in the full pot", measure: "volume" } as const;

export const potRow = union(
  "pot",
  "shape",
  {
    cylinder: { diameter: diameter("pot diameter", "Pot diameter", 20), height, ...anyPot },
    tapered: {
      rimDiameter: diameter("rim diameter", "Rim diameter", TAPERED.rimDiameter),
      baseDiameter,
      height,
      ...anyPot,
    },
    jar: {
      neckDiameter: diameter("neck diameter", "Neck diameter", JAR.neckDiameter),
      bellyDiameter: diameter("belly diameter", "Belly diameter", JAR.bellyDiameter),
      bellyBelowRim: length("depth of the belly below the rim", [0.5, 150], {
        label: "Belly below the rim",
        slider: [1, 60],
        step: STEP,
        start: JAR.bellyBelowRim,
      }),
      baseDiameter,
      height,
      ...anyPot,
    },
    profile: { points: profile, ...anyPot },
  },
  {
    bearsOn: ["pot"],
    label: "Shape",
    style: "radio",
    labels: { tapered: "flower pot", jar: "round jar", cylinder: "straight" },
    wholes: { cylinder: HELD, tapered: HELD, jar: HELD, profile: HELD },
    start: "tapered",
  },
);

export const fillingRow = union(
  "filling",
  "kind",
  {
    float: {},
    every: {
      days: days("days between refills", [0.25, 60], {
        slider: [0.25, 30],
        step: 0.25,
        start: 3,
      }),
    },
    once: {},
  },
  {
    default: { kind: "every", days: 3 },
    bearsOn: ["filling"],
    label: "How the pot is kept filled",
    style: "radio",
    labels: { every: "every few days", float: "always full (float)", once: "once" },
  },
);
