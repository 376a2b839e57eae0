/** A program that is called by the contract of `npm run solve`: PROGRAM FILE.json prints one JSON object. */
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { z } from "zod";
import { checkInput } from "../../../model/input/faults.ts";
import { type Problem, simulateToEnd } from "../../../model/public/flow.ts";
import { faultLines, readJson } from "../../../model/public/plan.ts";
import type { Answered } from "./cases.ts";
import type { Side, Solved } from "./compare.ts";
import { cpuClock } from "./inTurns.ts";

/** No run may take longer, ms. */
const MOST = 300_000;

const finite = z.number();
const edge = finite.nullable().transform((value) => value ?? Number.NaN);

/** What of an answer is compared; whatever else it holds is let be. */
const answerSchema = z.object({
  status: z.enum(["finished", "stopped", "failed"]),
  reason: z.string().optional(),
  milliseconds: finite.min(0).optional(),
  firstEmptyDay: finite.nullable().default(null),
  rows: z.array(
    z.object({
      day: finite,
      seepageLitres: finite,
      wettedRadius: edge,
      wettedDepth: edge,
      waterLevelDepth: finite.default(Number.NaN),
      drainageLitres: finite.default(Number.NaN),
    }),
  ),
});

/** Bare ground alone: the text of its problem file. */
export function problemText({ soil, pot, filling, startHead, region, days, edges, accuracy }: Problem): string {
  const { Ks, l, ...retention } = soil;
  const { head, depth } = edges[0]!;
  return JSON.stringify({
    soil: { retention, conductivity: { Ks, l } },
    pot,
    filling: filling.kind === "held" ? { kind: "held" } : filling,
    startHead,
    region,
    ask: { days, edgeHead: head, radiusAtDepth: depth },
    accuracy,
  });
}

export interface ProgramSide extends Side {
  /** Removes the folder of its problem files. */
  end(): void;
}

/** `command` is the program, with whatever stands before the file. */
export function programSide([program, ...before]: [string, ...string[]]): ProgramSide {
  const folder = mkdtempSync(join(tmpdir(), "against-"));
  const file = join(folder, "problem.json");
  return {
    async solve(problem) {
      writeFileSync(file, problemText(problem));
      const ended = await called(program, [...before, file]);
      const { milliseconds = null, ...run } = answerIn(ended, problem.days);
      return { run, milliseconds, processMilliseconds: ended.milliseconds };
    },
    end: () => rmSync(folder, { recursive: true }),
  };
}

const SOLVE = fileURLToPath(new URL("../../../notebooks/commands/solve.ts", import.meta.url));

/** How often a problem is solved here after each call of our own command; the code is warm after some calls. */
const WARM_RUNS = 4;

/** This project's own command, and beside it the same problem in this process. */
export function ownProgramSide(): ProgramSide {
  const command = programSide([process.execPath, "--import", "tsx", SOLVE]);
  return {
    ...command,
    async solve(problem, grid): Promise<Solved> {
      const solved = await command.solve(problem, grid);
      const warm = Array.from({ length: WARM_RUNS }, () => {
        const clock = cpuClock();
        simulateToEnd(problem);
        return clock();
      });
      return { ...solved, warmMilliseconds: Math.min(...warm) };
    },
  };
}

interface Ended {
  code: number | null;
  out: string;
  err: string;
  milliseconds: number;
}

function called(program: string, args: string[]): Promise<Ended> {
  const begun = performance.now();
  const child = spawn(program, args, { stdio: ["ignore", "pipe", "pipe"], timeout: MOST });
  const texts = { out: "", err: "" };
  for (const [name, stream] of [
    ["out", child.stdout],
    ["err", child.stderr],
  ] as const)
    stream.setEncoding("utf8").on("data", (chunk) => {
      texts[name] += chunk;
    });
  return new Promise((done, fail) => {
    child.on("error", ({ message }) => fail(new Error(`it cannot be started (${message})`)));
    child.on("close", (code) => done({ code, ...texts, milliseconds: performance.now() - begun }));
  });
}

function answerIn({ code, out, err }: Ended, days: readonly number[]): Answered & { milliseconds?: number } {
  const said = err.trim() ? `; it said: ${err.trim().split("\n").slice(0, 3).join(" / ")}` : "";
  if (code === null) throw new Error(`it was ended after ${MOST / 1000} s at most without an answer${said}`);
  if (code === 2) throw new Error(`it refused the problem file (exit code 2)${said}`);
  const json = readJson(out, "what it printed");
  if (!json.ok) throw new Error(`exit code ${code}, and what it printed is not one JSON object${said}`);
  const answer = checkInput(answerSchema, json.value, []);
  if (!answer.ok) throw new Error(`its answer breaks the contract:\n${faultLines(answer.faults)}`);
  const { status, reason, milliseconds, ...rest } = answer.value;
  if (status !== "finished") throw new Error(`the run ${status}${reason ? `: ${reason}` : said}`);
  if (code !== 0) throw new Error(`it ended with exit code ${code}, though its run finished${said}`);
  const given = rest.rows.map(({ day }) => day);
  if (given.length !== days.length || given.some((day, k) => Math.abs(day - days[k]!) > 1e-9))
    throw new Error(`its rows are of days ${given.join(", ") || "none"}; asked were days ${days.join(", ")}`);
  return { status, ...rest, ...(milliseconds !== undefined && { milliseconds }) };
}
