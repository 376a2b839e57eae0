import { range } from "d3-array";
import { describe, expect, it } from "vitest";
import { soundValue } from "../../../model/input/faults.ts";
import { resolvePlan } from "../../../model/plan/plan.ts";
import type { PlanInput } from "../../../model/plan/typed/planSchema.ts";
import {
  drawMembers,
  importanceOf,
  MEMBER_GROUPS,
  type Member,
  type MemberGroup,
  type MemberTask,
  memberColumns,
  OUTCOME_DAYS,
  type Outcome,
} from "../../../model/public/ensemble.ts";
import type { Plan, PottedGround } from "../../../model/public/plan.ts";
import demoPlan from "../../../notebooks/demo-plan.json" with { type: "json" };
import type { Settings } from "../../../notebooks/form/controlTypes.ts";
import { evaluate } from "../../../notebooks/notebook/evaluate.ts";
import type { Table } from "../../../notebooks/notebook/notebook.ts";
import { svgText } from "../../../notebooks/print/printFiles.ts";
import { answerSentence, findingOf } from "../../../notebooks/questions/what-matters-most/finding.ts";
import { groupWords } from "../../../notebooks/questions/what-matters-most/inputs.ts";
import { lookedAt, looks } from "../../../notebooks/questions/what-matters-most/lookedAt.ts";
import { notebook } from "../../../notebooks/questions/what-matters-most/notebook.ts";
import { barsOf } from "../../../notebooks/questions/what-matters-most/sharesFigure.ts";
import { directEnsembles, directSolver } from "../../../notebooks/solving/solvers.ts";
import { walls } from "../../../reference-data/load.ts";
import { expectClose } from "../../support/close.ts";
import { oneIn } from "../../support/deep.ts";
import { blocksOf, figuresOf, tableOf } from "../../support/pageParts.ts";

const planOf = (changes: Partial<PlanInput> = {}): Plan =>
  soundValue(resolvePlan({ ...demoPlan, ...changes } as PlanInput));

const solver = directSolver({ accuracy: "live" });

type Solve = (plan: PottedGround, member: Member, task: MemberTask) => Outcome;

/** Outcomes made by hand, so that what matters is known. */
const made =
  (changes: (member: Member, plan: PottedGround) => Partial<Outcome>): Solve =>
  (plan, member) => ({
    index: member.index,
    trouble: null,
    radius: OUTCOME_DAYS.map(() => 30),
    depth: OUTCOME_DAYS.map(() => 30),
    sowing: { inner: 2, outer: 15, isOuterAtLeast: false },
    emptyDay: 5,
    seepageLitres: 40,
    ...changes(member, plan),
  });

const radiusOf = (radius: (member: Member) => number): Solve =>
  made((member) => ({ radius: OUTCOME_DAYS.map(() => radius(member)) }));

interface Asked {
  view?: Settings;
  plan?: Plan;
  units?: "us" | "metric";
  atMost?: number;
}

const shown = (solve: Solve, { view = {}, plan = planOf(), units = "metric", atMost = 200 }: Asked = {}) =>
  evaluate(notebook, { plan, units, view }, solver, directEnsembles({ solve, atMost }));

/** One drawn number of each group. */
const numberOf: Record<MemberGroup, (member: Member) => number> = {
  conductivity: ({ soil }) => soil.Ks,
  retention: ({ soil }) => 100 * soil.alpha,
  wall: ({ wallFactor }) => wallFactor,
  start: ({ startHead }) => -startHead,
  pot: ({ potScale }) => potScale,
};

