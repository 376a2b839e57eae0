import { describe, expect, it } from "vitest";
import { MONTHS } from "../../model/calendar/months.ts";
import { dayOfYear } from "../../model/calendar/yearDays.ts";
import { soundValue } from "../../model/input/faults.ts";
import { type Plan, resolvePlan } from "../../model/plan/plan.ts";
import { usableShare, waterSurface } from "../../model/plan/planSupply.ts";
import { expectClose } from "../support/close.ts";
import { BED, faultsOf, US_BED } from "../support/typedBeds.ts";

const planned = (changes: object = {}, bed: object = BED) => soundValue(resolvePlan({ ...bed, ...changes }));

const waterOf = ({ plantingDay, roof, tank, spareTanks, topUp }: Plan) => ({
  plantingDay,
  roof,
  tank,
  spareTanks,
  topUp,
});
/** To what a change of units leaves of a number. */
const rounded = (value: object) =>
  JSON.parse(JSON.stringify(value, (_, inner) => (typeof inner === "number" ? Number(inner.toPrecision(10)) : inner)));

describe("where a plan's water comes from", () => {
  it("left to its defaults is the same in both unit systems", () => {
    const [metric, us] = [planned(), planned({}, US_BED)];
    expect(rounded(waterOf(us))).toEqual(rounded(waterOf(metric)));
    // The ends of the small tubes follow the rim, and the default rims of the two pots are alike.
    expect(rounded(us.line)).toEqual(rounded(metric.line));
  });

  it("is in cm, mm and litres, typed in metres and litres", () => {
    expect(
      waterOf(
        planned({
          planting: { month: "may", day: 2 },
          roof: { area: 32.5, runoff: 90, firstFlush: 0.4 },
          tank: { volume: 700, waterHeight: 90, outletHeight: 45, lid: false },
          spareTanks: { kind: "alike", count: 2, volume: 210, transfer: 80 },
          topUp: { kind: "below", share: 25, amount: 60 },
        }),
      ),
    ).toEqual({
      plantingDay: 122,
      roof: { area: 325_000, runoff: 0.9, firstFlushMm: 0.4 },
      tank: { litres: 700, waterHeight: 90, outletHeight: 45, lid: false },
      spareTanks: { count: 2, litres: 210, transferLitres: 80 },
      topUp: { belowShare: 0.25, litres: 60 },
    });
  });

  it("is in cm, mm and litres, typed in feet, inches and gallons", () => {
    const us = planned(
      {
        roof: { area: 100, firstFlush: 0.02 },
        tank: { volume: 55, waterHeight: 30, outletHeight: 10 },
        spareTanks: { kind: "alike", count: 1, volume: 10, transfer: 5 },
        topUp: { kind: "below", share: 50, amount: 2 },
      },
      US_BED,
    );
    // 1 ft² is 929.0304 cm², 1 US gal 3.785411784 L.
    expect(rounded(waterOf(us))).toMatchObject({
      roof: { area: 92_903.04, firstFlushMm: 0.508 },
      tank: { litres: 208.1976481, waterHeight: 76.2, outletHeight: 25.4 },
      spareTanks: { count: 1, litres: 37.85411784, transferLitres: 18.92705892 },
      topUp: { belowShare: 0.5, litres: 7.570823568 },
    });
  });

  it.each([
    ["january", 1, 1],
    ["february", 28, 59],
    ["february", 29, 60],
    ["march", 1, 60],
    ["april", 15, 105],
    ["december", 31, 365],
  ] as const)("has %s %d as day %d of the year", (month, day, is) => {
    expect(planned({ planting: { month, day } }).plantingDay).toBe(is);
    expect(dayOfYear(month, day)).toBe(is);
  });

  it("has in a tank of straight walls as much water surface as litres over height", () => {
    // 208 L that stand 80 cm high: 2600 cm², a drum of 57.5 cm.
    expectClose(waterSurface({ litres: 208, waterHeight: 80 }), 2600, { tolerance: 1e-9, unit: "cm²", what: "drum" });
  });

  it.each<[object, string, string]>([
    [
      { planting: { month: "april", day: 31 } },
      "planting.day",
      "day of planting is 31; it must be from 1 to 30, a day of April",
    ],
    [{ planting: { day: 31 } }, "planting.day", "day of planting is 31; it must be from 1 to 30, a day of April"],
    [
      { planting: { month: "february", day: 30 } },
      "planting.day",
      "day of planting is 30; it must be from 1 to 29, a day of February",
    ],
    [
      { planting: { month: "may", day: 0 } },
      "planting.day",
      "day of planting is 0; it must be a whole number from 1 to 31",
    ],
    [{ planting: { day: 3.5 } }, "planting.day", "day of planting is 3.5; it must be a whole number from 1 to 31"],
    [
      { planting: { month: "apr" } },
      "planting.month",
      `month of planting is "apr"; it must be one of ${MONTHS.join(", ")} (did you mean april?)`,
    ],
    [{ roof: { area: -1 } }, "roof.area", "roof area is -1 m²; it must be from 0 to 10000 m²"],
    [
      { roof: { runoff: 120 } },
      "roof.runoff",
      "share of the rain that runs off the roof is 120 %; it must be from 0 to 100 %",
    ],
    [{ roof: { firstFlush: 50 } }, "roof.firstFlush", "first flush let go is 50 mm; it must be from 0 to 20 mm"],
    [{ tank: { volume: 0 } }, "tank.volume", "tank volume is 0 L; it must be from 20 to 100000 L"],
    [
      { tank: { waterHeight: 0 } },
      "tank.waterHeight",
      "height of the water in a full tank is 0 cm; it must be from 10 to 500 cm",
    ],
    [{ tank: { lid: "yes" } }, "tank.lid", 'lid of the tank is "yes"; it must be true or false'],
    [
      { spareTanks: { kind: "alike", count: 2.5, volume: 100 } },
      "spareTanks.count",
      "number of spare tanks is 2.5; it must be a whole number from 1 to 10",
    ],
    [
      { spareTanks: { kind: "alike", count: 1 } },
      "spareTanks.volume",
      "volume of a spare tank is missing; it must be a number from 20 to 100000 L",
    ],
    [{ spareTanks: { kind: "many" } }, "spareTanks.kind", 'spare tanks kind is "many"; it must be one of none, alike'],
    [
      { topUp: { kind: "below", share: 101, amount: 10 } },
      "topUp.share",
      "share of the tank below which it is topped up by hand is 101 %; it must be from 0 to 100 %",
    ],
    [
      { topUp: { kind: "below", share: 10, amount: 0 } },
      "topUp.amount",
      "water added by hand each time is 0 L; it must be from 1 to 10000 L",
    ],
  ])("refuses %j", (changes, path, message) => {
    expect(faultsOf(changes)).toEqual([[path, message]]);
  });

  it("in US units tells ranges in US units", () => {
    expect(
      faultsOf({ roof: { area: 1e6 }, tank: { volume: 1 }, topUp: { kind: "below", share: 5, amount: 5000 } }, US_BED),
    ).toEqual([
      ["roof.area", "roof area is 1000000 ft²; it must be from 0 to 108000 ft²"],
      ["tank.volume", "tank volume is 1 US gal; it must be from 5.28 to 26400 US gal"],
      ["topUp.amount", "water added by hand each time is 5000 US gal; it must be from 0.264 to 2640 US gal"],
    ]);
  });

  it("with many faults tells all of them at once, and hands back what was typed", () => {
    const typed = {
      ...BED,
      planting: { month: "june", day: 31 },
      roof: { area: -5, runof: 80 },
      tank: { volume: "big" },
    };
    const result = resolvePlan(typed);
    expect(result.typed).toBe(typed);
    expect(result.ok ? [] : result.faults.map(({ path }) => path).sort()).toEqual([
      "planting.day",
      "roof.area",
      "roof.runof",
      "tank.volume",
    ]);
  });
});

