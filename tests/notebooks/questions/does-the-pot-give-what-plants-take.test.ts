import { describe, expect, it } from "vitest";
import { soundValue } from "../../../model/input/faults.ts";
import {
  demandOutcome,
  demandProblem,
  emptyPotProblem,
  potWaterUse,
  stageProblem,
} from "../../../model/public/advice.ts";
import { buildPot, type Problem, type Run, simulateToEnd } from "../../../model/public/flow.ts";
import { type Plan, type PlanInput, resolvePlan } from "../../../model/public/plan.ts";
import { formatBoth, fromModel, type UnitSystem } from "../../../model/public/units.ts";
import demoPlan from "../../../notebooks/demo-plan.json" with { type: "json" };
import { spreadApart } from "../../../notebooks/figures/plotting.ts";
import { evaluate } from "../../../notebooks/notebook/evaluate.ts";
import { svgText } from "../../../notebooks/print/printFiles.ts";
import { roundTop } from "../../../notebooks/questions/does-the-pot-give-what-plants-take/axes.ts";
import { notebook } from "../../../notebooks/questions/does-the-pot-give-what-plants-take/notebook.ts";
import {
  answerSentence,
  moreWords,
  verdict,
} from "../../../notebooks/questions/does-the-pot-give-what-plants-take/verdict.ts";
import { directSolver } from "../../../notebooks/solving/solvers.ts";
import { expectClose } from "../../support/close.ts";
import { oneIn } from "../../support/deep.ts";
import { blocksOf, figuresOf, tableOf } from "../../support/pageParts.ts";

const solver = directSolver({ accuracy: "live" });

const planOf = (changes: Partial<PlanInput>): Plan => soundValue(resolvePlan({ ...demoPlan, ...changes }));

const shown = (changes: Partial<PlanInput>, units: UnitSystem = "metric") =>
  evaluate(notebook, { plan: planOf(changes), units, view: {} }, solver);

const solved = (problem: Problem): Run => simulateToEnd({ ...problem, accuracy: "live" });

const soil = (name: "sand" | "loam" | "clay"): Partial<PlanInput> => ({ soil: { kind: "class", name } });

/** The answer alone, from the two runs that it rests on. */
function answerFor(changes: Partial<PlanInput>): string {
  const plan = planOf(changes);
  const bed = (stage: "full grown" | null) => {
    const run = solved(stageProblem(plan, stage));
    return { name: "", look: { colour: "", dash: "" }, plan, run, use: potWaterUse(plan, run), isOutdated: false };
  };
  return answerSentence({ bare: bed(null), grown: bed("full grown") }, "metric");
}

const mean = (values: readonly number[]) => values.at(-1)! / 14;

/** Weather of one's own, the same in every month; the demo plan is in US units, so °F and inches. */
const sameAllYear = (high: number, low: number, rain: number) => ({
  kind: "own" as const,
  latitude: 40,
  months: Object.fromEntries(
    [
      "january",
      "february",
      "march",
      "april",
      "may",
      "june",
      "july",
      "august",
      "september",
      "october",
      "november",
      "december",
    ].map((month) => [month, { high, low, rain, rainDays: rain > 0 ? 10 : 0 }]),
  ),
});

const cases: Record<string, Partial<PlanInput>> = {
  "the demo bed": {},
  sand: soil("sand"),
  "clay with a float": { ...soil("clay"), filling: { kind: "float" } },
  "filled once": { filling: { kind: "once" } },
  "filled every ten days": { filling: { kind: "every", days: 10 } },
  "a rainy place": { weather: sameAllYear(75, 60, 6) } as Partial<PlanInput>,
  "a frozen place": { weather: sameAllYear(-20, -30, 0) } as Partial<PlanInput>,
  "a wet start": { ...soil("clay"), startMoisture: undefined, startSuctionKPa: 5, filling: { kind: "float" } },
  "a bed mix": { ...soil("clay"), bedMix: { kind: "class", name: "sandy loam", depth: 12 } },
  "a crop of one's own": { crop: { kind: "own", easyWaterSuctionKPa: 40 } },
  "an open pot, watered by hand": { lid: false, handWatering: { kind: "every", days: 2, amount: 0.5 } },
  "a sunken pot": { pot: { ...demoPlan.pot, rimAboveSoil: -3 } } as Partial<PlanInput>,
};

