/** The three soils that every answer is told for, side by side. */
import type { Plan } from "../../model/index.ts";
import { rowNamed, textureClasses } from "../../reference-data/load.ts";

export const comparedSoils = ["sand", "loam", "clay"] as const;

export type ComparedSoil = (typeof comparedSoils)[number];

export const meanOf = (name: ComparedSoil) => rowNamed(textureClasses(), name).mean;

/** Whether the person's own soil is one of the three. */
export const isCompared = ({ soil }: Plan): boolean => comparedSoils.some((name) => name === soil.className);

export const inEach = <T>(make: (name: ComparedSoil) => T) =>
  Object.fromEntries(comparedSoils.map((name) => [name, make(name)])) as Record<ComparedSoil, T>;
