import { describe, expect, it } from "vitest";
import {
  carryingFor,
  ENOUGH,
  intervalProblem,
  litresByInterval,
  metByInterval,
  metShare,
  RUN_IN_DAYS,
  TRIED_INTERVALS,
  WATCHED_DAYS,
  watchedOutcome,
  watchedProblem,
} from "../../../model/advice/pot/refill.ts";
import type { Run } from "../../../model/flow/run.ts";
import type { Plan } from "../../../model/plan/plan.ts";
import { buildPot } from "../../../model/pot/buildPot.ts";
import { headOfSuction } from "../../../model/units/units.ts";
import { expectClose } from "../../support/close.ts";
import { handMade, planned } from "../handMade.ts";

const lastDay = RUN_IN_DAYS + WATCHED_DAYS;

interface Known {
  day: number[];
  /** What the plants got, litres since the start; they want a litre a day. */
  got?: number[];
  poured?: number[];
  /** Share of the pot that is full. */
  full?: number[];
  /** Pressure head of the four cells (a litre inside, 24 L outside; above 20 cm and below), by kept day. */
  heads?: Record<number, [number, number, number, number]>;
}

function runOf(plan: Plan, { day, got = day, poured, full, heads = {} }: Known): Run {
  const run = handMade(plan, { day });
  const pot = buildPot(plan.pot);
  const zeros = day.map(() => 0);
  return {
    ...run,
    frames: Object.entries(heads).map(([kept, h]) => ({
      ...run.frames[0]!,
      day: Number(kept),
      h: Float64Array.from(h),
    })),
    history: {
      ...run.history,
      uptakeLitres: got,
      wantedLitres: day,
      pouredLitres: poured ?? zeros,
      waterLevelDepth: full ? full.map((share) => pot.levelAt(share * pot.capacity)) : zeros,
    },
  };
}

/** Rows of whole days; at a refill a day stands twice. */
function rowsOf(refills: number[]): number[] {
  return Array.from({ length: lastDay + 1 }, (_, day) =>
    refills.includes(day) && day > 0 ? [day, day] : [day],
  ).flat();
}

const every = (days: number) => planned({ filling: { kind: "every", days } });
const days = { tolerance: 1e-9, unit: "days" };
const dry: [number, number, number, number] = [-9000, -9000, -9000, -9000];

describe("the share of thirst that is met", () => {
  const run = runOf(planned(), { day: [0, 2, 4], got: [0, 2, 3] });

  it("is what plants got over what they wanted, between two days", () => {
    expectClose(metShare(run, 0, 4), 3 / 4, { tolerance: 1e-12, what: "all four days" });
    expectClose(metShare(run, 2, 4), 1 / 2, { tolerance: 1e-12, what: "the last two days" });
    expectClose(metShare(run, 1, 3), (1 + 0.5) / 2, { tolerance: 1e-12, what: "between two steps" });
  });

  it("is 1 where plants want nothing", () => {
    const { history, ...rest } = run;
    expect(metShare({ ...rest, history: { ...history, wantedLitres: [0, 0, 0] } }, 0, 4)).toBe(1);
  });
});

