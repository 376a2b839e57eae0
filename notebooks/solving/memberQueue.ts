/**
 * Hands the members of ensembles out to workers, and gathers their outcomes. Pure: a page gives web workers, the terminal
 * threads, a test whatever it likes.
 *
 * - Every worker has one member under way and one waiting, so that it never idles while this thread draws.
 * - An ask for another bed takes everything back at once. One for other members of the same bed, and a stop, take back
 *   what is waiting; what is under way finishes, some tens of milliseconds, and is remembered.
 * - While held (a slider moves: its own run goes first) what is under way halts too.
 * - Outcomes are told in the order of the members, so that their order of arrival changes nothing.
 */

import { sort } from "d3-array";
import type { Member, MemberTask, OutcomeOf } from "../../model/public/ensemble.ts";
import { type PottedGround, pottedGround } from "../../model/public/plan.ts";
import type { EnsembleAsk, EnsembleOutcomes, EnsembleSolver, Sink } from "../runtime/cells.ts";
import { words } from "../words/words.ts";

/** To a worker. */
export type MemberOrder =
  | { kind: "solve"; id: number; plan: PottedGround; member: Member; task: MemberTask }
  /** Give back, unsolved, all that is waiting; what is under way too where it is of no more use. */
  | { kind: "giveBack"; isUseless: boolean }
  /** Halt what is under way; go on with it. */
  | { kind: "pause" }
  | { kind: "goOn" };

/** From a worker, for every order to solve; null where it was given back, or where the program failed on it: why. */
export interface MemberReply {
  id: number;
  outcome: OutcomeOf<MemberTask> | null;
  failed?: string;
}

export interface MemberWorker {
  post(order: MemberOrder): void;
  end(): void;
}

export interface WorkerEvents {
  replied(reply: MemberReply): void;
  /** The worker is no more. */
  broke(reason: string): void;
}

export interface EnsembleProgress {
  /** Members that are in, and all that were asked for. */
  count: number;
  total: number;
  state: "working" | "stopped" | "done";
}

export interface MemberQueueOptions {
  workers: number;
  /** The first may be one that does other work besides. */
  start(events: WorkerEvents, isFirst: boolean): MemberWorker;
  now(): number;
  /** Calls back after some milliseconds. */
  later(call: () => void, milliseconds: number): void;
  /** Delivers finished ensembles alone. */
  onlyDone?: boolean;
  /** Null where nothing is asked for. */
  onProgress?(progress: EnsembleProgress | null): void;
}

export interface MemberQueue extends EnsembleSolver {
  /** While held, no member is handed out, and those under way halt. */
  hold(isHeld: boolean): void;
  /** Stops what is not done; the outcomes so far are delivered. */
  stop(): void;
  goOn(): void;
  end(): void;
}

/** Members before the first band; before that it jumps about more than it tells. */
const ENOUGH = 10;

/** Milliseconds from one delivery of a growing ensemble to the next. */
const PAUSE = 200;

/** Beds (a plan with its task) whose outcomes are kept, so that a setting moved back answers at once. */
const REMEMBERED = 12;

const PER_WORKER = 2;

type Outcomes = Map<string, OutcomeOf<MemberTask>>;

/** The newest ask of one rank. */
interface Line {
  ask: EnsembleAsk<unknown>;
  sink: Sink<EnsembleOutcomes<unknown>>;
  bed: string;
  /** The bed's, by member; they may hold those of other asks. */
  known: Outcomes;
  members: { key: string; member: Member }[];
  /** Keys of members that are not in yet. */
  left: Set<string>;
  /** Place of the first member that may still have to be handed out. */
  next: number;
  isStopped: boolean;
  told: number;
  isToTell: boolean;
}

interface UnderWay {
  key: string;
  known: Outcomes;
  worker: MemberWorker;
}

