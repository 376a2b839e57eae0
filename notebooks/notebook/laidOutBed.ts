import { bedLayout, sowingAdvice, spacingProblem, wetRadiusOf } from "../../model/public/advice.ts";
import { planToProblem } from "../../model/public/flow.ts";
import { derive, solution } from "../runtime/cells.ts";
import { plan } from "../runtime/sources.ts";
import { ground } from "./ground.ts";

/** The living bed, and the bare ground in which seeds come up. */
export const layoutRuns = solution(
  derive({ ground }, ({ ground }) => {
    const problems = { living: spacingProblem(ground, ground.bed.spacing), sowing: planToProblem(ground) };
    return { of: ground, problems };
  }),
);

/** The bed with its pots and plants. */
export const laidOutBed = derive({ layoutRuns, plan }, ({ layoutRuns: { of, runs }, plan }) => {
  // The bed is the newest. The water is that of the newest runs, with the soil and the crop that it is said of.
  const { soil, bedMix, crop } = of;
  const wetRadius = wetRadiusOf(of, runs.living);
  return bedLayout({ ...plan, soil, bedMix, crop }, wetRadius, sowingAdvice(of, runs.sowing));
});