describe("the answer", () => {
  it.each(MEMBER_GROUPS)("names what an answer hangs on alone, and how to measure it: %s", async (group) => {
    const { answer } = await shown(radiusOf(numberOf[group]));
    const { what, measure } = groupWords[group];
    expect(answer).toMatch(
      new RegExp(`^In loam, ${what} makes (nearly all|about nine tenths) of the spread in how far `),
    );
    expect(answer).toMatch(new RegExp(`: ${measure} before anything else\\.$`));
  });

  // Wall and pot are drawn evenly in their logarithms, over spans of ln(0.125/0.015) and ln(1.25/0.8): with weights that
  // make both alike, each is half of the spread.
  it("calls two that matter alike too close to call, and says to measure both", async () => {
    const [wall, pot] = [Math.log(0.125 / 0.015), Math.log(1.25 / 0.8)];
    const { answer } = await shown(
      radiusOf(({ wallFactor, potScale }) => Math.log(wallFactor) / wall + Math.log(potScale) / pot + 9),
    );
    expect(answer).toMatch(
      /^In loam, (the size of the pot|how the pot’s wall passes water) and .* make about .* too close to call: /,
    );
    for (const name of ["wall", "pot"] as const) expect(answer).toContain(groupWords[name].measure);
  });

  it("says so where all beds answer the same", async () => {
    const page = await shown(radiusOf(() => 30));
    expect(page.answer).toBe(
      "In loam, all 200 beds give the same answer for how far water reaches by day 7, so that nothing varied here matters for it.",
    );
    expect(blocksOf(page)[0]).toContain("nothing to show");
  });

  it("says so where too few beds came to their end", async () => {
    const { answer } = await shown(radiusOf(numberOf.wall), { atMost: 23 });
    expect(answer).toBe(
      "In loam, too few beds could be worked out to say what matters most for how far water reaches by day 7: 23 where 24 are needed.",
    );
  });

  it("leaves out beds that failed, and says how many", async () => {
    const solve = made((member) => ({
      trouble: member.index % 4 === 0 ? "step too small on day 1" : null,
      radius: OUTCOME_DAYS.map(() => (member.index % 4 === 0 ? 0 : member.wallFactor)),
    }));
    const page = await shown(solve);
    expect(page.picture.caption).toContain("150 beds that yours may be, 50 more could not be worked out.");
    expect(page.answer).toContain("how the pot’s wall passes water makes nearly all");
  });

  it("looks at the chosen day", async () => {
    const solve = made(({ wallFactor, potScale }) => ({
      radius: OUTCOME_DAYS.map((day) => (day < 5 ? wallFactor : potScale)),
    }));
    expect((await shown(solve, { view: { spreadDay: 4 } })).answer).toMatch(/wall passes water makes .* by day 4/);
    expect((await shown(solve, { view: { spreadDay: 5 } })).answer).toMatch(/size of the pot makes .* by day 5/);
  });

  it("takes each chosen answer from its own part of the outcome", async () => {
    const solve = made(({ soil, wallFactor, startHead, potScale }) => ({
      radius: OUTCOME_DAYS.map(() => wallFactor),
      seepageLitres: potScale,
      emptyDay: soil.Ks / 1000,
      sowing: { inner: 0, outer: -startHead, isOuterAtLeast: false },
    }));
    const leading = { radius: "wall", given: "pot", lasts: "conductivity", outer: "start" } as const;
    for (const look of looks)
      expect((await shown(solve, { view: { look } })).answer).toContain(`${groupWords[leading[look]].what} makes`);
  });
});

describe("how long a filling lasts", () => {
  it("is looked at in pots filled once, for two weeks or more; other answers in pots as they are filled", async () => {
    const asked: PottedGround[] = [];
    const solve: Solve = (plan, ...rest) => {
      asked.push(plan);
      return made(() => ({}))(plan, ...rest);
    };
    const plan = planOf({ filling: { kind: "float" }, days: 5 });
    await shown(solve, { plan, view: { look: "lasts" }, atMost: 1 });
    await shown(solve, { plan, view: { look: "given" }, atMost: 1 });
    expect(asked.map(({ filling, days }) => [filling.kind, days])).toEqual([
      ["once", 14],
      ["float", 5],
    ]);
  });

  it("counts pots that are not empty by then as the longest, and never gives a number for them", async () => {
    const solve = made(({ wallFactor }) => ({ emptyDay: wallFactor < 0.5 ? null : 8 / wallFactor }));
    const page = await shown(solve, { view: { look: "lasts" } });
    expect(page.answer).toContain(
      "how the pot’s wall passes water makes nearly all of the spread in how long a filling lasts",
    );
    expect(JSON.stringify(tableOf(page, "beds").rows)).toContain("not empty by day 14");
    const [, beds] = figuresOf(page);
    expect(svgText(beds!)).toContain("not empty by day 14");
    expect(beds!.caption).not.toMatch(/\d{5}|Infinity|NaN/);
    for (const value of tableOf(page, "beds").rows.flat())
      if (typeof value === "number") expect(value).toBeLessThan(100);
  });
});

