import { describe, expect, it } from "vitest";
import { spacingAdvice } from "../../../model/public/advice.ts";
import type { Member, MemberTask } from "../../../model/public/ensemble.ts";
import type { Plan, PottedGround } from "../../../model/public/plan.ts";
import { evaluate } from "../../../notebooks/notebook/evaluate.ts";
import type { Block, Figure, Table } from "../../../notebooks/notebook/notebook.ts";
import { svgText } from "../../../notebooks/print/printFiles.ts";
import { notebook } from "../../../notebooks/questions/how-far-apart-do-the-pots-go/notebook.ts";
import {
  answerSentence,
  tooNearWords,
} from "../../../notebooks/questions/how-far-apart-do-the-pots-go/spacingWords.ts";
import { directEnsembles, directSolver } from "../../../notebooks/solving/solvers.ts";
import { plan as planOf } from "../../support/livingPlan.ts";

const solver = directSolver({ accuracy: "live" });

/** Drawn soils whose largest spacings are known: 45, 55, 65 cm and so on. */
const solve = (_plan: PottedGround, { index }: Member, task: MemberTask) => {
  if (task.kind === "spacing") return { index, trouble: null, kind: "found" as const, spacing: 45 + 10 * index };
  const reading = { midwayHead: -100 - index, farthestHead: -900, givenLitres: 20, drunkLitres: 10 };
  const circle = { midwayHead: -120, farthestHead: -150, givenLitres: 20.2, drunkLitres: 9.9 };
  return { index, trouble: null, grid: reading, circle, cells: 5000 };
};

const bedPlan = (changes: object = {}) =>
  planOf({ bed: { shape: "rectangle", length: 4.8, width: 1.2 }, spacing: 65, startSuctionKPa: 33, ...changes });

const shown = (plan: Plan, { view = {}, units = "metric" as "metric" | "us", atMost = 3 } = {}) =>
  evaluate(notebook, { plan, units, view }, solver, directEnsembles({ solve, atMost }));

const blocksOf = async (plan: Plan, options = {}): Promise<Block[]> =>
  (await shown(plan, options)).sections.flatMap(({ blocks }) => blocks);

const named = (blocks: Block[], name: string) =>
  blocks.find((block) => typeof block === "object" && "name" in block && block.name === name);

describe("the answer", { timeout: 60_000 }, () => {
  it("is a band over drawn soils, with the pots that the bed needs and what lies beyond", async () => {
    // 10 and 90 % of 45, 55 and 65 cm are 47 and 63 cm.
    const { answer } = await shown(bedPlan());
    expect(answer).toMatch(/^In your loam, pots 47 to 63 cm \(18\.5 to 25 in\) apart keep tomato in easy water/);
    expect(answer).toMatch(
      /your 1\.2 × 4\.8 m bed needs 14 to \d+ pots; wider than 63 cm \(25 in\) leaves a dry strip midway in most of them\.$/,
    );
    expect((await shown(bedPlan(), { units: "us" })).answer).toContain("pots 18.5 to 25 in (47 to 63 cm) apart");
  });

  it("is of one soil where nothing is known of how others differ", async () => {
    const own = { kind: "own", thetaR: 0.078, thetaS: 0.43, alpha: 0.036, n: 1.56, Ks: 24.96 };
    const { answer } = await shown(bedPlan({ soil: own }));
    expect(answer).toMatch(
      /^In your soil, pots up to \d+ cm .* needs \d+ pots; wider than that leaves a dry strip midway\.$/,
    );
  });

  it("says where even the nearest pots do not do, where spacing is no limit, and where pots stand too near", () => {
    const plan = bedPlan();
    const reading = (spacing: number, midwayHead: number) => ({ spacing, midwayHead, depth: 20, isCapped: false });
    const told = (heads: number[]) => {
      const readings = heads.map((head, k) => reading(30 + 20 * k, head));
      return { plan, found: { plan, readings, advice: spacingAdvice(plan, readings) }, band: null };
    };
    expect(answerSentence(told([-2000, -3000]), "metric")).toMatch(
      /^In your loam, even pots as near as 30 cm .* do not keep tomato/,
    );
    expect(answerSentence(told([-100, -200]), "metric")).toMatch(
      /still meets between pots 50 cm .* apart, so it is not spacing/,
    );
    expect(tooNearWords(told([-5, -60, -3000]).found, "metric")).toMatch(
      /nearer than 4\d cm .* roots of tomato lack air/,
    );
    expect(tooNearWords(told([-100, -200]).found, "metric")).toBeNull();
  });
});

