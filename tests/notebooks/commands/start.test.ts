import type { ChildProcess } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { type AddressInfo, createServer, type Server } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { soundValue } from "../../../model/input/faults.ts";
import { type SpacingAdvice, watchedOutcome, watchedProblem } from "../../../model/public/advice.ts";
import { planToProblem, type Run } from "../../../model/public/flow.ts";
import { isFinished } from "../../../notebooks/commands/start/answers.ts";
import { start } from "../../../notebooks/commands/start/command.ts";
import { readStart } from "../../../notebooks/commands/start/options.ts";
import { bandWords, lastsWords, startReport } from "../../../notebooks/commands/start/report.ts";
import { wrap } from "../../../notebooks/commands/terminal.ts";
import { expectClose } from "../../support/close.ts";
import { inProcess, launch, noStatus } from "../../support/commands.ts";
import { runToEnd } from "../../support/runs.ts";

const folder = mkdtempSync(join(tmpdir(), "start-"));
afterAll(() => rmSync(folder, { recursive: true }));

function planFile(name: string, content: unknown): string {
  const path = join(folder, name);
  writeFileSync(path, typeof content === "string" ? content : JSON.stringify(content));
  return path;
}

/** The straight pot in loam that the flow model is checked with, filled once. */
const STRAIGHT_POT = {
  version: 1,
  units: "metric",
  name: "A straight pot",
  soil: { kind: "class", name: "loam" },
  pot: {
    shape: "cylinder",
    diameter: 20,
    height: 20,
    wallThickness: 1,
    wallConductivity: 0.05,
    rimAboveSoil: 0,
  },
  filling: { kind: "once" },
  startSuctionKPa: 98.0665,
  days: 7,
  crop: { kind: "own", name: "test crop", easyWaterSuctionKPa: 32.361945 },
  rootDepth: 10,
  sowing: { kind: "seed", sowingDepth: 1, emergenceDays: 0.5 },
};

/** Stands where a command is to end before it solves anything. */
const solvesNothing = async () => {
  throw new Error("Nothing is to be solved here.");
};

/** The first text on standard output that matches. */
function said(child: ChildProcess, pattern: RegExp): Promise<RegExpMatchArray> {
  let text = "";
  return new Promise((done) =>
    child.stdout!.on("data", (chunk) => {
      text += chunk;
      const match = text.match(pattern);
      if (match) done(match);
    }),
  );
}

const listening = (port: number): Promise<Server> =>
  new Promise((done, fail) => {
    const server = createServer().once("error", fail);
    server.listen(port, "127.0.0.1", () => done(server));
  });

/** The cells of a row, by the soil it begins with. */
const rows = (out: string, soil: string) =>
  out
    .split("\n")
    .filter((line) => line.startsWith(`  ${soil}`))
    .map((line) => line.trim().split(/ {2,}/).slice(1));

const balanceError = (out: string) => Number(out.match(/Water-balance error:\s+(\S+)/)![1]);

