import { BARE_GROUND } from "../../model/flow/problem.ts";
import type { Progress, Run } from "../../model/flow/run.ts";
import { simulate } from "../../model/flow/simulate.ts";

/**
 * A run that nobody asks for: code is slow until an engine has seen it run, so a worker runs this while it has nothing to
 * do yet. Pot and soil are of no matter; two fillings, so that all there is to a run comes up.
 */
export const warmUp = (): Generator<Progress, Run> =>
  simulate({
    soil: { thetaR: 0.05, thetaS: 0.45, alpha: 0.02, n: 1.4, Ks: 15, l: 0.5 },
    pot: {
      shape: "cylinder",
      outerRadius: 12,
      rimDepth: 0,
      outerDepth: 25,
      wallThickness: 1,
      wallConductivity: 0.1,
      plugLeakLitres: 0,
    },
    filling: { kind: "refilled", atDays: [0, 7] },
    startHead: -1000,
    region: { radius: 100, depth: 150 },
    days: [14],
    edges: [{ head: -330, depth: 10 }],
    accuracy: "live",
    ...BARE_GROUND,
  });
