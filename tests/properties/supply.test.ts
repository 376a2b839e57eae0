import { range, sum } from "d3-array";
import fc from "fast-check";
import { expect, test } from "vitest";
import { type BedSupply, type PotGroup, REFILL, type SupplyDays, supplyBed } from "../../model/supply/bedSupply.ts";
import { roofLitres } from "../../model/supply/roof.ts";
import type { Tanks } from "../../model/supply/tanks.ts";
import { numRuns, seed } from "../support/deep.ts";

const runs = { numRuns: numRuns(60, 1000), seed };
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const orNone = (min: number, max: number) => fc.oneof(fc.constant(0), number(min, max));

/** What a bed gets, with all that a plan can have: spare tanks, topping up, an open tank, pots that differ. */
interface Case {
  tanks: Tanks;
  roof: { area: number; runoff: number; firstFlushMm: number };
  groups: PotGroup[];
  rainMm: number[];
  /** L a day from the open tank. */
  evaporation: number;
  drawn: number[];
  refill: number[];
  startShare: number;
}

const anyTanks: fc.Arbitrary<Tanks> = fc.record({
  capacity: fc.array(number(20, 2000), { minLength: 1, maxLength: 4 }),
  transfer: orNone(1, 500),
  topUp: fc.option(fc.record({ belowShare: number(0, 1), litres: number(1, 3000) }), { freq: 1 }),
  useComes: fc.constantFrom("before spilling" as const, "after spilling" as const),
});

const anyGroups = fc.array(
  fc.record({ count: fc.integer({ min: 1, max: 30 }), capacity: number(0.5, 30), share: orNone(0.2, 2) }),
  { minLength: 1, maxLength: 4 },
);

/** One to three seasons with rests between them; filled each so many days, held full, or filled once. */
const anyRefills = fc
  .array(
    fc.record({
      days: fc.integer({ min: 1, max: 60 }),
      rest: fc.integer({ min: 0, max: 40 }),
      every: fc.integer({ min: 0, max: 9 }),
    }),
    {
      minLength: 1,
      maxLength: 3,
    },
  )
  .map((seasons) =>
    seasons.flatMap(({ days, rest, every }) => [
      ...range(days).map((day) => (every === 0 ? REFILL.held : day % every === 0 ? REFILL.filled : REFILL.none)),
      ...range(rest).map(() => REFILL.away),
    ]),
  );

const anyCase: fc.Arbitrary<Case> = anyRefills.chain((refill) =>
  fc.record({
    tanks: anyTanks,
    roof: fc.record({ area: orNone(1, 100), runoff: number(0, 1), firstFlushMm: orNone(0.1, 2) }),
    groups: anyGroups,
    rainMm: daily(refill.length, orNone(0.1, 60)),
    evaporation: orNone(0.1, 20),
    drawn: daily(refill.length, orNone(0.05, 6)),
    refill: fc.constant<number[]>(refill),
    startShare: number(0, 1),
  }),
);

const daily = (days: number, of: fc.Arbitrary<number>) => fc.array(of, { minLength: days, maxLength: days });

/**
 * Alike pots fed from tanks with lids, and nothing carried. Of pots that differ, those that got more once may leave others less
 * when it counts, and once in ten thousand beds a larger roof then supplies less.
 */
const anyPlain = anyCase.map(
  (each): Case => ({
    ...each,
    groups: each.groups.slice(0, 1),
    evaporation: 0,
    tanks: { ...each.tanks, topUp: null },
    startShare: 0,
  }),
);
/** From planting on, without an end: what stands in the pots when a season ends is lost, and the next one may miss it. */
const anySeason = anyPlain.map((each) => ({
  ...each,
  refill: each.refill.map((kind) => (kind === REFILL.away ? REFILL.none : kind)),
}));

function supplied({ tanks, roof, groups, rainMm, evaporation, drawn, refill, startShare }: Case): BedSupply {
  const days: SupplyDays = {
    inflow: roofLitres(rainMm, roof),
    evaporation: rainMm.map(() => evaporation),
    drawn: drawn.map((litres, t) => (refill[t] === REFILL.away ? 0 : litres)),
    refill,
  };
  return supplyBed(tanks, groups, days, startShare);
}

