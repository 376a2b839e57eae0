import { cumsum, range, sum } from "d3-array";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bedDays, rainCapacity } from "../../../model/advice/season/seasonDemand.ts";
import type { Plan } from "../../../model/plan/plan.ts";
import { REFILL } from "../../../model/supply/bedSupply.ts";
import { expectClose } from "../../support/close.ts";
import { plan } from "../../support/livingPlan.ts";
import { releaseBy } from "../../support/release.ts";

const YEAR = 365;
/** Tomatoes planted on the first day of the year, 145 days to their last; by seed, or with roots of their full depth. */
const bed = (changes: object = {}) => plan({ planting: { month: "january", day: 1 }, ...changes });
const half = releaseBy(0.2, { age: 0, perLitre: 0.5 });

const even = (mm: number) => new Float64Array(YEAR).fill(mm);
const rainOn = (rains: Record<number, number>) => Float64Array.from(range(YEAR), (day) => rains[day] ?? 0);

describe("a bed that no rain falls on", () => {
  const release = releaseBy(0.2, { age: 20, perLitre: 0.4, met: 0.9 }, { age: 120, perLitre: 0.6, met: 0.7 });
  const days = bedDays(bed(), release, { rainMm: even(0), EToMm: even(5) });

  it("has all that plants lack from its pots: their base, and so much for each litre by the plants' age", () => {
    expect(sum(days.fromRain)).toBe(0);
    // Kcb 0.15 on day 10; 1.15 − 0.05 on day 90, when each litre brings 0.4 + 0.7 · 0.2. 70 cm by 70 cm are 0.49 m².
    expectClose(days.drawnLitres[10]!, 0.2 + 0.4 * 0.15 * 5 * 0.49, { tolerance: 1e-9, unit: "L", what: "day 10" });
    expectClose(days.drawnLitres[90]!, 0.2 + 0.54 * 1.1 * 5 * 0.49, { tolerance: 1e-9, unit: "L", what: "day 90" });
  });

  // FAO-56, eq. 80 with Ke = 0: below a dry surface ETc = Ks Kcb ETo.
  it("uses nothing at its dry surface: plants that get a share of what they want use that of Kcb ETo, and lack the rest", () => {
    for (const [day, met] of [
      [10, 0.9],
      [90, 0.76],
      [130, 0.7],
    ] as const)
      expectClose(days.wanted[day]! - days.lacking[day]!, met * days.wanted[day]!, {
        ...{ tolerance: 1e-9, unit: "mm", what: `day ${day}` },
      });
    expectClose(days.wanted[90]!, 1.1 * 5, { tolerance: 1e-9, unit: "mm", what: "Kcb ETo" });
  });

  it("asks for nothing outside its season, which ends on the crop's last day", () => {
    expect(days.age[0]).toBe(0);
    expect(days.age[144]).toBe(144);
    expect([...days.age.subarray(145)]).toEqual(range(145, YEAR).map(() => -1));
    for (const numbers of [days.drawnLitres, days.wanted, days.lacking, days.watered])
      expect(sum(numbers.subarray(145))).toBe(0);
  });

  it("is compared with Kc ETo of a bed that is watered from above", () => {
    // FAO-56, Table 12: tomato 0.6 and 1.15.
    expectClose(days.watered[10]!, 0.6 * 5, { tolerance: 1e-9, unit: "mm", what: "young" });
    expectClose(days.watered[90]!, 1.15 * 5, { tolerance: 1e-9, unit: "mm", what: "full grown" });
  });
});

