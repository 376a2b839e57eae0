/** Controls of the pot: its shape and wall, its plug, and how it is kept filled. */
import { format, fromModel, rounded, unitOf } from "../../model/public/units.ts";
import { type PotRow, pots, walls } from "../../reference-data/load.ts";
import { choice, fine, named, number, when } from "./controlMakers.ts";
import type { Control, Settings } from "./controlTypes.ts";

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

/** A pot to start from, in each shape. */
export const startingPot: Settings = {
  "pot.shape": "tapered",
  ...measuresOf(potRows.find(({ shape }) => shape === "jar")),
  ...measuresOf(potRows.find(({ shape }) => shape === "tapered")),
  "pot.diameter": 20,
  "pot.rimAboveSoil": 2,
  "pot.plugLeak": 0,
  "pot.wallThickness": walls().ranges.thickness.default,
  "pot.wallConductivity": wallRange.default,
  "filling.kind": "every",
  "filling.days": 3,
};
