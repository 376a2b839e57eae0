import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { soundValue } from "../../../model/input/faults.ts";
import { drawMembers, SOIL_GROUPS, solveMember } from "../../../model/public/ensemble.ts";
import { resolvePlan } from "../../../model/public/plan.ts";
import { exitCode, band as runBand } from "../../../notebooks/commands/band/command.ts";
import { merge as runMerge } from "../../../notebooks/commands/band/mergeCommand.ts";
import { readBand } from "../../../notebooks/commands/band/options.ts";
import { bandReport } from "../../../notebooks/commands/band/report.ts";
import demoPlan from "../../../notebooks/demo-plan.json" with { type: "json" };
import { handMadeOutcome, troubledOutcome } from "../../ensemble/handMade.ts";
import { type Ended, inProcess, launch, noStatus } from "../../support/commands.ts";

const folder = mkdtempSync(join(tmpdir(), "band-"));
afterAll(() => rmSync(folder, { recursive: true }));

const path = (name: string) => join(folder, name);

function file(name: string, content: unknown): string {
  writeFileSync(path(name), typeof content === "string" ? content : JSON.stringify(content));
  return path(name);
}

/** Quick to solve, and no run of its own is needed to find a day. */
const PLAN = file("plan.json", { ...demoPlan, filling: { kind: "once" }, sowingDay: 2 });

const PLANNED = ["--plan", PLAN, "--members", "8"];

/** The commands' functions, without a process of their own. */
const band = (args: string[], stop = new AbortController().signal) => inProcess(() => runBand(args, noStatus, stop));
const merge = (...args: string[]) => inProcess(() => runMerge(args));

const unwrapped = (text: string) => text.replaceAll(/\s+/g, " ");

describe("npm run band", () => {
  let whole: Ended;
  beforeAll(async () => {
    whole = await launch("band", [...PLANNED, "--out", path("whole.json")]).ended;
  });

  it("tells the band in one sentence and a table in both units, and writes every soil's outcome", () => {
    const plan = soundValue(resolvePlan(JSON.parse(readFileSync(PLAN, "utf8"))));
    const members = drawMembers(plan, { count: 8, seed: 1, varied: SOIL_GROUPS });
    const outcomes = members.map((member) => solveMember(plan, member, { kind: "sowing", sowingDay: 2 }));
    expect(whole.code).toBe(0);
    expect(whole.out).toContain(bandReport({ plan, seed: 1, sowingDay: 2, outcomes, total: 8 }));
    expect(unwrapped(whole.out)).toMatch(
      /In loam, .* water reaches .* in \(.* cm\) .*, and a filling lasts .*\. 8 soils/,
    );
    expect(
      Math.max(
        ...whole.out
          .split("\n")
          .filter((line) => !line.includes(folder))
          .map((line) => line.length),
      ),
    ).toBeLessThan(80);
    expect(JSON.parse(readFileSync(path("whole.json"), "utf8")).outcomes).toEqual(outcomes);
  });

  it("gives the same with the same seed, and another band with another", async () => {
    const again = await band([...PLANNED, "--out", path("again.json")]);
    const other = await band([...PLANNED, "--seed", "2"]);
    expect(readFileSync(path("again.json"), "utf8")).toBe(readFileSync(path("whole.json"), "utf8"));
    expect(again.out.replace("again.json", "whole.json")).toBe(whole.out);
    expect(other.out.split("\n")[2]).not.toBe(whole.out.split("\n")[2]);
  });

  it("gives in parts, merged in any order, just what it gives at once", async () => {
    const parts = [1, 2, 3].map((i) => path(`part${i}.json`));
    const split: Ended[] = [];
    for (const [k, out] of parts.entries()) split.push(await band([...PLANNED, "--shard", `${k + 1}/3`, "--out", out]));
    expect(split.map(({ code }) => code)).toEqual([0, 0, 0]);
    expect(unwrapped(split[1]!.out)).toContain("part 2 of 3; npm run merge joins the parts");
    const merged = await merge(parts[2]!, parts[0]!, parts[1]!, "--out", path("merged.json"));
    expect(merged.code).toBe(0);
    expect(merged.out.replaceAll("merged.json", "whole.json")).toBe(whole.out);
    expect(readFileSync(path("merged.json"), "utf8")).toBe(readFileSync(path("whole.json"), "utf8"));
    const missing = await merge(parts[2]!, parts[0]!);
    expect(missing.code).toBe(2);
    expect(missing.err).toMatch(/part 2 of 3 is missing/);
  });

  const SO_FAR = /so far, from \d+ of 20000 soils\)\. \d+ soils called loam; lengths are in \(cm\)/;

  it("gives the band so far where it is stopped, and exits 0", async () => {
    const stop = new AbortController();
    const status = { show: (task: string) => task.includes("Working out soils") && stop.abort(), erase() {} };
    const { code, out } = await inProcess(() => runBand(["--plan", PLAN, "--members", "20000"], status, stop.signal));
    expect(code).toBe(0);
    expect(unwrapped(out)).toMatch(SO_FAR);
  });

  it("gives the band so far at Ctrl-C, and exits 1 where it was to be kept", async () => {
    const { child, ended } = launch("band", ["--plan", PLAN, "--members", "20000", "--out", path("stopped.json")]);
    // Once: a second one ends the command at once, whatever it has.
    let isTold = false;
    child.stderr!.on("data", (chunk) => {
      if (isTold || !String(chunk).includes("Working out soils")) return;
      isTold = child.kill("SIGINT");
    });
    const { code, out, err } = await ended;
    expect(code).toBe(1);
    expect(unwrapped(out)).toMatch(SO_FAR);
    expect(existsSync(path("stopped.json"))).toBe(false);
    expect(err).toContain("was not written");
  });

  it("tells every fault of the options and of the plan at once, and exits 2", async () => {
    const plan = file("bad.json", { ...demoPlan, rootDepth: -1 });
    const bad = ["--plan", plan, "--members", "some", "--seed", "1.5", "--shard", "3/2", "--soil", "lome", "--colour"];
    const { code, out, err } = await band([...bad, "--out", "/nowhere/at/all.json"]);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toMatch(/--members: number of soils is "some"; it must be a whole number from 1 to 1000000/);
    expect(err).toMatch(/--seed: seed is "1\.5"; it must be a whole number from 0 to 4294967295/);
    expect(err).toMatch(/--shard: part is "3\/2"; it must be i\/n, such as 2\/3/);
    expect(err).toMatch(/--out: file is "\/nowhere\/at\/all\.json"; it must be in a folder that can be written to/);
    expect(err).toMatch(/--soil: soil is "lome"; .* \(did you mean loam\?\)/);
    expect(err).toMatch(/rootDepth: depth of most roots is -1 in; it must be from/);
    expect(err).toMatch(/--colour is not an option; npm run band -- --help lists what is/);
  });

  it("explains itself, and merge as well", async () => {
    const [own, joining] = [await band(["--help"]), await merge("--help")];
    expect([own.code, own.err, joining.code, joining.err]).toEqual([0, "", 0, ""]);
    for (const word of [
      "--soil NAME",
      "--plan FILE",
      "--members N",
      "--seed N",
      "--out FILE",
      "--shard i/n",
      "2 bad input",
    ])
      expect(own.out).toContain(word);
    expect(joining.out).toContain("npm run merge -- FILE ...");
  });
});

