import { entry, first, last } from "../input/lists.ts";
import { CM3_PER_LITRE } from "../units/factors.ts";
import type { Assembly } from "./assembly.ts";
import { firstToChange } from "./firstToChange.ts";
import type { Problem } from "./problem.ts";
import type { History, Run } from "./run.ts";
import { sinceStart } from "./spells.ts";
import type { TensorMesh } from "./tensorMesh.ts";
import type { FlowState } from "./timeStep.ts";
import type { MarchTrouble } from "./timeStepping.ts";
import { waterBalance } from "./waterBalance.ts";
import { edgeReader, frontShapes } from "./wetEdges.ts";

/** Gathers what a run gives while it goes on. */
export interface Recorder {
  step(state: FlowState): void;
  /** Keeps a row and a frame if this is an asked day. */
  stop(state: FlowState): void;
  emptied(state: FlowState): void;
  finish(status: Run["status"], steps: number, milliseconds: number, trouble: MarchTrouble | undefined): Run;
}

export function recorder(problem: Problem, mesh: TensorMesh, system: Assembly): Recorder {
  const balance = waterBalance(system);
  const shapes = frontShapes(problem, system.ground);
  const history = emptyHistory(problem);
  const followed = problem.edges.map((edge, k) => ({
    read: edgeReader(mesh, edge, shapes),
    history: entry(history.edges, k),
  }));
  const litres = (volume: number) => volume / CM3_PER_LITRE;
  const topArea = mesh.sides.top.area.reduce((sum, area) => sum + area, 0);
  const area = Math.PI * problem.region.radius ** 2;
  const rows: Run["rows"] = [];
  const frames: Run["frames"] = [];
  let firstEmptyDay: number | null = null;
  const startTheta = system.kernel.cells.theta.slice();
  let balanceError = 0;

  function step(state: FlowState): void {
    const now = balance.at(state);
    const fallen = topArea * sinceStart(problem.weather, "rain", state.t);
    const wanted = problem.roots ? area * sinceStart(problem.weather, "transpiration", state.t) : 0;
    history.day.push(state.t);
    history.waterLevelDepth.push(state.pot.dw);
    history.pouredLitres.push(litres(problem.filling.kind === "held" ? now.seepage : state.poured));
    history.seepageLitres.push(litres(now.seepage));
    history.drainageLitres.push(litres(now.drainage));
    history.uptakeLitres.push(litres(now.uptake));
    history.wantedLitres.push(litres(wanted));
    history.evaporationLitres.push(litres(now.evaporation));
    history.rainLitres.push(litres(now.rain));
    history.runoffLitres.push(litres(Math.max(fallen - now.rain, 0)));
    history.potLossLitres.push(litres(state.potLoss));
    for (const edge of followed) {
      const { radius, wettedDepth } = edge.read(system.kernel.cells);
      edge.history.radius.push(radius);
      edge.history.wettedDepth.push(wettedDepth);
    }
  }

  function stop(state: FlowState): void {
    if (!problem.days.includes(state.t)) return;
    balanceError = balance.errorAt(state);
    const edge = first(history.edges);
    rows.push({
      day: state.t,
      seepageLitres: last(history.seepageLitres),
      waterLevelDepth: state.pot.dw,
      wettedRadius: last(edge.radius),
      wettedDepth: last(edge.wettedDepth),
      drainageLitres: last(history.drainageLitres),
    });
    const { h, theta, thetaS } = system.kernel.cells;
    // The little that is pressed into full cells is left out.
    const held = theta.map((value, cell) => Math.min(value, entry(thetaS, cell)));
    frames.push({ day: state.t, h: h.slice(), theta: held, waterLevelDepth: state.pot.dw });
  }

  return {
    step,
    stop,
    emptied(state) {
      firstEmptyDay ??= state.t;
    },
    finish: (status, steps, milliseconds, trouble) => ({
      status,
      ...(trouble && { trouble: told(trouble, problem, mesh) }),
      cells: mesh.cellCount,
      steps,
      milliseconds,
      balanceError,
      firstEmptyDay,
      rows,
      frames,
      startTheta,
      grid: mesh.grid,
      history,
    }),
  };
}

/** Before anything has happened. */
export function emptyHistory({ edges }: Pick<Problem, "edges">): History {
  return {
    day: [],
    waterLevelDepth: [],
    pouredLitres: [],
    seepageLitres: [],
    drainageLitres: [],
    uptakeLitres: [],
    wantedLitres: [],
    evaporationLitres: [],
    rainLitres: [],
    runoffLitres: [],
    potLossLitres: [],
    edges: edges.map(() => ({ radius: [], wettedDepth: [] })),
  };
}

function told(
  { reason, day, step, cell }: MarchTrouble,
  problem: Problem,
  { rCell, dCell }: TensorMesh,
): NonNullable<Run["trouble"]> {
  const place = { r: entry(rCell, cell), d: entry(dCell, cell) };
  return { reason, day, step, place, change: firstToChange(problem, place.d) };
}
