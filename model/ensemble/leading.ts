/** What the answers go with most, and how much narrower they are among members alike in it. */

import { greatest, range, sort } from "d3-array";
import { entry, first, last, present } from "../input/lists.ts";
import { type Band, bandOf } from "./bands.ts";
import type { Importance } from "./importance.ts";
import { MEMBER_GROUPS, type MemberGroup } from "./members.ts";
import { type Groups, rankCorrelation } from "./regressionShares.ts";

export type ImportanceShares = Extract<Importance<MemberGroup>, { kind: "shares" }>;

/** Where a group leads in fewer of the resamples, it is too close to call (own choice: four of five). */
const CLEARLY = 0.8;

export interface Leading {
  /** With the largest share first: one where it is clear, two where they are too close to call. */
  groups: [MemberGroup, ...MemberGroup[]];
  /** Of the first group, the place of the column that goes with the answer most. */
  column: number;
}

/** The groups that lead, from `importanceOf` and the columns and answers that it was given. */
export function leadingOf(
  importance: ImportanceShares,
  columns: Groups<MemberGroup>,
  answers: readonly number[],
): Leading {
  const [leader, next] = byShare(importance);
  const strength = (k: number) => Math.abs(rankCorrelation(entry(columns[leader], k), answers));
  const column = present(greatest(columns[leader].keys(), strength), "number drawn");
  return { groups: importance.leads[leader] >= CLEARLY ? [leader] : [leader, next], column };
}

/** The groups, with the largest share first. */
export const byShare = ({ shares }: ImportanceShares) =>
  sort(MEMBER_GROUPS, (name) => -shares[name].share) as [MemberGroup, MemberGroup, ...MemberGroup[]];

/** A member's answer, and a number that was drawn for it. */
export interface NumberedAnswer {
  x: number;
  answer: number;
}

/** Members alike in the number. */
export interface Fifth extends Band {
  from: number;
  to: number;
}

const FIFTHS = 5;

/** In order of the number, in parts as equal as can be; a RangeError for fewer than five members. */
export function fifthsOf(members: readonly NumberedAnswer[]): Fifth[] {
  const inOrder = sort(members, ({ x }) => x);
  const place = (k: number) => Math.round((k * members.length) / FIFTHS);
  return range(FIFTHS).map((k) => {
    const part = inOrder.slice(place(k), place(k + 1));
    return { ...bandOf(part.map(({ answer }) => answer)), from: first(part).x, to: last(part).x };
  });
}