describe("the shares", () => {
  const solve = radiusOf(
    ({ soil, wallFactor, potScale }) => Math.log(soil.Ks) + wallFactor + 5 * potScale + 100 * soil.alpha,
  );

  it("in the table are those of the beds, and with the rest make 100 %", async () => {
    const { rows } = tableOf(await shown(solve), "shares");
    const members = drawMembers(planOf(), { count: 200, seed: 1, varied: MEMBER_GROUPS });
    const answers = members.map((member) => solve(planOf(), member, { kind: "sowing", sowingDay: 0 }).radius[0]!);
    const known = importanceOf(memberColumns(members), answers, { seed: 1 });
    if (known.kind !== "shares") throw new Error(known.kind);
    MEMBER_GROUPS.forEach((name, i) => {
      expect(rows[i]![0]).toMatch(new RegExp(`^${groupWords[name].what}$`, "i"));
      expectClose(Number(rows[i]![1]), 100 * known.shares[name].share, { tolerance: 1e-9, unit: "%", what: name });
    });
    const total = rows.reduce((sum, row) => sum + Number(row[1]), 0);
    expectClose(total, 100, { tolerance: 1e-9, unit: "%", what: "all rows" });
  });

  it("are told in the picture as in the table", async () => {
    const page = await shown(solve);
    const text = svgText(page.picture);
    for (const [words, share] of tableOf(page, "shares").rows) {
      expect(text).toContain(words);
      expect(text).toContain(`>${Math.round(Number(share))} %<`);
    }
  });

  it("stand in the same order and on the same axis whatever leads", async () => {
    const heights = async (group: MemberGroup) =>
      [...svgText((await shown(radiusOf(numberOf[group]))).picture).matchAll(/>([A-Z][^<]{5,})</g)].map(
        ([, words]) => words,
      );
    expect(await heights("pot")).toEqual(await heights("conductivity"));
  });
});

describe("beds alike in what leads", () => {
  it("are told in five parts, each with the answers of its own beds", async () => {
    const page = await shown(
      radiusOf(({ soil }) => 2.54 * soil.n),
      { units: "us" },
    );
    const { rows, columns } = tableOf(page, "beds");
    expect(columns[0]!.heading).toContain("evenness of pores n");
    expect(rows.length).toBe(5);
    for (const [from, to, low, middle, high] of rows.map((row) => row.map(Number)) as [
      number,
      number,
      number,
      number,
      number,
    ][]) {
      // The answer is n in inches.
      const inOrder = [from, low, middle, high, to];
      expect(inOrder).toEqual(inOrder.toSorted((a, b) => a - b));
    }
    for (const i of range(4)) expect(Number(rows[i + 1]![0])).toBeGreaterThanOrEqual(Number(rows[i]![1]));
  });
});

describe("what was varied", () => {
  const rowsOf = async (plan: Plan) => tableOf(await shown(radiusOf(numberOf.wall), { plan }), "ranges").rows;
  const rowOf = (rows: Table["rows"], name: string) => rows.find(([heading]) => String(heading).startsWith(name))!;

  it("is told within the ranges it was drawn from, around the middle of each", async () => {
    const rows = await rowsOf(planOf());
    const { min, max } = walls().ranges.conductance;
    const thickness = planOf().pot.wallThickness;
    const [, low, middle, high] = rowOf(rows, "wall conductivity").map(Number) as [number, number, number, number];
    // Evenly drawn in the logarithm: the middle is the mean of the limits' logarithms. 200 draws are good to some 10 %
    // of the span.
    const at = (part: number) => thickness * Math.exp(Math.log(min) + part * Math.log(max / min));
    expect(low).toBeGreaterThan(at(0));
    expect(low).toBeLessThan(at(0.2));
    expect(middle).toBeGreaterThan(at(0.4));
    expect(middle).toBeLessThan(at(0.6));
    expect(high).toBeGreaterThan(at(0.8));
    expect(high).toBeLessThan(at(1));
    expect(Number(rowOf(rows, "suction at the start")[2])).toBeGreaterThan(300);
    expect(Number(rowOf(rows, "suction at the start")[2])).toBeLessThan(800);
  });

  it("says where each spread comes from, and that a soil of one's own is not varied", async () => {
    for (const [, , , , flag] of await rowsOf(planOf())) expect(String(flag)).toMatch(/^(memory|own choice)$/);
    const own = planOf({ soil: { kind: "own", thetaR: 0.07, thetaS: 0.41, alpha: 0.02, n: 1.4, Ks: 12.5, l: 0.5 } });
    const rows = await rowsOf(own);
    for (const row of rows.slice(0, 5)) expect(row[4]).toBe("not varied");
    expect(rowOf(rows, "soaked conductivity").slice(1, 4)).toEqual(["12.5", "12.5", "12.5"]);
    const { answer } = await shown(radiusOf(numberOf.wall), { plan: own });
    expect(answer).toMatch(/^In your soil, /);
  });
});

