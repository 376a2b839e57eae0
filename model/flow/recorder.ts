import { CM3_PER_LITRE } from "../units/units.ts";
import type { Assembly } from "./assembly.ts";
import type { FrontShape } from "./front.ts";
import type { Problem } from "./problem.ts";
import type { History, Run } from "./run.ts";
import type { TensorMesh } from "./tensorMesh.ts";
import type { FlowState } from "./timeStep.ts";
import type { MarchTrouble } from "./timeStepping.ts";
import { type WaterBalance, waterBalance } from "./waterBalance.ts";
import { edgeReader } from "./wetEdges.ts";

/** Gathers what a run gives while it goes on. */
export interface Recorder {
  step(state: FlowState): void;
  /** Keeps a row and a frame if this is an asked day. */
  stop(state: FlowState): void;
  emptied(state: FlowState): void;
  finish(status: Run["status"], steps: number, milliseconds: number, trouble: MarchTrouble | undefined): Run;
}

export function recorder(problem: Problem, mesh: TensorMesh, system: Assembly, shape: FrontShape): Recorder {
  const balance = waterBalance(system);
  const readers = problem.edges.map((edge) => edgeReader(mesh, edge, shape));
  const history: History = {
    day: [],
    waterLevelDepth: [],
    seepageLitres: [],
    drainageLitres: [],
    edges: problem.edges.map(() => ({ radius: [], wettedDepth: [] })),
  };
  const rows: Run["rows"] = [];
  const frames: Run["frames"] = [];
  let firstEmptyDay: number | null = null;
  let last: WaterBalance = { seepage: 0, drainage: 0, error: 0 };

  function step(state: FlowState): void {
    last = balance.at(state);
    history.day.push(state.t);
    history.waterLevelDepth.push(state.pot.dw);
    history.seepageLitres.push(last.seepage / CM3_PER_LITRE);
    history.drainageLitres.push(last.drainage / CM3_PER_LITRE);
    readers.forEach((read, k) => {
      const { radius, wettedDepth } = read(system.soil);
      history.edges[k]!.radius.push(radius);
      history.edges[k]!.wettedDepth.push(wettedDepth);
    });
  }

  function stop(state: FlowState): void {
    if (!problem.days.includes(state.t)) return;
    rows.push({
      day: state.t,
      seepageLitres: history.seepageLitres.at(-1)!,
      waterLevelDepth: state.pot.dw,
      wettedRadius: history.edges[0]!.radius.at(-1)!,
      wettedDepth: history.edges[0]!.wettedDepth.at(-1)!,
      drainageLitres: history.drainageLitres.at(-1)!,
    });
    const { h, theta } = system.soil;
    frames.push({ day: state.t, h: h.slice(), theta: theta.slice(), waterLevelDepth: state.pot.dw });
  }

  return {
    step,
    stop,
    emptied(state) {
      firstEmptyDay ??= state.t;
    },
    finish: (status, steps, milliseconds, trouble) => ({
      status,
      ...(trouble && { trouble: placed(trouble, mesh) }),
      cells: mesh.cellCount,
      steps,
      milliseconds,
      balanceError: last.error,
      firstEmptyDay,
      rows,
      frames,
      startTheta: shape.startTheta,
      grid: mesh.grid,
      history,
    }),
  };
}

function placed({ reason, day, step, cell }: MarchTrouble, { rCell, dCell }: TensorMesh): NonNullable<Run["trouble"]> {
  return { reason, day, step, place: { r: rCell[cell]!, d: dCell[cell]! } };
}
