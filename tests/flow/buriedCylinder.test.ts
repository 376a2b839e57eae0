/**
 * The whole model against an independent program, on a grid the model chooses by itself. Source, place and error of the
 * expected numbers: reference-data/checks/buried-cylinder.json.
 */
import { describe, it } from "vitest";
import { buriedCylinder } from "../../model/checks/loadChecks.ts";
import { expectClose } from "../support/close.ts";
import { knownProblem } from "../support/problems.ts";
import { runToEnd } from "../support/runs.ts";

const LIMITS = { seepageLitres: 0.005, wettedRadius: 0.01, wettedDepth: 0.01 };
const UNITS = { seepageLitres: "L", wettedRadius: "cm", wettedDepth: "cm" };

describe("the buried cylinder, standard accuracy, against an independent program", () => {
  for (const expected of buriedCylinder().rows) {
    const run = runToEnd(knownProblem(expected));

    for (const name of ["seepageLitres", "wettedRadius", "wettedDepth"] as const)
      it(`gives the ${name} in ${expected.name}, at all five times`, () => {
        run.rows.forEach((row, k) => {
          const what = `${expected.name}, ${name} on day ${row.day}`;
          expectClose(row[name], expected[name][k]!, {
            tolerance: LIMITS[name],
            relative: true,
            unit: UNITS[name],
            what,
          });
        });
      });

    it(`drains as much through the bottom in ${expected.name}`, () => {
      // Not asked to a given accuracy: drainage in sand hangs on the last large cells.
      const what = `${expected.name}, drainage`;
      expectClose(run.rows.at(-1)!.drainageLitres, expected.drainageLitres, {
        tolerance: 0.02,
        relative: true,
        unit: "L",
        what,
      });
    });

    const { firstEmptyDay, levelDepth = [] } = expected;
    if (firstEmptyDay !== undefined)
      it("empties on the day, with the levels before it", () => {
        expectClose(run.firstEmptyDay ?? Number.NaN, firstEmptyDay, {
          tolerance: 0.005,
          relative: true,
          unit: "d",
          what: "empty",
        });
        for (const { day, dw } of levelDepth) {
          const row = run.rows.find((candidate) => candidate.day === day)!;
          expectClose(row.waterLevelDepth, dw, {
            tolerance: 0.01,
            relative: true,
            unit: "cm",
            what: `dw on day ${day}`,
          });
        }
      });
  }
});
