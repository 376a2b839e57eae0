/** The plan: what a person types, checked and resolved, and the plain facts it rests on (calendar, weather, bed, plants). */

export { densestCount, type Layout, layOutPots } from "../bed/layout.ts";
export { nearestAllowed } from "../bed/nearestAllowed.ts";
export {
  type BedOutline,
  type Bounds,
  bedArea,
  bedBounds,
  bedCorners,
  centreOf,
  distanceBetween,
  distanceInside,
  type Place,
} from "../bed/outline.ts";
export { cornerName, type OutlineTrouble, outlineTroubles } from "../bed/outlineTroubles.ts";
export { type PlaceLimits, type PlaceTrouble, placeTroubles } from "../bed/placeTroubles.ts";
export { type Planting, plantPlaces } from "../bed/planting.ts";
export { equalCircle, farthestGround, groundPerPot, POT_GRIDS, type PotGrid } from "../bed/potGrid.ts";
export { type Pegs, pegsOf, placeOfStrings, type StringLine, stringError, stringLines } from "../bed/strings.ts";
export { wettedShare } from "../bed/wetted.ts";
export { MONTHS, type Month } from "../calendar/months.ts";
export {
  DAYS_OF_YEAR,
  dayOfMonth,
  dayOfYear,
  daysOfMonth,
  daysUntil,
  laterDay,
  middleDay,
  monthOfDay,
} from "../calendar/yearDays.ts";
export {
  type Checked,
  type Fault,
  fault,
  faultLines,
  figures,
  nearest,
  readJson,
  soundValue,
} from "../input/faults.ts";
export { entry, first, last, present } from "../input/lists.ts";
export { type Plan, readPlan, resolvePlan, serializePlan } from "../plan/plan.ts";
export { atSpacing, type BedPlan, type PlacedPots, potPlacesOf, widestRadius } from "../plan/planBed.ts";
export { listedCrop, type PlanCrop } from "../plan/planCrop.ts";
export type { BedMix, LivingBed, Weather } from "../plan/planLiving.ts";
export { usableShare } from "../plan/planSupply.ts";
export { monthName } from "../plan/typed/livingRows.ts";
export { PLAN_INPUTS } from "../plan/typed/planInputs.ts";
export { type PlanInput, planSchema } from "../plan/typed/planSchema.ts";
export type { ChoiceRow, ListRow, NumberRow, Row, Settings, Way } from "../plan/typed/row.ts";
export type { Condition, Input } from "../plan/typed/rowWalk.ts";
export { daysUntilStress, depletionShare, readilyAvailableMm, totalAvailableMm } from "../plants/depletion.ts";
export { NAMED_STAGES, type NamedStage } from "../plants/growthStages.ts";
export type { DayWeather } from "../weather/dayWeather.ts";
export { weatherYears } from "../weather/generator.ts";
export type { MonthMeans, MonthWeather } from "../weather/monthTable.ts";
