/** The crop of a plan: what its roots and leaves ask for, listed or a person's own. */

import { type CropRow, crops, easyWaterOf, rowNamed } from "../../reference-data/load.ts";
import type { UptakeLimits } from "../flow/problem.ts";
import { CM_PER_M } from "../units/factors.ts";
import { headOfSuction } from "../units/units.ts";
import { CROP_DEFAULTS } from "./typed/cropDefaults.ts";
import type { CheckedPlan } from "./typed/planSchema.ts";

export interface PlanCrop {
  name: string;
  /** Drier than this the crop starts to suffer. */
  easyWaterHead: number;
  /** Wetter than this its roots lack air. */
  tooWetHead: number;
  /** Water below this depth is lost to it. */
  deepestRoots: number;
  uptake: UptakeLimits;
  /** Crop coefficients. */
  Kc: { initial: number; mid: number; end: number };
  /** From sowing or planting to harvest. */
  stageDays: { initial: number; development: number; mid: number; late: number };
  /** Of the full-grown crop. */
  heightMetres: number;
  /** Share of the available water used before stress, on a day of 5 mm. */
  p: number;
}

export function toCrop(crop: CheckedPlan["crop"]): PlanCrop {
  return crop.kind === "own" ? ownCrop(crop) : listedCrop(rowNamed(crops(), crop.name));
}

/**
 * Of a listed crop's two easy-water suctions the one on a day of high demand (5 mm): the stricter, as in dry air; of its
 * published range of root depths the lesser.
 */
export function listedCrop(row: CropRow): PlanCrop {
  const { name, airlessHead, tooWetHead, wiltingHead, rootDepthMetres, Kc, p, stageDays, heightMetres } = row;
  const h3 = easyWaterOf(row);
  return {
    name,
    easyWaterHead: h3.highDemand,
    tooWetHead,
    deepestRoots: rootDepthMetres === null ? CROP_DEFAULTS.deepestRoots : 100 * rootDepthMetres.min,
    uptake: { h1: airlessHead, h2: tooWetHead, h3, h4: wiltingHead },
    Kc: Kc ?? CROP_DEFAULTS.Kc,
    stageDays: stageDays ?? stagesOf(CROP_DEFAULTS.daysToFullSize),
    heightMetres: heightMetres ?? CROP_DEFAULTS.height / CM_PER_M,
    p: p ?? CROP_DEFAULTS.p,
  };
}

type OwnCrop = Extract<CheckedPlan["crop"], { kind: "own" }>;

function ownCrop(crop: OwnCrop): PlanCrop {
  const uptake = ownUptake(crop);
  return {
    name: crop.name,
    easyWaterHead: uptake.h3.highDemand,
    tooWetHead: uptake.h2,
    deepestRoots: crop.deepestRoots,
    uptake,
    Kc: { initial: crop.cropCoefficientInitial, mid: crop.cropCoefficientMid, end: crop.cropCoefficientEnd },
    stageDays: stagesOf(crop.daysToFullSize),
    heightMetres: crop.height / CM_PER_M,
    p: crop.depletionShare,
  };
}

/** Suction at which no water is taken up over the one at which roots begin to lack air: that of the listed crops, -10 over -25 cm. */
const AIRLESS_SHARE = 0.4;

/** For a crop that suffers only where others wilt, its wilting suction over the one at which it suffers: our own choice. */
const LATE_WILTING = 2;

function ownUptake({ easyWaterSuctionKPa, tooWetSuctionKPa, wiltingSuctionKPa }: OwnCrop): UptakeLimits {
  const [h2, h3] = [headOfSuction(tooWetSuctionKPa), headOfSuction(easyWaterSuctionKPa)];
  const { wiltingHead } = CROP_DEFAULTS;
  const usual = h3 > wiltingHead ? wiltingHead : LATE_WILTING * h3;
  return {
    h1: AIRLESS_SHARE * h2,
    h2,
    h3: { highDemand: h3, lowDemand: h3 },
    h4: wiltingSuctionKPa === undefined ? usual : headOfSuction(wiltingSuctionKPa),
  };
}

/** Our own choice: growth to full size in the shares of most vegetables, then six weeks of harvest and three of decline. */
function stagesOf(daysToFullSize: number): PlanCrop["stageDays"] {
  return { initial: 0.4 * daysToFullSize, development: 0.6 * daysToFullSize, mid: 40, late: 20 };
}