describe("while beds arrive", () => {
  const plan = planOf();
  const members = drawMembers(plan, { count: 200, seed: 1, varied: MEMBER_GROUPS });
  const at = lookedAt("radius", plan, 7);
  const outcomes = members.map((member) => radiusOf(numberOf.wall)(plan, member, { kind: "sowing", sowingDay: 0 }));
  const arrived = (count: number) =>
    findingOf({ plan, at, members, outcomes: outcomes.slice(0, count), isArriving: true });

  it("shares belong to those that are in, and are the same as if no more had been asked for", () => {
    const early = arrived(60);
    expect(early.total).toBe(200);
    expect(early.beds.length).toBe(60);
    const alone = findingOf({
      plan,
      at,
      members: members.slice(0, 60),
      outcomes: outcomes.slice(0, 60),
      isArriving: false,
    });
    if (early.importance.kind !== "shares" || alone.importance.kind !== "shares") throw new Error("no shares");
    for (const name of MEMBER_GROUPS)
      expect(early.importance.shares[name].share).toBe(alone.importance.shares[name].share);
  });

  it("no share is told as a number before enough are in", () => {
    const isKnown = (count: number) => barsOf(arrived(count).importance, []).map((bar) => bar.isKnown);
    for (const count of [0, 23]) expect(new Set(isKnown(count))).toEqual(new Set([false]));
    expect(new Set(isKnown(24))).toEqual(new Set([true]));
  });

  it("answers in a sentence from the first bed on", () => {
    for (const count of [0, 1, 10, 23])
      expect(answerSentence(arrived(count))).toBe(
        `In loam, what matters most for how far water reaches by day 7 can be told once more beds are worked out: ${count} of 200 are in.`,
      );
    for (const count of [24, 60]) expect(answerSentence(arrived(count))).toContain(groupWords.wall.what);
  });
});

describe("beds that are really run", () => {
  const ensembles = directEnsembles({ atMost: 24 });
  const run = (view: Settings, units: "us" | "metric" = "us") =>
    evaluate(notebook, { plan: planOf(), units, view }, solver, ensembles);

  it.each(oneIn(2, looks))("answer in one whole sentence without holes: %s", async (look) => {
    for (const units of ["us", "metric"] as const) {
      const page = await run({ look }, units);
      const words = [
        page.answer,
        ...blocksOf(page).map((block) => JSON.stringify(block)),
        ...figuresOf(page).map(({ caption }) => caption),
      ];
      expect(words.join("\n")).not.toMatch(/undefined|NaN|Infinity|null|\[object| {2}/);
      for (const each of figuresOf(page)) expect(svgText(each)).not.toMatch(/undefined|NaN|Infinity/);
      expect(page.answer).toMatch(/^In loam, [^.]+\.$/);
    }
  });

  // A larger pot of the same kind has more wall and more head: of two pots that differ in size alone it gives more.
  it("give more from larger pots and quicker walls, and start suction hardly matters for what is given", async () => {
    const { rows } = tableOf(await run({ look: "given" }), "shares");
    const share = (i: number) => Number(rows[i]![1]);
    expect(share(MEMBER_GROUPS.indexOf("pot")) + share(MEMBER_GROUPS.indexOf("wall"))).toBeGreaterThan(40);
    expect(share(MEMBER_GROUPS.indexOf("start"))).toBeLessThan(15);
  });
});
