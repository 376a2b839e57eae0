/** The plan: what a person types, checked and resolved, and the plain facts it rests on (calendar, weather, bed, plants). */

export { layOutPots } from "../bed/layout.ts";
export { nearestAllowed } from "../bed/nearestAllowed.ts";
export {
  type BedOutline,
  bedBounds,
  bedCorners,
  centreOf,
  distanceBetween,
  distanceInside,
  type Place,
} from "../bed/outline.ts";
export { cornerName } from "../bed/outlineTroubles.ts";
export type { PlaceTrouble } from "../bed/placeTroubles.ts";
export { placeOfStrings, stringError, stringLines } from "../bed/strings.ts";
export { MONTHS, type Month } from "../calendar/months.ts";
export {
  DAYS_OF_YEAR,
  dayOfMonth,
  dayOfYear,
  daysOfMonth,
  daysUntil,
  laterDay,
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
export { entry, first, last, pairAt, present } from "../input/lists.ts";
export { type Plan, readPlan, resolvePlan, serializePlan } from "../plan/plan.ts";
export { atSpacing, potPlacesOf } from "../plan/planBed.ts";
export type { PlanCrop } from "../plan/planCrop.ts";
export {
  type PlanPart,
  type PottedGround,
  planPart,
  pottedGround,
  UNSPACED_GROUND,
  type UnspacedGround,
} from "../plan/planPart.ts";
export { monthName } from "../plan/typed/livingRows.ts";
export { PLAN_INPUTS } from "../plan/typed/planInputs.ts";
export { type PlanInput, planSchema } from "../plan/typed/planSchema.ts";
export type { ChoiceRow, ListRow, NumberRow, Row, Settings, Way } from "../plan/typed/row.ts";
export type { Condition, Input } from "../plan/typed/rowWalk.ts";
export { daysUntilStress, depletionShare, readilyAvailableMm, totalAvailableMm } from "../plants/depletion.ts";
export { type RecordReader, recordReader } from "../weather/dailyCsv.ts";