describe("rain on a bed", () => {
  it("that floods it every day leaves the pots what sinks away, and nothing else", () => {
    const { drawnLitres, fromRain, wanted, lacking } = bedDays(bed(), half, { rainMm: even(80), EToMm: even(5) });
    // On the first days the whole store of the ground that seedlings reach is less than they want.
    for (const day of range(2, 145)) {
      expect(drawnLitres[day]).toBeCloseTo(0.2, 12);
      expect(fromRain[day]).toBe(wanted[day]);
      expect(lacking[day]).toBe(0);
    }
  });

  // Loam: θ(−330 cm) 0.1654, θ(−15 296 cm) 0.0882 by its class mean; 0.7 m deep; tomato's p is 0.4 at 5 mm/day.
  it("is kept as the readily available water of the full roots' depth", () => {
    expectClose(rainCapacity(bed()), 1000 * 0.0772 * 0.7 * 0.4, { tolerance: 0.1, unit: "mm", what: "loam" });
    expect(rainCapacity(bed({ soil: { kind: "class", name: "sand" } }))).toBeLessThan(rainCapacity(bed()));
  });

  // Full grown: Kcb 1.1 and Ke 0.1 under an ETo of 5, so 5.5 mm for plants and 0.5 mm for the air as long as there is any.
  it("is used up by plants and air from day to day, to the last drop", () => {
    const rained = { rainMm: rainOn({ 80: 20 }), EToMm: even(5) };
    const { fromRain } = bedDays(bed(), half, rained);
    [0, 5.5, 5.5, 5.5, 1.5, 0].forEach((mm, k) => {
      expectClose(fromRain[79 + k]!, mm, { tolerance: 1e-9, unit: "mm", what: `day ${79 + k}` });
    });
  });

  it("beyond what the ground keeps drains away", () => {
    const { fromRain } = bedDays(bed(), half, { rainMm: rainOn({ 80: 500 }), EToMm: even(5) });
    // The air has 0.5 mm of it on each day that begins with any left.
    const capacity = rainCapacity(bed());
    const days = fromRain.filter((mm) => mm > 0).length;
    expectClose(sum(fromRain), capacity - 0.5 * days, { tolerance: 1e-9, unit: "mm", what: "from rain" });
  });

  it("less than a fifth of the day's thirst dries off before it goes in", () => {
    const dry = bedDays(bed(), half, { rainMm: even(0.99), EToMm: even(5) });
    expect(sum(dry.fromRain)).toBe(0);
    const wet = bedDays(bed(), half, { rainMm: even(1.01), EToMm: even(5) });
    expect(sum(wet.fromRain)).toBeGreaterThan(10);
  });

  it("reaches young roots in part alone", () => {
    // Seeds lie 1 cm deep: roots of 2 cm at first, of 70 cm in the end, 2/70 of what is left after the air's part.
    const { fromRain } = bedDays(bed(), half, { rainMm: rainOn({ 0: 21 }), EToMm: even(5) });
    const evaporated = 5 * 1.05;
    expectClose(fromRain[0]!, ((21 - evaporated) * 2) / 70, { tolerance: 1e-9, unit: "mm", what: "first day" });
  });

  it("under mulch is left to the plants for longer", () => {
    const fromRain = (mulch: object) =>
      sum(bedDays(bed({ mulch }), half, { rainMm: rainOn({ 20: 15 }), EToMm: even(5) }).fromRain);
    expect(fromRain({ kind: "organic", cover: 100 })).toBeGreaterThan(1.2 * fromRain({ kind: "none" }));
  });
});

