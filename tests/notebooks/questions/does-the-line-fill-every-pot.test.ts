import { sum } from "d3-array";
import { describe, expect, it } from "vitest";
import { filledLine, outletHeightSearch } from "../../../model/public/advice.ts";
import type { Plan } from "../../../model/public/plan.ts";
import type { UnitSystem } from "../../../model/public/units.ts";
import { setPlan } from "../../../notebooks/form/form.ts";
import { evaluate } from "../../../notebooks/notebook/evaluate.ts";
import type { Block, Figure, Table } from "../../../notebooks/notebook/notebook.ts";
import { svgText } from "../../../notebooks/print/printFiles.ts";
import { lossStages } from "../../../notebooks/questions/does-the-line-fill-every-pot/lossFigure.ts";
import { notebook } from "../../../notebooks/questions/does-the-line-fill-every-pot/notebook.ts";
import type { Later } from "../../../notebooks/runtime/cells.ts";
import { startCells } from "../../../notebooks/runtime/liveCells.ts";
import { toEnd } from "../../../notebooks/runtime/toEnd.ts";
import { directSolver } from "../../../notebooks/solving/solvers.ts";
import { answerSentence, minutesWords } from "../../../notebooks/words/lineWords.ts";
import { expectClose } from "../../support/close.ts";
import { plan as planOf } from "../../support/livingPlan.ts";
import { settled } from "../../support/settled.ts";

const solver = directSolver({ accuracy: "live" });
const BED = { bed: { shape: "rectangle", length: 4.8, width: 1.2 }, spacing: 65 };
/** Two rows of seven. */
const bedPlan = (changes: object = {}): Plan => planOf({ ...BED, ...changes });

const shown = (plan: Plan, units: UnitSystem = "metric") => evaluate(notebook, { plan, units, view: {} }, solver);

const blocksOf = async (plan: Plan, units: UnitSystem = "metric"): Promise<Block[]> =>
  (await shown(plan, units)).sections.flatMap(({ blocks }) => blocks);

const figureOf = async (plan: Plan, name: string) =>
  (await blocksOf(plan)).find(
    (block) => typeof block === "object" && block.kind === "figure" && block.name === name,
  ) as Figure;

const tableOf = async (plan: Plan, name: string, units: UnitSystem = "metric") =>
  (await blocksOf(plan, units)).find(
    (block) => typeof block === "object" && block.kind === "table" && block.name === name,
  ) as Table;

/** Without running the flow of water: what the answer says. */
function answerOf(plan: Plan, units: UnitSystem = "metric"): string {
  const filled = filledLine(plan);
  return answerSentence(filled, toEnd(outletHeightSearch(plan, filled.pots)), units);
}

