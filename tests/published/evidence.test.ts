/**
 * The whole model against what was measured on buried pots, and against common practice. Where a publication leaves the
 * soil or the pot open, our assumption is named, and the outcome is printed as it comes.
 */

import { describe, expect, it } from "vitest";
import {
  demandOutcome,
  demandProblem,
  releaseIntoStandingWater,
  straightLine,
  TRIED_DEMANDS,
} from "../../model/advice/pot/selfRegulation.ts";
import { sowingAdvice } from "../../model/advice/pot/sowing.ts";
import { fillingLasts } from "../../model/advice/pot/waterGiven.ts";
import type { Problem } from "../../model/flow/problem.ts";
import type { Run } from "../../model/flow/run.ts";
import { soundValue } from "../../model/input/faults.ts";
import { resolvePlan } from "../../model/plan/plan.ts";
import { buildPot, potLitres } from "../../model/pot/buildPot.ts";
import { releaseIntoSuction } from "../../model/pot/wallLaw.ts";
import { lastDayOf, planToProblem } from "../../model/problems/bareProblem.ts";
import { vanGenuchten } from "../../model/soil/vanGenuchten.ts";
import { expectClose } from "../support/close.ts";
import { plan } from "../support/livingPlan.ts";
import { cylinder, jar } from "../support/pots.ts";
import { classMean, cylinderProblem } from "../support/problems.ts";
import { runToEnd } from "../support/runs.ts";

const REGION = { radius: 90, depth: 140 };
const keptFull = (changes: Partial<Problem>) =>
  runToEnd(cylinderProblem({ region: REGION, accuracy: "live", ...changes }));

/** Where moisture has risen by 0.01, at mid-depth of the pot. */
function frontEdge(soil: Problem["soil"], startHead: number, depth: number) {
  const { theta, hAtTheta } = vanGenuchten(soil);
  return { head: hAtTheta(theta(startHead) + 0.01), depth };
}

describe("wall ratio: Siyal et al. (2016), Sci. Int. (Lahore) 28(2):1299-1304, six pots of each of two walls", () => {
  // Measured: after five days the front stands 22 % farther out from wall A (K 0.11 cm/day, 1.26 cm thick) than from
  // wall B (0.059, 1.98). Soil, pot size and regime are not known: sandy loam to clay loam, two sizes, kept full.
  const walls = {
    A: { wallConductivity: 0.11, wallThickness: 1.26 },
    B: { wallConductivity: 0.059, wallThickness: 1.98 },
  };
  const sizes = { "10 by 20 cm": cylinder, "14 by 30 cm": { ...cylinder, outerRadius: 14, outerDepth: 30 } };
  for (const soilName of ["sandy loam", "loam", "clay loam"])
    for (const [size, pot] of Object.entries(sizes))
      it(`the front ratio in ${soilName}, pot of ${size}, lies in 1.22 ± 0.10`, () => {
        const soil = classMean(soilName);
        const radius = (wall: object) => {
          const edges = [frontEdge(soil, -1000, pot.outerDepth / 2)];
          const problem = { soil, pot: { ...pot, ...wall }, days: [5], edges, accuracy: "standard" as const };
          return keptFull(problem).rows[0]!.wettedRadius;
        };
        const what = `${soilName}, ${size}, kept full (assumed): front radius A over B`;
        expectClose(radius(walls.A) / radius(walls.B), 1.22, { tolerance: 0.1, what });
      });
});

describe("bounds: Saleh & Setiawan (2010), CIGR Journal, article 1196: front within 30 cm radius and 40 cm depth", () => {
  // Wall of order 0.09 cm/day, level kept, dry soil, soils a hundred times more conductive than the wall: Ks about 9.
  for (const [soilName, Ks] of [
    ["silt loam", 9],
    ["silty clay loam", 9],
    ["sandy clay loam", 9],
  ] as const)
    it(`the front in ${soilName} with Ks ${Ks} cm/day starts inside the bounds and leaves them at a told day`, () => {
      const soil = { ...classMean(soilName), Ks };
      const startHead = -15_000;
      const pot = { ...cylinder, wallConductivity: 0.09 };
      const run = keptFull({ soil, pot, startHead, days: [10], edges: [frontEdge(soil, startHead, 10)] });
      const { radius, wettedDepth } = run.history.edges[0]!;
      const outside = run.history.day.findIndex((_, k) => radius[k]! > 30 || wettedDepth[k]! > 40);
      const day = outside < 0 ? "the end, day 10" : `day ${run.history.day[outside]!.toFixed(1)}`;
      console.info(`${soilName}, Ks ${Ks}: inside radius 30 cm and depth 40 cm until ${day}`);
      expect(outside < 0 || run.history.day[outside]! > 0.5).toBe(true);
    });
});

describe("release: Silva et al. (1982), EMBRAPA-CPATSA: 3.5 ± 0.5 L a day from pots of 10 to 12 L", () => {
  // The wall was not measured: a jar of 11 L, wall 1.2 cm, K 0.05 cm/day, kept full, days 5 to 10; plausibility only.
  const pot = { ...jar, bellyRadius: 16, bellyDepth: 14, outerDepth: 28, wallThickness: 1.2, wallConductivity: 0.05 };
  it("a pot of 11 L kept full gives a few litres a day in every soil, told beside the measured figure", () => {
    expectClose(potLitres(pot), 11, { tolerance: 1, unit: "L", what: "the pot assumed" });
    for (const soilName of ["sand", "loam", "clay"]) {
      const rows = keptFull({ soil: classMean(soilName), pot, days: [5, 10] }).rows;
      const daily = (rows[1]!.seepageLitres - rows[0]!.seepageLitres) / 5;
      console.info(`${soilName}: ${daily.toFixed(1)} L a day, days 5 to 10; measured 3.5 ± 0.5 (soil: deep latosol)`);
      expect(daily).toBeGreaterThan(1);
      expect(daily).toBeLessThan(8);
    }
  });
});

