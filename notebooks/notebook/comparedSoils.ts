/** The three soils for which every answer is shown, side by side. */
import type { PlanPart } from "../../model/public/plan.ts";
import { rowNamed, textureClasses } from "../../reference-data/load.ts";

export const comparedSoils = ["sand", "loam", "clay"] as const;

export type ComparedSoil = (typeof comparedSoils)[number];

export const meanOf = (name: ComparedSoil) => rowNamed(textureClasses(), name).mean;

type Layers = PlanPart<"soil" | "bedMix">;

/** Whether the person's own ground is one of the three: a mix on top makes it another. */
export const isCompared = ({ soil, bedMix }: Layers): boolean =>
  bedMix === null && comparedSoils.some((name) => name === soil.className);

/** Without its bed mix. */
export const evenGround = <P extends Layers>(plan: P): P => ({ ...plan, bedMix: null });

/** The same plan in even ground of one of the three soils. */
export const inSoil = <P extends Layers>(plan: P, className: ComparedSoil): P => ({
  ...evenGround(plan),
  soil: { className, texture: null, parameters: meanOf(className) },
});

export const inEach = <T>(make: (name: ComparedSoil) => T) =>
  Object.fromEntries(comparedSoils.map((name) => [name, make(name)])) as Record<ComparedSoil, T>;
