import { describe, expect, it } from "vitest";
import { soundValue } from "../../../model/input/faults.ts";
import { HAND, type SowingAdvice, sowingAdvice, sowingRuler } from "../../../model/public/advice.ts";
import { planToProblem, type Run } from "../../../model/public/flow.ts";
import { type Plan, type PlanInput, resolvePlan } from "../../../model/public/plan.ts";
import { formatBoth, fromModel, type UnitSystem } from "../../../model/public/units.ts";
import demoPlan from "../../../notebooks/demo-plan.json" with { type: "json" };
import { evaluate } from "../../../notebooks/notebook/evaluate.ts";
import { svgText } from "../../../notebooks/print/printFiles.ts";
import { notebook } from "../../../notebooks/questions/where-do-i-sow/notebook.ts";
import { handVerdict } from "../../../notebooks/questions/where-do-i-sow/sowingWords.ts";
import type { Solved } from "../../../notebooks/runtime/cells.ts";
import { directSolver } from "../../../notebooks/solving/solvers.ts";
import { placeWords } from "../../../notebooks/words/placeWords.ts";
import { expectClose } from "../../support/close.ts";
import { blocksOf, figuresOf, tableOf } from "../../support/pageParts.ts";

const solver = directSolver({ accuracy: "live" });

const planOf = (changes: Partial<PlanInput>): Plan => soundValue(resolvePlan({ ...demoPlan, ...changes }));

const shown = (changes: Partial<PlanInput>, units: UnitSystem = "us") =>
  evaluate(notebook, { plan: planOf(changes), units, view: {} }, solver);

function runOf(plan: Plan): Run {
  let solved: Solved<unknown> | undefined;
  solver.ask(
    0,
    { of: plan, problems: { own: planToProblem(plan) } },
    {
      deliver(each) {
        solved = each;
      },
      fail(error) {
        throw error;
      },
    },
  );
  return solved!.runs.own!;
}

const seed = { kind: "seed", sowingDepth: 0.5, emergenceDays: 10, sproutingSuctionKPa: 294 } as const;
const starter = { kind: "starter", rootBallDepth: 3, rootBallRadius: 1.5, handWateringDays: 7 } as const;

/** Rim eight inches under the surface, so that the little that rises never wets the seed. */
const sunk = {
  pot: { ...demoPlan.pot, rimAboveSoil: -8 },
  soil: { kind: "class", name: "sand" },
} as Partial<PlanInput>;

const cases: Record<string, Partial<PlanInput>> = {
  "the demo bed": {},
  "clay with a float": { soil: { kind: "class", name: "clay" }, filling: { kind: "float" } },
  "starters in sand": { soil: { kind: "class", name: "sand" }, sowing: starter },
  "a moist start": { startSuctionKPa: 30 },
  "a sunken pot": sunk,
  "a day of one's own": { sowingDay: 3 },
  "a day too early": { sowingDay: 0 },
  "filled once": { filling: { kind: "once" }, sowing: { ...seed, sproutingSuctionKPa: 50 } },
  "a bed mix": { soil: { kind: "class", name: "clay" }, bedMix: { kind: "class", name: "sandy loam", depth: 12 } },
  "own soil": { soil: { kind: "own", thetaR: 0.07, thetaS: 0.41, alpha: 0.02, n: 1.4, Ks: 12.5, l: 0.5 } },
};

/** -1 for never. */
const dayOf = (value: number | string | null | undefined) => (typeof value === "number" ? value : -1);

