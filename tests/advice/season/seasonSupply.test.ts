import { range, sum } from "d3-array";
import { describe, expect, it } from "vitest";
import { bedDays } from "../../../model/advice/season/seasonDemand.ts";
import {
  type BedDemand,
  bedWeather,
  carriedShare,
  seasonSupply,
  supplyYears,
  tanksOf,
} from "../../../model/advice/season/seasonSupply.ts";
import type { Plan } from "../../../model/plan/plan.ts";
import { dayETo } from "../../../model/problems/demand.ts";
import { supplyBed } from "../../../model/supply/bedSupply.ts";
import type { DayWeather } from "../../../model/weather/dayWeather.ts";
import { weatherYears } from "../../../model/weather/generator.ts";
import { expectClose } from "../../support/close.ts";
import { plan } from "../../support/livingPlan.ts";
import { releaseBy } from "../../support/release.ts";

const YEAR = 365;
const release = releaseBy(0.2, { age: 0, perLitre: 0.9 });

/** Years of the plan's own months by chance. */
const yearsOf = ({ weather }: Plan, years: number) => weatherYears(weather.months, { years, seed: 8 });

function asked(bed: Plan, years: DayWeather[][], pots = 10): BedDemand {
  const weather = bedWeather(bed, years);
  return { weather, days: bedDays(bed, release, weather), pots };
}

const alike = (day: Partial<DayWeather>): DayWeather[] =>
  range(YEAR).map(() => ({ highC: 25, lowC: 12, rainMm: 0, air: null, ...day }));

describe("a bed's weather", () => {
  it("is the rain and each day's own thirst of the years one after the other", () => {
    const bed = plan();
    const [first, second] = [alike({ rainMm: 2 }), alike({ highC: 30, rainMm: 3 })];
    const { rainMm, EToMm } = bedWeather(bed, [first, second]);
    expect(sum(Array.from(rainMm))).toBe(2 * YEAR + 3 * YEAR);
    for (const day of [1, 200, 365]) {
      expect(EToMm[day - 1]).toBe(dayETo(bed.weather, day, first[0]!).EToMm);
      expect(EToMm[YEAR + day - 1]).toBe(dayETo(bed.weather, day, second[0]!).EToMm);
    }
  });

  it("has the thirst of humid, windy or sunny days where they are known", () => {
    const air = { humidity: 40, wind: 4, sunHours: 10 };
    const [dry, humid] = [air, { ...air, humidity: 90 }].map(
      (known) => bedWeather(plan(), [alike({ air: known })]).EToMm[180]!,
    );
    expect(dry).toBeGreaterThan(1.2 * humid!);
  });
});

describe("a plan's roof and tanks", () => {
  it("bring what runs off the roof, less the first flush", () => {
    const bed = plan({ roof: { area: 30, runoff: 80, firstFlush: 0.5 } });
    const { totals } = seasonSupply(bed, asked(bed, [alike({ rainMm: 2 })]));
    // 0.8 · 30 m² · 2 mm each day, the first one without its first half.
    expectClose(totals.inflow, 24 * (2 * YEAR - 0.5), { tolerance: 1e-6, unit: "L", what: "from the roof" });
    expect(totals.evaporated).toBe(0);
  });

  it("without a lid catch rain themselves and lose water to the air, by the water's own surface", () => {
    const bed = plan({ roof: { area: 0 }, tank: { volume: 1200, waterHeight: 120, lid: false } });
    // More rain than the air takes on any day, so that there is always water to take.
    const { weather, days } = asked(bed, [alike({ rainMm: 20 })]);
    const { totals } = seasonSupply(bed, { weather, days, pots: 0 });
    // 1.2 m³ that stand 1.2 m high: 1 m². FAO-56, Table 12: Kc 1.05 (from memory).
    expectClose(totals.inflow, 20 * YEAR, { tolerance: 1e-6, unit: "L", what: "caught" });
    const thirst = sum(Array.from(weather.EToMm));
    expectClose(totals.evaporated, 1.05 * thirst, { tolerance: 1e-6, unit: "L", what: "to the air" });
  });

  it("are those of the plan: spare tanks behind the first, moved on from, and topped up by hand", () => {
    const spareTanks = { kind: "alike", count: 2, volume: 300, transfer: 50 };
    const topUp = { kind: "below", share: 20, amount: 80 };
    expect(tanksOf(plan({ spareTanks, topUp }), 1000)).toEqual({
      capacity: [1000, 300, 300],
      transfer: 50,
      topUp: { belowShare: 0.2, litres: 80 },
      useComes: "after spilling",
    });
    expect(tanksOf(plan(), 700, "before spilling")).toEqual({
      capacity: [700],
      transfer: 0,
      topUp: null,
      useComes: "before spilling",
    });
  });

  const dryPlace = plan({ roof: { area: 8 }, tank: { volume: 300 }, filling: { kind: "every", days: 3 } });
  const demand = asked(dryPlace, yearsOf(dryPlace, 12));
  const got = (changes: Parameters<typeof seasonSupply>[2], bed = dryPlace) =>
    seasonSupply(bed, demand, changes).totals.supplied;

  it("give more from a larger roof and a larger tank with a lid, and never less", () => {
    const { roof, tank } = dryPlace;
    const byRoof = [0.5, 1, 2, 4, 8].map((times) => got({ roofArea: times * roof.area }));
    const byTank = [0.5, 1, 2, 4, 8].map((times) => got({ litres: times * tank.litres }));
    for (const rising of [byRoof, byTank]) {
      expect(rising).toEqual(rising.toSorted((a, b) => a - b));
      expect(rising.at(-1)).toBeGreaterThan(1.2 * rising[0]!);
    }
  });

  it("without a lid may give less from a larger tank, whose water has a larger surface to dry off from", () => {
    const open = { ...dryPlace, tank: { ...dryPlace.tank, lid: false, waterHeight: 20 } };
    expect(got({ litres: 16 * open.tank.litres }, open)).toBeLessThan(got({ litres: 2 * open.tank.litres }, open));
  });

  it("give at least as much where a day's use comes before its spilling, by some hundredths", () => {
    const [after, before] = [got({ useComes: "after spilling" }), got({ useComes: "before spilling" })];
    expect(before).toBeGreaterThanOrEqual(after);
    expect(before / after).toBeLessThan(1.1);
  });

  it("with spare tanks give more than without, and with topping up more still", () => {
    const spare = { ...dryPlace, spareTanks: { count: 2, litres: 300, transferLitres: 100 } };
    const topped = { ...spare, topUp: { belowShare: 0.3, litres: 100 } };
    expect(got({}, spare)).toBeGreaterThan(1.05 * got({}));
    expect(got({}, topped)).toBeGreaterThan(1.05 * got({}, spare));
  });
});

