import { first } from "../input/lists.ts";

/** Shares of the fine earth by weight, %, together 100. */
export interface Texture {
  sand: number;
  silt: number;
  clay: number;
}

export const TEXTURE_CLASSES = [
  "sand",
  "loamy sand",
  "sandy loam",
  "loam",
  "silt",
  "silt loam",
  "sandy clay loam",
  "clay loam",
  "silty clay loam",
  "sandy clay",
  "silty clay",
  "clay",
] as const;

export type TextureClass = (typeof TEXTURE_CLASSES)[number];

/** The class limits of the USDA triangle (Soil Survey Manual, USDA Handbook 18, ch. 3); exactly one rule holds. */
const RULES: Record<TextureClass, (texture: Texture) => boolean> = {
  sand: ({ silt, clay }) => silt + 1.5 * clay < 15,
  "loamy sand": ({ silt, clay }) => silt + 1.5 * clay >= 15 && silt + 2 * clay < 30,
  "sandy loam": ({ sand, silt, clay }) =>
    silt + 2 * clay >= 30 && ((clay >= 7 && clay < 20 && sand > 52) || (clay < 7 && silt < 50)),
  loam: ({ sand, silt, clay }) => clay >= 7 && clay < 27 && silt >= 28 && silt < 50 && sand <= 52,
  silt: ({ silt, clay }) => silt >= 80 && clay < 12,
  "silt loam": ({ silt, clay }) => silt >= 50 && clay < 27 && (clay >= 12 || silt < 80),
  "sandy clay loam": ({ sand, silt, clay }) => clay >= 20 && clay < 35 && silt < 28 && sand > 45,
  "clay loam": ({ sand, clay }) => clay >= 27 && clay < 40 && sand > 20 && sand <= 45,
  "silty clay loam": ({ sand, clay }) => clay >= 27 && clay < 40 && sand <= 20,
  "sandy clay": ({ sand, clay }) => clay >= 35 && sand > 45,
  "silty clay": ({ silt, clay }) => clay >= 40 && silt >= 40,
  clay: ({ sand, silt, clay }) => clay >= 40 && sand <= 45 && silt < 40,
};

/** Every class whose rule a texture meets: one for a texture that adds up to 100 %. */
export function matchingClasses(texture: Texture): TextureClass[] {
  return TEXTURE_CLASSES.filter((name) => RULES[name](texture));
}

/** The USDA texture class of a soil; a RangeError where a share is negative or they miss 100 % by over 0.01 %. */
export function textureClass({ sand, silt, clay }: Texture): TextureClass {
  if (Math.min(sand, silt, clay) < 0 || !(Math.abs(sand + silt + clay - 100) <= 0.01)) {
    throw new RangeError(`sand ${sand} %, silt ${silt} %, clay ${clay} % must each be 0 to 100 and add up to 100`);
  }
  // Sand as the rest, so that rounded shares cannot fall between two rules.
  return first(matchingClasses({ sand: 100 - silt - clay, silt, clay }));
}