async function faultsOf(...args: string[]): Promise<string[]> {
  const read = await readBand(args);
  return read.ok ? [] : read.faults.map(({ path, message }) => `${path}: ${message}`);
}

describe("the band command's options", () => {
  it("stand for 200 soils, draw 1 and the whole of it where they are left out", async () => {
    const { drawing, shard, out } = soundValue(await readBand([]));
    expect(drawing).toEqual({ count: 200, seed: 1, varied: SOIL_GROUPS });
    expect({ shard, out }).toEqual({ shard: { i: 1, n: 1 }, out: undefined });
  });

  it.each([
    [["--shard", "1/2"], /--out: file of the part is missing/],
    [["--shard", "0/2", "--out", "x.json"], /--shard: part is "0\/2"/],
    [["--shard", "1/2/3", "--out", "x.json"], /--shard: part is "1\/2\/3"/],
    [["--members", "0"], /--members: number of soils is "0"/],
    [["--seed", "-1"], /--seed: seed is "-1"/],
    [["--seed"], /seed is missing; it must be followed by a value/],
    [["--plan", "nowhere.json"], /--plan: plan file is "nowhere\.json"; it must be a file that can be read/],
    [["loam"], /loam is not an option/],
  ])("refuse %j", async (args, words) => {
    expect((await faultsOf(...args)).join("\n")).toMatch(words);
  });

  it("refuse a soil of one's own, of which no spread is known", async () => {
    const soil = { kind: "own", thetaR: 0.07, thetaS: 0.41, alpha: 0.02, n: 1.4, Ks: 12.5 };
    expect(await faultsOf("--plan", file("own.json", { ...demoPlan, soil }))).toEqual([
      expect.stringMatching(/^soil: soil is "its own parameters"; it must be a name, or sand, silt and clay/),
    ]);
  });

  it("put a named soil and other units into the plan, as a part file keeps it", async () => {
    const { plan, typed } = soundValue(await readBand(["--soil", "clay", "--units", "metric"]));
    expect(plan.soil.className).toBe("clay");
    expect(soundValue(resolvePlan(typed))).toEqual(plan);
    expect(plan.units).toBe("metric");
  });
});

describe("npm run merge", () => {
  it("tells every fault of every file at once under the file's name, and exits 2", async () => {
    const cut = file("cut.json", '{"version": 1,');
    const empty = file("empty.json", {});
    const { code, out, err } = await merge(cut, empty, path("nowhere.json"), "--colour");
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toMatch(/cut\.json: the part file is not a complete JSON text/);
    expect(err).toMatch(/empty\.json: version: version of the part file is missing/);
    expect(err).toMatch(/part file is ".*nowhere\.json"; it must be a file that can be read/);
    expect(err).toMatch(/--colour is not an option; npm run merge -- --help lists what is/);
  });

  it("asks for parts where it is given none", async () => {
    const { code, err } = await merge();
    expect(code).toBe(2);
    expect(err).toMatch(/the list of parts is missing; it must be one part or more/);
  });
});

describe("the report", () => {
  const plan = soundValue(resolvePlan(demoPlan));
  const told = { plan, seed: 1, sowingDay: 2 };

  it("counts soils that failed, with their reasons, and leaves them out of the band", () => {
    const outcomes = [handMadeOutcome(), handMadeOutcome(), troubledOutcome()];
    const report = unwrapped(bandReport({ ...told, outcomes, total: 3 }));
    expect(report).toContain(
      "1 of 3 soils could not be worked out to the end and are left out: 1: step too small on day 3",
    );
    expect(report).toContain("2 soils called loam; lengths are in (cm)");
    expect(exitCode(outcomes)).toBe(0);
  });

  it("gives no table where no soil was solved, and exit code 1", () => {
    const outcomes = [troubledOutcome()];
    expect(bandReport({ ...told, outcomes, total: 1 })).not.toContain("half below");
    expect(exitCode(outcomes)).toBe(1);
  });
});
