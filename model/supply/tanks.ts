/**
 * Tanks in a chain, day by day. The first one feeds the bed; each of the others catches what overflows from the one before,
 * and gives it back when that one has room. Litres.
 * Steps read the tanks' list by `!`: they run for two hundred years at every size of tank that is tried.
 */
export interface Tanks {
  /** Of each tank, the one that feeds the bed first. */
  capacity: readonly number[];
  /** At most so much a day is moved from a tank to the one before it. */
  transfer: number;
  /** Water carried in by hand on a day on which the first tank stands below a share of its capacity. */
  topUp: { belowShare: number; litres: number } | null;
  /**
   * Whether a step's use comes before its spilling (it may then use the step's own rain before that overflows) or after it
   * (it can use what stood there before). Of a step's possible orders these two are the extremes: Jenkins et al. 1978, as
   * named by Fewkes & Butler 2000 (from memory).
   */
  useComes: "before spilling" | "after spilling";
}

/** What goes into the first tank in one step, leaves it to the air, and is asked of it. */
export interface TankDay {
  inflow: number;
  evaporation: number;
  ask: number;
}

/** Sums over the steps so far. In + topUp = supplied + evaporated + spilled + what is stored more than at the start. */
export interface TankTotals {
  inflow: number;
  topUp: number;
  supplied: number;
  evaporated: number;
  spilled: number;
}

export const noTotals = (): TankTotals => ({ inflow: 0, topUp: 0, supplied: 0, evaporated: 0, spilled: 0 });

/** One step: `stored` (one number per tank) and `totals` are brought up to its end. What was supplied, litres. */
export function stepTanks(tanks: Tanks, stored: Float64Array, day: TankDay, totals: TankTotals): number {
  const isSpilledFirst = tanks.useComes === "after spilling";
  const carried = carriedByHand(tanks, stored[0]!, day.ask);
  const before = stored[0]! + carried;
  stored[0] = before + day.inflow;
  const spilledFirst = isSpilledFirst ? spill(stored, tanks.capacity) : 0;
  const supplied = Math.min(day.ask, isSpilledFirst ? before : stored[0]!, stored[0]!);
  const evaporated = Math.min(stored[0]! - supplied, day.evaporation);
  stored[0] = stored[0]! - supplied - evaporated;
  const spilled = isSpilledFirst ? spilledFirst : spill(stored, tanks.capacity);
  moveOn(tanks, stored);
  totals.inflow += day.inflow;
  totals.topUp += carried;
  totals.supplied += supplied;
  totals.evaporated += evaporated;
  totals.spilled += spilled;
  return supplied;
}

/** Only while the bed asks for water, and no more than there is room for. */
function carriedByHand({ capacity, topUp }: Tanks, stored: number, ask: number): number {
  if (topUp === null || ask === 0 || stored >= topUp.belowShare * capacity[0]!) return 0;
  return Math.min(topUp.litres, capacity[0]! - stored);
}

/** From each full tank into the next; what overflows from the last is lost. */
function spill(stored: Float64Array, capacity: readonly number[]): number {
  let over = 0;
  for (let k = 0; k < stored.length; k++) {
    const held = stored[k]! + over;
    stored[k] = Math.min(held, capacity[k]!);
    over = held - stored[k]!;
  }
  return over;
}

function moveOn({ capacity, transfer }: Tanks, stored: Float64Array): void {
  for (let k = 0; k + 1 < stored.length; k++) {
    const moved = Math.min(transfer, stored[k + 1]!, capacity[k]! - stored[k]!);
    stored[k] = stored[k]! + moved;
    stored[k + 1] = stored[k + 1]! - moved;
  }
}
