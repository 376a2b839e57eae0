import { describe, expect, it } from "vitest";
import { byMonth } from "../../../model/calendar/months.ts";
import { fullness, type Needs, type Outlook, seasonOf } from "../../../model/public/advice.ts";
import { DAYS_OF_YEAR, type Plan } from "../../../model/public/plan.ts";
import { evaluate } from "../../../notebooks/notebook/evaluate.ts";
import type { Block, Table } from "../../../notebooks/notebook/notebook.ts";
import { notebook } from "../../../notebooks/questions/will-the-tank-last/notebook.ts";
import { directSolver } from "../../../notebooks/solving/solvers.ts";
import { answerSentence } from "../../../notebooks/words/tankWords.ts";
import { expectClose } from "../../support/close.ts";
import { plan as planOf } from "../../support/livingPlan.ts";

const solver = directSolver({ accuracy: "live" });

/** A crop of six weeks: few runs. */
const BED = {
  bed: { shape: "rectangle", length: 2, width: 1 },
  spacing: 60,
  crop: { kind: "listed", name: "radish" },
  planting: { month: "june", day: 1 },
};
const bedPlan = (changes: object = {}) => planOf({ ...BED, ...changes });

const shown = (plan: Plan, units: "metric" | "us" = "metric", view = {}) =>
  evaluate(notebook, { plan, units, view }, solver);

const tableIn = (blocks: Block[], name: string) =>
  blocks.find((block) => typeof block === "object" && block.kind === "table" && block.name === name) as Table;

async function tableOf(plan: Plan, name: string, view = {}): Promise<Table> {
  return tableIn(
    (await shown(plan, "metric", view)).sections.flatMap(({ blocks }) => blocks),
    name,
  );
}

const numberAt = (table: Table, row: string, column: number) =>
  Number(table.rows.find(([name]) => String(name).startsWith(row))![column]);

describe("the answer", { timeout: 60_000 }, () => {
  const plan = bedPlan();
  const outlook: Outlook = {
    ...{ plan, season: seasonOf(plan), pots: 3, isRecorded: false, yearCount: 60, carried: 0.6 },
    ...{ asked: 900, supplied: 700, short: 200, shortDays: 12.4, inflow: 5000, spilled: 4000, topUp: 0, evaporated: 0 },
    shortMonths: byMonth(() => null),
    firstShortMonth: 6,
  };
  const said = (changes: Partial<Outlook>, needs: Partial<Needs> = {}, units: "metric" | "us" = "metric") =>
    answerSentence({ ...outlook, ...changes }, { share: 0.9, tank: 2345, roof: null, ...needs } as Needs, units);

  it("tells how many years are carried, what lacks, from when on, and what tank would do", () => {
    expect(said({})).toBe(
      "Your 1000 L (260 US gal) tank under 50 m² (538 ft²) of roof carries 3 pots of radish through six of ten years; in an average year the pots go short by 200 L (53 US gal) on 12 days, mostly from July on; it would take a tank of 2300 L (620 US gal) to carry them through nine of ten years.",
    );
  });

  it("tells a tank that would do where this one always lasts", () => {
    expect(said({ carried: 1 }, { share: 0.95, tank: 610 }, "us")).toBe(
      "Your 260 US gal (1000 L) tank under 538 ft² (50 m²) of roof carries 3 pots of radish through all of 60 years; one of 160 US gal (610 L) would do in 19 of 20 years.",
    );
  });

  it("asks for no tank where years enough are carried, and for a roof where no tank does", () => {
    expect(said({ carried: 0.95 })).not.toContain("would take");
    expect(answerSentence(outlook, null, "metric")).toMatch(/mostly from July on\.$/);
    expect(said({}, { tank: null, roof: 80e4 })).toContain(
      "no tank does so in nine of ten years under that roof, but 80 m² (861 ft²) of roof would",
    );
    expect(said({}, { tank: null })).toMatch(/neither a tank of .* nor a roof of .* alone/);
  });

  it("asks for a tank that really does", async () => {
    const { answer } = await shown(bedPlan({ tank: { volume: 50 } }));
    const litres = Number(answer.match(/it would take a tank of (\d+) L/)![1]);
    // The sentence tells two figures.
    const enough = await shown(bedPlan({ tank: { volume: 1.06 * litres } }));
    expect(enough.answer).toMatch(/through (nine of ten|all of 60|5\d of 60) years/);
  });
});

