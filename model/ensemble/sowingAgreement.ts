import { bisectRight, greatest, max, min, pairs, sort, union } from "d3-array";
import type { Outcome } from "./outcome.ts";

/** Share of the members that must hold a distance for it to be agreed: four of five. */
export const AGREED_SHARE = 0.8;

/** Distances from the wall, cm, and the share of the members whose sowing band holds every one of them. */
export interface Stretch {
  from: number;
  to: number;
  share: number;
  /** The band goes on beyond the region of the runs. */
  isOuterAtLeast: boolean;
}

export interface SowingAgreement {
  /** From the least inner to the greatest outer limit: between two limits the share is the same. Empty where no member has a band. */
  shares: Stretch[];
  /**
   * `agreed`: the widest stretch on which `AGREED_SHARE` of the members agree. `best`: where no distance has so many, the
   * one that has most, the widest where there are several. `none`: no member has a band.
   */
  outcome: { kind: "agreed" | "best"; stretch: Stretch } | { kind: "none" };
}

/** How far the sowing bands of solved members agree. */
export function sowingAgreement(solved: readonly Pick<Outcome, "sowing">[]): SowingAgreement {
  const shares = sharesOf(solved);
  const agreed = widest(joined(shares.filter(({ share }) => share >= AGREED_SHARE)));
  if (agreed) return { shares, outcome: { kind: "agreed", stretch: agreed } };
  const most = max(shares, ({ share }) => share);
  const best = widest(joined(shares.filter(({ share }) => share === most)));
  return { shares, outcome: best ? { kind: "best", stretch: best } : { kind: "none" } };
}

/** Members that hold a stretch: those whose band has begun by its start, less those whose band has ended by then. */
function sharesOf(solved: readonly Pick<Outcome, "sowing">[]): Stretch[] {
  const bands = solved.map(({ sowing }) => sowing).filter(({ inner, outer }) => outer > inner);
  const begins = sort(bands.map(({ inner }) => inner));
  const ends = sort(bands.map(({ outer }) => outer));
  const side = min(bands.filter(({ isOuterAtLeast }) => isOuterAtLeast).map(({ outer }) => outer));
  return pairs(sort(union(begins, ends))).map(([from, to]) => ({
    from,
    to,
    share: (bisectRight(begins, from) - bisectRight(ends, from)) / solved.length,
    isOuterAtLeast: side !== undefined && to >= side,
  }));
}

/** Stretches that touch, as one with their least share. */
function joined(stretches: readonly Stretch[]): Stretch[] {
  const wide: Stretch[] = [];
  for (const next of stretches) {
    const last = wide.at(-1);
    if (last?.to !== next.from) wide.push(next);
    else wide[wide.length - 1] = { ...next, from: last.from, share: Math.min(last.share, next.share) };
  }
  return wide;
}

function widest(stretches: readonly Stretch[]): Stretch | undefined {
  return greatest(stretches, ({ from, to }) => to - from);
}