describe("where do I sow", () => {
  it.each(Object.entries(cases))("answers in one whole sentence without holes: %s", async (_, changes) => {
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
  });

  it("tells the band of the advice, in the person's unit first and in the other", async () => {
    const plan = planOf({ soil: { kind: "class", name: "sand" } });
    const advice = sowingAdvice(plan, runOf(plan));
    if (advice.kind !== "band") throw new Error("the sand has no band");
    const { inner, outer, sowingDay } = advice.band;
    const [a, b] = [Math.round(inner), Math.round(outer)];
    const [c, d] = [inner, outer].map((cm) => Math.round((2 * cm) / 2.54) / 2);
    const { answer: us } = await shown({ soil: { kind: "class", name: "sand" } });
    const { answer: metric } = await shown({ soil: { kind: "class", name: "sand" } }, "metric");
    expect(us).toContain(`In your sand, sow tomato ${c} to ${d} in (${a} to ${b} cm) from the pot’s wall`);
    expect(metric).toContain(`sow tomato ${a} to ${b} cm (${c} to ${d} in) from the pot’s wall`);
    expect(us).toContain(`day ${sowingDay}`);
    expect(us).toContain(`nearer than ${c} in, it is too wet`);
    expect(us).toContain(`farther than ${d} in, the soil`);
    expect(us).toContain("the first day with a band a hand wide");
  });

  it("gives no number for a distance when all soil is moist from the start", async () => {
    const { answer } = await shown({ startSuctionKPa: 30 });
    expect(answer).toContain(
      "moist enough everywhere from the start, so the pot does not limit yet where you sow tomato",
    );
  });

  it("says why no day will do, and what to try", async () => {
    const { answer } = await shown(sunk);
    expect(answer).toMatch(
      /^No day offers a place to sow tomato in your sand: .*(gets|stay) .*moist.*; try filling more often, a larger pot, sowing deeper or /,
    );
  });

  it("names a better day when the chosen one is too early", async () => {
    const { answer } = await shown({ sowingDay: 0 });
    const plan = planOf({});
    const first = sowingAdvice(plan, runOf(plan));
    if (first.kind !== "band") throw new Error("the demo bed has no band");
    expect(answer).toMatch(/^On the day of the first filling there is no place to sow tomato in your loam: /);
    expect(answer).toContain(
      `; day ${first.band.sowingDay} would offer ${placeWords(first.band, "us")} from the pot’s wall.`,
    );
  });

  it("speaks of root balls and hand watering for starters, and of seeds only for seeds", async () => {
    const page = await shown({ sowing: starter });
    expect(page.answer).toContain("set the middle of each tomato root ball");
    expect(page.answer).not.toMatch(/sow |seed/);
    expect(blocksOf(page).join(" ")).toContain("Water it by hand for the first 7 days");
    expect((await shown({})).answer).not.toMatch(/root ball|by hand/);
  });

  it("lists along the ruler what the advice's own marks say", async () => {
    const changes = { soil: { kind: "class", name: "clay" } } as Partial<PlanInput>;
    const plan = planOf(changes);
    const { rows } = tableOf(await shown(changes), "distances");
    const marks = sowingRuler(
      plan,
      runOf(plan),
      rows.map(([inches]) => Number(inches) * 2.54),
    );
    expect(rows.length).toBe(11);
    rows.forEach(([, cm, first, lasting, soaked], i) => {
      const mark = marks[i]!;
      expectClose(Number(cm), mark.distance, { tolerance: 1e-9, unit: "cm", what: "distance" });
      expectClose(dayOf(first), dayOf(mark.firstMoistDay), { tolerance: 1e-9, unit: "day", what: "first moist" });
      expectClose(dayOf(lasting), dayOf(mark.lastingMoistDay), {
        tolerance: 1e-9,
        unit: "day",
        what: "moist for good",
      });
      expectClose(Number(soaked), mark.soakedDays, { tolerance: 1e-9, unit: "days", what: "soaked" });
    });
  });

  it("lists for every day the band that is told when that day is chosen", async () => {
    const { rows } = tableOf(await shown({}), "sowing-days");
    expect(rows.map(([day]) => day)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 14]);
    const plan = planOf({});
    const run = runOf(plan);
    for (const [day, from, to] of rows) {
      const advice = sowingAdvice({ ...plan, sowingDay: Number(day) }, run);
      const expected =
        advice.kind === "band"
          ? [advice.band.inner, advice.band.outer].map((cm) => fromModel(cm, "length", "us"))
          : ["none", "none"];
      expect([from, to]).toEqual(expected);
    }
  });

  it("draws one bar for the person's soil and one for each other compared soil", async () => {
    const names = async (changes: Partial<PlanInput>) =>
      tableOf(await shown(changes), "sowing-bands").rows.map(([name]) => name);
    expect(await names({})).toEqual(["your loam", "sand", "clay"]);
    expect(await names({ soil: { kind: "class", name: "silt loam" } })).toEqual([
      "your silt loam",
      "sand",
      "loam",
      "clay",
    ]);
    const { picture } = await shown({});
    for (const text of ["your loam: ", "sand: ", "clay: ", "2 in", "5 cm"]) expect(svgText(picture)).toContain(text);
  });
});

describe("the hand's width of common practice", () => {
  const band = (inner: number, outer: number): SowingAdvice => ({
    kind: "band",
    band: {
      inner,
      outer,
      sowingDay: 2,
      until: 12,
      innerCause: "soaked",
      isHandWide: outer - inner >= HAND,
      isDayChosen: false,
      isOuterAtLeast: false,
    },
  });

  it.each([
    [band(0, 20), "In loam the model agrees: up to 20 cm is moist enough."],
    [band(3, 20), "In loam the model agrees in part: up to 20 cm is moist enough, but not nearer than 3 cm."],
    [band(3, 7), "In loam the model agrees in part: from 3 cm only up to 7 cm stays moist."],
    [band(11, 20), "does not agree: nearer than 11 cm it is too close to the pot"],
  ])("is held against the band (%#)", (advice, words) => {
    expect(handVerdict("loam", advice, "metric")).toContain(words);
  });

  it("is told in both units, as a practice without a source", async () => {
    expect(blocksOf(await shown({})).join(" ")).toContain(
      `Common practice, no source: sow within about a hand’s width of the wall, here taken as ${formatBoth(HAND, "length", "us")}.`,
    );
  });
});