describe("years of supply", () => {
  const none = () => new Float64Array(3 * YEAR);
  const year = (k: number, day: number) => k * YEAR + day;

  it("are told from January to December, without the first, with the months in which pots fell short", () => {
    const [stored, askedFor, supplied, short] = [none(), none(), none(), none()];
    askedFor[year(1, 0)] = 10;
    supplied[year(1, 0)] = 4;
    short[year(1, 0)] = 6;
    short[year(1, 59)] = 2;
    short[year(0, 364)] = 100;
    stored[year(2, 364)] = 33;
    const supply = {
      ...supplyBed(tanksOf(plan(), 1), [], { inflow: [], evaporation: [], drawn: [], refill: [] }),
      stored,
      asked: askedFor,
      supplied,
      short,
    };
    const [second, third] = supplyYears(supply);
    // The sixtieth day is 1 March.
    expect(second).toMatchObject({ asked: 10, supplied: 4, short: 8, shortDays: 2, shortMonths: new Set([0, 2]) });
    expect(third).toMatchObject({ asked: 0, short: 0, shortDays: 0, shortMonths: new Set() });
    expect(third!.stored.at(-1)).toBe(33);
    expect(supplyYears(supply, 0)).toHaveLength(3);
    expect(carriedShare(supply)).toBe(0.5);
    expect(carriedShare(supply, 0)).toBeCloseTo(1 / 3, 12);
  });

  it("carried by a tank that never runs dry are all of them, and by none none", () => {
    const bed = plan();
    const demand = asked(bed, yearsOf(bed, 4));
    expect(carriedShare(seasonSupply(bed, demand, { roofArea: 1e8, litres: 1e6 }))).toBe(1);
    expect(carriedShare(seasonSupply(bed, demand, { roofArea: 0, litres: 1e6 }))).toBe(0);
  });
});

it("ten years of twenty pots, each with a share of its own, are followed day by day", () => {
  const bed = plan({ spareTanks: { kind: "alike", count: 3, volume: 300, transfer: 100 } });
  const years = yearsOf(bed, 10);
  const { weather, days } = asked(bed, years);
  const groups = range(20).map((k) => ({ count: 1, capacity: 6, share: 0.5 + k / 20 }));
  const inflow = Float64Array.from(weather.rainMm, (mm) => 40 * mm);
  const evaporation = new Float64Array(inflow.length);
  const { stored } = supplyBed(tanksOf(bed, 1000), groups, {
    inflow,
    evaporation,
    drawn: days.drawnLitres,
    refill: days.refill,
  });
  expect(stored.length).toBe(10 * YEAR);
});

it("a tank half of whose water stands below the tubes' ends serves as half of it", () => {
  const low = plan({ tank: { volume: 1000, waterHeight: 120, outletHeight: -58 } });
  expect(tanksOf(low, 1000).capacity[0]).toBeCloseTo(500, 9);
  const half = plan({ tank: { volume: 500 } });
  const years = yearsOf(low, 4);
  const [supplied, known] = [low, half].map((bed) => seasonSupply(bed, asked(bed, years)).totals.supplied);
  expectClose(supplied!, known!, { tolerance: 1e-6, unit: "L", what: "supplied" });
});
