/** The public names. */

export { type LineChange, lineChanges } from "./advice/line/lineChanges.ts";
export {
  type FillMoment,
  type FillStart,
  type LeastOutletHeight,
  type LineFilling,
  lineFilling,
  MOST_MINUTES,
  MOST_OUTLET_HEIGHT,
  type NeverFull,
  outletHeightSearch,
  type PotFilling,
} from "./advice/line/lineFilling.ts";
export { type Cut, type Fitting, type LineParts, lineParts, type TubeKind } from "./advice/line/lineParts.ts";
export { potJoints } from "./advice/line/potJoints.ts";
export { type Alternative, alternatives, scaledPot } from "./advice/pot/alternatives.ts";
export { firstDayAtLeast, isAtSide, onDay, type Series } from "./advice/pot/history.ts";
export { type Parts, partsOf } from "./advice/pot/parts.ts";
export {
  carryingFor,
  ENOUGH,
  intervalProblem,
  litresByInterval,
  metByInterval,
  metShare,
  RUN_IN_DAYS,
  TRIED_INTERVALS,
  WATCHED_DAYS,
  type WatchedFilling,
  watchedOutcome,
  watchedProblem,
} from "./advice/pot/refill.ts";
export {
  COMPARED_DAYS,
  demandOutcome,
  demandProblem,
  emptyPotProblem,
  hardGround,
  headFromWall,
  LAST_DAYS,
  releaseIntoStandingWater,
  type StraightLine,
  shareByPot,
  stageProblem,
  straightLine,
  TRIED_DEMANDS,
  type WaterUse,
  waterUse,
} from "./advice/pot/selfRegulation.ts";
export {
  edgeSeries,
  HAND,
  type RulerMark,
  rulerOrigin,
  type SowingAdvice,
  type SowingBand,
  sowingAdvice,
  sowingRuler,
} from "./advice/pot/sowing.ts";
export {
  activeRootDepth,
  leastSpacing,
  potsFor,
  readingDay,
  type SpacingAdvice,
  type SpacingReading,
  searchSpacing,
  spacingAdvice,
  spacingProblem,
  spacingReading,
  triedSpacings,
} from "./advice/pot/spacing.ts";
export { type FillingLasts, fillingLasts, waterGiven } from "./advice/pot/waterGiven.ts";
export {
  type DripHelp,
  dripHelp,
  type SeasonWater,
  type Span,
  savedBeside,
  seasonWater,
} from "./advice/season/otherWatering.ts";
export { hasSand, rootZone } from "./advice/season/rootZone.ts";
export { type Release, releaseAt, releaseOf, type Season, seasonOf, seasonProblems } from "./advice/season/season.ts";
export { type BedDays, type BedWeather, bedDays, rainCapacity } from "./advice/season/seasonDemand.ts";
export {
  type AskedSupply,
  bedWeather,
  carriedShare,
  type SupplyYear,
  seasonSupply,
  supplyYears,
} from "./advice/season/seasonSupply.ts";
export {
  leastRoof,
  leastTank,
  type ReliabilityGrid,
  ROOF_SIZES,
  reliabilityGrid,
  TANK_SIZES,
} from "./advice/season/supplySize.ts";
export { densestCount, type Layout, layOutPots } from "./bed/layout.ts";
export { nearestAllowed } from "./bed/nearestAllowed.ts";
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
} from "./bed/outline.ts";
export { cornerName, type OutlineTrouble, outlineTroubles } from "./bed/outlineTroubles.ts";
export { type PlaceLimits, type PlaceTrouble, placeTroubles } from "./bed/placeTroubles.ts";
export { type Planting, plantPlaces } from "./bed/planting.ts";
export { equalCircle, farthestGround, groundPerPot, POT_GRIDS, type PotGrid } from "./bed/potGrid.ts";
export { type Pegs, pegsOf, placeOfStrings, type StringLine, stringError, stringLines } from "./bed/strings.ts";
export { wettedShare } from "./bed/wetted.ts";
export { MONTHS, type Month, middleDay } from "./calendar/months.ts";
export { type Band, type Bands, bandOf, bandsOf, type Emptying } from "./ensemble/bands.ts";
export { type ClassComparison, compareClasses, ORGANIC_MATTER, type SoilFigures } from "./ensemble/classComparison.ts";
export type { GroundOutcome, GroundReading } from "./ensemble/groundOutcome.ts";
export { type FirmShare, type Importance, importanceOf, memberColumns } from "./ensemble/importance.ts";
export type { Member } from "./ensemble/member.ts";
export {
  type Drawing,
  drawMembers,
  MEMBER_GROUPS,
  type MemberGroup,
  SOIL_GROUPS,
} from "./ensemble/members.ts";
export {
  ensembleSowingDay,
  fillingWatched,
  memberPlan,
  OUTCOME_DAYS,
  type Outcome,
} from "./ensemble/outcome.ts";
export {
  type EnsemblePart,
  mergeParts,
  type NamedPart,
  readPart,
  type Shard,
  serializePart,
  shardMembers,
} from "./ensemble/parts.ts";
export { rankCorrelation } from "./ensemble/regressionShares.ts";
export { AGREED_SHARE, type SowingAgreement, type Stretch } from "./ensemble/sowingAgreement.ts";
export { type SpacingBand, type SpacingOutcome, spacingBand } from "./ensemble/spacingOutcome.ts";
export { type MemberTask, memberCourse, type OutcomeOf, solveMember } from "./ensemble/task.ts";
export { sampleField } from "./flow/field.ts";
export { ALLOWED_ERROR } from "./flow/gridRule.ts";
export type { Accuracy, Edge, Problem } from "./flow/problem.ts";
export type { Frame, GridLines, Progress, Run } from "./flow/run.ts";
export { simulate, simulateToEnd } from "./flow/simulate.ts";
export { type Checked, type Fault, fault, faultLines, figures, nearest, readJson, soundValue } from "./input/faults.ts";
export { LAMINAR_UP_TO, TURBULENT_FROM } from "./line/friction.ts";
export type { Losses } from "./line/losses.ts";
export type { PieceKind } from "./line/network.ts";
export type { Extreme, Profile } from "./line/profile.ts";
export { kinematicViscosity } from "./line/water.ts";
export { type Plan, readPlan, resolvePlan, serializePlan } from "./plan/plan.ts";
export { atSpacing, type BedPlan, type PlacedPots, widestRadius } from "./plan/planBed.ts";
export { listedCrop, type PlanCrop } from "./plan/planCrop.ts";
export type { BedMix, LivingBed, Weather } from "./plan/planLiving.ts";
export { usableShare } from "./plan/planSupply.ts";
export { CROP_DEFAULTS, knownCrops } from "./plan/typed/cropDefaults.ts";
export { monthName } from "./plan/typed/livingSchema.ts";
export { type CheckedPlan, type PlanInput, planSchema, TEXTURE_SD } from "./plan/typed/planSchema.ts";
export { DEFAULT_MOISTURE, isStartMoisture, START_MOISTURE, type StartMoisture } from "./plan/typed/startMoisture.ts";
export { daysUntilStress, depletionShare, readilyAvailableMm, totalAvailableMm } from "./plants/depletion.ts";
export { NAMED_STAGES, type NamedStage } from "./plants/growthStages.ts";
export { buildPot } from "./pot/buildPot.ts";
export { innerSurface } from "./pot/innerSurface.ts";
export { outlineOf, wallRadiusAt } from "./pot/outline.ts";
export type { OutlinePoint, PotShape } from "./pot/pot.ts";
export { stopperFor } from "./pot/stopper.ts";
export { releaseIntoSuction } from "./pot/wall.ts";
export {
  edgeIndex,
  establishmentDays,
  planEdges,
  planToProblem,
  plantedDepth,
  soilAt,
  TOLD_DAYS,
  VISIBLE_RISE,
} from "./problems/bareProblem.ts";
export { type Demand, dayETo, demandOf, monthETo } from "./problems/demand.ts";
export type { LinedBed } from "./problems/linedBed.ts";
export { groundRadius, type LivingOptions, livingProblem, plantRadius } from "./problems/livingProblem.ts";
export { capillaryLength, gravityNumber } from "./soil/capillaryLength.ts";
export type { Soil } from "./soil/soil.ts";
export { TEXTURE_CLASSES, type TextureClass } from "./soil/textureTriangle.ts";
export { type VanGenuchtenParameters, vanGenuchten } from "./soil/vanGenuchten.ts";
export { type BedSupply, REFILL } from "./supply/bedSupply.ts";
export { format, formatBoth, formatSuction, rounded } from "./units/format.ts";
export {
  bothSystems,
  CM3_PER_LITRE,
  convert,
  fromModel,
  headOfSuction,
  type Quantity,
  suctionKPa,
  toModel,
  UNIT_SYSTEMS,
  type UnitSystem,
  unitOf,
} from "./units/units.ts";
export { DAYS_OF_YEAR, type DayWeather, daysOfMonth, monthOfDay } from "./weather/day.ts";
export { weatherYears } from "./weather/generator.ts";
export type { MonthMeans, MonthWeather } from "./weather/months.ts";
