import { pairs, sum, union } from "d3-array";
import { entry, last } from "../input/lists.ts";
import { buildPot } from "../pot/buildPot.ts";
import type { Pot } from "../pot/pot.ts";
import type { SoilTable } from "../soil/soilTable.ts";
import { type Assembly, assembly } from "./assembly.ts";
import { type Boundary, freeDrainage } from "./boundary.ts";
import { FINENESS, type Fineness, type SoilBlock } from "./gridRule.ts";
import { type Grid, type GridStore, gridStore } from "./gridStore.ts";
import { type Ground, layeredGround } from "./ground.ts";
import { EMPTY_SHARE, type PotSupply, potSupply } from "./potSupply.ts";
import type { Problem } from "./problem.ts";
import { type Recorder, recorder } from "./recorder.ts";
import { rootUptake } from "./roots.ts";
import type { Progress, Run } from "./run.ts";
import { spellAt } from "./spells.ts";
import { stageSolver } from "./stage.ts";
import { evaporation, rainfall } from "./surface.ts";
import type { TensorMesh } from "./tensorMesh.ts";
import { type FlowState, flowState, type StepTolerance, stepper } from "./timeStep.ts";
import { march } from "./timeStepping.ts";
import { leakingPlug, potWall } from "./wall.ts";

export interface SimulateOptions {
  /** Another than that of the problem's accuracy serves to compare grids. */
  fineness?: Fineness;
  /** Where many runs about one pot share its grid. */
  grids?: GridStore;
}

/**
 * Solves a problem; yields after every time step, and ends with status "stopped" when handed "stop". Numerical trouble
 * ends it with status "failed", the cause beside it, and what was reached until then. A caller that leaves early calls
 * `return`, as `for … of` does: the grid then goes back to its store. A RangeError where the problem names no edge.
 */
export function* simulate(
  problem: Problem,
  { fineness = FINENESS[problem.accuracy], grids = gridStore() }: SimulateOptions = {},
): Generator<Progress, Run, "stop" | undefined> {
  if (problem.edges.length === 0) throw new RangeError("A problem must name at least one edge of wet soil to follow.");
  const clock = workClock();
  const pot = buildPot(problem.pot);
  const grid = grids.take(pot, blockOf(problem), fineness);
  try {
    return yield* simulateOn(grid, problem, pot, fineness, clock);
  } finally {
    grids.giveBack(grid);
  }
}

function* simulateOn(
  grid: Grid,
  problem: Problem,
  pot: Pot,
  fineness: Fineness,
  clock: WorkClock,
): ReturnType<typeof simulate> {
  const system = potInSoil(grid, problem, pot, fineness);
  const supply = potSupply(problem.filling, pot);
  const state = startState(system, problem.startHead);
  supply.begin(state);
  supply.refill(state);
  const records = recorder(problem, grid.mesh, system);
  records.step(state);
  const steps = stepper(system, stageSolver(system), (t) => spellAt(problem.weather, t));
  const course = march(state, steps, {
    stops: stopTimes(problem),
    firstStep: FIRST_STEP,
    restartStep: RESTART_STEP,
    toleranceAt: stepTolerance(problem, system, pot, supply, fineness),
    levelLaw: supply.law,
    remaining: supply.remaining,
    emptyWithin: EMPTY_SHARE * pot.capacity,
  });
  let step = 0;
  let isSudden = false;
  for (let next = course.next(); ; next = course.next(isSudden ? "restart" : undefined)) {
    if (next.done) return records.finish(next.value ? "failed" : "finished", step, clock.pause(), next.value);
    step = next.value.step;
    supply.settle(state);
    isSudden = false;
    if (next.value.event === "empty") {
      records.emptied(state);
      continue;
    }
    records.step(state);
    if (next.value.event === "stop") isSudden = refilledAtStop(records, supply, state) || rainChanges(problem, state.t);
    const milliseconds = clock.pause();
    const order = yield { day: state.t, lastDay: last(problem.days), step };
    if (order === "stop") return records.finish("stopped", step, milliseconds, undefined);
    clock.resume();
  }
}

/** Records the state before a refill and, where there is one, after it. */
function refilledAtStop(records: Recorder, supply: PotSupply, state: FlowState): boolean {
  records.stop(state);
  const isRefilled = supply.refill(state);
  if (isRefilled) records.step(state);
  return isRefilled;
}

/** Solves a problem (cm, days) without a pause, and reports the day and number of each step. */
export function simulateToEnd(
  problem: Problem,
  onProgress?: (progress: Progress) => void,
  options?: SimulateOptions,
): Run {
  const course = simulate(problem, options);
  for (let next = course.next(); ; next = course.next()) {
    if (next.done) return next.value;
    onProgress?.(next.value);
  }
}

/** Days; wet soil takes a longer step after a refill than dry soil at the start. */
const FIRST_STEP = 0.01;
const RESTART_STEP = 0.04;

type WorkClock = ReturnType<typeof workClock>;

/** Counts the solve's own time, not what the caller does between two steps; milliseconds. */
function workClock() {
  let worked = 0;
  let since = performance.now();
  return {
    pause() {
      worked += performance.now() - since;
      return worked;
    },
    resume() {
      since = performance.now();
    },
  };
}