describe("the answer", { timeout: 60_000 }, () => {
  it("tells when the first and the last pot are full, and how low the tank may stand", () => {
    const answer = answerOf(bedPlan({ line: { wantedMinutes: 6 } }));
    expect(answer).toMatch(
      /^With the tank full, all 14 pots are full after \d\.\d minutes, the first after \d\.\d minutes; its outlet could stand as low as \d+ cm \([\d.]+ in\) above the soil and still fill them within 6 minutes\.$/,
    );
  });

  it("says how high the tank must stand where its pots are full too late", () => {
    expect(answerOf(bedPlan({ line: { wantedMinutes: 5 } }), "us")).toMatch(
      /; to fill them within 5 minutes its outlet must stand at least \d+(\.5)? in \(\d+ cm\) above the soil\.$/,
    );
    expect(answerOf(bedPlan({ line: { wantedMinutes: 1, tube: { bore: 1 } } }))).toMatch(
      /no tank up to 1000 cm \(393\.5 in\) above the soil would fill all of them within 1 minute\.$/,
    );
  });

  it("names the pot that gets least, and why, where not all get full", () => {
    const dry = bedPlan({ tank: { volume: 60, waterHeight: 60, outletHeight: 60 } });
    expect(answerOf(dry)).toMatch(
      /^With the tank full, \d+ of 14 pots get full, the first after [\d.]+ minutes, and pot 14 gets only [\d.]+ L \([\d.]+ US gal\), for the tank runs empty; /,
    );
    const humped = bedPlan({ line: { main: { way: { kind: "humped", highest: 300, lowest: 0 } } } });
    expect(answerOf(humped)).toMatch(
      /no pot is ever full: pot \d+ gets only 0 L.*, for a high place of the line stands out of the tank’s water and holds air/,
    );
    for (const plan of [dry, humped]) expect(answerOf(plan)).toMatch(/^[^.]+(\.\d[^.]*)*\.$/);
  });

  it("leaves out the least height while it belongs to a line that has been changed since", async () => {
    const works: Iterator<void>[] = [];
    const later: Later = (_, work) => void works.push(work);
    const cells = startCells(solver, undefined, later);
    setPlan(cells, bedPlan(), "metric");
    const answers: string[] = [];
    cells.watch(
      notebook.answer,
      (text) => answers.push(text),
      () => {},
    );
    const show = async (plan: Plan, isRested: boolean) => {
      setPlan(cells, plan, "metric");
      await settled();
      if (isRested) for (const work of works.splice(0)) while (!work.next().done);
      await settled();
      return answers.at(-1);
    };
    expect(await show(bedPlan(), true)).toContain("its outlet could");
    expect(await show(bedPlan({ line: { tube: { bore: 6 } } }), false)).not.toContain("outlet");
    expect(await show(bedPlan({ line: { tube: { bore: 6 } } }), true)).toContain("outlet");
    // The height of the outlet is what is looked for: moving it leaves what was found.
    expect(await show(bedPlan({ line: { tube: { bore: 6 } }, tank: { outletHeight: 90 } }), false)).toContain("outlet");
    cells.stop();
  });

  it("tells short times in seconds and long ones in hours", () => {
    expect([0.4, 1, 5.24, 12.6, 119, 150].map(minutesWords)).toEqual([
      ...["24 seconds", "1 minute", "5.2 minutes", "13 minutes", "119 minutes", "2.5 hours"],
    ]);
  });
});

describe("the picture", { timeout: 60_000 }, () => {
  it("writes each pot’s minutes on it, and marks the first and the last", async () => {
    const plan = bedPlan();
    const svg = svgText((await shown(plan)).picture);
    const { pots } = filledLine(plan).filling;
    const texts = [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text]) => text);
    for (const { minutes } of pots) expect(texts).toContain(String(Number(minutes!.toFixed(minutes! < 10 ? 1 : 0))));
    expect(texts.filter((text) => /\b(first|last)$/.test(text!)).length).toBe(2);
  });

  it("says so on pots that never fill, and marks the one that gets least", async () => {
    const svg = svgText((await shown(bedPlan({ tank: { volume: 40, waterHeight: 60 } }))).picture);
    expect(svg).toContain(">never<");
    expect(svg).toMatch(/>(\d+, )?least</);
  });

  it("draws any bed: round, turned, by its corners, with one pot", async () => {
    for (const changes of [
      { bed: { shape: "circle", diameter: 3 }, rowAngle: 30 },
      {
        bed: {
          shape: "polygon",
          points: [
            { x: 0, y: 0 },
            { x: 3, y: 0 },
            { x: 1, y: 3 },
          ],
        },
        rowAngle: -90,
      },
      { bed: { shape: "rectangle", length: 0.5, width: 0.5 } },
      { line: { joints: { kind: "rows" }, main: { length: 0.3 } } },
    ]) {
      const { picture, answer } = await shown(bedPlan(changes));
      expect(svgText(picture)).not.toMatch(/NaN|undefined/);
      expect(answer).toMatch(/\.$/);
    }
  });
});

