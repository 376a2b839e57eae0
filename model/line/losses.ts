/** Where the head is lost on the way to one pot. */
import { entry } from "../input/lists.ts";
import { type Line, outletLoss, type PieceKind, pathTo } from "./network.ts";
import { frictionLoss, velocityLoss } from "./pipe.ts";
import type { Flows } from "./solveFlows.ts";
import { kinematicViscosity } from "./water.ts";

export interface LossRow {
  name: string;
  kind: PieceKind;
  /** m. */
  friction: number;
  /** m. */
  fittings: number;
}

export interface Losses {
  rows: LossRow[];
  /** In the emitter, or as the velocity head that an open end loses, m. */
  atOutlet: number;
  /** Head outside, after all losses: the end's height or the pot's level where the outlet runs. */
  left: number;
}

/** Losses between a tank and the outlet at the end of `piece`; rows, `atOutlet` and `left` sum to the tank's head. */
export function lossesTo(line: Line, { flow }: Pick<Flows, "flow">, piece: number, tankHead: number): Losses {
  const nu = kinematicViscosity(line.celsius);
  const rows = pathTo(line, piece).map((p): LossRow => {
    const [pipe, Q] = [entry(line.pieces, p), entry(flow, p)];
    const friction = frictionLoss(pipe, Q, nu).loss;
    return { name: pipe.name, kind: pipe.kind, friction, fittings: velocityLoss(pipe, pipe.minorLoss, Q).loss };
  });
  const atOutlet = outletLoss(entry(line.pieces, piece), outletFlowOf(line, flow, piece)).loss;
  const lost = rows.reduce((sum, { friction, fittings }) => sum + friction + fittings, atOutlet);
  return { rows, atOutlet, left: tankHead - lost };
}

/** What leaves at a piece's end is what comes less what goes on. */
function outletFlowOf({ pieces }: Line, flow: Float64Array, piece: number): number {
  return pieces.reduce((rest, { parent }, p) => (parent === piece ? rest - entry(flow, p) : rest), entry(flow, piece));
}
