/** What differs from bed to bed: its words, what measures it, and the numbers that were drawn for it. */

import type { Member, MemberGroup } from "../../../model/public/ensemble.ts";
import { first, type Plan } from "../../../model/public/plan.ts";
import { fromModel, suctionKPa, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import { rowNamed, soilDistributions, sourceOf, walls } from "../../../reference-data/load.ts";

/** One drawn number. */
export interface Input {
  name: string;
  unit(units: UnitSystem): string;
  value(member: Member, plan: Plan, units: UnitSystem): number;
  isLog?: boolean;
  source(plan: Plan): Origin;
}

/** Where the spread of a number comes from. */
export interface Origin {
  words: string;
  flag: string;
}

export interface GroupWords {
  /** Ends "much of the spread comes from …", and begins a sentence. */
  what: string;
  /** What to do about it, as one does it. */
  measure: string;
  /** How that is done. */
  how: string;
  /** In the order of `memberColumns`. */
  inputs: readonly Input[];
}

type Column = "KsCmPerHour" | "thetaR" | "thetaS" | "alpha" | "n";

function soilSource(column: Column) {
  return ({ soil: { className } }: Plan): Origin => {
    if (className === null) return { words: "Your own values, not varied.", flag: "not varied" };
    const { citation, flag } = sourceOf(soilDistributions(), rowNamed(soilDistributions(), className), column);
    return { words: citation, flag };
  };
}

const holding = (column: "thetaR" | "thetaS" | "alpha" | "n", name: string, unit: string): Input => ({
  name,
  unit: () => unit,
  value: ({ soil }) => soil[column],
  isLog: column === "alpha",
  source: soilSource(column),
});

export const groupWords: Readonly<Record<MemberGroup, GroupWords>> = {
  conductivity: {
    what: "how fast the soil passes water",
    measure: "time water sinking into the soil",
    how: "How fast the soil passes water: press an open ring or a wide can without its bottom a few centimetres (an inch or two) into bare soil, soak the place first, pour in a measured depth of water and time it until it has gone; repeat until the time stays the same. Depth over time is then near the soaked conductivity, and somewhat above it, as water also spreads sideways.",
    inputs: [
      {
        name: "soaked conductivity Ks",
        unit: (units) => unitOf("conductivity", units),
        value: ({ soil }, _plan, units) => fromModel(soil.Ks, "conductivity", units),
        isLog: true,
        source: soilSource("KsCmPerHour"),
      },
    ],
  },
  retention: {
    what: "how the soil holds water",
    measure: "settle the soil in a jar of water to see its sand, silt and clay",
    how: "How the soil holds water: no garden test gives the curve itself. A jar test (shake soil in water, let it settle, measure the layers of sand, silt and clay) or a laboratory’s texture narrows it; a laboratory’s retention curve settles it.",
    inputs: [
      holding("thetaR", "driest water content θr", "cm³/cm³"),
      holding("thetaS", "soaked water content θs", "cm³/cm³"),
      holding("alpha", "early emptying α", "1/cm"),
      holding("n", "evenness of pores n", "–"),
    ],
  },
  wall: {
    what: "how the pot’s wall passes water",
    measure: "time the water level falling in a soaked pot",
    how: "How the pot’s wall passes water: soak the pot for a day, fill it, keep its outside wet, and time how far the level falls. Of several pots that look alike, test each.",
    inputs: [
      {
        name: "wall conductivity",
        unit: (units) => unitOf("conductivity", units),
        value: ({ wallFactor }, { pot }, units) => fromModel(wallFactor * pot.wallConductivity, "conductivity", units),
        isLog: true,
        source: () => ({
          words: "Even in the logarithm over what measured walls pass for their thickness.",
          flag: first(walls().sources).flag,
        }),
      },
    ],
  },
  start: {
    what: "how moist the soil is at the start",
    measure: "feel how moist the soil is before the first filling",
    how: "How moist the soil is at the start: dig to the depth of most roots before the first filling and feel the soil, or read a tensiometer there, which tells suctions up to about 80 kPa.",
    inputs: [
      {
        name: "suction at the start",
        unit: () => "kPa",
        value: ({ startHead }) => suctionKPa(startHead),
        isLog: true,
        source: () => ({
          words: "Even in the logarithm, from a third of yours to three times.",
          flag: "own choice",
        }),
      },
    ],
  },
  pot: {
    what: "the size of the pot",
    measure: "measure the pot with a ruler",
    how: "The size of the pot: measure it with a ruler, outside and inside. It is also the one thing here that is yours to choose.",
    inputs: [
      {
        name: "pot height",
        unit: (units) => unitOf("length", units),
        value: ({ potScale }, { pot }, units) => fromModel(potScale * (pot.outerDepth - pot.rimDepth), "length", units),
        source: () => ({
          words: "Even in the logarithm: every length but the wall’s thickness, about a size up or down.",
          flag: "own choice",
        }),
      },
    ],
  },
};
