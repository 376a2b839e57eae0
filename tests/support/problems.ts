import type { buriedCylinder } from "../../model/checks/loadChecks.ts";
import { BARE_GROUND, type Problem } from "../../model/flow/problem.ts";
import { rowNamed, textureClasses } from "../../reference-data/load.ts";
import { cylinder } from "./pots.ts";

export const classMean = (name: string) => rowNamed(textureClasses(), name).mean;

/** The test problem 'buried cylinder': loam, kept full, unless changed. */
export function cylinderProblem(changes: Partial<Problem> = {}): Problem {
  return {
    soil: classMean("loam"),
    pot: cylinder,
    filling: { kind: "held", levelDepth: 0 },
    startHead: -1000,
    region: { radius: 60, depth: 100 },
    days: [0.25, 1, 3, 7, 14],
    edges: [{ head: -330, depth: 10 }],
    accuracy: "standard",
    ...BARE_GROUND,
    ...changes,
  };
}

/** The run that a row of reference-data/checks/buried-cylinder.json is the known answer of. */
export function knownProblem({ soil, filling }: ReturnType<typeof buriedCylinder>["rows"][number]): Problem {
  const kinds = {
    held: { kind: "held" as const, levelDepth: 0 },
    refilled: { kind: "refilled" as const, atDays: [0, 7] },
  };
  return cylinderProblem({ soil: classMean(soil), filling: kinds[filling] });
}
