import { type CropRow, crops } from "../../../reference-data/load.ts";

/**
 * What a crop of one's own has unless told otherwise, and a listed one where its table has no value; cm, days. Crop
 * coefficients: Allen et al. (1998), Table 12, small vegetables; tooWetHead and wiltingHead: Feddes et al. (1978), h2 and
 * h4 of vegetables; the rest is our own choice.
 */
export const CROP_DEFAULTS = {
  Kc: { initial: 0.7, mid: 1.05, end: 0.95 },
  p: 0.4,
  daysToFullSize: 60,
  height: 40,
  deepestRoots: 60,
  tooWetHead: -25,
  wiltingHead: -8000,
};

/** The crops that a person may choose by name: those of which it is known when they start to suffer. */
export function knownCrops(): CropRow[] {
  return crops().rows.filter(({ easyWaterHead, easyWaterLike }) => easyWaterHead ?? easyWaterLike);
}