describe("does the pot give what plants take", () => {
  it.each(oneIn(3, Object.entries(cases)))(
    "answers in one whole sentence without holes: %s",
    { timeout: 60_000 },
    async (_, changes) => {
      for (const units of ["us", "metric"] as const) {
        const page = await shown(changes, units);
        const words = [
          page.answer,
          ...blocksOf(page).map((block) => JSON.stringify(block)),
          ...figuresOf(page).map((each) => each.caption),
        ];
        expect(words.join("\n")).not.toMatch(/undefined|NaN|Infinity|null|\[object| {2}/);
        for (const each of figuresOf(page)) expect(svgText(each)).not.toMatch(/undefined|NaN|Infinity/);
        expect(page.answer).toMatch(/^[A-Z][^.]+(\.\d[^.]*)*\.$/);
      }
    },
  );

  it.each(["sand", "loam", "clay"] as const)("tells what the runs gave, wanted and took: %s", async (name) => {
    const plan = planOf(soil(name));
    const [bare, grown] = [solved(stageProblem(plan, null)), solved(stageProblem(plan, "full grown"))];
    const { answer } = await shown(soil(name));
    const flow = (litres: number) => formatBoth(litres, "flow", "metric");
    expect(answer).toContain(
      `in your ${name} the pot gives ${flow(mean(bare.history.seepageLitres))} with nothing planted`,
    );
    expect(answer).toContain(`and ${flow(mean(grown.history.seepageLitres))} with full-grown tomato plants`);
    expect(answer).toContain(`which want ${flow(mean(grown.history.wantedLitres))} and get `);
    const met = mean(grown.history.uptakeLitres) / mean(grown.history.wantedLitres);
    expect(answer).toContain(`get ${Math.round(100 * met)} % of it`);
    const rise = mean(grown.history.seepageLitres) / mean(bare.history.seepageLitres) - 1;
    expect(answer.startsWith(rise < 0.1 ? "Hardly: " : "A little: ")).toBe(true);
  });

  it("follows plants least in sand and most in clay", async () => {
    const rises = await Promise.all(
      (["sand", "loam", "clay"] as const).map(async (name) => {
        const [, bare, , grown] = tableOf(await shown(soil(name)), "where-the-water-went").rows[0]!;
        return Number(grown) / Number(bare) - 1;
      }),
    );
    expect(rises[0]).toBeLessThan(rises[1]!);
    expect(rises[1]).toBeLessThan(rises[2]!);
    expect(rises[2]).toBeGreaterThan(0.1);
  });

  it("lets unplanted ground take nothing, and closes each bed's balance", async () => {
    const { rows } = tableOf(
      await shown({ handWatering: { kind: "every", days: 3, amount: 0.4 } }),
      "where-the-water-went",
    );
    const row = (name: string) =>
      rows
        .find(([first]) => first === name)!
        .slice(1)
        .map(Number);
    expect(row("taken by plants")[0]).toBe(0);
    expect(row("what plants wanted")[0]).toBe(0);
    expect(row("rain and watering by hand")[0]).toBeGreaterThan(0.5);
    row("given by the pot").forEach((given, i) => {
      const came = given + row("rain and watering by hand")[i]!;
      const went = [
        "taken by plants",
        "lost from the soil to the air",
        "gone deeper than was looked at",
        "left in the ground, more than before",
      ];
      const sum = went.reduce((total, name) => total + row(name)[i]!, 0);
      expectClose(sum, came, { tolerance: 1e-9, unit: "L/day", what: "went" });
    });
  });

  it("lays to the pot what plants take beyond those around an empty one, from 0 to 1", async () => {
    const plan = planOf({});
    const taken = (problem: Problem) => solved(problem).history.uptakeLitres.at(-1)!;
    const share = (stage: "young" | "full grown") =>
      Math.round(100 * (1 - taken(emptyPotProblem(plan, stage)) / taken(stageProblem(plan, stage))));
    const [young, grown] = [share("young"), share("full grown")];
    for (const each of [young, grown]) expect(each > 0 && each <= 100).toBe(true);
    const words = blocksOf(await shown({})).join(" ");
    expect(words).toContain(`${young} % (young) and ${grown} % (full grown) came through the wall`);
  });

  it("says that a pot filled once gives its filling whatever grows", async () => {
    const { answer } = await shown({ filling: { kind: "once" } });
    expect(answer).toMatch(
      /^It cannot: in your loam the pot stands empty for 10\.\d+ days of 14 even with nothing planted, so it gives its fillings and no more/,
    );
    const { capacity } = buildPot(planOf({}).pot);
    expect(answer).toContain(`and no more, ${formatBoth(capacity / 1000 / 14, "flow", "metric")}, to full-grown`);
  });

  it("names no demand where it is too cold for any", async () => {
    const { answer } = await shown(cases["a frozen place"]!);
    expect(answer).toMatch(/^There is nothing to follow: in July tomato plants want no water at your place/);
  });

  it("tells roots that stand too wet from roots that stand too dry", async () => {
    const wet = { ...cases["a wet start"], weather: sameAllYear(75, 60, 20) } as Partial<PlanInput>;
    expect(answerFor(soil("sand"))).toContain("much of their ground stands too dry");
    expect(answerFor(wet)).toContain("much of their ground stands too wet");
  });

  it("gives each day's numbers of the runs, in the person's units", async () => {
    const plan = planOf({});
    const { history } = solved(stageProblem(plan, "full grown"));
    for (const units of ["us", "metric"] as const) {
      const { rows, columns } = tableOf(await shown({}, units), "day-by-day");
      const place = columns.findIndex(({ heading }) => heading === "given, full grown");
      expect(rows.length).toBe(14);
      const sum = rows.reduce((total, row) => total + Number(row[place]), 0);
      expectClose(sum, fromModel(history.seepageLitres.at(-1)!, "volume", units), {
        tolerance: 1e-9,
        what: "two weeks",
      });
    }
  });

  it("lists what is given at each thirst of the air, and tells how much it rises", async () => {
    const plan = planOf(soil("clay"));
    const page = await shown(soil("clay"));
    const given = [2, 4, 6, 8].map((ETo) => demandOutcome(solved(demandProblem(plan, ETo))).given);
    const { rows } = tableOf(page, "release-against-demand");
    rows.forEach(([, litres], i) => {
      expectClose(Number(litres), given[i]!, { tolerance: 1e-9, unit: "L/day", what: "given" });
    });
    const rise = Math.round(100 * (given[3]! / given[0]! - 1));
    expect(rise).toBeGreaterThan(20);
    expect(blocksOf(page).join(" ")).toContain(`the pot gives ${rise} % more where the air asks for 8 mm`);
  });

  it("says both unit systems, the person's first", async () => {
    expect((await shown({}, "us")).answer).toMatch(/gives [\d.]+ US gal\/day \([\d.]+ L\/day\) with nothing planted/);
    expect((await shown({}, "metric")).answer).toMatch(
      /gives [\d.]+ L\/day \([\d.]+ US gal\/day\) with nothing planted/,
    );
    const [us, metric] = [await shown({}, "us"), await shown({}, "metric")].map(({ picture }) => svgText(picture));
    for (const words of ["water, US gal/day", "nothing planted: given 0.97 US gal/day"]) expect(us).toContain(words);
    for (const words of ["water, L/day", "nothing planted: given 3.7 L/day"]) expect(metric).toContain(words);
  });
});

describe("the words", () => {
  it.each([
    [-0.2, "No"],
    [-0.01, "Hardly"],
    [0.099, "Hardly"],
    [0.1, "A little"],
    [0.3, "Yes, noticeably"],
  ])("judge a rise of %f", (rise, words) => {
    expect(verdict(rise)).toBe(words);
  });

  it("tell more, less and as much", () => {
    expect([0.034, -0.2, 0.002].map(moreWords)).toEqual(["3 % more", "20 % less", "as much"]);
  });
});

describe("the axes", () => {
  it.each([
    [[0.3], 1, 1],
    [[1.9], 1, 2],
    [[5], 1, 5],
    [[5.1], 1, 10],
    [[43], 1, 50],
  ])("end at the next round value above %j", (values, least, top) => {
    expectClose(roundTop(values, least), top, { tolerance: 1e-12, what: "top" });
  });

  it("keep labels a gap apart, in their order", () => {
    expect(spreadApart([{ y: 5 }, { y: 1 }, { y: 4.5 }], 2).map(({ y }) => y)).toEqual([1, 4.5, 6.5]);
  });
});