describe("npm start", () => {
  it("answers a plan in the terminal with what is known of its pot, and exits 0", async () => {
    const { code, out } = await launch("start", ["--print-only", "--plan", planFile("straight.json", STRAIGHT_POT)])
      .ended;
    expect(code).toBe(0);
    expect(out).not.toMatch(/bed is invented|\(invented\)/);
    // The plan says nothing of the weather, so that its plants live in the example's.
    expect(out.replaceAll(/\s+/g, " ")).toContain("in July at an invented dry-summer place");
    // Inside the wall the pot is a cylinder of radius 9 and height 19: 4.835 L.
    expect(out.replaceAll(/\s+/g, " ")).toContain("holds 4.8 L (1.3 US gal)");
    // An independent solver (reference-data/checks/buried-cylinder.json): 19.70, 23.77 and 25.04 cm, empty on day 2.445.
    const [radii, water] = [rows(out, "loam (yours)")[0]!, rows(out, "loam (yours)")[2]!];
    // 19.70 cm is 7.756 in, where the half inches 7.5 and 8 part (7.75).
    expect(radii).toEqual([expect.stringMatching(/^20 \((7\.5|8)\)$/), "24 (9.5)", "25 (10)"]);
    // Water in loam stays far above 60 cm: a loss of less than 1e-4 is told as none.
    expect(water).toEqual(["4.8 L (1.3 US gal)", "0 %", "2.4 days"]);
    for (const soil of ["sand", "clay"]) expect(rows(out, soil)[0]).toHaveLength(3);
    expectClose(balanceError(out), 0, { tolerance: 1e-6, what: "balance error" });
    expect(Math.max(...out.split("\n").map((line) => line.length))).toBeLessThan(80);
  });

  it("marks the demo bed as invented, serves the notebooks on the next free port, and ends with Ctrl-C", async () => {
    const occupier = await listening(0);
    const { port } = occupier.address() as AddressInfo;
    const { child, ended } = launch("start", ["--port", String(port), "--days", "1"]);
    const [, url] = await said(child, /open the notebooks in a browser: (\S+)\n.*Ctrl-C ends/s);
    const page = await (await fetch(url!)).text();
    expect(page).toMatch(/how-far-does-water-spread\.html/);
    const status = async (path: string) => (await fetch(url + path)).status;
    expect(await status("how-far-does-water-spread.html?a=b")).toBe(200);
    for (const path of ["no-such-page.html", "..%2fpackage.json", "%2e%2e/package.json", "index.html/"])
      expect(await status(path)).toBe(404);
    child.kill("SIGINT");
    const { code, out } = await ended;
    expect(code).toBe(0);
    expect(out).toMatch(/\(invented\)/);
    expect(out).toMatch(/This bed is invented/);
    expect(out).toContain(`Port ${port} is taken; the next free one is used.`);
    expect(balanceError(out)).toBeLessThan(1e-6);
    const freed = await listening(Number(new URL(url!).port));
    freed.close();
    occupier.close();
  });

  it("ends with exit code 0 when Ctrl-C comes while it solves", async () => {
    // So long a look ahead that it is not over when the signal comes.
    const { child, ended } = launch("start", ["--days", "120"]);
    child.stderr!.once("data", () => child.kill("SIGINT"));
    const { code, out, err } = await ended;
    expect({ code, out }).toEqual({ code: 0, out: "" });
    expect(err).toMatch(/^Working out sand \(1 of 3\) \.\.\.\n/);
  });
});

describe("the start command", () => {
  const told = (...args: string[]) => inProcess(() => start(args, { status: noStatus, solve: solvesNothing }));

  it("tells every fault of the options and of the plan at once, and exits 2", async () => {
    const pot = { ...STRAIGHT_POT.pot, wallThickness: 12 };
    const plan = planFile("bad.json", { ...STRAIGHT_POT, pot, rootDepth: -1 });
    const { code, out, err } = await told("--plan", plan, "--soil", "lome", "--days", "soon", "--port", "0", "--sol");
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toMatch(/pot\.wallThickness: pot wall is 12 cm; it must be thinner than half the pot diameter, 10 cm/);
    expect(err).toMatch(/rootDepth: depth of most roots is -1 cm; it must be from 1 to 100 cm/);
    expect(err).toMatch(/--soil: soil is "lome"; it must be one of sand, .* \(did you mean loam\?\)/);
    expect(err).toMatch(/--days: days to look ahead is "soon"; it must be a number from 0\.01 to 120 days/);
    expect(err).toMatch(/--port: port is "0"; it must be a whole number from 1 to 65535/);
    expect(err).toMatch(/--sol is not an option; did you mean --soil\?/);
  });

  it("explains itself, every soil and every common pot included", async () => {
    const { code, out, err } = await told("--help");
    expect({ code, err }).toEqual({ code: 0, err: "" });
    for (const word of ["silty clay loam", '"round jar 20 L"', "--units", "--print-only", "2 bad input"])
      expect(out).toContain(word);
  });
});

async function faultsOf(...args: string[]): Promise<string[]> {
  const read = await readStart(args);
  return read.ok ? [] : read.faults.map(({ path, message }) => `${path}: ${message}`);
}

const planOf = async (...args: string[]) => soundValue(await readStart(args)).plan;

