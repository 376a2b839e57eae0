/** The three soils for which every answer is shown, side by side. */
import type { Plan } from "../../model/public/plan.ts";
import { rowNamed, textureClasses } from "../../reference-data/load.ts";

export const comparedSoils = ["sand", "loam", "clay"] as const;

export type ComparedSoil = (typeof comparedSoils)[number];

export const meanOf = (name: ComparedSoil) => rowNamed(textureClasses(), name).mean;

/** Whether the person's own ground is one of the three: a mix on top makes it another. */
export const isCompared = ({ soil, bedMix }: Plan): boolean =>
  bedMix === null && comparedSoils.some((name) => name === soil.className);

/** Without its bed mix. */
export const evenGround = (plan: Plan): Plan => ({ ...plan, bedMix: null });

/** The same plan in even ground of one of the three soils. */
export const inSoil = (plan: Plan, className: ComparedSoil): Plan => ({
  ...evenGround(plan),
  soil: { className, texture: null, parameters: meanOf(className) },
});

export const inEach = <T>(make: (name: ComparedSoil) => T) =>
  Object.fromEntries(comparedSoils.map((name) => [name, make(name)])) as Record<ComparedSoil, T>;
