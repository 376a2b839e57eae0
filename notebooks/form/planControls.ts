/** The controls of everything in the plan that a notebook may offer, by path in the plan; all notebooks share them. */
import { outlineControls, placingControls, startingBed } from "./bedControls.ts";
import { fine, number } from "./controlMakers.ts";
import type { Control, Settings } from "./controlTypes.ts";
import { cropControls, growthControls, sowingControls, sowingDayControls, startingCrop } from "./cropControls.ts";
import { endControls, mainControls, startingLine, tubeControls } from "./lineControls.ts";
import { bedMixControls, carryingControls, groundControls, startingLife, wholeYearControls } from "./livingControls.ts";
import { fillingControls, plugControls, potControls, startingPot, wallControls } from "./potControls.ts";
import { soilControls, startControls, startingSoil, uncertaintyControls } from "./soilControls.ts";
import {
  outletHeightControls,
  plantingControls,
  roofControls,
  runoffControls,
  startingSupply,
  tankBodyControls,
  tankControls,
} from "./supplyControls.ts";

export const horizonControls: Control[] = [
  number("days", "Days to look ahead", { measure: "days", min: 1, max: 60, step: fine(1) }),
];

/** Choices between two ways of saying a thing, which the plan itself does not hold. */
const WAYS = ["sowWhen", "edgeHow", "placesHow", "airHow", "tubeEndHow"];

/** Everything of the plan that the form holds. */
export const planControls: Control[] = [
  ...soilControls,
  ...uncertaintyControls,
  ...bedMixControls,
  ...potControls,
  ...plugControls,
  ...wallControls,
  ...horizonControls,
  ...startControls,
  ...fillingControls,
  ...cropControls,
  ...growthControls,
  ...sowingControls,
  ...sowingDayControls,
  ...wholeYearControls,
  ...groundControls,
  ...carryingControls,
  ...outlineControls,
  ...placingControls,
  ...plantingControls,
  ...roofControls,
  ...runoffControls,
  ...tankControls,
  ...tankBodyControls,
  ...outletHeightControls,
  ...tubeControls,
  ...mainControls,
  ...endControls,
].filter(({ field }) => !WAYS.includes(field));

/** Where a form starts before anything is known of the bed, in the model's units. Not a bed of anyone's. */
export const emptyForm: Settings = {
  ...startingSoil,
  ...startingPot,
  ...startingCrop,
  ...startingLife,
  ...startingBed,
  ...startingSupply,
  ...startingLine,
  days: 14,
};
