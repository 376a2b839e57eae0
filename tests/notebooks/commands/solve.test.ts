import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { solve as solveFile } from "../../../notebooks/commands/solve.ts";
import { expectClose } from "../../support/close.ts";
import { inProcess } from "../../support/commands.ts";

const folder = mkdtempSync(join(tmpdir(), "solve-"));
afterAll(() => rmSync(folder, { recursive: true }));

const HELD = {
  soil: { retention: { thetaR: 0.078, thetaS: 0.43, alpha: 0.036, n: 1.56 }, conductivity: { Ks: 24.96 } },
  pot: { shape: "cylinder", outerRadius: 10, outerDepth: 20, wallThickness: 1, wallConductivity: 0.05 },
  filling: { kind: "held" },
  startHead: -1000,
  region: { radius: 60, depth: 100 },
  ask: { days: [0.25, 1], edgeHead: -330, radiusAtDepth: 10 },
};

function file(name: string, content: unknown): string {
  const path = join(folder, name);
  writeFileSync(path, typeof content === "string" ? content : JSON.stringify(content));
  return path;
}

function start(args: string[]): ChildProcess {
  return spawn("npm", ["run", "--silent", "solve", "--", ...args]);
}

function ended(child: ChildProcess): Promise<{ code: number | null; out: string; err: string }> {
  const texts = { out: "", err: "" };
  child.stdout!.on("data", (chunk) => (texts.out += chunk));
  child.stderr!.on("data", (chunk) => (texts.err += chunk));
  return new Promise((done) => child.on("close", (code) => done({ code, ...texts })));
}

/** In this process, which says the same as one of its own. */
const solve = (...args: string[]) => inProcess(() => solveFile(args));

describe("npm run solve", () => {
  it("prints one JSON object and nothing else, and exits 0 when the run finished", async () => {
    const { code, out } = await ended(start([file("held.json", HELD)]));
    expect(code).toBe(0);
    const answer = JSON.parse(out);
    expect(Object.keys(answer)).toEqual([
      "status",
      "cells",
      "steps",
      "milliseconds",
      "balanceError",
      "firstEmptyDay",
      "rows",
    ]);
    expect(answer.status).toBe("finished");
    expect(answer.firstEmptyDay).toBeNull();
    expect(Object.keys(answer.rows[0])).toEqual([
      "day",
      "seepageLitres",
      "waterLevelDepth",
      "wettedRadius",
      "wettedDepth",
      "drainageLitres",
    ]);
    // Richardson-extrapolated from an independent solver's grids of up to 52 736 cells.
    const [, day1] = answer.rows;
    expectClose(day1.seepageLitres, 4.2423, { tolerance: 0.005, relative: true, unit: "L", what: "seepage, 1 day" });
    expectClose(day1.wettedRadius, 20.95, {
      tolerance: 0.01,
      relative: true,
      unit: "cm",
      what: "wetted radius, 1 day",
    });
    expectClose(answer.balanceError, 0, { tolerance: 1e-6, what: "balance error" });
  });

  it("refuses bad input on standard error with every fault, and exits 2", async () => {
    const pot = { ...HELD.pot, wallThickness: 12, wallConductivity: -1 };
    const { code, out, err } = await solve(file("bad.json", { ...HELD, pot, startHead: "dry" }));
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toMatch(/pot\.wallThickness: pot wall is 12 cm; it must be less than the pot radius, 10 cm/);
    expect(err).toMatch(/pot\.wallConductivity: wall conductivity is -1 cm\/day/);
    expect(err).toMatch(/startHead: .* is "dry"/);
  });

  it.each([
    ["no file named", [], /Name one problem file \(0 given\)/],
    ["two files named", ["a.json", "b.json"], /Name one problem file \(2 given\)/],
    ["a file that is not there", ["nowhere.json"], /Cannot read nowhere\.json/],
    ["a file that is not JSON", [file("cut.json", '{"soil":')], /is not a complete JSON text/],
  ])("with %s says so and exits 2", async (_, args, message) => {
    const { code, out, err } = await solve(...args);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toMatch(message);
  });

  it("explains itself", async () => {
    const { code, out, err } = await solve("--help");
    expect({ code, out }).toEqual({ code: 0, out: "" });
    expect(err).toMatch(/Exit code: 0 finished, 1 the run could not finish or was stopped, 2 bad input/);
  });

  it("prints what was reached when it is stopped, and exits 1", async () => {
    const filling = { kind: "refilled", atDays: Array.from({ length: 1000 }, (_, day) => day) };
    const long = { ...HELD, filling, accuracy: "reference", ask: { ...HELD.ask, days: [0.001, 1000] } };
    const child = spawn(process.execPath, ["--import", "tsx", "notebooks/commands/solve.ts", file("long.json", long)]);
    child.stderr.once("data", () => child.kill("SIGINT"));
    const { code, out } = await ended(child);
    expect(code).toBe(1);
    const answer = JSON.parse(out);
    expect(answer.status).toBe("stopped");
    expect(answer.rows.map(({ day }: { day: number }) => day)).toEqual([0.001]);
  });
});