export function memberQueue(options: MemberQueueOptions): MemberQueue {
  const { now, later, onProgress = () => {} } = options;
  const lines = new Map<number, Line>();
  const memory = new Map<string, Outcomes>();
  const underWay = new Map<number, UnderWay>();
  let workers: MemberWorker[] = [];
  let isHeld = false;
  let lastId = 0;

  function prepare() {
    while (workers.length < options.workers) {
      const events: WorkerEvents = { replied, broke: (reason) => workers.includes(worker) && broke(reason) };
      const worker: MemberWorker = options.start(events, workers.length === 0);
      workers.push(worker);
    }
  }

  function ask(rank: number, next: EnsembleAsk<unknown>, sink: Sink<EnsembleOutcomes<unknown>>) {
    const before = lines.get(rank);
    const line = lineOf(next, sink);
    // A finer run of the same settings is no reason to begin again what a person has stopped.
    line.isStopped = before?.isStopped === true && isSame(before, line);
    lines.set(rank, line);
    prepare();
    giveBack(before !== undefined && before.bed !== line.bed);
    // At first there is nothing older to show meanwhile.
    if (!before && !options.onlyDone && !isDone(line)) deliver(line);
    changed(line);
  }

  function lineOf(ask: EnsembleAsk<unknown>, sink: Line["sink"]): Line {
    const bed = bedOf(ask);
    const known = remembered(bed);
    const members = ask.members.map((member) => ({ key: JSON.stringify(member), member }));
    return {
      ask,
      sink,
      bed,
      known,
      members,
      left: new Set(members.flatMap(({ key }) => (known.has(key) ? [] : [key]))),
      next: 0,
      isStopped: false,
      told: Number.NEGATIVE_INFINITY,
      isToTell: false,
    };
  }

  /** A slider passes over many beds without an outcome: these push no other out. */
  function remembered(bed: string): Outcomes {
    const known = memory.get(bed) ?? new Map<string, OutcomeOf<MemberTask>>();
    for (const [other, outcomes] of memory) if (other === bed || outcomes.size === 0) memory.delete(other);
    memory.set(bed, known);
    const [oldest = bed] = memory.keys();
    if (memory.size > REMEMBERED) memory.delete(oldest);
    return known;
  }

  const giveBack = (isUseless = false) => toAll({ kind: "giveBack", isUseless });

  function toAll(order: MemberOrder) {
    for (const worker of workers) worker.post(order);
  }

  function replied({ id, outcome, failed }: MemberReply) {
    const done = underWay.get(id);
    underWay.delete(id);
    if (done && outcome) arrived(done, outcome);
    else if (done && failed !== undefined) fail(done, failed);
    else for (const line of lines.values()) line.next = 0;
    handOut();
    report();
  }

  function arrived({ key, known }: UnderWay, outcome: OutcomeOf<MemberTask>) {
    known.set(key, outcome);
    for (const line of lines.values()) if (line.known === known && line.left.delete(key)) tell(line);
  }

  /** The program is at fault: no other member of such an ask would be worth more. */
  function fail({ key, known }: UnderWay, reason: string) {
    for (const [rank, line] of lines) {
      if (line.known !== known || !line.left.has(key)) continue;
      lines.delete(rank);
      line.sink.fail(new Error(words.brokeDown(reason)));
    }
    giveBack(true);
  }

  /** Something other than an outcome has changed. */
  function changed(line: Line) {
    line.told = Number.NEGATIVE_INFINITY;
    tell(line);
    handOut();
    report();
  }

  function tell(line: Line) {
    if (isDone(line) || line.isStopped) return deliver(line);
    if (options.onlyDone || countOf(line) < ENOUGH) return;
    const wait = line.told + PAUSE - now();
    if (wait <= 0) return deliver(line);
    if (line.isToTell) return;
    line.isToTell = true;
    later(() => {
      line.isToTell = false;
      if (isCurrent(line)) tell(line);
    }, wait);
  }

  const isCurrent = (line: Line) => [...lines.values()].includes(line);

  function deliver(line: Line) {
    line.told = now();
    line.sink.deliver(gathered(line));
  }

  function handOut() {
    if (isHeld) return;
    for (let load = 0; load < PER_WORKER; load++)
      for (const worker of workers) if (loadOf(worker) <= load) give(worker);
  }

  const loadOf = (worker: MemberWorker) => [...underWay.values()].filter((each) => each.worker === worker).length;

  function give(worker: MemberWorker) {
    const next = nextMember();
    if (!next) return;
    const { ask, known, key, member } = next;
    lastId += 1;
    underWay.set(lastId, { key, known, worker });
    worker.post({ kind: "solve", id: lastId, plan: ask.plan, member, task: ask.task });
  }

  function nextMember() {
    for (const [, line] of sort(lines, ([rank]) => rank)) {
      const next = line.isStopped ? undefined : missing(line);
      if (next) return { ...line, ...next };
    }
    return undefined;
  }

  /** The first member that is neither in nor under way. All before it are, until one is given back. */
  function missing(line: Line) {
    for (; ; line.next += 1) {
      const next = line.members[line.next];
      if (!next || (line.left.has(next.key) && !isUnderWay(line, next.key))) return next;
    }
  }

  const isUnderWay = ({ known }: Line, key: string) =>
    [...underWay.values()].some((each) => each.known === known && each.key === key);

  function broke(reason: string) {
    const unfinished = [...lines.values()].filter((line) => !isDone(line));
    end();
    for (const { sink } of unfinished) sink.fail(new Error(words.brokeDown(reason)));
    report();
  }

  function end() {
    for (const worker of workers.splice(0)) worker.end();
    workers = [];
    underWay.clear();
    lines.clear();
  }

  function setStopped(isStopped: boolean) {
    for (const line of lines.values()) line.isStopped = isStopped && !isDone(line);
    for (const line of lines.values()) changed(line);
  }

  function report() {
    onProgress(progressOf([...lines.values()]));
  }

  return {
    prepare,
    ask,
    drop(rank) {
      lines.delete(rank);
      giveBack(true);
      report();
    },
    hold(hold) {
      if (hold === isHeld) return;
      isHeld = hold;
      toAll({ kind: hold ? "pause" : "goOn" });
      if (hold) giveBack();
      else handOut();
    },
    stop() {
      setStopped(true);
      giveBack();
    },
    goOn: () => setStopped(false),
    end,
  };
}

const bedOf = ({ plan, task }: EnsembleAsk<unknown>) => JSON.stringify([pottedGround(plan), task]);

const isSame = (one: Line, other: Line) =>
  one.bed === other.bed &&
  one.members.length === other.members.length &&
  one.members.every(({ key }, i) => key === other.members[i]?.key);

const countOf = ({ members, left }: Line) => members.length - left.size;
const isDone = ({ left }: Line) => left.size === 0;

function gathered(line: Line): EnsembleOutcomes<unknown> {
  const { ask, known, members } = line;
  const outcomes = members.flatMap(({ key }) => known.get(key) ?? []);
  return {
    of: ask.of,
    outcomes,
    total: members.length,
    isDone: isDone(line),
    isStopped: line.isStopped && !isDone(line),
  };
}

function progressOf(lines: readonly Line[]): EnsembleProgress | null {
  const count = lines.reduce((sum, line) => sum + countOf(line), 0);
  const total = lines.reduce((sum, { members }) => sum + members.length, 0);
  if (total === 0) return null;
  const isStopped = lines.some((line) => line.isStopped && !isDone(line));
  return { count, total, state: count === total ? "done" : isStopped ? "stopped" : "working" };
}
