import { randomNormal } from "d3-random";
import { rowNamed, type SoilDistributionRow, soilDistributions, textureClasses } from "../../reference-data/load.ts";
import type { Uniform } from "../random/randomStreams.ts";
import { type Texture, type TextureClass, textureClass } from "../soil/textureTriangle.ts";
import { drawWithin } from "../soil/transformedNormal.ts";
import type { VanGenuchtenParameters } from "../soil/vanGenuchten.ts";
import { HOURS_PER_DAY } from "../units/factors.ts";

/**
 * What soils are drawn from: all that bear a class's name, or those around a point of the texture triangle, whose sand
 * and clay are uncertain by a standard deviation of `sd` percentage points.
 */
export type SoilSpread = { kind: "class"; name: TextureClass } | { kind: "texture"; texture: Texture; sd: number };

/** A drawn soil is one that a plan may hold: the lower limits of its own parameters there, cm/day and without unit. */
const LEAST = { Ks: 1e-4, n: 1.05 };

/** Where the random numbers come from: a stream each, so that one group's draws do not move another's. */
export interface SoilStreams {
  texture: Uniform;
  conductivity: Uniform;
  retention: Uniform;
}

export interface DrawnSoil {
  className: TextureClass;
  parameters: VanGenuchtenParameters;
}

/**
 * Gives one drawn soil after another. A parameter beyond its limits is drawn again, and so is a texture outside the
 * triangle. Parameters are drawn independently: the published correlations are not at hand. In nature a class's coarser
 * soils have high Ks, alpha and n together, so that unlikely pairs occur among ours, and soils that are coarse or fine in
 * everything are too few: the band may come out too narrow where these effects add up, too wide where they cancel.
 */
export function soilDrawer(spread: SoilSpread, streams: SoilStreams): () => DrawnSoil {
  const normalOf = (uniform: Uniform) => randomNormal.source(uniform)();
  const texture = normalOf(streams.texture);
  const conductivity = normalOf(streams.conductivity);
  const retention = normalOf(streams.retention);
  const [distributions, classes] = [soilDistributions(), textureClasses()];
  return () => {
    const className = spread.kind === "class" ? spread.name : textureClass(drawTexture(spread, texture));
    const row = rowNamed(distributions, className);
    const { l } = rowNamed(classes, className).mean;
    return { className, parameters: { ...drawRetention(row, retention), Ks: drawKs(row, conductivity), l } };
  };
}

type Normal = () => number;

function drawTexture({ texture, sd }: Extract<SoilSpread, { kind: "texture" }>, normal: Normal): Texture {
  for (;;) {
    const sand = texture.sand + sd * normal();
    const clay = texture.clay + sd * normal();
    if (sand >= 0 && clay >= 0 && sand + clay <= 100) return { sand, silt: 100 - sand - clay, clay };
  }
}

function drawRetention({ thetaR, thetaS, alpha, n }: SoilDistributionRow, normal: Normal) {
  return {
    thetaR: drawWithin(thetaR, normal),
    thetaS: drawWithin(thetaS, normal),
    alpha: drawWithin(alpha, normal),
    n: drawWithin(n, normal, LEAST.n),
  };
}

function drawKs({ KsCmPerHour }: SoilDistributionRow, normal: Normal): number {
  return HOURS_PER_DAY * drawWithin(KsCmPerHour, normal, LEAST.Ks / HOURS_PER_DAY);
}
