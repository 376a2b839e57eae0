import { range, sum } from "d3-array";
import { expect, test } from "vitest";
import { MONTHS } from "../../model/calendar/months.ts";
import { daysOfMonth } from "../../model/calendar/yearDays.ts";
import { rainTank } from "../../model/checks/loadSupplyChecks.ts";
import { roofLitres } from "../../model/supply/roof.ts";
import { noTotals, stepTanks, type Tanks } from "../../model/supply/tanks.ts";
import { convert } from "../../model/units/units.ts";
import { expectClose } from "../support/close.ts";

// reference-data/checks/rain-tank.json.
const { rows } = rainTank();
type Row = (typeof rows)[number];
const from = <S extends Row["source"]>(...sources: S[]) =>
  rows.filter((row): row is Extract<Row, { source: S }> => (sources as string[]).includes(row.source));

interface Printed {
  value: number;
  rounding: number;
}
const expectPrinted = (actual: number, { value, rounding }: Printed, unit: string, what: string) =>
  expectClose(actual, value, { tolerance: rounding, unit, what });

test.each(from("litre", "year", "documentation"))("litres from a roof as printed: $name", (row) => {
  const [litres] = roofLitres([row.rainMm], { ...row, area: row.areaM2 });
  expectPrinted(litres!, row.litres, "L", row.name);
});

test.each(from("inch", "dallas"))("gallons from a roof as printed: $name", (row) => {
  const rainMm = convert(row.rainInches, "in", "mm");
  const [litres] = roofLitres([rainMm], { ...row, area: convert(row.areaFt2, "ft²", "m²") });
  expectPrinted(convert(litres!, "L", "US gal"), row.gallons, "US gal", row.name);
});

test.each(from("flush"))("what a diverter holds is the first flush that it takes off a rain: $name", (row) => {
  const area = convert(row.areaFt2, "ft²", "m²");
  const firstFlushMm = convert(row.firstFlushGallons, "US gal", "L") / area;
  expectPrinted(firstFlushMm, row.firstFlushMm, "mm", "first flush");
  const [all, rest] = [0, firstFlushMm].map((flush) => roofLitres([10], { area, runoff: 1, firstFlushMm: flush })[0]!);
  const lost = convert(all! - rest!, "L", "US gal");
  expectClose(lost, row.firstFlushGallons, { tolerance: 1e-9, unit: "US gal", what: "lost" });
});

type Balance = Extract<Row, { source: "balance" }>;

/** A year's steps: the month that each is in, and what share of the month's rain and demand it has. */
const stepsOf = ({ step }: Balance) =>
  MONTHS.flatMap((name, month) => {
    const days = step === "day" ? daysOfMonth(name) : 1;
    return range(days).map((day) => ({ month, share: 1 / days, isMonthEnd: day === days - 1 }));
  });

/** The second of two years alike, from an empty tank. */
function steadyYear(row: Balance) {
  const tanks: Tanks = { capacity: [row.tankLitres], transfer: 0, topUp: null, useComes: row.useComes };
  const stored = new Float64Array(1);
  const years = range(2).map(() => {
    const totals = noTotals();
    const monthEnds: number[] = [];
    for (const { month, share, isMonthEnd } of stepsOf(row)) {
      const rain = share * row.rainByMonthMm[month]!;
      const [inflow] = roofLitres([rain], { ...row, area: row.areaM2 });
      stepTanks(
        tanks,
        stored,
        { inflow: inflow!, evaporation: 0, ask: share * row.demandByMonthLitres[month]! },
        totals,
      );
      if (isMonthEnd) monthEnds.push(stored[0]!);
    }
    return { ...totals, monthEnds };
  });
  return years[1]!;
}

test.each(from("balance"))("a tank's year by the rule as computed elsewhere: $name", (row) => {
  const { supplied, spilled, inflow, monthEnds } = steadyYear(row);
  const short = sum(row.demandByMonthLitres) - supplied;
  expectPrinted(supplied, row.supplied, "L", "supplied");
  if (row.spilled) expectPrinted(spilled, row.spilled, "L", "spilled");
  if (row.short) expectPrinted(short, row.short, "L", "short");
  for (const [month, litres] of row.storedAtMonthEnds?.entries() ?? [])
    expectClose(monthEnds[month]!, litres, { tolerance: 1e-9, unit: "L", what: `stored, end of ${MONTHS[month]}` });
  expectClose(supplied + spilled, inflow, { tolerance: 1e-9 * inflow, unit: "L", what: "out of what came in" });
});

test("the two orders lie a third apart in months, and not a hundredth in days: a monthly step is too coarse", () => {
  const apart = (step: Balance["step"]) => {
    const [after, before] = from("balance")
      .filter((row) => row.step === step)
      .map((row) => steadyYear(row).supplied);
    return before! / after! - 1;
  };
  expect(apart("month")).toBeGreaterThan(0.3);
  expect(apart("day")).toBeLessThan(0.01);
});
