import { bedLayout, sowingAdvice, spacingProblem, wetRadiusOf } from "../../model/public/advice.ts";
import { planToProblem } from "../../model/public/flow.ts";
import type { Plan } from "../../model/public/plan.ts";
import { derive, solution } from "../runtime/cells.ts";
import { plan } from "../runtime/sources.ts";
import { unplaced } from "../solving/sameBed.ts";

/** All that runs depend on, as text: runs stay valid while the bed's edge is drawn and pots are moved. */
const ground = derive({ plan }, ({ plan }) => JSON.stringify(unplaced(plan)));

/** The living bed, and the bare ground in which seeds come up. */
export const layoutRuns = solution(
  derive({ ground }, ({ ground }) => {
    const plan = JSON.parse(ground) as Plan;
    const problems = { living: spacingProblem(plan, plan.bed.spacing), sowing: planToProblem(plan) };
    return { of: plan, problems };
  }),
);

/** The bed with its pots and plants. */
export const laidOutBed = derive({ layoutRuns, plan }, ({ layoutRuns: { of, runs }, plan }) => {
  // The bed is the newest, the water that of the newest runs.
  const wetRadius = wetRadiusOf(of, runs.living);
  return bedLayout(plan, wetRadius, sowingAdvice(of, runs.sowing));
});