describe("the start command's options", () => {
  it.each([
    ["a plan file that is not there, and the size beside it", ["--plan", "nowhere.json", "--rim-diameter", "-3"], 2],
    ["a plan file that is cut off", ["--plan", planFile("cut.json", '{"version": 1,')], 1],
    ["a plan of a later version", ["--plan", planFile("later.json", { ...STRAIGHT_POT, version: 2 })], 1],
    ["a plan that is a list", ["--plan", planFile("list.json", [])], 1],
    ["a pot that is not listed", ["--pot", "round jar 7 L"], 1],
    ["an option without its value", ["--soil"], 2],
    ["a stray word", ["loam"], 1],
    ["an unknown unit system and a wall too thick", ["--units", "imperial", "--wall-thickness", "500"], 2],
  ])("refuse %s", async (_, args, least) => {
    expect((await faultsOf(...args)).length).toBeGreaterThanOrEqual(least);
  });

  it("put a common pot in place of the plan's, in the plan's units", async () => {
    const { pot } = await planOf("--pot", "round jar 10 L");
    if (pot.shape !== "jar") throw new Error(pot.shape);
    expectClose(pot.bellyRadius, 15, { tolerance: 1e-4, unit: "cm", what: "belly radius of the 10 L jar" });
    expectClose(pot.rimDepth, -2.54, { tolerance: 1e-9, unit: "cm", what: "the demo's rim stays an inch up" });
  });

  it("take sizes in the units asked for, and leave the rest of the plan as it was", async () => {
    const { pot, units, rootDepth } = await planOf("--units", "metric", "--rim-diameter", "32");
    if (pot.shape !== "tapered") throw new Error(pot.shape);
    expect(units).toBe("metric");
    expectClose(pot.rimRadius, 16, { tolerance: 1e-9, unit: "cm", what: "rim radius" });
    expectClose(pot.baseRadius, 4 * 2.54, { tolerance: 1e-6, unit: "cm", what: "the demo's base, 8 in across" });
    expectClose(rootDepth, 8 * 2.54, { tolerance: 1e-6, unit: "cm", what: "the demo's roots, 8 in deep" });
  });
});

const BAND = {
  sowingDay: 0,
  until: 9,
  innerCause: "wall",
  isHandWide: true,
  isDayChosen: false,
  isOuterAtLeast: false,
} as const;

