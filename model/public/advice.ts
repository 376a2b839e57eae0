/** The answers: what a plan's runs mean for sowing, spacing, refilling, the season and the line. */

export {
  type FilledLine,
  filledLine,
  isSoonEnough,
  type KnownLeast,
  knownLeast,
  MOST_LINED_POTS,
  type TriedChange,
  type TriedChanges,
  triedChanges,
} from "../advice/line/filledLine.ts";
export {
  heightlessBed,
  type LeastOutletHeight,
  lineFilling,
  MOST_OUTLET_HEIGHT,
  type NeverFull,
  outletHeightSearch,
} from "../advice/line/lineFilling.ts";
export { type Fitting, lineParts, type TubeKind } from "../advice/line/lineParts.ts";
export { potJoints } from "../advice/line/potJoints.ts";
export { type Alternative, alternatives, scaledPot } from "../advice/pot/alternatives.ts";
export { type BedLayout, bedLayout, wetRadiusOf } from "../advice/pot/bedLayout.ts";
export { type BedSpacings, type Beds, bedSpacings, spacingProblems } from "../advice/pot/bedSpacings.ts";
export { hardGroundCause } from "../advice/pot/hardGround.ts";
export { firstDayAtLeast, isAtSide, onDay, type Series, seriesOn } from "../advice/pot/history.ts";
export {
  carryingFor,
  ENOUGH,
  intervalProblem,
  litresByInterval,
  metByInterval,
  metShare,
  RUN_IN_DAYS,
  TRIED_INTERVALS,
  type UnfilledGround,
  unfilledGround,
  WATCHED_DAYS,
  type WatchedFilling,
  watchedOutcome,
  watchedProblem,
} from "../advice/pot/refill.ts";
export {
  bestOf,
  enoughIntervals,
  type IntervalRange,
  type IntervalShare,
  intervalName,
  intervalShares,
  ownShare,
  runOfInterval,
  shareAt,
  type Verdict,
  verdictOf,
} from "../advice/pot/refillIntervals.ts";
export {
  A_LITTLE,
  COMPARED_DAYS,
  demandOutcome,
  demandProblem,
  emptyPotProblem,
  HARDLY,
  headFromWall,
  isBetterAtEnd,
  isFillingShort,
  isStraight,
  LAST_DAYS,
  type PotWaterUse,
  potWaterUse,
  releaseIntoStandingWater,
  riseVerdict,
  riseWithDemand,
  riseWithPlants,
  type StraightLine,
  shareByPot,
  stageProblem,
  straightLine,
  TRIED_DEMANDS,
} from "../advice/pot/selfRegulation.ts";
export {
  edgeSeries,
  HAND,
  type RulerMark,
  rulerOrigin,
  type SowingAdvice,
  type SowingBand,
  sowingAdvice,
  sowingRuler,
} from "../advice/pot/sowing.ts";
export { driesOut, handRule, holdsLater, SAME, sowingDays } from "../advice/pot/sowingVerdicts.ts";
export {
  activeRootDepth,
  type CountedBed,
  countedBed,
  potsFor,
  readingDay,
  type SpacingAdvice,
  type SpacingReading,
  searchSpacing,
  spacingAdvice,
  spacingProblem,
  spacingReading,
} from "../advice/pot/spacing.ts";
export { type FillingLasts, fillingLasts, waterGiven } from "../advice/pot/waterGiven.ts";
export {
  type BedChange,
  type ChangedBed,
  changedBeds,
  changeProblems,
  changesOf,
} from "../advice/season/bedChanges.ts";
export { bedWithSupply, type SeasonBed } from "../advice/season/bedWithSupply.ts";
export { monthSums } from "../advice/season/monthSums.ts";
export {
  type DripHelp,
  dripHelp,
  type SeasonWater,
  type Span,
  savedBeside,
  seasonWater,
} from "../advice/season/otherWatering.ts";
export { type Release, releaseOf } from "../advice/season/release.ts";
export { hasSand, rootZone } from "../advice/season/rootZone.ts";
export { type Season, seasonOf, seasonProblems } from "../advice/season/season.ts";
export { bedDays, rainCapacity } from "../advice/season/seasonDemand.ts";
export { bedWeather, POT_SUPPLY, type SupplyYear, seasonSupply } from "../advice/season/seasonSupply.ts";
export {
  type ReliabilityGrid,
  ROOF_SIZES,
  reliabilityGrid,
  TANK_SIZES,
  unsizedSupply,
} from "../advice/season/supplySize.ts";
export { fullness, type TankDay } from "../advice/season/tankFullness.ts";
export { capacityOf, type Needs, needsOf, type Outlook, outlookOf, usableOf } from "../advice/season/tankOutlook.ts";
export { yearsFor } from "../advice/season/yearsOfWeather.ts";
export { type BedWater, bedWater, carriesCrop, WANTED_SHARE, type WholeBed, wholeBed } from "../advice/wholeBed.ts";
export { LAMINAR_UP_TO, TURBULENT_FROM } from "../line/friction.ts";
export type { Losses } from "../line/losses.ts";
export type { PieceKind } from "../line/network.ts";
export type { Extreme, Profile } from "../line/profile.ts";
export { type Demand, demandOf, monthETo } from "../problems/demand.ts";
export { type LinedBed, linedBed } from "../problems/linedBed.ts";
