import { range, sum } from "d3-array";
import { describe, expect, it } from "vitest";
import { type Release, releaseAt, releaseOf } from "../../../model/advice/season/release.ts";
import { seasonOf, seasonProblems } from "../../../model/advice/season/season.ts";
import { MONTHS } from "../../../model/calendar/months.ts";
import { monthOfDay } from "../../../model/calendar/yearDays.ts";
import type { Run } from "../../../model/flow/run.ts";
import type { Plan } from "../../../model/plan/plan.ts";
import { demandOf } from "../../../model/problems/demand.ts";
import { layerLitres } from "../../../model/units/factors.ts";
import { expectClose } from "../../support/close.ts";
import { plan } from "../../support/livingPlan.ts";
import { handMade } from "../handMade.ts";

const plantedOn = (month: string, day: number, changes: object = {}) => plan({ planting: { month, day }, ...changes });
const asparagus = {
  crop: { kind: "listed", name: "asparagus" },
  sowing: { kind: "starter", rootBallDepth: 8, rootBallRadius: 3 },
};

describe("a season", () => {
  // Tomato: 30 + 40 + 45 + 30 days (FAO-56, Table 11); 16 of them in April, 6 in September.
  it("has the months from planting to the crop's last day, each with the plants' age on its middle day", () => {
    expect(seasonOf(plantedOn("april", 15))).toEqual({
      plantingDay: 105,
      days: 145,
      months: [
        { month: "april", age: 8 },
        { month: "may", age: 31 },
        { month: "june", age: 62 },
        { month: "july", age: 92 },
        { month: "august", age: 123 },
        { month: "september", age: 142 },
      ],
    });
  });

  it("goes over the new year", () => {
    const { plantingDay, months } = seasonOf(plantedOn("november", 1));
    expect(plantingDay).toBe(305);
    expect(months.map(({ month }) => month)).toEqual(["november", "december", "january", "february", "march"]);
    // 30 and 31 days before January's sixteenth.
    expect(months[2]!.age).toBe(76);
  });

  it("of a crop that stands all year has every month once, and ends the day before the next one begins", () => {
    const { days, months } = seasonOf(plantedOn("march", 1, asparagus));
    expect(days).toBe(365);
    expect(months.map(({ month }) => month)).toEqual([...MONTHS.slice(2), ...MONTHS.slice(0, 2)]);
  });

  it("planted on any day and of any length has each of its days in one of its months, in order of age", () => {
    for (const plantingDay of range(1, 366, 13))
      for (const days of [1, 31, 100, 300, 365, 500]) {
        const stageDays = { initial: days, development: 0, mid: 0, late: 0 };
        const season = seasonOf({ plantingDay, crop: { ...plan().crop, stageDays } });
        expect(season.days).toBe(Math.min(days, 365));
        const named = new Set(season.months.map(({ month }) => month));
        const lived = range(season.days).map((age) => monthOfDay(((plantingDay - 1 + age) % 365) + 1));
        expect(named).toEqual(new Set(lived));
        const ages = season.months.map(({ age }) => age);
        expect(ages).toEqual(ages.toSorted((a, b) => a - b));
        for (const { month, age } of season.months) expect(lived[age]).toBe(month);
      }
  });
});

describe("the runs of a season", () => {
  const rainy = plantedOn("april", 15, { handWatering: { kind: "every", days: 2, amount: 10 } });
  const problems = seasonProblems(rainy);

  it("are four over its months and one without thirst, without rain and watering, in ground that begins dry", () => {
    expect(Object.keys(problems)).toEqual(["no thirst", "april", "june", "july", "september"]);
    for (const { weather, startHead, days } of Object.values(problems)) {
      expect(sum(weather, ({ rain }) => rain)).toBe(0);
      expect(startHead).toBeLessThan(-5000);
      expect(days.at(-1)).toBe(LAST_DAY);
    }
  });

  it("are one for each month of a short season", () => {
    const short = plantedOn("june", 1, { crop: { kind: "listed", name: "radish" } });
    expect(Object.keys(seasonProblems(short))).toEqual(["no thirst", "june", "july"]);
  });

  it("thirst more the fuller the plants are grown and the warmer the month, but for the one that does not", () => {
    const thirst = (name: string) => problems[name]!.weather[0]!.transpiration;
    expect(thirst("no thirst")).toBe(0);
    expect(thirst("june")).toBeGreaterThan(2 * thirst("april"));
    expect(thirst("july")).toBeGreaterThan(thirst("june"));
  });
});

/** Litres a day before, within and after the days that count. */
type Rates = [before: number, within: number, after: number];

const LAST_DAY = 21;

