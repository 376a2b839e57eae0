import { range } from "d3-array";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { UNIT_SYSTEMS, type UnitSystem } from "../../model/units/units.ts";
import { readDailyCsv } from "../../model/weather/dailyCsv.ts";

const HEAD = "date,high,low,rain";
const EVEN = "20,10,0";
const MS_PER_DAY = 86_400_000;
const dateAfter = (start: string, days: number) =>
  new Date(Date.parse(start) + days * MS_PER_DAY).toISOString().slice(0, 10);

/** Line 1 is the headings; line k + 2 is the k-th day after the start, from 0. */
function linesFrom(start: string, count: number, row: (k: number) => string = () => EVEN): string[] {
  return [HEAD, ...range(count).map((k) => `${dateAfter(start, k)},${row(k)}`)];
}

/** All of 2023, with other rows on some lines. */
const year = (rows: Record<number, string> = {}) => linesFrom("2023-01-01", 365, (k) => rows[k + 2] ?? EVEN);

function faultsOf(text: string | string[], units: UnitSystem = "metric"): string[] {
  const read = readDailyCsv(typeof text === "string" ? text : text.join("\n"), units);
  return read.ok ? [] : read.faults.map(({ message }) => message);
}

function recordOf(text: string | string[], units: UnitSystem = "metric") {
  const read = readDailyCsv(typeof text === "string" ? text : text.join("\n"), units);
  if (!read.ok) throw new Error(read.faults.map(({ message }) => message).join("\n"));
  return read.value;
}

const ORDER = "there must be one day a line, oldest first, none left out";

describe("a daily CSV", () => {
  it("gives its days as they were typed, and its whole years from 1 January to 31 December", () => {
    const { days, years } = recordOf(linesFrom("2022-12-30", 400, (k) => `${20 + k / 100},-1.5,0.2`));
    expect(days.length).toBe(400);
    expect(days[100]).toEqual({ date: "2023-04-09", highC: 21, lowC: -1.5, rainMm: 0.2, air: null });
    expect(years.map((own) => [own.year, own.days.length])).toEqual([[2023, 365]]);
    expect(years[0]!.days[0]!.date).toBe("2023-01-01");
  });

  it("may have its columns in any order, with humidity, wind and sun", () => {
    const rows = range(365).map((k) => `8.5,0,10,${dateAfter("2023-01-01", k)},60,${k === 4 ? "" : 2},20`);
    const { days } = recordOf(["Sun, rain ,LOW,date,humidity,wind,high", ...rows]);
    const day = { highC: 20, lowC: 10, rainMm: 0 };
    expect(days[0]).toEqual({ ...day, date: "2023-01-01", air: { humidity: 60, wind: 2, sunHours: 8.5 } });
    expect(days[4]!.air).toBeNull();
  });

  it("is in °F, inches and miles an hour for those who measure so", () => {
    const rows = range(365).map((k) => `${dateAfter("2023-01-01", k)},86,50,1,60,10,8`);
    const [day] = recordOf([`${HEAD},humidity,wind,sun`, ...rows], "us").days;
    expect(day!.highC).toBeCloseTo(30, 12);
    expect(day!.lowC).toBeCloseTo(10, 12);
    expect(day!.rainMm).toBeCloseTo(25.4, 12);
    expect(day!.air!.wind).toBeCloseTo(4.4704, 12);
  });

  it("may have a byte order mark, Windows line ends, blank lines, and cells in quotes", () => {
    const plain = recordOf(year());
    expect(recordOf(`\uFEFF${year().join("\r\n")}\r\n\r\n`)).toEqual(plain);
    expect(recordOf([...year().slice(0, 40), "", ",,,", ...year().slice(40)])).toEqual(plain);
    expect(recordOf(year().map((line) => line.replace(/[^,]+/g, '"$&"')))).toEqual(plain);
  });

  it("may be parted by semicolons or tabs, with decimal commas", () => {
    const plain = recordOf(year({ 9: "20.5,10.25,0.5" }));
    for (const sign of [";", "\t"]) {
      const lines = year({ 9: "20.5,10.25,0.5" }).map((line) => line.replaceAll(",", sign));
      expect(recordOf(lines)).toEqual(plain);
      expect(recordOf(lines.map((line) => line.replaceAll(".", ",")))).toEqual(plain);
    }
  });

  it("may have 29 February, which the years leave out, or go without it", () => {
    const leap = linesFrom("2024-01-01", 366);
    const { days, years } = recordOf(leap);
    expect(days.length).toBe(366);
    expect(years[0]!.days.length).toBe(365);
    expect(years[0]!.days.some(({ date }) => date === "2024-02-29")).toBe(false);
    expect(recordOf(leap.filter((line) => !line.startsWith("2024-02-29"))).years).toEqual(years);
  });
});