/** The pot in its region: wall, leaking plug and free drainage at the bottom; the other sides are closed. */
function potInSoil(grid: Grid, problem: Problem, pot: Pot, { wetEnd }: Fineness): Assembly {
  const { mesh, kernel } = grid;
  const ground = groundOf(grid, problem, wetEnd);
  const plug = pot.plugLeak > 0 ? [leakingPlug(pot, cellBelow(mesh, pot))] : [];
  const { bottom } = mesh.sides;
  const boundaries = [freeDrainage(bottom), potWall(mesh.wall, pot), ...plug, ...living(mesh, problem)];
  return assembly(mesh, ground, boundaries, kernel);
}

function groundOf({ mesh, tableOf }: Grid, { soil, topLayer }: Problem, wetEnd: number): Ground {
  const layer = (parameters: Problem["soil"], bottom: number): { table: SoilTable; bottom: number } => ({
    table: tableOf(parameters, wetEnd),
    bottom,
  });
  const top = topLayer ? [layer(topLayer.soil, topLayer.depth)] : [];
  return layeredGround(mesh, [...top, layer(soil, Number.POSITIVE_INFINITY)]);
}

/** Rain, sun and roots, as far as the problem has them. */
function living(mesh: TensorMesh, { weather, roots, region }: Problem): Boundary[] {
  const { top } = mesh.sides;
  return [
    ...(weather.some(({ rain }) => rain > 0) ? [rainfall(top)] : []),
    ...(weather.some((spell) => spell.evaporation > 0) ? [evaporation(top)] : []),
    ...(roots ? [rootUptake(mesh, roots, Math.PI * region.radius ** 2)] : []),
  ];
}

function blockOf({ region, topLayer, weather, roots, neighbours }: Problem): SoilBlock {
  const isOpen = weather.some(({ rain, evaporation }) => rain > 0 || evaporation > 0);
  const layer = topLayer && topLayer.depth < region.depth ? { layerDepth: topLayer.depth } : {};
  return { ...region, ...layer, isOpen, isRooted: roots !== null, ...(neighbours && { neighbours }) };
}

function startState(system: Assembly, startHead: number): FlowState {
  const u = system.mesh.V.map((_, cell) => system.ground.uAtHead(cell, startHead));
  return flowState(system, u, { dw: 0, isEmpty: true });
}

/** The cell on the axis right below the base. */
function cellBelow({ grid }: TensorMesh, pot: Pot): number {
  const row = grid.dEdges.findIndex((edge) => edge >= last(pot.outline).d - 1e-9);
  return entry(grid.cellAt, row * (grid.rEdges.length - 1));
}

function stopTimes({ days, filling, weather }: Problem): number[] {
  const lastDay = last(days);
  const refills = filling.kind === "refilled" ? filling.atDays : [];
  const changes = [...refills, ...weather.map(({ fromDay }) => fromDay)];
  return [
    ...union(
      days,
      changes.filter((day) => day > 0 && day < lastDay),
    ),
  ].sort((s, t) => s - t);
}

/** Whether rain begins, ends or changes at a time. */
function rainChanges({ weather }: Problem, t: number): boolean {
  return pairs(weather).some(([before, after]) => after.fromDay === t && after.rain !== before.rain);
}

/** Share of the time until an asked day in which what Newton's method has left over is paid. */
const PAYING = 0.1;

/**
 * Errors are allowed in proportion to the water given so far, or to what is left in the pot where that is less: the day
 * on which a slow pot runs empty hangs on its last water. A hundredth of the pot, and of what rain, air and roots have moved, is
 * added for the very start and end, and for a pot that is small beside its bed. No sum over all cells is held below rounding.
 * What Newton's method leaves over is carried into the next step. At the end the balance must close; and on every asked
 * day where soil is saturated, which has no room for more. Heads would rise by metres if all of it were paid in one step,
 * however short. Paid in proportion to the time, it adds to the flow no more than a share of its mean,
 * `timeError` · `newtonError` / `PAYING`.
 */
function stepTolerance(
  { days }: Problem,
  system: Assembly,
  pot: Pot,
  supply: PotSupply,
  { timeError, newtonError }: Fineness,
) {
  const rounding = 1e-15 * sum(system.mesh.V);
  return (state: FlowState, end: number): StepTolerance => {
    let [given, others] = [0, 0];
    for (const [k, volume] of state.entered.entries())
      if (entry(system.boundaries, k).isFromPot) given += Math.abs(volume);
      else others += Math.abs(volume);
    const left = supply.remaining(state) ?? Number.POSITIVE_INFINITY;
    const step = timeError * (Math.min(given, left) + 0.01 * (pot.capacity + others));
    const asked = days.find((day) => day >= end) ?? end;
    const isPaid = asked === last(days) || isSaturated(system);
    const carried = newtonError * step * (isPaid ? Math.min((asked - end) / (PAYING * asked), 1) : 1);
    return { step, newton: Math.max(carried, 1e-7 * Math.max(given, 1e-4 * pot.capacity), rounding) };
  };
}

const isSaturated = ({ kernel: { cells } }: Assembly): boolean =>
  cells.uStart.some((value, cell) => value >= entry(cells.uSaturated, cell));