const largerTank = (each: Case): Case => {
  const [first, ...spare] = each.tanks.capacity;
  return { ...each, tanks: { ...each.tanks, capacity: [2 * first!, ...spare] } };
};
const largerRoof = (each: Case): Case => ({ ...each, roof: { ...each.roof, area: 2 * each.roof.area } });

const holds = (cases: fc.Arbitrary<Case>, promise: (each: Case) => void) =>
  fc.assert(fc.property(cases, promise), runs);

test("no water is lost or made between roof, hands, tanks, air, pots and ground, to 1e-9", () => {
  let worst = 0;
  holds(anyCase, (each) => {
    const { totals, stored, storedAtStart, inPots, leftInPots, given, supplied: bySteps } = supplied(each);
    const { inflow, topUp, supplied: got, evaporated, spilled } = totals;
    const size = Math.max(inflow + topUp + storedAtStart, 1);
    const tanks = inflow + topUp - (got + evaporated + spilled + stored.at(-1)! - storedAtStart);
    const pots = got - (sum(given) + leftInPots + inPots);
    worst = Math.max(worst, Math.abs(tanks) / size, Math.abs(pots) / size);
    expect(Math.abs(tanks)).toBeLessThanOrEqual(1e-9 * size);
    expect(Math.abs(pots)).toBeLessThanOrEqual(1e-9 * size);
    expect(sum(bySteps)).toBeCloseTo(got, 6);
  });
  console.info(`worst balance of ${runs.numRuns} beds: ${worst.toExponential(1)}, allowed 1e-9`);
});

test("tanks and pots hold from nothing to what they can, and nobody gets more than was asked", () => {
  holds(anyCase, (each) => {
    const bed = supplied(each);
    const [most, potsHold] = [sum(each.tanks.capacity), sum(each.groups, ({ count, capacity }) => count * capacity)];
    const shares = sum(each.groups, ({ count, share }) => count * share);
    for (const [t, stored] of bed.stored.entries()) {
      expect(stored).toBeGreaterThanOrEqual(0);
      expect(stored).toBeLessThanOrEqual(most * (1 + 1e-12));
      expect(bed.supplied[t]).toBeLessThanOrEqual(bed.asked[t]!);
      const asks = each.drawn[t]! * shares;
      expect(bed.given[t]! + bed.short[t]!).toBeLessThanOrEqual(asks * (1 + 1e-9) + 1e-9);
    }
    expect(bed.inPots).toBeLessThanOrEqual(potsHold * (1 + 1e-12));
    expect(Math.min(bed.inPots, bed.leftInPots, ...Object.values(bed.totals))).toBeGreaterThanOrEqual(0);
  });
});

test("pots fall short by no more in all than was asked of the tank and not supplied", () => {
  holds(anyCase, (each) => {
    const { asked, supplied: got, short } = supplied(each);
    expect(sum(short)).toBeLessThanOrEqual(sum(asked) - sum(got) + 1e-6);
  });
});

test("a bed whose tank never fails falls short of nothing", () => {
  holds(anyCase, (each) => {
    const lake = { ...each.tanks, capacity: [1e7, ...each.tanks.capacity] };
    const { asked, supplied: got, short } = supplied({ ...each, tanks: lake, startShare: 1 });
    expect(sum(got)).toBe(sum(asked));
    expect(sum(short)).toBe(0);
  });
});

test("doubling roof or first tank never lowers what alike pots have got from tanks with lids up to any day", () => {
  holds(anyPlain, (each) => {
    const small = supplied(each);
    for (const larger of [largerRoof(each), largerTank(each)]) neverLess(small, supplied(larger));
  });
});

/** Less than a millionth of a litre is no shortage on a day, and a case has fewer than 200 days. */
const HAIRS = 2e-4;

test("within a season neither leaves the pots shorter of water", () => {
  holds(anySeason, (each) => {
    const short = sum(supplied(each).short);
    for (const larger of [largerRoof(each), largerTank(each)])
      expect(sum(supplied(larger).short)).toBeLessThanOrEqual(short + HAIRS);
  });
});

function neverLess(small: BedSupply, large: BedSupply) {
  let more = 0;
  for (const [t, litres] of small.supplied.entries()) {
    more += large.supplied[t]! - litres;
    expect(more).toBeGreaterThanOrEqual(-1e-6);
  }
}
