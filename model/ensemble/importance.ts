import { deviation, greatest, mean, range, rollup } from "d3-array";
import { randomStreams } from "../random/randomStreams.ts";
import type { Member } from "./member.ts";
import type { MemberGroup } from "./members.ts";
import { byName, columnsOf, type Groups, namesOf, rankShares, type Shares, spreads } from "./regressionShares.ts";

/** A share of the spread, and how firm it is: the 80 % range that the chance of the draw leaves it. */
export interface FirmShare {
  share: number;
  low: number;
  high: number;
}

/** What an answer's spread goes with. */
export type Importance<Name extends string> =
  /** Fewer than `MEMBERS_PER_COLUMN` for each column that varies. */
  | { kind: "too few"; members: number; needed: number }
  /** All members answer the same. */
  | { kind: "no spread"; members: number }
  | {
      kind: "shares";
      members: number;
      shares: Record<Name, FirmShare>;
      /** Of the resamples, the part in which each group has the largest share. */
      leads: Record<Name, number>;
      /** The sum of the shares. The rest goes with no rank: groups that work only together, ups and downs. */
      explained: FirmShare;
    };

/** Our own choice: with as few, chance alone explains a third of the spread. */
export const MEMBERS_PER_COLUMN = 3;

/** Enough for an 80 % range: its width is then good to some 7 %, 1 / √(2 × 100) (our own choice). */
const RESAMPLES = 100;

export interface Resampling {
  /** A whole number from 0 to 2³² − 1. */
  seed: number;
  /** `RESAMPLES` unless given; fewer where more members are still to come. */
  resamples?: number;
}

/** Standard deviations of a normal distribution on either side of its mean that hold 80 % of it. */
const HALF_RANGE = 1.2816;

/**
 * How much of the spread of the answers goes with each group: `averagedShares` of the ranks in place of the values, so
 * that a bent but steady influence counts in full (Iman & Conover 1979, Technometrics 21:499-509), and an answer of no
 * number, such as "not within these days", may be Infinity. What ranks cannot explain is left over, and as large as
 * 1 − R² (Saltelli & Sobol 1995, Reliab. Eng. Syst. Saf. 50:225-239). The ranges are 1.28 standard deviations of the
 * shares of resamples of the members (Efron & Tibshirani 1993, An introduction to the bootstrap, ch. 6 and 13; all
 * citations from memory).
 */
export function importanceOf<Name extends string>(
  groups: Groups<Name>,
  answers: readonly number[],
  { seed, resamples = RESAMPLES }: Resampling,
): Importance<Name> {
  const members = answers.length;
  const needed = MEMBERS_PER_COLUMN * columnsOf(groups).filter(spreads).length;
  if (members < Math.max(needed, 2)) return { kind: "too few", members, needed };
  const sharesOf = rankShares(groups, answers);
  const found = sharesOf(answers.map(() => 1));
  if (!found) return { kind: "no spread", members };
  // A resample in which all answers are the same has no shares.
  const drawn = resampled(members, seed, resamples).flatMap((counts) => sharesOf(counts) ?? []);
  const names = namesOf(groups);
  const firmOf = (value: (shares: Shares<Name>) => number) => firm(value(found), drawn.map(value));
  return {
    kind: "shares",
    members,
    shares: byName(names, (name) => firmOf(({ shares }) => shares[name])),
    leads: leadsOf(names, drawn),
    explained: firmOf(({ explained }) => explained),
  };
}

/** What was drawn for the members of an ensemble, as columns. */
export function memberColumns(members: readonly Member[]): Groups<MemberGroup> {
  const column = (value: (member: Member) => number) => members.map(value);
  return {
    conductivity: [column(({ soil }) => soil.Ks)],
    retention: (["thetaR", "thetaS", "alpha", "n"] as const).map((name) => column(({ soil }) => soil[name])),
    wall: [column(({ wallFactor }) => wallFactor)],
    start: [column(({ startHead }) => startHead)],
    pot: [column(({ potScale }) => potScale)],
  };
}

/** Members drawn anew from the members, as many: how often each was drawn. */
function resampled(members: number, seed: number, times: number): number[][] {
  const { uniform } = randomStreams(seed, ["uniform"]);
  return range(times).map(() => {
    const times = rollup(
      range(members),
      (drawn) => drawn.length,
      () => Math.floor(uniform() * members),
    );
    return range(members).map((member) => times.get(member) ?? 0);
  });
}

function firm(share: number, resampled: readonly number[]): FirmShare {
  const half = HALF_RANGE * (deviation(resampled) ?? 0);
  return { share, low: Math.max(share - half, 0), high: Math.min(share + half, 1) };
}

function leadsOf<Name extends string>(
  names: readonly Name[],
  resampled: readonly Shares<Name>[],
): Record<Name, number> {
  const leaders = resampled.map(({ shares }) => greatest(names, (name) => shares[name]));
  return byName(names, (name) => mean(leaders, (leader) => Number(leader === name)) ?? 0);
}
