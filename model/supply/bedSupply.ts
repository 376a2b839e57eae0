/** A bed of pots fed from tanks, day by day: what the pots ask for, what they get, and on which days they fall short. Litres. */
import { noTotals, stepTanks, type Tanks, type TankTotals } from "./tanks.ts";

/** Pots that are alike. */
export interface PotGroup {
  count: number;
  /** Of one pot, from empty to full. */
  capacity: number;
  /** What one of them gives, of what a pot with an even share of the bed gives. */
  share: number;
}

/** A run of days. */
export interface SupplyDays {
  /** Into the first tank, litres. */
  inflow: ArrayLike<number>;
  /** From the first tank into the air, litres. */
  evaporation: ArrayLike<number>;
  /** What one pot of an even share would give to its ground, litres; 0 outside the season. */
  drawn: ArrayLike<number>;
  /** One of `REFILL` a day. */
  refill: ArrayLike<number>;
}

/** What is done with the pots on a day: nothing; filled in the morning; held full through the day; left to themselves and empty. */
export const REFILL = { none: 0, filled: 1, held: 2, away: 3 } as const;

/** Per day, and in all. */
export interface BedSupply {
  /** In all tanks at the day's end. */
  stored: Float64Array;
  asked: Float64Array;
  supplied: Float64Array;
  /** What pots would have given had the tank filled them: the bed's shortage. */
  short: Float64Array;
  /** What the pots gave to the ground. */
  given: Float64Array;
  totals: TankTotals;
  /** In the pots at the end, and what they were left with when a season ended. */
  inPots: number;
  leftInPots: number;
  /** In the tanks at the start. */
  storedAtStart: number;
}

/** A day's shortage below this is rounding, litres. */
const HAIR = 1e-6;

/**
 * The tanks start with a share of what they hold, 0 to 1, and the pots empty. A tank that cannot fill all pots gives each
 * the same share of what it lacks. A pot falls short when it is empty, by no more than its last filling was cut.
 */
export function supplyBed(tanks: Tanks, groups: readonly PotGroup[], days: SupplyDays, startShare = 0): BedSupply {
  const length = days.drawn.length;
  const stored = Float64Array.from(tanks.capacity, (litres) => startShare * litres);
  const [storedByDay, asked, supplied, short, given] = Array.from({ length: 5 }, () => new Float64Array(length)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const storedAtStart = total(stored);
  const totals = noTotals();
  const pots = potStores(groups);
  for (let t = 0; t < length; t++) {
    const refill = days.refill[t]!;
    const drawn = days.drawn[t]!;
    if (refill === REFILL.away) pots.empty();
    asked[t] = refill === REFILL.filled || refill === REFILL.held ? pots.ask(refill === REFILL.held ? drawn : 0) : 0;
    const day = { inflow: days.inflow[t]!, evaporation: days.evaporation[t]!, ask: asked[t]! };
    supplied[t] = stepTanks(tanks, stored, day, totals);
    if (asked[t]! > 0) pots.fill(supplied[t]!, asked[t]!);
    const { gave, lacked } = pots.give(drawn);
    given[t] = gave;
    short[t] = lacked > HAIR ? lacked : 0;
    storedByDay[t] = total(stored);
  }
  return {
    ...{ stored: storedByDay, asked, supplied, short, given, totals, storedAtStart },
    inPots: pots.held(),
    leftInPots: pots.left(),
  };
}

/** The water in the pots of each group. */
function potStores(groups: readonly PotGroup[]) {
  const level = new Float64Array(groups.length);
  /** Asked for today, per group: what a pot of it lacks, and what it gives today where it is held full. */
  const wants = new Float64Array(groups.length);
  /** What the last filling lacked, as far as nobody has missed it yet. */
  const cut = new Float64Array(groups.length);
  let left = 0;
  return {
    ask(drawn: number): number {
      let sum = 0;
      for (let k = 0; k < groups.length; k++) {
        const { count, capacity, share } = groups[k]!;
        wants[k] = capacity - level[k]! + drawn * share;
        sum += count * wants[k]!;
      }
      return sum;
    },
    fill(got: number, asked: number): void {
      const part = got / asked;
      for (let k = 0; k < groups.length; k++) {
        level[k] = level[k]! + part * wants[k]!;
        cut[k] = (1 - part) * wants[k]!;
      }
    },
    give(drawn: number) {
      let gave = 0;
      let lacked = 0;
      for (let k = 0; k < groups.length; k++) {
        const { count, share } = groups[k]!;
        const own = Math.min(level[k]!, drawn * share);
        level[k] = level[k]! - own;
        gave += count * own;
        const missed = Math.min(drawn * share - own, cut[k]!);
        cut[k] = cut[k]! - missed;
        lacked += count * missed;
      }
      return { gave, lacked };
    },
    /** At a season's end the water left in them seeps away unasked. */
    empty(): void {
      left += this.held();
      level.fill(0);
      cut.fill(0);
    },
    held: () => groups.reduce((sum, { count }, k) => sum + count * level[k]!, 0),
    left: () => left,
  };
}

function total(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum;
}