describe("width: Schwartzman & Zur (1986), J. Irrig. Drain. Eng. 112:242-253 (from memory), ordering of soils only", () => {
  // W = 1.82 V^0.22 (Ks/q)^-0.17 and Z = 2.54 V^0.63 (Ks/q)^0.45, for drippers: the finer soil is wet wider and less deep.
  it("with equal water the wet soil is narrower and deeper the more conductive the soil, as in the formula", () => {
    const litres = 4;
    const widthFormula = (Ks: number) => 1.82 * (litres / 1000) ** 0.22 * (Ks / 1e-3) ** -0.17;
    const shapes = ["clay", "loam", "sand"].map((soilName) => {
      const soil = classMean(soilName);
      const run = keptFull({ soil, days: [6], edges: [frontEdge(soil, -1000, 10)] });
      const k = run.history.seepageLitres.findIndex((given) => given >= litres);
      const { radius, wettedDepth } = run.history.edges[0]!;
      const ratio = radius[k]! / wettedDepth[k]!;
      console.info(
        `${soilName}, ${litres} L given: front ${radius[k]!.toFixed(1)} cm wide, ${wettedDepth[k]!.toFixed(1)} deep`,
      );
      return { Ks: soil.Ks, ratio };
    });
    const byFormula = shapes.toSorted((p, q) => widthFormula(q.Ks) - widthFormula(p.Ks));
    const byModel = shapes.toSorted((p, q) => q.ratio - p.ratio);
    expect(byModel).toEqual(byFormula);
  });
});

describe("release: Vasudevan et al. (2011), two years, several pots, read in an abstract", () => {
  // Measured: on dry days what a pot gives in a day is linear in the air's moisture deficit. How steep is not known.
  it.each(["sand", "loam", "clay"])(
    "to full-grown plants in %s it is linear in the demand to R² 0.95, and never falls",
    (name) => {
      const bed = { mulch: { kind: "organic", cover: 100 }, plantsFromWall: 10, soil: { kind: "class", name } };
      const planted = plan({ ...bed, filling: { kind: "float" }, startMoisture: "just rained" });
      const given = TRIED_DEMANDS.map((ETo) => ({
        x: ETo,
        y: demandOutcome(runToEnd({ ...demandProblem(planted, ETo), accuracy: "live" })).given,
      }));
      const { slope, explained } = straightLine(given);
      const told = given.map(({ x, y }) => `${y.toFixed(2)} L/day at ${x} mm`).join(", ");
      console.info(`${name}: ${told}; ${slope.toFixed(3)} L/day per mm, R² ${explained.toFixed(3)} (measured: linear)`);
      expect(explained).toBeGreaterThan(0.95);
      for (const [k, { y }] of given.entries()) expect(y).toBeGreaterThanOrEqual((given[k - 1]?.y ?? 0) * 0.99);
    },
  );

  // Measured: into standing water less than 5 % of what it gives into air, without head. By the wall's law nothing at all.
  it("into water that stands as high as in the pot it gives nothing, and little where it stands as high as the soil", () => {
    const pot = buildPot(cylinder);
    expectClose(releaseIntoStandingWater(pot, 0), 0, { tolerance: 1e-12, unit: "L/day", what: "level with the soil" });
    const raised = buildPot({ ...cylinder, rimDepth: -2 });
    const share = releaseIntoStandingWater(raised, -2) / releaseIntoSuction(raised, -2, 0);
    console.info(
      `filled 2 cm above the soil, into standing water: ${(100 * share).toFixed(1)} % of that into soaked soil`,
    );
    expect(share).toBeLessThan(0.25);
  });
});

describe("common practice, no source: told beside the model, never tuned to", () => {
  const typed = (soil: string, filling: object) => ({
    version: 1,
    units: "metric",
    soil: { kind: "class", name: soil },
    pot: { shape: "tapered", rimDiameter: 30, baseDiameter: 20, height: 30 },
    crop: { kind: "listed", name: "tomato" },
    filling,
  });
  function planned(soil: string, filling: object) {
    const plan = soundValue(resolvePlan(typed(soil, filling)));
    return { plan, run: runToEnd(planToProblem(plan, { accuracy: "live", days: [lastDayOf(plan)] })) };
  }
  const widest = ({ history }: Run) => Math.max(...history.edges[0]!.radius);

  for (const soil of ["sand", "loam", "clay"]) {
    it(`pots 60 to 90 cm apart, one filling about a week, sowing within a hand's width: ${soil}`, () => {
      const { plan, run } = planned(soil, { kind: "every", days: 3 });
      const once = planned(soil, { kind: "once" });
      const lasts = fillingLasts(once.plan, once.run, potLitres(plan.pot));
      const advice = sowingAdvice(plan, run);
      const apart = 2 * widest(run);
      console.info(
        `${soil}: easy water of two pots would meet at up to ${apart.toFixed(0)} cm apart (practice: 60 to 90)`,
      );
      console.info(
        `${soil}: one filling ${lasts.kind === "empty" ? `lasts ${lasts.day.toFixed(1)} days` : "lasts beyond the run"} (practice: about a week)`,
      );
      console.info(`${soil}: sowing ${JSON.stringify(advice)} (practice: within about a hand, 10 cm)`);
      expect(apart).toBeGreaterThan(2 * 15);
      expect(["band", "everywhere", "nowhere"]).toContain(advice.kind);
    });
  }
});