describe("a daily CSV at fault is told", () => {
  it("its line, the field, what it is and what it may be, all together", () => {
    expect(faultsOf(year({ 5: "20,10,-1", 6: "20,25,0", 7: "warm,10,", 8: "20,10,0,5" }))).toEqual([
      "line 5: rain is -1 mm; it must be from 0 to 1000 mm",
      "line 6: high is 20 °C; it must be at least the low of that day, 25 °C",
      'line 7: high is "warm"; it must be a number from -50 to 50 °C',
      "line 7: rain is missing; it must be a number from 0 to 1000 mm",
      'line 8: "5" has no heading; there must be as many values as there are headings, decimals with a point',
    ]);
    expect(faultsOf(year({ 5: "70,80,0" }), "us")).toEqual([
      "line 5: high is 70 °F; it must be at least the low of that day, 80 °F",
    ]);
  });

  it("days that are missing, a whole month among them", () => {
    const without = (...starts: string[]) => year().filter((line) => !starts.some((start) => line.startsWith(start)));
    expect(faultsOf(without("2023-02-10"))).toEqual([
      `between line 41 (2023-02-09) and line 42 (2023-02-11) 2023-02-10 is missing; ${ORDER}`,
    ]);
    expect(faultsOf(without("2023-06", "2023-07-01"))).toEqual([
      `between line 152 (2023-05-31) and line 153 (2023-07-02) 31 days are missing, from 2023-06-01 to 2023-07-01 (no day of June 2023); ${ORDER}`,
    ]);
  });

  it("days that stand twice, or come too late, and no gap beside them that is none", () => {
    const lines = year();
    const twice = [...lines.slice(0, 10), lines[4]!, ...lines.slice(10)];
    expect(faultsOf(twice)).toEqual([`line 11: date 2023-01-04 stands on line 5 already; ${ORDER}`]);
    const swapped = [...lines.slice(0, 10), lines[11]!, lines[10]!, ...lines.slice(12)];
    expect(faultsOf(swapped)).toEqual([`line 12: date 2023-01-10 comes after 2023-01-11 on line 11; ${ORDER}`]);
  });

  it("a date that is no day, or written otherwise, and no gap for it", () => {
    const lines = year().map((line) => line.replace("2023-02-28", "2023-02-30").replace("2023-05-01", "1/5/2023"));
    expect(faultsOf(lines)).toEqual([
      'line 60: date is "2023-02-30"; it must be a day written like 2024-07-15',
      'line 122: date is "1/5/2023"; it must be a day written like 2024-07-15',
    ]);
  });

  it("less than a whole year, and the months without a day", () => {
    expect(faultsOf(linesFrom("2023-03-01", 245))).toEqual([
      "the days go from 2023-03-01 to 2023-10-31 (no day of January, February, November, December); there must be at least one whole year, from 1 January to 31 December",
    ]);
    expect(faultsOf(linesFrom("2022-06-01", 500))).toEqual([
      "the days go from 2022-06-01 to 2023-10-13; there must be at least one whole year, from 1 January to 31 December",
    ]);
    expect(faultsOf(HEAD)[0]).toContain("no line has a date that can be read");
  });

  it("that it may be in °F, in °C or in mm", () => {
    expect(faultsOf(year({ 200: "88,60,0" }))).toEqual([
      "line 200: high is 88 °C; it must be from -50 to 50 °C (is this in °F?)",
      "line 200: low is 60 °C; it must be from -50 to 50 °C (is this in °F?)",
    ]);
    expect(faultsOf(year({ 200: "31,20,0.2" }), "us")).toEqual([
      "the highest high is 31 °F; it must be at least 50 °F (are these °C?)",
    ]);
    expect(faultsOf(year({ 200: "70,50,45" }), "us")).toEqual([
      "line 200: rain is 45 in; it must be from 0 to 39.4 in (is this in mm?)",
    ]);
    expect(
      faultsOf(
        linesFrom("2023-01-01", 365, () => "80,60,2"),
        "us",
      ),
    ).toEqual(["all rain of 2023 is 730 in; it must be at most 472 in per year (are these mm?)"]);
  });

  it("that decimals have a point, where commas part the cells", () => {
    expect(faultsOf(year({ 9: '"20,5",10,0' }))).toEqual([
      'line 9: high is "20,5"; it must be a number from -50 to 50 °C (write decimals with a point)',
    ]);
    expect(faultsOf(year({ 9: "20,5,10,0" }))[0]).toContain("decimals with a point");
  });

  it("headings that are unknown, missing, twice there or half of what belongs together", () => {
    const heads = (head: string) => faultsOf([head, ...year().slice(1)]);
    expect(heads("date,hihg,low,rain")).toEqual([
      'line 1: "hihg" is not a known heading; did you mean high?',
      'line 1: "high" is missing among the headings; there must be a line with the headings date, high, low, rain, and if known humidity, wind, sun',
    ]);
    expect(heads("date,high,low,rain,low")).toEqual([
      'line 1: "low" stands twice among the headings; it must be there once',
    ]);
    expect(heads("date,high,low,rain,wind,humidity")).toEqual([
      'line 1: "humidity and wind" are given without sun; give humidity, wind, sun together, or none of them',
    ]);
    expect(faultsOf(year().slice(1))[0]).toMatch(
      /^line 1: "2023-01-01, 20, 10, 0" is no heading; there must be a line/,
    );
  });

  it("that it is empty", () => {
    for (const text of ["", "\uFEFF", " \r\n\r\n"])
      expect(faultsOf(text)).toEqual([
        "daily weather is missing; it must be a line with the headings date, high, low, rain, and if known humidity, wind, sun, then a line for each day",
      ]);
  });

  it("ten faults one by one, and how many more there are", () => {
    const faults = faultsOf(linesFrom("2023-01-01", 365, () => "20,10,-999"));
    expect(faults.slice(9)).toEqual([
      "line 11: rain is -999 mm; it must be from 0 to 1000 mm",
      "355 more faults are not told one by one",
    ]);
  });

  it("the right line behind a cell that goes over several, and no more of a long cell than its beginning", () => {
    const [head, ...lines] = year({ 9: "20,10,-1" });
    expect(faultsOf(['date,"high\n",low,rain', ...lines])).toEqual([
      "line 10: rain is -1 mm; it must be from 0 to 1000 mm",
    ]);
    const unclosed = faultsOf([head!, `2023-01-01,"20,10,0`, ...lines.slice(1)]);
    expect(Math.max(...unclosed.map((message) => message.length))).toBeLessThan(300);
  });
});

