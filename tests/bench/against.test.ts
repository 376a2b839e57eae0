import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { buriedCylinder } from "../../model/checks/loadChecks.ts";
import { type Problem, readProblem } from "../../model/public/flow.ts";
import { soundValue } from "../../model/public/plan.ts";
import { errorsOf, knownAnswers } from "../support/errors.ts";
import { jar, tapered } from "../support/pots.ts";
import { cylinderProblem, knownProblem } from "../support/problems.ts";
import { comparedSections } from "./against/against.ts";
import type { Case } from "./against/cases.ts";
import { checkoutSide } from "./against/checkout.ts";
import { compareCase, type Side, summed, worse } from "./against/compare.ts";
import { inTurns, timesOf } from "./against/inTurns.ts";
import { problemText, programSide } from "./against/program.ts";

const folder = mkdtempSync(join(tmpdir(), "against-test-"));
afterAll(() => rmSync(folder, { recursive: true }));

/** A program of one line or two, which finds the problem in `problem`. */
function program(name: string, lines: string): [string] {
  const path = join(folder, name);
  const head = `#!${process.execPath}\nconst problem = JSON.parse(require("fs").readFileSync(process.argv[2], "utf8"));\n`;
  writeFileSync(path, head + lines, { mode: 0o755 });
  return [path];
}

const known = buriedCylinder().rows.find(({ name }) => name.startsWith("loam, kept"))!;
const { rows: answers } = knownAnswers(known);
const loam: Case = {
  name: known.name,
  problem: knownProblem(known),
  grid: "fresh",
  errors: (run) => ({ ...errorsOf(run, knownAnswers(known)) }),
};

/** Prints the known answers, with the water given times a factor. */
const answering = (factor: number, milliseconds: number) => `
  const known = ${JSON.stringify(answers)};
  const rows = problem.ask.days.map((day, k) => ({ day, ...known[k], seepageLitres: ${factor} * known[k].seepageLitres }));
  console.log(JSON.stringify({ status: "finished", milliseconds: ${milliseconds}, firstEmptyDay: null, rows, more: 1 }));`;

/** Our side without a process. */
const ready: Side = {
  solve: ({ days }) => ({
    run: {
      status: "finished",
      firstEmptyDay: null,
      rows: answers.map((row, k) => ({ ...row, day: days[k]!, waterLevelDepth: 0, drainageLitres: 0 })),
    },
    milliseconds: 30,
  }),
};

async function compared(ours: Side, path: [string], rounds = 1) {
  const theirs = programSide(path);
  const row = await compareCase({ ours, theirs }, loam, { rounds, warmUp: 0 });
  theirs.end();
  return row;
}

const right = program("right", answering(1, 30));

