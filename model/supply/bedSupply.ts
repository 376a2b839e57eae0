/**
 * A bed of pots fed from tanks, day by day: what the pots ask for, what they get, and on which days they fall short. Litres.
 * Its loops read their columns by `!`: they run for two hundred years at every size of roof and tank that is tried.
 */
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
  const numbers = () => new Float64Array(length);
  const daily = { stored: numbers(), asked: numbers(), supplied: numbers(), short: numbers(), given: numbers() };
  const storedAtStart = total(stored);
  const totals = noTotals();
  const pots = potStores(groups);
  const day = { inflow: 0, evaporation: 0, ask: 0 };
  for (let t = 0; t < length; t++) {
    const refill = days.refill[t]!;
    if (refill === REFILL.away) leavePots(pots);
    const drawn = days.drawn[t]!;
    day.inflow = days.inflow[t]!;
    day.evaporation = days.evaporation[t]!;
    day.ask = refill === REFILL.filled ? askOf(pots, 0) : refill === REFILL.held ? askOf(pots, drawn) : 0;
    daily.asked[t] = day.ask;
    daily.supplied[t] = stepTanks(tanks, stored, day, totals);
    if (day.ask > 0) fillPots(pots, daily.supplied[t]! / day.ask);
    if (refill !== REFILL.away) giveFrom(pots, drawn);
    daily.given[t] = pots.gave;
    daily.short[t] = pots.lacked > HAIR ? pots.lacked : 0;
    daily.stored[t] = total(stored);
  }
  return { ...daily, totals, storedAtStart, inPots: held(pots), leftInPots: pots.left };
}

/** The water in the pots, one entry a group. */
interface PotStores {
  groups: readonly PotGroup[];
  level: Float64Array;
  /** Asked for today: what a pot lacks, and what it gives today where it is held full. */
  wants: Float64Array;
  /** What the last filling lacked, as far as nobody has missed it yet. */
  cut: Float64Array;
  /** By all of them today. */
  gave: number;
  lacked: number;
  /** When seasons ended, in all. */
  left: number;
}

function potStores(groups: readonly PotGroup[]): PotStores {
  const numbers = () => new Float64Array(groups.length);
  return { groups, level: numbers(), wants: numbers(), cut: numbers(), gave: 0, lacked: 0, left: 0 };
}

function askOf({ groups, level, wants }: PotStores, drawn: number): number {
  let sum = 0;
  for (let k = 0; k < groups.length; k++) {
    const { count, capacity, share } = groups[k]!;
    wants[k] = capacity - level[k]! + drawn * share;
    sum += count * wants[k]!;
  }
  return sum;
}

/** Each with the same share of what it wants. */
function fillPots({ level, wants, cut }: PotStores, part: number): void {
  for (let k = 0; k < level.length; k++) {
    level[k] = level[k]! + part * wants[k]!;
    cut[k] = (1 - part) * wants[k]!;
  }
}

function giveFrom(pots: PotStores, drawn: number): void {
  const { groups, level, cut } = pots;
  pots.gave = 0;
  pots.lacked = 0;
  for (let k = 0; k < groups.length; k++) {
    const { count, share } = groups[k]!;
    const own = Math.min(level[k]!, drawn * share);
    level[k] = level[k]! - own;
    pots.gave += count * own;
    const missed = Math.min(drawn * share - own, cut[k]!);
    cut[k] = cut[k]! - missed;
    pots.lacked += count * missed;
  }
}

/** At a season's end the water left in them seeps away unasked. */
function leavePots(pots: PotStores): void {
  pots.left += held(pots);
  pots.level.fill(0);
  pots.cut.fill(0);
  pots.gave = 0;
  pots.lacked = 0;
}

function held({ groups, level }: PotStores): number {
  let sum = 0;
  for (let k = 0; k < groups.length; k++) sum += groups[k]!.count * level[k]!;
  return sum;
}

function total(values: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < values.length; k++) sum += values[k]!;
  return sum;
}