function runAt(
  bed: Plan,
  [from, to]: [number, number],
  rates: Record<"given" | "wanted" | "taken" | "lost", Rates>,
): Run {
  const day = [...new Set([0, from, to, LAST_DAY])];
  const risen = ([before, within, after]: Rates) =>
    day.map(
      (t) => before * Math.min(t, from) + within * Math.max(Math.min(t, to) - from, 0) + after * Math.max(t - to, 0),
    );
  const run = handMade(bed, { day, seepageLitres: risen(rates.given) });
  const [wantedLitres, uptakeLitres, potLossLitres] = [risen(rates.wanted), risen(rates.taken), risen(rates.lost)];
  return { ...run, history: { ...run.history, wantedLitres, uptakeLitres, potLossLitres } };
}

describe("what a pot gives in a season", () => {
  const nothing: Rates = [0, 0, 0];
  const even = (rate: number): Rates => [9, rate, 7];

  it.each<[string, object, [number, number]]>([
    ["filled every third day", { kind: "every", days: 3 }, [9, 21]],
    ["filled each week", { kind: "every", days: 7 }, [14, 21]],
    ["filled every two and a half days", { kind: "every", days: 2.5 }, [10, 20]],
    ["kept full", { kind: "float" }, [9, 21]],
    ["filled once", { kind: "once" }, [0, 21]],
    ["filled every twenty days", { kind: "every", days: 20 }, [0, 20]],
    ["filled every forty days", { kind: "every", days: 40 }, [0, 21]],
  ])("%s is read over whole fillings, from the ninth day on where there are such", (_, filling, span) => {
    const bed = plantedOn("april", 15, { filling });
    const thirsty = runAt(bed, span, { given: even(0.9), wanted: even(2), taken: even(1.5), lost: nothing });
    const sated = runAt(bed, span, { given: even(0.1), wanted: nothing, taken: nothing, lost: nothing });
    const months = seasonOf(bed).months.map(({ month }) => month);
    const release = releaseOf(bed, {
      "no thirst": sated,
      ...Object.fromEntries(months.map((month) => [month, thirsty])),
    });
    expectClose(release.base, 0.1, { tolerance: 1e-12, unit: "L/day", what: "base" });
    for (const { perLitre, met, given, wanted, taken } of release.knots) {
      // 0.8 L more for 2 L that are wanted.
      expectClose(perLitre, 0.4, { tolerance: 1e-12, what: "per litre" });
      expectClose(met, 0.75, { tolerance: 1e-12, what: "met" });
      expect([given, wanted, taken].map((value) => Number(value.toFixed(12)))).toEqual([0.9, 2, 1.5]);
    }
  });

  it("is with what an open pot loses to the air, and never less for thirst", () => {
    const bed = plantedOn("april", 15, { filling: { kind: "float" }, lid: false });
    const rates = { given: even(0.5), wanted: even(2), taken: even(2) };
    const months = seasonOf(bed).months.map(({ month }) => month);
    const read = (lost: Rates) => {
      const thirsty = runAt(bed, [9, 21], { ...rates, lost });
      const sated = runAt(bed, [9, 21], { given: even(0.6), wanted: nothing, taken: nothing, lost: nothing });
      return releaseOf(bed, { "no thirst": sated, ...Object.fromEntries(months.map((month) => [month, thirsty])) });
    };
    expectClose(read(even(0.3)).knots[0]!.perLitre, 0.1, { tolerance: 1e-12, what: "per litre, 0.2 L more for 2 L" });
    expect(read(nothing).knots[0]!.perLitre).toBe(0);
  });

  const known = { wanted: 0, given: 0, taken: 0 };
  const release: Release = {
    base: 0.2,
    knots: [
      { month: "may", age: 20, perLitre: 0.4, met: 0.8, ...known },
      { month: "june", age: 40, perLitre: 0.6, met: 1, ...known },
      { month: "july", age: 80, perLitre: 0.5, met: 0.6, ...known },
    ],
  };

  it.each([
    [0, 0.4, 0.8],
    [20, 0.4, 0.8],
    [30, 0.5, 0.9],
    [40, 0.6, 1],
    [50, 0.575, 0.9],
    [80, 0.5, 0.6],
    [140, 0.5, 0.6],
  ])(
    "runs straight between the months, and stays before the first and after the last: at %d days",
    (age, perLitre, met) => {
      const at = releaseAt(release, age);
      expect(at.base).toBe(0.2);
      expectClose(at.perLitre, perLitre, { tolerance: 1e-12, what: "per litre" });
      expectClose(at.met, met, { tolerance: 1e-12, what: "met" });
    },
  );

  it("of one month alone is that month's all along", () => {
    const alone = { base: 0, knots: release.knots.slice(1, 2) };
    for (const age of [0, 40, 100]) expect(releaseAt(alone, age)).toEqual({ base: 0, perLitre: 0.6, met: 1 });
  });
});

// Tomato full grown: Kcb 1.15 − 0.05; 70 cm by 70 cm.
it("plants want of a pot's ground as many litres as mm over its area", () => {
  const bed = plan();
  const { transpiration } = demandOf(bed, 80, 0, 10);
  expectClose(layerLitres(transpiration, bed.areaPerPot), 1.1 * 10 * 0.49, {
    tolerance: 1e-9,
    unit: "L/day",
    what: "wanted",
  });
});
