/** The flow of water: soils, pots, the flow problems of a plan, and their solution. */

export { sampleField, sampleRows } from "../flow/field.ts";
export { ALLOWED_ERROR } from "../flow/gridRule.ts";
export type { Accuracy, Edge, Problem } from "../flow/problem.ts";
export type { Frame, GridLines, Progress, Run } from "../flow/run.ts";
export { simulate, simulateToEnd } from "../flow/simulate.ts";
export { buildPot, potLitres } from "../pot/buildPot.ts";
export { innerSurface } from "../pot/innerSurface.ts";
export type { OutlinePoint, PotShape } from "../pot/pot.ts";
export { outlineOf, wallRadiusAt } from "../pot/potOutline.ts";
export { stopperFor } from "../pot/stopper.ts";
export { releaseIntoSuction } from "../pot/wallLaw.ts";
export {
  edgeIndex,
  establishmentDays,
  planEdges,
  planToProblem,
  plantedDepth,
  soilAt,
  TOLD_DAYS,
  VISIBLE_RISE,
} from "../problems/bareProblem.ts";
export { type Answer, answerOf, problemFileSchema, readProblem } from "../problems/problemFile.ts";
export { capillaryLength, gravityNumber } from "../soil/capillaryLength.ts";
export type { Soil } from "../soil/soil.ts";
export { TEXTURE_CLASSES, type TextureClass } from "../soil/textureTriangle.ts";
export { type VanGenuchtenParameters, vanGenuchten } from "../soil/vanGenuchten.ts";
