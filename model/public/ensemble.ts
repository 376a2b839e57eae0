/** Many beds that one plan may stand for, and the bands over them. */

export { type Band, type Bands, bandOf, bandsOf, type Emptying } from "../ensemble/bands.ts";
export { compareClass, ORGANIC_MATTER, type SoilFigures } from "../ensemble/classComparison.ts";
export { dryGround, type GroundOutcome } from "../ensemble/groundOutcome.ts";
export { type FirmShare, type Importance, importanceOf, memberColumns } from "../ensemble/importance.ts";
export {
  byShare,
  type Fifth,
  fifthsOf,
  type ImportanceShares,
  type Leading,
  leadingOf,
  type NumberedAnswer,
} from "../ensemble/leading.ts";
export type { Member } from "../ensemble/member.ts";
export { type Drawing, drawMembers, MEMBER_GROUPS, type MemberGroup, SOIL_GROUPS } from "../ensemble/members.ts";
export { ensembleSowingDay, memberPlan, OUTCOME_DAYS, type Outcome } from "../ensemble/outcome.ts";
export { mergeParts, type NamedPart, readPart, type Shard, serializePart, shardMembers } from "../ensemble/parts.ts";
export { rankCorrelation } from "../ensemble/regressionShares.ts";
export { AGREED_SHARE, type SowingAgreement, type Stretch } from "../ensemble/sowingAgreement.ts";
export { type SpacingBand, spacingBand } from "../ensemble/spacingOutcome.ts";
export { type MemberTask, type OutcomeOf, solveMember } from "../ensemble/task.ts";
