import { byAge, type StageDays } from "./growthStages.ts";

/** What a crop's water use is reckoned from: FAO-56, Tables 11 (stages, days) and 12 (Kc, height). */
export interface CropGrowth {
  Kc: { initial: number; mid: number; end: number };
  stageDays: StageDays;
  heightMetres: number;
}

/** Multiples of the reference evapotranspiration ETo, and the share of the ground under leaves. */
export interface DualCoefficients {
  /** What the plants drink when they lack nothing. */
  Kcb: number;
  /** What bare, wet soil among them gives off; dry soil gives less, which is for a flow model to find. */
  Ke: number;
  /** 0 to 1. */
  cover: number;
}

/** Kc of dry bare soil, Kc_min, and of plants that hardly cover any of it; FAO-56, eq. 76 and Table 17. */
const LEAST_KC = 0.15;

/**
 * How plants of an age in days share ETo out between leaves and soil (the dual crop coefficient of FAO-56, ch. 7), in the
 * standard climate: least humidity 45 %, wind 2 m/s. At 25 % and 3 m/s FAO-56's eqs. 62 and 72 would add 0.06 for plants
 * 0.3 m tall and 0.10 for maize, 5 to 10 %.
 */
export function dualCoefficients(crop: CropGrowth, age: number): DualCoefficients {
  const Kcb = basalCoefficient(crop, age);
  const cover = groundCover(Kcb, crop.heightMetres);
  return { Kcb, Ke: soilCoefficient(Kcb, cover), cover };
}

/** Kc, leaves and a commonly watered soil together, at an age in days; FAO-56, eq. 66. */
export function cropCoefficient({ Kc, stageDays }: CropGrowth, age: number): number {
  return byAge(Kc, stageDays, age);
}

/**
 * Kcb, of the leaves alone, at an age in days, by the guideline of FAO-56, Table 18 (from memory): 0.15 in the initial
 * stage, then Kc less 0.05. The source takes 0.10 where less than four fifths of the ground is covered, and its own list
 * (Table 17) is 0.05 to 0.10 below Kc: this is the thirstier end.
 */
export function basalCoefficient({ Kc, stageDays }: CropGrowth, age: number): number {
  const basal = (value: number) => Math.max(LEAST_KC, value - 0.05);
  return byAge({ initial: LEAST_KC, mid: basal(Kc.mid), end: basal(Kc.end) }, stageDays, age);
}

/** Kc_max, the most that leaves and wet soil give off together: max(1.2, Kcb + 0.05); FAO-56, eq. 72, standard climate. */
export function greatestCoefficient(Kcb: number): number {
  return Math.max(1.2, Kcb + 0.05);
}

/**
 * Share of the ground under leaves, fc = ((Kcb − Kc_min)/(Kc_max − Kc_min))^(1 + 0.5h), h in m; FAO-56, eq. 76. It falls
 * while plants ripen though leaves may still hang: the source means that, for dry leaves heat the soil below. The height
 * is the full-grown crop's at every age (own choice: a height that grows with the cover would raise the fc of young maize
 * by up to 0.11, and of lower crops by less).
 */
export function groundCover(Kcb: number, heightMetres: number): number {
  const share = (Kcb - LEAST_KC) / (greatestCoefficient(Kcb) - LEAST_KC);
  return Math.max(0, share) ** (1 + 0.5 * heightMetres);
}

/**
 * Ke of open soil that is wet all over, Ke = min(Kc_max − Kcb, (1 − fc) Kc_max); FAO-56, eqs. 71 and 75 with Kr = 1 and
 * fw = 1, since the soil's own flow, and not a reduction coefficient, limits what drying soil gives.
 */
export function soilCoefficient(Kcb: number, cover: number): number {
  const KcMax = greatestCoefficient(Kcb);
  return Math.min(KcMax - Kcb, (1 - cover) * KcMax);
}
