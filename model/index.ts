/** The public names. */
export { firstDayAtLeast, onDay, type Series } from "./advice/history.ts";
export { type FillingLasts, fillingLasts, type WaterGiven, waterGiven } from "./advice/release.ts";
export {
  edgeSeries,
  HAND,
  type RulerMark,
  rulerOrigin,
  type SowingAdvice,
  type SowingBand,
  type SowingLimits,
  type SowingTime,
  sowingAdvice,
  sowingRuler,
  wallRadiusAt,
} from "./advice/sowing.ts";
export { sampleField } from "./flow/field.ts";
export type { Accuracy, Edge, Filling, Problem } from "./flow/problem.ts";
export type { EdgeHistory, Frame, GridLines, History, Progress, Row, Run } from "./flow/run.ts";
export { simulate } from "./flow/simulate.ts";
export { type Checked, type Fault, fault, faultLines, figures, nearest, readJson } from "./input/faults.ts";
export {
  type Plan,
  type PlanCrop,
  type PlanSoil,
  type ResolvedPlan,
  readPlan,
  resolvePlan,
  type Sowing,
  serializePlan,
} from "./plan/plan.ts";
export {
  type EdgeName,
  edgeIndex,
  establishmentDays,
  lastDayOf,
  planEdges,
  planToProblem,
  plantedDepth,
  VISIBLE_RISE,
} from "./plan/planProblem.ts";
export { type PlanInput, planSchema } from "./plan/planSchema.ts";
export { buildPot } from "./pot/buildPot.ts";
export { innerSurface } from "./pot/innerSurface.ts";
export { outlineOf } from "./pot/outline.ts";
export type { OutlinePoint, Pot, PotShape } from "./pot/pot.ts";
export { stopperFor } from "./pot/stopper.ts";
export { releaseIntoSuction } from "./pot/wall.ts";
export { capillaryLength, gravityNumber } from "./soil/capillaryLength.ts";
export { textureFromJar } from "./soil/jarTest.ts";
export type { Soil } from "./soil/soil.ts";
export { TEXTURE_CLASSES, type Texture, type TextureClass, textureClass } from "./soil/textureTriangle.ts";
export { type VanGenuchtenParameters, vanGenuchten } from "./soil/vanGenuchten.ts";
export { format, formatBoth, formatSuction, rounded } from "./units/format.ts";
export {
  CM3_PER_LITRE,
  convert,
  fromModel,
  headOfSuction,
  type Quantity,
  suctionKPa,
  toModel,
  UNIT_SYSTEMS,
  type Unit,
  type UnitSystem,
  unitOf,
} from "./units/units.ts";