describe("the tables", { timeout: 60_000 }, () => {
  it("of losses add up to all of the head", async () => {
    const { rows } = await tableOf(bedPlan(), "losses");
    // The defaults of a plan: 120 cm of water on an outlet 60 cm above the soil, rims 2 cm above it.
    expectClose(
      sum(rows, ([, head]) => head as number),
      178,
      { tolerance: 1e-6, relative: true, unit: "cm", what: "head" },
    );
  });

  it("put each loss where it belongs", () => {
    const row = (kind: "main" | "row pipe" | "tube", friction: number, fittings: number) => ({
      name: "",
      kind,
      friction,
      fittings,
    });
    const rows = [row("main", 1, 2), row("row pipe", 3, 4), row("row pipe", 5, 6), row("tube", 7, 8)];
    const stages = lossStages({ rows, atOutlet: 9, left: 0 }, true);
    expect(Object.fromEntries(stages.map(({ name, head }) => [name, head]))).toMatchObject({
      ...{ "entrance, valve, bend": 2, main: 1, "pipe along the row": 18, "small tube": 15, emitter: 9 },
    });
  });

  it("of cuts give one length in both systems, the person’s own first", async () => {
    for (const units of ["metric", "us"] as const) {
      const cuts = await tableOf(bedPlan(), "cuts", units);
      const [first, second] = units === "us" ? ["in", "cm"] : ["cm", "in"];
      expect(cuts.columns.slice(2).map(({ heading }) => heading)).toEqual([
        `length of each (${first})`,
        `length of each (${second})`,
      ]);
      for (const [, , own, other] of cuts.rows as number[][]) {
        const [cm, inches] = units === "us" ? [other!, own!] : [own!, other!];
        expectClose(cm, 2.54 * inches, { tolerance: 1e-9, relative: true, unit: "cm", what: "a cut" });
      }
    }
  });

  it("of changes begin with the line as it is, and an open valve fills pots sooner", async () => {
    const { rows } = await tableOf(bedPlan(), "changes");
    const last = (name: RegExp) => rows.find(([what]) => name.test(String(what)))![2] as number;
    expect(rows[0]![0]).toBe("as it is");
    expect(last(/ball valve/)).toBeLessThan(last(/as it is/));
    expect(last(/higher/)).toBeLessThan(last(/as it is/));
  });

  it("of refills tell that one after some days takes no more than a filling from empty", async () => {
    const { rows } = await tableOf(bedPlan({ filling: { kind: "every", days: 1 } }), "refills");
    const [empty, refill] = rows as number[][];
    expect(refill![1]).toBeLessThan(empty![1]!);
    expect(refill![4]).toBeLessThan(empty![4]!);
    const float = await tableOf(bedPlan({ filling: { kind: "float" } }), "refills");
    expect(float.rows.length).toBe(1);
  });
});

describe("the way to the slowest pot", { timeout: 60_000 }, () => {
  it("warns of a hump: a high place, and suction where the level line falls below it", async () => {
    const line = { main: { way: { kind: "humped", highest: 170, lowest: 0 } } };
    const blocks = await blocksOf(bedPlan({ line }));
    const text = blocks.filter((block) => typeof block === "string").join(" ");
    expect(text).toMatch(/High places, where air gathers .*: 1\.7 m \(5\.5 ft\) from the tank/);
    expect(text).toMatch(/Under suction: 1\.7 m/);
    expect(svgText(await figureOf(bedPlan({ line }), "profile"))).toMatch(/>high place<[\s\S]*>suction</);
  });

  it("finds nothing to warn of where rows lie on the soil and the main falls all the way", async () => {
    const text = (await blocksOf(bedPlan({ line: { rowPipe: { height: 0 }, tube: { endHeight: -1 } } })))
      .filter((block) => typeof block === "string")
      .join(" ");
    expect(text).toContain("No low place holds water");
    expect(text).toContain("No high place keeps air");
    expect(text).not.toContain("Under suction");
  });
});