describe("a filling watched", () => {
  // Filled on days 0, 5 and 10; the last filling falls in a straight line to nothing in eight days.
  const plan = every(5);
  const day = rowsOf([5, 10]);
  const full = day.map((d, k) => (d < 10 || day[k + 1] === 10 ? 0.6 : Math.max(1 - (d - 10) / 8, 0)));
  const poured = day.map((d, k) => (d < 5 || day[k + 1] === 5 ? 7 : d < 10 || day[k + 1] === 10 ? 10 : 14));

  it("is the last refill of the first fortnight, and tells what was poured then", () => {
    const { fromDay, litres } = watchedOutcome(plan, runOf(plan, { day, full, poured }));
    expect(fromDay).toBe(10);
    expectClose(litres, 4, { tolerance: 1e-12, unit: "L", what: "poured by the refill on day 10" });
  });

  it("tells when a quarter is left and when the pot is empty, from that refill on", () => {
    const { quarterDays, emptyDays } = watchedOutcome(plan, runOf(plan, { day, full, poured }));
    expectClose(quarterDays!, 6, { ...days, tolerance: 0.02, what: "a quarter left" });
    expectClose(emptyDays!, 8, { ...days, tolerance: 1e-6, what: "empty" });
  });

  it("has no day for a pot that keeps its water", () => {
    const outcome = watchedOutcome(plan, runOf(plan, { day, full: day.map(() => 0.5), poured }));
    expect([outcome.quarterDays, outcome.emptyDays]).toEqual([null, null]);
  });

  it("tells from when plants get less than nine tenths: at once, later, or never", () => {
    const gotUntil = (end: number, after: number) => day.map((d) => Math.min(d, end) + after * Math.max(d - end, 0));
    const heads = { 13: dry, 10: dry };
    const sufferOf = (got: number[]) => watchedOutcome(plan, runOf(plan, { day, full, poured, got, heads })).sufferDays;
    expect(sufferOf(gotUntil(13, ENOUGH - 0.01))).toBe(3);
    expect(sufferOf(gotUntil(10, 0.5))).toBe(0);
    expect(sufferOf(gotUntil(13, ENOUGH + 0.01))).toBeNull();
  });

  it("tells what was met from the refill before it on", () => {
    const got = day.map((d) => Math.min(d, 5) + 0.6 * Math.min(Math.max(d - 5, 0), 5) + Math.max(d - 10, 0));
    const { metBefore } = watchedOutcome(plan, runOf(plan, { day, full, poured, got }));
    expectClose(metBefore, 0.6, { tolerance: 1e-9, what: "met from day 5 to day 10" });
  });

  it("is the first one where it is filled once", () => {
    const once = planned({ filling: { kind: "once" } });
    const single = rowsOf([]);
    const got = single.map((d) => 0.4 * Math.min(d, 1) + Math.max(d - 1, 0));
    const run = runOf(once, {
      day: single,
      poured: single.map(() => 7),
      got,
      full: single.map((d) => 1 - d / 28),
      heads: { 1: dry },
    });
    const { fromDay, litres, quarterDays, emptyDays, sufferDays, metBefore } = watchedOutcome(once, run);
    expect({ fromDay, litres, sufferDays }).toEqual({ fromDay: 0, litres: 7, sufferDays: 0 });
    expectClose(quarterDays!, 21, { ...days, tolerance: 0.05, what: "a quarter left" });
    expectClose(emptyDays!, 28, { ...days, tolerance: 1e-6, what: "empty" });
    expectClose(metBefore, 0.4, { tolerance: 1e-9, what: "met on the first day" });
  });

  it("has litres a day and no days of emptying under a float", () => {
    const float = planned({ filling: { kind: "float" } });
    const plain = rowsOf([]);
    const run = runOf(float, { day: plain, poured: plain.map((d) => 3 * d), full: plain.map((d) => 1 - d / 20) });
    const { fromDay, litres, quarterDays, emptyDays, metBefore } = watchedOutcome(float, run);
    expect({ fromDay, quarterDays, emptyDays, metBefore }).toEqual({
      fromDay: RUN_IN_DAYS,
      quarterDays: null,
      emptyDays: null,
      metBefore: 1,
    });
    expectClose(litres, 3, { tolerance: 1e-9, unit: "L/day", what: "let in by the float" });
  });
});

describe("the cause of suffering", () => {
  const plan = every(7);
  const day = rowsOf([7, 14]);
  const got = day.map((d) => Math.min(d, 16));
  const causeOf = (heads: [number, number, number, number]) =>
    watchedOutcome(plan, runOf(plan, { day, got, heads: { 2: [-1, -1, -1, -1], 16: heads } })).sufferCause;

  it("is dryness or wetness by which of the two holds more of the soil that roots may reach on that day", () => {
    expect(causeOf(dry)).toBe("dry");
    expect(causeOf([-5, -5, -5, -5])).toBe("wet");
    // The outer cells hold 24 times the soil of the inner ones.
    expect(causeOf([-5, -9000, -5, -9000])).toBe("dry");
    expect(causeOf([-9000, -5, -9000, -5])).toBe("wet");
  });

  it("does not look below the deepest roots", () => {
    const shallow = planned({
      filling: { kind: "every", days: 7 },
      crop: { kind: "own", easyWaterSuctionKPa: 50, deepestRoots: 25 },
    });
    const heads = { 16: [-5, -5, -9000, -9000] as [number, number, number, number] };
    expect(watchedOutcome(shallow, runOf(shallow, { day, got, heads })).sufferCause).toBe("wet");
  });

  it("is not told where plants do not suffer", () => {
    expect(watchedOutcome(plan, runOf(plan, { day, heads: { 16: dry } })).sufferCause).toBeNull();
  });
});

