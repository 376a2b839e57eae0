import type { PotShape } from "../pot/pot.ts";
import type { VanGenuchtenParameters } from "../soil/vanGenuchten.ts";

/** Grid and tolerances: while a slider moves, what an answer is based on, and what checks the other two. */
export type Accuracy = "live" | "standard" | "reference";

/** How the pot is kept supplied. A refill fills to the rim. */
export type Filling = { kind: "held"; levelDepth: number } | { kind: "refilled"; atDays: number[] };

/** A limit of wetness: `radius` is read along a line at depth `depth`, `wettedDepth` along the axis. */
export interface Edge {
  head: number;
  depth: number;
}

/** Everything one run needs, as plain data with nothing left open: cm, day. It crosses to a worker as it is. */
export interface Problem {
  soil: VanGenuchtenParameters;
  pot: PotShape;
  filling: Filling;
  /** Pressure head everywhere at the start, cm. */
  startHead: number;
  region: { radius: number; depth: number };
  /** Times at which the whole field is kept, days, increasing. The run ends at the last. */
  days: number[];
  /** Limits of wetness whose radius and depth are followed at every time step. The first one fills `rows`. */
  edges: Edge[];
  accuracy: Accuracy;
}
