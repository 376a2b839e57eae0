/** What the outcomes say matters, and the words for it. */
import {
  byShare,
  type Importance,
  type ImportanceShares,
  importanceOf,
  type Leading,
  leadingOf,
  type Member,
  type MemberGroup,
  memberColumns,
  type Outcome,
} from "../../../model/public/ensemble.ts";
import { entry, type Plan } from "../../../model/public/plan.ts";
import { soilName } from "../../words/planWords.ts";
import { listed } from "../../words/words.ts";
import { groupWords, type Input } from "./inputs.ts";
import type { LookedAt } from "./lookedAt.ts";

/** A bed that was worked out. */
export interface Bed {
  member: Member;
  answer: number;
}

export interface Finding {
  /** The plan that the person has filled in. */
  plan: Plan;
  at: LookedAt;
  beds: Bed[];
  /** Beds asked for, those included that failed or are still to come. */
  total: number;
  failed: number;
  /** More beds are still to come. */
  isArriving: boolean;
  importance: Importance<MemberGroup>;
  leading: Leading | null;
}

/** Fixed, so that the same settings give the same beds and ranges. */
const seed = 1;

/** Coarser while beds arrive several times a second. */
const earlyResamples = 40;

interface FindingInputs {
  plan: Plan;
  at: LookedAt;
  members: readonly Member[];
  outcomes: readonly Outcome[];
  isArriving: boolean;
}

export function findingOf({ plan, at, members, outcomes, isArriving }: FindingInputs): Finding {
  const solved = outcomes.filter(({ trouble }) => trouble === null);
  const beds = solved.map((outcome) => ({ member: entry(members, outcome.index), answer: at.value(outcome) }));
  const answers = beds.map(({ answer }) => answer);
  const columns = memberColumns(beds.map(({ member }) => member));
  const importance = importanceOf(columns, answers, { seed, ...(isArriving && { resamples: earlyResamples }) });
  return {
    plan,
    at,
    beds,
    total: members.length,
    failed: outcomes.length - solved.length,
    isArriving,
    importance,
    leading: importance.kind === "shares" ? leadingOf(importance, columns, answers) : null,
  };
}

/** The number that goes with the answer most. */
export const leadingInput = ({ groups: [group], column }: Leading): Input => entry(groupWords[group].inputs, column);

const inSoil = (plan: Plan): string => (plan.soil.className === null ? "In your soil" : `In ${soilName(plan)}`);

/** Until the first beds of new settings are in. */
export const outdatedSentence = (plan: Plan, { words }: LookedAt): string =>
  `${inSoil(plan)}, what matters most for ${words} is being worked out; the bars are still those of the settings before.`;

export function answerSentence(finding: Finding): string {
  const { plan, at, importance, beds, leading, total, isArriving } = finding;
  const soil = inSoil(plan);
  switch (importance.kind) {
    case "too few":
      if (isArriving)
        return `${soil}, what matters most for ${at.words} can be told once more beds are worked out: ${beds.length} of ${total} are in.`;
      return `${soil}, too few beds could be worked out to say what matters most for ${at.words}: ${beds.length} where ${importance.needed} are needed.`;
    case "no spread":
      return `${soil}, all ${beds.length} beds give the same answer for ${at.words}, so that nothing varied here matters for it.`;
    case "shares":
      return `${soil}, ${leading?.groups.length === 1 ? clearWords(importance, at) : closeWords(importance, at)}.`;
  }
}

function clearWords(importance: ImportanceShares, { words }: LookedAt): string {
  const [first, second] = byShare(importance);
  const next = importance.shares[second].share;
  const others = next < 0.05 ? "" : `, and ${groupWords[second].what} ${tenths(next)}`;
  return `${groupWords[first].what} makes ${tenths(importance.shares[first].share)} of the spread in ${words}${others}: ${groupWords[first].measure} before anything else`;
}

function closeWords(importance: ImportanceShares, { words }: LookedAt): string {
  const close = byShare(importance).slice(0, 2);
  const whats = listed(close.map((name) => groupWords[name].what));
  const shares = [...new Set(close.map((name) => tenths(importance.shares[name].share)))];
  const each = shares.length === 1 ? `${shares[0]} each` : `${shares.join(" and ")}`;
  return `${whats} make ${each} of the spread in ${words}, too close to call: ${listed(close.map((name) => groupWords[name].measure))}`;
}

const counts = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];

/** "about four tenths". */
function tenths(share: number): string {
  const tenth = Math.round(10 * share);
  if (tenth === 0) return "less than a tenth";
  if (tenth === 5) return "about half";
  return tenth === 10 ? "nearly all" : `about ${counts[tenth]} tenth${tenth === 1 ? "" : "s"}`;
}