describe("intervals tried", () => {
  // The last whole round: of one that goes into 28 days it ends there, of others at the last refill.
  const lastRounds: Record<number, [number, number]> = {
    1: [27, 28],
    2: [26, 28],
    3: [24, 27],
    4: [24, 28],
    5: [20, 25],
    6: [18, 24],
    7: [21, 28],
    8: [16, 24],
    9: [18, 27],
    10: [10, 20],
    11: [11, 22],
    12: [12, 24],
    13: [13, 26],
    14: [14, 28],
  };

  it.each(Object.entries(lastRounds))("of %s days are judged by their last whole round", (interval, [from, to]) => {
    const plan = planned();
    const day = rowsOf([]);
    const got = day.map((d) => (d < from ? 0.2 * d : 0.2 * from + 0.7 * Math.min(d - from, to - from) + 0 * d));
    expectClose(metByInterval(runOf(plan, { day, got }), Number(interval)), 0.7, {
      tolerance: 1e-9,
      what: `met from day ${from} to day ${to}`,
    });
  });

  it("tell what the refill at the beginning of that round poured", () => {
    const refills = [5, 10, 15, 20, 25];
    const day = rowsOf(refills);
    const poured = day.map(
      (d, k) => 100 + refills.filter((at) => at < d || (at === d && day[k - 1] === d)).length ** 2,
    );
    expectClose(litresByInterval(runOf(planned(), { day, poured }), 5), 4 ** 2 - 3 ** 2, {
      tolerance: 1e-12,
      unit: "L",
      what: "poured on day 20",
    });
  });

  it("begin in a dry bed, or in the plan's own where that is drier", () => {
    expect(intervalProblem(planned({ startSuctionKPa: 20 }), 3).startHead).toBe(headOfSuction(500));
    expect(intervalProblem(planned({ startSuctionKPa: 1000 }), 3).startHead).toBe(headOfSuction(1000));
  });

  it("are refilled from the first day to before the last", () => {
    for (const interval of TRIED_INTERVALS) {
      const { filling, days: kept } = intervalProblem(planned(), interval);
      if (filling.kind !== "refilled") throw new Error("not refilled");
      expect(filling.atDays[0]).toBe(0);
      expect(filling.atDays.length).toBe(Math.ceil(lastDay / interval));
      expect(kept.at(-1)).toBe(lastDay);
    }
  });
});

describe("the run that is watched", () => {
  it("is refilled by the plan for a fortnight and then no more", () => {
    expect(watchedProblem(every(5)).filling).toEqual({ kind: "refilled", atDays: [0, 5, 10] });
    expect(watchedProblem(every(7)).filling).toEqual({ kind: "refilled", atDays: [0, 7, 14] });
    expect(watchedProblem(every(30)).filling).toEqual({ kind: "refilled", atDays: [0] });
    expect(watchedProblem(planned({ filling: { kind: "once" } })).filling).toEqual({ kind: "refilled", atDays: [0] });
    expect(watchedProblem(planned({ filling: { kind: "float" } })).filling.kind).toBe("held");
  });
});

describe("carrying", () => {
  const plan = planned({ carrying: { can: 10, hose: 8 } });

  it("counts whole trips with the can, and minutes with the hose", () => {
    expect(carryingFor(plan, 20)).toEqual({ trips: 2, hoseMinutes: 2.5 });
    expect(carryingFor(plan, 20.1).trips).toBe(3);
    expect(carryingFor(plan, 0)).toEqual({ trips: 0, hoseMinutes: 0 });
  });
});