describe("any daily CSV", () => {
  const between = (min: number, max: number) =>
    fc.integer({ min: 10 * min, max: 10 * max }).map((tenths) => tenths / 10);
  const anyRow = fc
    .record({ low: between(0, 45), range: between(0, 25), rain: fc.integer({ min: 0, max: 100 }).map((n) => n / 100) })
    .map(({ low, range, rain }) => [low + range, low, rain]);
  const anyYear = fc.array(anyRow, { minLength: 365, maxLength: 365 });

  it("that is right gives every number back, in both unit systems", () => {
    fc.assert(
      fc.property(anyYear, fc.constantFrom(...UNIT_SYSTEMS), (rows, units) => {
        const typed = rows.map(([high, low, rain]) =>
          units === "us" ? [high! + 50, low! + 50, rain!] : [high! / 2, low! / 2, rain!],
        );
        const { days } = recordOf(
          linesFrom("2023-01-01", 365, (k) => typed[k]!.join(",")),
          units,
        );
        const back = (day: (typeof days)[number]) =>
          units === "us"
            ? [1.8 * day.highC + 32, 1.8 * day.lowC + 32, day.rainMm / 25.4]
            : [day.highC, day.lowC, day.rainMm];
        for (const [k, day] of days.entries())
          for (const [i, value] of back(day).entries()) expect(value).toBeCloseTo(typed[k]![i]!, 9);
      }),
      { numRuns: 20 },
    );
  });

  it("that lacks one day inside is told just that day", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 363 }), (k) => {
        const lines = year();
        const [fault, ...others] = faultsOf([...lines.slice(0, k + 1), ...lines.slice(k + 2)]);
        expect(others).toEqual([]);
        expect(fault).toContain(`${dateAfter("2023-01-01", k)} is missing`);
      }),
      { numRuns: 40 },
    );
  });

  it("is read or refused, and never breaks, whatever it says", () => {
    const cell = fc.oneof(
      fc.string(),
      fc.constantFrom("date", "high", "low", "rain", "2023-01-01", "5", "-1", '"', ""),
    );
    const text = fc
      .array(fc.array(cell, { maxLength: 6 }), { maxLength: 12 })
      .map((rows) => rows.map((row) => row.join(",")).join("\n"));
    fc.assert(
      fc.property(text, fc.constantFrom(...UNIT_SYSTEMS), (any, units) => {
        for (const whole of [any, `${HEAD}\n${any}`]) {
          const read = readDailyCsv(whole, units);
          expect(read.ok || read.faults.length > 0).toBe(true);
        }
      }),
      { numRuns: 300 },
    );
  });
});