describe("months of a place's own weather", () => {
  const month = { high: 20, low: 10, rain: 40 };
  const air = { humidity: 60, wind: 2, sunHours: 7 };
  const months = (changes: object, rest: object) => ({
    weather: {
      kind: "own",
      latitude: 45,
      months: { ...Object.fromEntries(MONTHS.map((name) => [name, rest])), ...changes },
    },
  });

  it("have their air where humidity, wind and sunshine are known of all, in m/s, and the place its altitude in metres", () => {
    const metric = months({}, { ...month, ...air });
    const known = planned({ weather: { ...metric.weather, altitude: 350 } }).weather;
    expect(known.months.march.air).toEqual(air);
    expect(known.altitudeMetres).toBe(350);
    const us = months({}, { high: 70, low: 50, rain: 1, ...air, wind: 10 });
    const typed = planned({ weather: { ...us.weather, altitude: 1000 } }, US_BED).weather;
    // 1 mph is 0.44704 m/s, 1000 ft are 304.8 m.
    expectClose(typed.months.march.air!.wind, 4.4704, { tolerance: 1e-12, unit: "m/s", what: "10 mph" });
    expectClose(typed.altitudeMetres, 304.8, { tolerance: 1e-9, unit: "m", what: "1000 ft" });
  });

  it("that tell of the air in some months ask for the rest of it, month by month", () => {
    const { sunHours: _, ...cloudy } = air;
    const faults = faultsOf(months({ june: { ...month, ...cloudy }, july: month }, { ...month, ...air }));
    const asked = "given, as humidity, wind and sunshine are asked for in all months or in none";
    expect(faults).toEqual([
      ["weather.months.june.sunHours", `hours of sunshine a day of June is missing; it must be ${asked}`],
      ["weather.months.july.humidity", `relative humidity of July is missing; it must be ${asked}`],
      ["weather.months.july.wind", `wind at 2 m of July is missing; it must be ${asked}`],
      ["weather.months.july.sunHours", `hours of sunshine a day of July is missing; it must be ${asked}`],
    ]);
  });

  it("of impossible air are refused", () => {
    expect(faultsOf(months({}, { ...month, ...air, humidity: 101 }))[0]).toEqual([
      "weather.months.january.humidity",
      "relative humidity of January is 101 %; it must be from 0 to 100 %",
    ]);
    expect(faultsOf(months({}, { ...month, ...air, sunHours: 25 }))).toHaveLength(12);
  });
});