describe("the pictures", { timeout: 60_000 }, () => {
  it("show a row of pots at the plan's own spacing, and say whether easy water meets midway", async () => {
    const near = (await shown(bedPlan({ spacing: 40 }))).picture;
    expect(near.caption).toMatch(/^A row of pots 40 cm .*Easy water for tomato meets midway/);
    const far = (await shown(bedPlan({ spacing: 110 }))).picture;
    expect(far.caption).toMatch(/a strip is too dry for tomato/);
    expect(svgText(far)).toContain("too dry midway");
    expect(svgText(near)).toContain("easy water midway");
  });

  it("set what is commonly done beside the band, marked as without a source, and never move with it", async () => {
    const figure = async (plan: Plan) => named(await blocksOf(plan), "midway-by-spacing") as Figure;
    const [loam, sand] = [await figure(bedPlan()), await figure(bedPlan({ soil: { kind: "class", name: "sand" } }))];
    for (const { caption } of [loam, sand])
      expect(caption).toContain("60 to 90 cm (23.5 to 35.5 in) by the size of the pot (common practice, no source)");
  });
});

describe("the tables", { timeout: 60_000 }, () => {
  it("tell the same of the plan's own bed as the answer's readings, pot by pot count", async () => {
    const { rows } = named(await blocksOf(bedPlan()), "midway") as Table;
    // Beyond that plants have drunk the strip dry, and how dry hangs on nothing but their wilting.
    const suctions = rows.map(([, kPa]) => Number(kPa)).filter((kPa) => kPa < 700);
    expect(suctions.length).toBeGreaterThan(4);
    expect(suctions).toEqual([...suctions].sort((a, b) => a - b));
    const pots = rows.map(([, , count]) => Number(count));
    expect(pots).toEqual([...pots].sort((a, b) => b - a));
    expect(rows.find(([spacing]) => spacing === 65)![2]).toBe(14);
  });

  it("let larger pots stand farther apart, and young plants too", async () => {
    const blocks = await blocksOf(bedPlan());
    const spacings = (name: string) =>
      (named(blocks, name) as Table).rows.map(([, spacing]) => Number.parseFloat(String(spacing)));
    const [half, own, twice] = spacings("pots") as [number, number, number];
    expect(half).toBeLessThan(own);
    expect(own).toBeLessThan(twice);
    const [young, old] = spacings("plants") as [number, number];
    expect(young).toBeGreaterThan(old);
  });

  it("compare circle and square in three dimensions when asked to, and else say how to", async () => {
    const asked = await blocksOf(bedPlan(), { view: { check: "yes" }, atMost: 4 });
    const { rows } = named(asked, "three-dimensions") as Table;
    expect(rows.map(([soil]) => soil)).toEqual(["loam", "sand", "clay"]);
    expect(rows[0]![5]).toBeCloseTo(1, 9);
    expect(rows[0]![6]).toBeCloseTo(-1, 9);
    expect(
      asked.some(
        (block) => typeof block === "string" && /dry patch is left in the middle between four pots/.test(block),
      ),
    ).toBe(true);
    const unasked = await blocksOf(bedPlan());
    expect(named(unasked, "three-dimensions")).toBeUndefined();
    expect(unasked.some((block) => typeof block === "string" && /Choose “now”/.test(block))).toBe(true);
  });
});
