import { range, sum } from "d3-array";
import { describe, expect, it } from "vitest";
import { edgeSeries, rulerOrigin, sowingAdvice, sowingRuler } from "../../../model/advice/pot/sowing.ts";
import { fillingLasts, waterGiven } from "../../../model/advice/pot/waterGiven.ts";
import { potLitres } from "../../../model/pot/buildPot.ts";
import { lastDayOf, planToProblem } from "../../../model/problems/bareProblem.ts";
import { CM3_PER_LITRE } from "../../../model/units/factors.ts";
import { expectClose } from "../../support/close.ts";
import { runToEnd } from "../../support/runs.ts";
import { planned } from "../handMade.ts";

describe.each(["loam", "sand"])("a pot filled every 3 days in %s", (name) => {
  const plan = planned({ soil: { kind: "class", name }, filling: { kind: "every", days: 3 } });
  const run = runToEnd(planToProblem(plan, { accuracy: "live" }));
  const advice = sowingAdvice(plan, run);
  const ruler = sowingRuler(plan, run, range(0, 60, 2));

  it("gives a sowing band within the moist soil, moist for all the days it is told for", () => {
    if (advice.kind !== "band") throw new Error(JSON.stringify(advice));
    const { inner, outer, sowingDay, until } = advice.band;
    const { day, value } = edgeSeries(plan, run, "sprouting");
    const meanwhile = value.filter((_, k) => day[k]! >= sowingDay && day[k]! <= until);
    expect(inner).toBeGreaterThanOrEqual(0);
    expect(outer).toBeGreaterThan(inner);
    expect(rulerOrigin(plan.pot) + outer).toBeLessThanOrEqual(Math.min(...meanwhile) + 1e-9);
    expect(until).toBeLessThanOrEqual(lastDayOf(plan));
    const within = ruler.filter(({ distance }) => distance < outer);
    expect(within.every(({ firstMoistDay }) => firstMoistDay !== null && firstMoistDay <= sowingDay)).toBe(true);
  });

  it("is moist enough later, if at all, the farther out", () => {
    const days = ruler.map(({ firstMoistDay }) => firstMoistDay ?? Number.POSITIVE_INFINITY);
    expect(days).toEqual(days.toSorted((p, q) => p - q));
    expect(days[0]).toBeLessThan(1);
    expect(days.at(-1)).toBe(Number.POSITIVE_INFINITY);
  });

  it("gives the same water by days as in all, some of it lost, none twice", () => {
    const { total, byDay, lostBelowRoots, lostShare } = waterGiven(plan, run);
    expectClose(sum(byDay), total, { tolerance: 1e-9, unit: "L", what: "sum of the days" });
    expectClose(run.rows.at(-1)!.seepageLitres, total, { tolerance: 1e-9, unit: "L", what: "given" });
    expect(byDay.every((litres) => litres > 0)).toBe(true);
    expect(lostShare).toBeGreaterThanOrEqual(0);
    expect(lostShare).toBeLessThanOrEqual(1);
    // The same by the other way round: gained below the roots (the start is too dry to drain by itself), or drained.
    const below = gainedBelow(plan.crop.deepestRoots);
    const tolerance = 1e-4 * total;
    expectClose(lostBelowRoots, below + run.history.drainageLitres.at(-1)!, { tolerance, unit: "L", what: "lost" });
  });

  it("has a first filling that the water given agrees with", () => {
    const capacity = potLitres(plan.pot);
    const lasts = fillingLasts(plan, run, capacity);
    if (lasts.kind === "held") throw new Error("this pot has no float");
    const [first, second, third] = waterGiven(plan, run).byDay;
    const left = lasts.kind === "empty" ? 0 : lasts.shareLeft;
    expect(lasts.day).toBeLessThanOrEqual(3);
    // The model calls a pot empty with a hundred-thousandth of its water left.
    const given = first! + second! + third!;
    expectClose(given, (1 - left) * capacity, { tolerance: 1e-4, relative: true, unit: "L", what: "of one filling" });
  });

  function gainedBelow(depth: number): number {
    const { rEdges, dEdges, cellAt, V } = run.grid;
    const columns = rEdges.length - 1;
    const theta = run.frames.at(-1)!.theta;
    const cells = new Map([...cellAt].map((cell, k) => [cell, Math.floor(k / columns)] as const).reverse());
    const gains = [...cells].map(([cell, row]) => {
      const [top, bottom] = [dEdges[row]!, dEdges[row + 1]!];
      const share = Math.min(Math.max((bottom - depth) / (bottom - top), 0), 1);
      return cell < 0 ? 0 : share * V[cell]! * (theta[cell]! - run.startTheta[cell]!);
    });
    return sum(gains) / CM3_PER_LITRE;
  }
});