describe("a daily record", () => {
  const dates = (year: number) =>
    Array.from({ length: 365 }, (_, i) => new Date(Date.UTC(year, 0, 1 + i)).toISOString().slice(0, 10));
  const recordOf = (day: string, year = 2023) => ["date,high,low,rain", ...dates(year).map((date) => `${date},${day}`)];
  const daily = (lines: string[], more: object = {}) => ({
    weather: { kind: "daily", latitude: 45, record: lines.join("\n"), ...more },
  });

  it("is a plan's weather, its whole years and the means of their months, in °C and mm", () => {
    const { weather } = planned(daily(recordOf("20,10,1"), { altitude: 120 }));
    expect(weather).toMatchObject({ isExample: false, latitude: 45, altitudeMetres: 120 });
    expect(weather.years).toHaveLength(1);
    expect(weather.months.april).toEqual({ high: 20, low: 10, rainMm: 30, rainDays: 30, air: null });
  });

  it("is in the plan's units, or in those that it names", () => {
    const fahrenheit = recordOf("68,50,0.1");
    for (const weather of [
      planned(daily(fahrenheit), US_BED).weather,
      planned(daily(fahrenheit, { recordUnits: "us" })).weather,
    ]) {
      expectClose(weather.months.april.high, 20, { tolerance: 1e-9, unit: "°C", what: "68 °F" });
      expectClose(weather.months.april.rainMm, 76.2, { tolerance: 1e-9, unit: "mm", what: "30 days of 0.1 in" });
    }
  });

  it("has its place's altitude in metres, whatever it was typed in", () => {
    const { weather } = planned(daily(recordOf("68,50,0.1"), { altitude: 1000 }), US_BED);
    expectClose(weather.altitudeMetres, 304.8, { tolerance: 1e-9, unit: "m", what: "1000 ft" });
  });

  /** The line of a day of the record: the first stands under the headings. */
  const changed = (line: number, text: string | null) => {
    const lines = recordOf("20,10,1");
    lines.splice(line - 1, 1, ...(text === null ? [] : [text]));
    return lines;
  };

  it.each<[string, string[], RegExp]>([
    [
      "with a gap",
      changed(40, null),
      /^between line 39 \(2023-02-07\) and line 40 \(2023-02-09\) 2023-02-08 is missing/,
    ],
    [
      "in Fahrenheit, for °C",
      changed(12, "2023-01-11,71,50,1"),
      /^line 12: high is 71 °C; it must be from -50 to 50 °C \(is this in °F\?\)/,
    ],
    ["with negative rain", changed(7, "2023-01-06,20,10,-2"), /^line 7: rain is -2 mm; it must be from 0 to 1000 mm/],
    ["with a word for a number", changed(3, "2023-01-02,warm,10,0"), /^line 3: high is "warm"; it must be a number/],
    [
      "without a month",
      recordOf("20,10,1").filter((line) => !line.startsWith("2023-06")),
      /30 days are missing.*\(no day of June 2023\)/,
    ],
    [
      "that ends before a year is whole",
      recordOf("20,10,1").slice(0, 200),
      /no day of .*December\); there must be at least one whole year/,
    ],
    [
      "without headings",
      recordOf("20,10,1").slice(1),
      /^line 1: .* is no heading; there must be a line with the headings/,
    ],
    ["without anything", [""], /^daily weather is missing; it must be a line with the headings/],
  ])("%s is refused, the line named, and handed back as it was typed", (_, lines, message) => {
    const typed = { ...BED, ...daily(lines) };
    const result = resolvePlan(typed);
    expect(result.ok).toBe(false);
    const faults = result.ok ? [] : result.faults;
    for (const { path } of faults) expect(path).toBe("weather.record");
    expect(
      faults.some((fault) => message.test(fault.message)),
      faults.map((fault) => fault.message).join("\n"),
    ).toBe(true);
    expect(result.typed).toEqual(typed);
  });

  it("that is no text, or has no place on earth, is told as any other field", () => {
    expect(faultsOf({ weather: { kind: "daily", latitude: 45 } })).toEqual([
      ["weather.record", "daily record is missing; it must be a text"],
    ]);
    expect(faultsOf(daily(recordOf("20,10,1"), { latitude: 80 }))).toEqual([
      ["weather.latitude", "latitude is 80 degrees; it must be from -66 to 66 degrees"],
    ]);
  });
});

describe("water that can run to the pots", () => {
  it.each([
    ["all of it where the outlet stands above the tubes' ends", 60, 1],
    ["half of it where they stand half-way up the water", -58, 0.5],
    ["a quarter of it", -88, 0.25],
  ])("is %s", (_, outletHeight, share) => {
    const { tank, line } = planned({ tank: { waterHeight: 120, outletHeight } });
    expectClose(usableShare({ tank, line }), share, { tolerance: 1e-12, unit: "", what: "usable share" });
  });
});
