import { describe, expect, it } from "vitest";
import { CALM, type Problem, type Spell } from "../../model/flow/problem.ts";
import { buildPot } from "../../model/pot/buildPot.ts";
import { expectClose } from "../support/close.ts";
import { cylinder, tapered } from "../support/pots.ts";
import { cylinderProblem } from "../support/problems.ts";
import { runToEnd } from "../support/runs.ts";

/** A wall that passes nothing: only air and rain move the water. */
const glazed = (weather: Partial<Spell>[], changes: Partial<Problem> = {}) =>
  runToEnd(
    cylinderProblem({
      pot: { ...cylinder, wallConductivity: 0 },
      filling: { kind: "refilled", atDays: [0] },
      weather: weather.map((spell) => ({ ...CALM, ...spell })),
      days: [4, 10],
      accuracy: "live",
      ...changes,
    }),
  );
const opening = Math.PI * 81;

describe("a pot without a lid", () => {
  it("loses to the air what the air asks for, and its level falls as much", () => {
    const { rows, history } = glazed([{ potEvaporation: 0.6 }]);
    expectClose(rows[0]!.waterLevelDepth, 2.4, { tolerance: 1e-5, unit: "cm", what: "level on day 4" });
    expectClose(history.potLossLitres.at(-1)!, 6e-3 * opening, { tolerance: 1e-6, unit: "L", what: "lost" });
  });

  it("runs dry when the air has taken all of it", () => {
    const { firstEmptyDay } = glazed([{ potEvaporation: 5 }]);
    expectClose(firstEmptyDay!, 19 / 5, { tolerance: 1e-3, unit: "days", what: "empty" });
  });

  it("is filled by rain up to its rim, where the rest runs over", () => {
    const spells = [{ potEvaporation: 0.5 }, { fromDay: 4, potRain: 1.5 }, { fromDay: 6 }];
    const { rows, history } = glazed(spells);
    expectClose(rows[0]!.waterLevelDepth, 2, { tolerance: 1e-5, unit: "cm", what: "level before the rain" });
    expect(rows[1]!.waterLevelDepth).toBe(0);
    const net = (2 - 3 + 1) * opening;
    expectClose(1000 * history.potLossLitres.at(-1)!, net, { tolerance: 0.1, unit: "cm³", what: "lost less caught" });
  });

  it("catches a shower between two asked days from its first minute to its last", () => {
    const { history } = glazed([{ potEvaporation: 0.5 }, { fromDay: 4.3, potRain: 1 }, { fromDay: 4.9 }]);
    for (const change of [4.3, 4.9]) expect(history.day).toContain(change);
    const lost = (0.5 * 4.3 - 0.6) * opening;
    expectClose(1000 * history.potLossLitres.at(-1)!, lost, { tolerance: 0.01, unit: "cm³", what: "lost less caught" });
  });

  it("never lasts longer than under a lid", () => {
    const emptied = (potEvaporation: number) =>
      runToEnd(
        cylinderProblem({
          pot: tapered,
          filling: { kind: "refilled", atDays: [0] },
          weather: [{ ...CALM, potEvaporation }],
          accuracy: "live",
        }),
      ).firstEmptyDay!;
    expect(emptied(0.6)).toBeLessThan(emptied(0));
  });

  it("with seepage, rain and air together accounts for every drop that it held", () => {
    const pot = buildPot(tapered);
    const weather = [
      { ...CALM, potEvaporation: 0.4 },
      { ...CALM, fromDay: 0.5, potRain: 2, potEvaporation: 0.1 },
      { ...CALM, fromDay: 0.9, potEvaporation: 0.4 },
    ];
    const filling = { kind: "refilled" as const, atDays: [0] };
    const run = runToEnd(cylinderProblem({ pot: tapered, filling, weather, days: [1.3], accuracy: "live" }));
    const left = pot.volumeAt(run.rows[0]!.waterLevelDepth) / 1000;
    const gone = run.rows[0]!.seepageLitres + run.history.potLossLitres.at(-1)!;
    expectClose(left + gone, pot.capacity / 1000, { tolerance: 1e-5, unit: "L", what: "left, given and lost" });
  });
});