describe("a program beside ours", () => {
  it.each<[string, Partial<Problem>]>([
    ["a pot kept full", {}],
    ["a jar, refilled", { pot: jar, filling: { kind: "refilled", atDays: [0, 7] }, accuracy: "live" }],
    ["a tapered pot", { pot: tapered, startHead: -15000, days: [1, 2] }],
  ])("is given the problem as it is: %s", (_, changes) => {
    const problem = cylinderProblem(changes);
    expect(soundValue(readProblem(problemText(problem)))).toEqual(problem);
  });

  it("is timed by what it tells, and its rows are held against the known answers and ours", async () => {
    const ours = programSide(right);
    const row = await compared(ours, program("tooWet", answering(1.02, 60)), 2);
    ours.end();
    expect(row.trouble).toBeUndefined();
    expect(row.times!.ratio).toEqual({ least: 0.5, median: 0.5, middle: [0.5, 0.5] });
    expect(row.processTimes!.least.theirs).toBeGreaterThan(5);
    expect(row.errors!.ours).toEqual({ seepage: 0, radius: 0, depth: 0 });
    expect(row.errors!.theirs.seepage).toBeCloseTo(0.02, 12);
    expect(row.apart!.seepage).toBeCloseTo(0.02 / 1.02, 12);
    expect([worse(row, "ours"), worse(row, "theirs")]).toEqual([[], ["seepage by 2.00"]]);
  });

  it.each([
    ["broken JSON", `console.log('{"status":')`, "exit code 0, and what it printed is not one JSON object"],
    ["two objects", "console.log('{}{}')", "exit code 0, and what it printed is not one JSON object"],
    ["exit code 1", 'console.error("no memory"); process.exit(1)', "exit code 1, .*; it said: no memory"],
    ["bad input", 'console.error("what is a pot?"); process.exit(2)', "refused the problem file .*what is a pot\\?"],
    [
      "a failed run",
      `console.log('{"status":"failed","reason":"too steep","rows":[]}'); process.exitCode = 1`,
      "the run failed: too steep",
    ],
    [
      "rows missing",
      answering(1, 1).replace("problem.ask.days", "problem.ask.days.slice(0, 2)"),
      "its rows are of days 0.25, 1; asked were days 0.25, 1, 3, 7, 14",
    ],
    [
      "a word for a number",
      `console.log('{"status":"finished","rows":[{"day":1,"seepageLitres":"much","wettedRadius":1,"wettedDepth":1}]}')`,
      'rows\\.0\\.seepageLitres: .*"much"',
    ],
  ])("is told to be wrong in plain words: %s", async (name, lines, words) => {
    const { trouble, times } = await compared(ready, program(name, lines));
    expect(trouble).toMatch(new RegExp(`^theirs: (.|\n)*${words}`));
    expect(times).toBeUndefined();
  });

  it("that is not there, or no checkout, or an unknown section, is refused", async () => {
    expect((await compared(ready, [join(folder, "nowhere")])).trouble).toMatch(/^theirs: it cannot be started/);
    await expect(checkoutSide(folder)).rejects.toThrow(
      /is no checkout of this project: it has no model\/public\/flow.ts/,
    );
    const first = (path: string, only?: string) =>
      comparedSections({ path, only, all: false, rounds: 1 }, () => {}).next();
    await expect(async () => first(join(folder, "nowhere"))).rejects.toThrow(/There is nothing at/);
    writeFileSync(join(folder, "plain"), "");
    await expect(async () => first(join(folder, "plain"))).rejects.toThrow(/plain is not a program that may be run/);
    await expect(first(right[0], "living")).rejects.toThrow(
      '--only is "living"; it must be one of shared, pots, sweep',
    );
  });
});

describe("turns", () => {
  it("alternate run by run, and each side goes first in half of the rounds", async () => {
    const order: string[] = [];
    const work = { ours: () => order.push("ours"), theirs: () => order.push("theirs") };
    await inTurns(2, work);
    expect(order).toEqual(["ours", "theirs", "theirs", "ours"]);
  });

  it("give the ratio of the least times, and the median of the ratios whatever a slow round does", () => {
    const { ratio } = timesOf([
      { ours: 4, theirs: 8 },
      { ours: 90, theirs: 10 },
      { ours: 6, theirs: 10 },
    ]);
    expect(ratio.least).toBe(0.5);
    expect(ratio.median).toBe(0.6);
  });

  it("are summed by setting: the mean time of all, the mean and the largest error", () => {
    const row = (ours: number, seepage: number) => ({
      ...{ name: "", setting: "live", grid: "kept" },
      times: timesOf([{ ours, theirs: 10 }]),
      apart: { seepage: 0, radius: 0 },
      errors: { ours: { seepage }, theirs: { seepage: 0 } },
    });
    const [mean, largest] = summed([row(2, 0.01), row(8, 0.03)]);
    expect(mean!.times!.ratio.least).toBe(0.5);
    expect([mean!.errors!.ours.seepage, largest!.errors!.ours.seepage]).toEqual([0.02, 0.03]);
  });
});