describe("the start command's words", () => {
  it.each([
    [
      { kind: "everywhere", innerLimit: 0, sowingDay: 0, until: 10, isDayChosen: false },
      "anywhere: the soil is moist enough by itself",
    ],
    [
      {
        kind: "nowhere",
        reason: "soaked",
        inner: 12,
        outer: 5,
        innerCause: "soaked",
        sowingDay: 0,
        until: 10,
        isDayChosen: false,
      },
      "nowhere: what stays moist is soaked",
    ],
    [
      {
        kind: "band",
        band: {
          inner: 5,
          outer: 10,
          sowingDay: 2.5,
          until: 9,
          innerCause: "soaked",
          isHandWide: false,
          isDayChosen: false,
          isOuterAtLeast: false,
        },
      },
      "5 to 10 cm (2 to 3.9 in), on day 2.5, less than a hand wide, nearer is soaked",
    ],
    [
      { kind: "band", band: { ...BAND, inner: 5, outer: 90, isOuterAtLeast: true } },
      "5 to at least 90 cm (2 to at least 35.5 in), on day 0",
    ],
    [
      { kind: "band", band: { ...BAND, inner: 0, outer: 90, isOuterAtLeast: true } },
      "up to at least 90 cm (35.5 in), on day 0",
    ],
  ] as const)("say where to sow: %#", (advice, words) => expect(bandWords(advice, "metric")).toBe(words));

  it("say how long a full pot lasts, or that it outlasts the look ahead", () => {
    expect(lastsWords({ kind: "empty", day: 3.672 })).toBe("3.7 days");
    expect(lastsWords({ kind: "notEmpty", day: 14, shareLeft: 0.2 })).toBe("over 14 days (20 % left)");
  });

  it("say plainly that a run failed, and give no number for its soil", async () => {
    const plan = await planOf("--plan", planFile("short.json", { ...STRAIGHT_POT, days: 0.1 }));
    const run = runToEnd(planToProblem(plan, { accuracy: "live" }));
    const planted = runToEnd({ ...watchedProblem(plan), accuracy: "live" });
    const trouble = {
      reason: "step too small",
      day: 0.05,
      step: 7,
      place: { r: 10, d: 5 },
      change: "a higher n of the soil",
    };
    const answers = [
      { name: "sand", run: { ...run, status: "failed" as const, trouble }, filledOnce: run, planted, apart: null },
      { name: "loam", run, filledOnce: run, planted, apart: null },
    ];
    expect(answers.map(isFinished)).toEqual([false, true]);
    const text = startReport(plan, { answers, water: null, isInvented: false });
    expect(text.replaceAll(/\s+/g, " ")).toMatch(/Sand: The flow of water could not be .*step too small/);
    expect(rows(text, "sand")).toEqual([]);
    expect(rows(text, "loam")).toHaveLength(5);
  });

  it("tell when plants suffer, at once or not at all too, and from soil that is too wet", async () => {
    const plan = await planOf("--plan", planFile("thirsty.json", STRAIGHT_POT));
    const run = runToEnd(planToProblem(plan, { accuracy: "live" }));
    const planted = runToEnd({ ...watchedProblem(plan), accuracy: "live" });
    const { emptyDays, metBefore } = watchedOutcome(plan, planted);
    const report = (each: Run) =>
      startReport(plan, {
        answers: [{ name: "loam", run, filledOnce: run, planted: each, apart: null }],
        water: null,
        isInvented: false,
      });
    const row = (each: Run) => rows(report(each), "loam").at(-2)!.join(", ");
    expect(row(planted)).toContain(`${Number(emptyDays!.toFixed(1))} days`);
    expect(row(planted)).toContain(`${Math.round(100 * metBefore)} %`);
    const { history } = planted;
    expect(row({ ...planted, history: { ...history, uptakeLitres: history.wantedLitres } })).toContain(
      "not in 28 days, 100 %",
    );
    expect(row({ ...planted, history: { ...history, uptakeLitres: history.day.map(() => 0) } })).toMatch(
      /at once, 0 %$/,
    );
    const soaked = planted.frames.map((frame) => ({ ...frame, h: frame.h.map(() => -1) }));
    const idle = { ...history, uptakeLitres: history.day.map(() => 0) };
    expect(row({ ...planted, frames: soaked, history: idle })).toContain("at once, too wet");
  });

  it("tell how far apart the pots go and how many the bed takes, or that no spacing does", async () => {
    const plan = await planOf("--plan", planFile("thirsty.json", STRAIGHT_POT));
    const run = runToEnd(planToProblem(plan, { accuracy: "live" }));
    const planted = runToEnd({ ...watchedProblem(plan), accuracy: "live" });
    const row = (apart: SpacingAdvice | null) =>
      rows(
        startReport(plan, {
          answers: [{ name: "loam", run, filledOnce: run, planted, apart }],
          water: null,
          isInvented: false,
        }),
        "loam",
      )
        .at(-1)!
        .join(", ");
    expect(row({ kind: "found", spacing: 65, soakedUntil: null })).toContain("65 cm (25.5 in), 14");
    expect(row({ kind: "none", spacing: 25, soakedUntil: null })).toMatch(/not even 25 cm \(10 in\)$/);
    expect(row({ kind: "beyond", spacing: 250, soakedUntil: null })).toContain("250 cm (98.5 in) or more");
    expect(row(null)).toContain("could not be worked out");
  });

  it("break lines before the edge of a narrow terminal and indent those that follow", () => {
    const lines = wrap("word ".repeat(40).trim(), "  ").split("\n");
    expect(lines.every((line) => line.length < 80)).toBe(true);
    expect(lines.slice(1).every((line) => line.startsWith("  word"))).toBe(true);
    expect(lines.join(" ").match(/word/g)).toHaveLength(40);
  });
});