describe("the tables", { timeout: 60_000 }, () => {
  it("account for the tank's water, but for what it holds more at the end", async () => {
    const year = await tableOf(bedPlan({ tank: { volume: 300, lid: false } }), "year");
    const litres = (row: string) => numberAt(year, row, 1);
    const into = litres("runs from the roof") + litres("carried to it");
    const out = litres("given by it") + litres("lost over") + litres("gone into");
    expect(litres("gone into")).toBeGreaterThan(0);
    // Over 61 years a full tank is 5 L a year.
    expectClose(into - out, 2.5, { tolerance: 2.5, unit: "L/year", what: "in less out" });
  });

  it("count the pots of another spacing in the bed's own outline", async () => {
    const changes = await tableOf(bedPlan({ bed: { shape: "rectangle", length: 6, width: 1 } }), "changes");
    const [own, fewer] = ["as it is", "fewer pots, 75 cm"].map((row) => numberAt(changes, row, 1));
    expect(own).toBe(20);
    expect(fewer).toBe(8);
  });

  it("tell of each way of watering how much less or more the pots take", async () => {
    const ways = await tableOf(bedPlan(), "ways-of-watering");
    expect(ways.rows).toHaveLength(3);
    for (const way of ["watering the surface", "drip"]) {
      const [pots, least, most] = [numberAt(ways, "these pots", 1), numberAt(ways, way, 1), numberAt(ways, way, 2)];
      const percent = (applied: number) => Math.abs(Math.round(100 * (1 - pots / applied)));
      const words = String(ways.rows.find(([name]) => name === way)![3]);
      for (const number of [percent(least), percent(most)]) expect(words).toContain(`${number}`);
    }
  });

  it("carry no fewer years with a wider roof or a larger tank", async () => {
    const { rows } = await tableOf(bedPlan(), "roof-and-tank");
    const shares = rows.map((row) => row.slice(1).map(Number));
    shares.forEach((row, k) => {
      row.forEach((share, column) => {
        if (column > 0) expect(share).toBeGreaterThanOrEqual(row[column - 1]!);
        if (k > 0) expect(share).toBeGreaterThanOrEqual(shares[k - 1]![column]!);
      });
    });
  });
});

it("uses five years or more of an own record as they are", { timeout: 60_000 }, async () => {
  const date = (year: number, day: number) => new Date(Date.UTC(year, 0, 1 + day)).toISOString().slice(0, 10);
  const lines = [2001, 2002, 2003, 2005, 2006, 2007].flatMap((year) =>
    Array.from({ length: DAYS_OF_YEAR }, (_, day) => `${date(year, day)},25,12,${day < 60 ? 5 : 0}`),
  );
  // Without 2004 there is a gap; the years are then not on end.
  const gap = ["date,high,low,rain", ...lines].join("\n");
  const whole = gap.replaceAll("2005-", "2004-").replaceAll("2006-", "2005-").replaceAll("2007-", "2006-");
  const weather = { kind: "daily", latitude: 40, record: whole };
  const { picture } = await shown(bedPlan({ weather }));
  expect(picture.caption).toContain("in the 6 years of your record");
  expect(() => bedPlan({ weather: { ...weather, record: gap } })).toThrow(/between line 1096 .* and line 1097/);
});

it("draws the shares of years that the words name", () => {
  const year = (level: number) => ({
    ...{ asked: 0, supplied: 0, short: 0, shortDays: 0, shortMonths: new Set<number>() },
    stored: new Float64Array(DAYS_OF_YEAR).fill(level),
  });
  const [day] = fullness([10, 0, 5, 2, 3, 4, 1, 6, 7, 8, 9].map(year), 20);
  expect(day).toEqual({ day: 1, low: 5, middle: 25, high: 45 });
});
