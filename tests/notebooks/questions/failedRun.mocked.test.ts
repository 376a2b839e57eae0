import { mkdtemp, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { emptyHistory } from "../../../model/flow/recorder.ts";
import { soundValue } from "../../../model/input/faults.ts";
import type { Problem, Run } from "../../../model/public/flow.ts";
import { print } from "../../../notebooks/commands/print.ts";
import { start } from "../../../notebooks/commands/start/command.ts";
import { initialFilled, readPlan } from "../../../notebooks/form/planForm.ts";
import { evaluate } from "../../../notebooks/notebook/evaluate.ts";
import { notebooks } from "../../../notebooks/questions/list.ts";
import { directSolver } from "../../../notebooks/solving/solvers.ts";
import { inProcess, noStatus } from "../../support/commands.ts";

/** Every run fails before its first row or field. */
vi.mock("../../../model/flow/simulate.ts", () => ({
  simulateToEnd: failed,
  simulate: (problem: Problem) => ({ next: () => ({ done: true, value: failed(problem) }) }),
}));

function failed({ edges }: Problem): Run {
  const still = { radius: [0], wettedDepth: [0] };
  return {
    status: "failed",
    trouble: { reason: "step too small", day: 0, step: 3, place: { r: 10, d: 5 }, change: "a higher n of the soil" },
    cells: 1,
    steps: 3,
    milliseconds: 1,
    balanceError: 0,
    firstEmptyDay: null,
    rows: [],
    frames: [],
    startTheta: Float64Array.of(0.1),
    grid: {
      rEdges: new Float64Array(2),
      dEdges: new Float64Array(2),
      rCentre: new Float64Array(1),
      dCentre: new Float64Array(1),
      V: new Float64Array(1),
      cellAt: new Int32Array(1),
    },
    history: {
      ...emptyHistory({ edges: [] }),
      day: [0],
      waterLevelDepth: [0],
      seepageLitres: [0],
      drainageLitres: [0],
      edges: edges.map(() => still),
    },
  };
}

const PLAINLY =
  /The flow of water could not be worked out to the end \(step too small, day 0\.00, step 3\)\. Try a higher n of the soil first\./;

let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "failed-"));
});
afterAll(() => rm(folder, { recursive: true }));

describe("a run that failed before its first row", () => {
  it.each(notebooks)("is told in words by every part of $name", async (notebook) => {
    const plan = soundValue(readPlan(initialFilled(undefined)));
    const evaluated = evaluate(notebook, { plan, units: "us", view: {} }, directSolver());
    await expect(evaluated).rejects.toThrow(PLAINLY);
  });

  it("is told by the start command, which exits 1 and serves nothing", async () => {
    const solve = async (problem: Problem) => failed(problem);
    const { code, out } = await inProcess(() => start([], { status: noStatus, solve }));
    expect(code).toBe(1);
    const text = out.replaceAll(/\s+/g, " ");
    for (const soil of ["Sand", "Loam (yours)", "Clay"]) expect(text).toContain(`${soil}: The flow of water could not`);
    expect(text).toMatch(PLAINLY);
    expect(text).not.toMatch(/Wetted radius|open the notebooks/);
  });

  it("is told by print, which exits 1 and writes nothing", async () => {
    const { code, err } = await inProcess(() => print([notebooks[0]!.name, "--out", folder]));
    expect(code).toBe(1);
    expect(err).toMatch(PLAINLY);
    expect(await readdir(folder)).toEqual([]);
  });
});
