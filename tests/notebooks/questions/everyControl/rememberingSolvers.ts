import { type MemberTask, type OutcomeOf, solveMember } from "../../../../model/public/ensemble.ts";
import type { EnsembleSolver, Solver } from "../../../../notebooks/runtime/cells.ts";
import { directEnsembles, directSolver } from "../../../../notebooks/solving/solvers.ts";

const STAND_INS = 3;

/**
 * Solves what a notebook asks for at the start, and remembers it. Once `isStarted` nothing more is solved: what was asked
 * before gets its answer again, and anything else is refused and noted in `isAskedAnew`. Of many beds the first is
 * solved once more, to see whether the plan that is asked about makes a difference to it.
 */
export function rememberingSolvers() {
  const known = new Set<string>();
  const outcomes = new Map<string, OutcomeOf<MemberTask>>();
  const runs = directSolver({ accuracy: "live" });
  const beds = directEnsembles({
    every: 8,
    solve(plan, member, task) {
      // What takes many runs for one bed is worked out for a few, which stand for the others.
      const key = JSON.stringify([task.kind === "sowing" ? member : member.index % STAND_INS, task.kind]);
      const outcome = outcomes.get(key) ?? solveMember(plan, member, task);
      outcomes.set(key, outcome);
      return { ...outcome, index: member.index };
    },
  });
  const state = { isStarted: false, isAskedAnew: false };
  function meet(...asked: unknown[]) {
    const text = JSON.stringify(asked);
    if (!state.isStarted) known.add(text);
    if (known.has(text)) return;
    state.isAskedAnew = true;
    throw new Error("This was not asked at the start.");
  }
  const solver: Solver = {
    ask(rank, ask, deliver) {
      for (const problem of Object.values(ask.problems)) meet(problem);
      runs.ask(rank, ask, deliver);
    },
  };
  const ensembles: EnsembleSolver = {
    ...beds,
    ask(rank, ask, sink) {
      const { plan, members, task } = ask;
      meet(task.kind, members);
      for (const member of members.slice(0, 1)) meet(task.kind, solveMember(plan, member, task));
      beds.ask(rank, ask, sink);
    },
  };
  /** Lets what was not asked at the start wait for ever. */
  function orNever(ask: () => void) {
    try {
      ask();
    } catch (error) {
      if (!state.isAskedAnew) throw error;
    }
  }
  const solverOfKnown: Solver = { ask: (...asked) => orNever(() => solver.ask(...asked)) };
  const ensemblesOfKnown: EnsembleSolver = { ...ensembles, ask: (...asked) => orNever(() => ensembles.ask(...asked)) };
  return Object.assign(state, { solver, ensembles, solverOfKnown, ensemblesOfKnown });
}