describe("any weather", () => {
  const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const daily = (of: fc.Arbitrary<number>) => fc.array(of, { minLength: YEAR, maxLength: YEAR });
  const anyRain = daily(fc.oneof({ weight: 3, arbitrary: fc.constant(0) }, { weight: 1, arbitrary: number(0.1, 60) }));
  const anyWeather = fc.record({ rainMm: anyRain, EToMm: daily(number(0.2, 9)) });
  const anyBed: fc.Arbitrary<Plan> = fc
    .record({
      soil: fc.constantFrom("sand", "loam", "clay"),
      cover: number(0, 100),
      crop: fc.constantFrom("tomato", "lettuce", "carrot", "sweet pepper"),
      month: fc.constantFrom("january", "april", "october"),
    })
    .map(({ soil, cover, crop, month }) =>
      plan({
        soil: { kind: "class", name: soil },
        mulch: { kind: "organic", cover },
        crop: { kind: "listed", name: crop },
        planting: { month, day: 3 },
      }),
    );

  it("makes no water: plants get from rain no more than has fallen, than they want, and than the ground keeps", () => {
    fc.assert(
      fc.property(anyBed, anyWeather, (each, weather) => {
        const { fromRain, wanted } = bedDays(each, half, weather);
        const [got, fallen] = [cumsum(fromRain), cumsum(weather.rainMm)];
        const capacity = rainCapacity(each);
        const most = (day: number) => Math.min(wanted[day]!, capacity);
        expect(range(YEAR).filter((day) => got[day]! > fallen[day]! + 1e-9)).toEqual([]);
        expect(range(YEAR).filter((day) => fromRain[day]! < 0 || fromRain[day]! > most(day) + 1e-9)).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  it("with more rain on any days never draws more from the pots up to any day", () => {
    const more = daily(fc.oneof({ weight: 4, arbitrary: fc.constant(0) }, { weight: 1, arbitrary: number(0, 30) }));
    fc.assert(
      fc.property(anyBed, anyWeather, more, (each, weather, extra) => {
        const wetter = { ...weather, rainMm: weather.rainMm.map((mm, day) => mm + extra[day]!) };
        const [least, most] = [wetter, weather].map((one) => cumsum(bedDays(each, half, one).drawnLitres));
        expect(range(YEAR).filter((day) => least![day]! > most![day]! + 1e-9)).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });
});

describe("the pots of a season", () => {
  const rest = { rainMm: new Float64Array(2 * YEAR), EToMm: new Float64Array(2 * YEAR) };
  const refills = (changes: object) => bedDays(bed(changes), half, rest).refill;
  const filledOn = (changes: object, until = 12) => {
    const refill = refills(changes);
    return range(until).filter((day) => refill[day] === REFILL.filled);
  };

  it("are filled each so many days from planting on, on whole days", () => {
    expect(filledOn({ filling: { kind: "every", days: 3 } })).toEqual([0, 3, 6, 9]);
    expect(filledOn({ filling: { kind: "every", days: 2.5 } })).toEqual([0, 3, 5, 8, 10]);
    expect(filledOn({ filling: { kind: "every", days: 0.5 } }, 3)).toEqual([0, 1, 2]);
    expect(filledOn({ filling: { kind: "every", days: 3 }, planting: { month: "january", day: 3 } })).toEqual([
      2, 5, 8, 11,
    ]);
  });

  it("are filled once at planting, or held full, as the plan has it", () => {
    expect(filledOn({ filling: { kind: "once" } }, 2 * YEAR)).toEqual([0, YEAR]);
    const held = refills({ filling: { kind: "float" } });
    expect([...held.subarray(0, 145)]).toEqual(range(145).map(() => REFILL.held));
  });

  it("are left to themselves from the season's end to the next one's beginning, in each year", () => {
    const away = refills({ planting: { month: "november", day: 1 } });
    // From 1 November 61 days and then 84 more: away from 26 March to 31 October.
    expect(range(2 * YEAR).filter((day) => away[day] === REFILL.away)).toEqual([
      ...range(84, 304),
      ...range(84 + YEAR, 304 + YEAR),
    ]);
  });

  it("of a crop that stands all year are never left, and filled anew on each day of planting", () => {
    const crop = { crop: { kind: "listed", name: "asparagus" }, filling: { kind: "every", days: 60 } };
    const sowing = { kind: "starter", rootBallDepth: 8, rootBallRadius: 3 };
    expect(filledOn({ ...crop, sowing }, 2 * YEAR)).toEqual([...range(0, YEAR, 60), ...range(YEAR, 2 * YEAR, 60)]);
    expect(refills({ ...crop, sowing })).not.toContain(REFILL.away);
  });
});
