/** Plans tried one after another in a thread, which is ended where a run does not come back. */
import { Worker } from "node:worker_threads";
import type { Order, Report } from "./trialThread.ts";
import type { Finding, FindingKind } from "./triedPlan.ts";

export interface Found {
  number: number;
  /** Of the run. */
  name: string;
  kind: FindingKind | "too long";
  what: string;
}

export interface Tried {
  plans: number;
  refused: number;
  runs: number;
  /** The longest of all runs, CPU seconds. */
  longest: { number: number; name: string; seconds: number };
  found: Found[];
}

/** CPU seconds of one run. */
const MOST_SECONDS = 10;

interface TrialOptions {
  /** CPU seconds after which a run is given up. */
  giveUpAfter?: number;
  /** What a thread runs. */
  thread?: URL;
}
const LOOK_EVERY_MS = 250;

/** Tries the plans of these numbers; `tell` hears of each finding, and of each plan that is done. */
export async function tryPlans(
  seed: number,
  numbers: Iterable<number>,
  tell: (found: Found | undefined, tried: Tried) => void,
  { giveUpAfter = 20, thread: file = new URL("./trialThread.mjs", import.meta.url) }: TrialOptions = {},
): Promise<Tried> {
  const tried: Tried = { plans: 0, refused: 0, runs: 0, longest: { number: -1, name: "", seconds: 0 }, found: [] };
  let thread: TrialThread | undefined;
  for (const number of numbers) {
    thread ??= trialThread(file, giveUpAfter);
    const isSound = await thread.tryPlan({ seed, number }, (report) => {
      for (const found of take(tried, number, report)) tell(found, tried);
    });
    tried.plans++;
    tell(undefined, tried);
    if (!isSound) thread = void (await thread.end());
  }
  await thread?.end();
  return tried;
}

/** What the thread says, or that it came to grief. */
type Told = Report | { kind: "gave up"; name: string; finding: Omit<Found, "number" | "name"> };

function take(tried: Tried, number: number, report: Told): Found[] {
  if (report.kind === "done") tried.refused += report.refused;
  const found = foundIn(report).map((finding) => ({ number, name: "name" in report ? report.name : "", ...finding }));
  if (report.kind === "ended") {
    const { name, seconds } = report;
    tried.runs++;
    if (seconds > tried.longest.seconds) tried.longest = { number, name, seconds };
  }
  tried.found.push(...found);
  return found;
}

function foundIn(report: Told): (Finding | Omit<Found, "number" | "name">)[] {
  if (report.kind === "gave up") return [report.finding];
  if (report.kind !== "ended") return [];
  const isLong = report.seconds > MOST_SECONDS;
  const long = { kind: "too long" as const, what: `${report.seconds.toFixed(1)} s of CPU` };
  return [...report.findings, ...(isLong ? [long] : [])];
}

interface TrialThread {
  /** Whether the thread is fit for the next plan. */
  tryPlan(order: Order, hear: (told: Told) => void): Promise<boolean>;
  end(): Promise<unknown>;
}

/** This thread does nothing meanwhile, so that the CPU time of the process is that of the run. */
function trialThread(file: URL, giveUpAfter: number): TrialThread {
  const worker = new Worker(file);
  return { tryPlan: (order, hear) => tryInThread(worker, order, giveUpAfter, hear), end: () => worker.terminate() };
}

function tryInThread(worker: Worker, order: Order, giveUpAfter: number, hear: (told: Told) => void): Promise<boolean> {
  return new Promise((settle) => {
    let [name, since] = ["", process.cpuUsage()];
    const end = (isSound: boolean) => {
      clearInterval(clock);
      for (const [event, listener] of Object.entries(listeners)) worker.off(event, listener);
      settle(isSound);
    };
    const giveUp = (kind: Found["kind"], what: string) => {
      hear({ kind: "gave up", name, finding: { kind, what } });
      end(false);
    };
    const clock = setInterval(() => {
      const { user, system } = process.cpuUsage(since);
      if ((user + system) / 1e6 > giveUpAfter) giveUp("too long", `given up after ${giveUpAfter} s of CPU`);
    }, LOOK_EVERY_MS);
    const listeners = {
      message(report: Report) {
        if (report.kind === "begins") [name, since] = [report.name, process.cpuUsage()];
        hear(report);
        if (report.kind === "done") end(true);
      },
      error: (error: unknown) => giveUp("crash", String(error)),
      exit: (code: number) => giveUp("crash", `its thread ended with code ${code}`),
    };
    for (const [event, listener] of Object.entries(listeners)) worker.on(event, listener);
    worker.postMessage(order);
  });
}
