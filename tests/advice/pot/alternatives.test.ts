import { describe, expect, it } from "vitest";
import { alternatives, scaledPot } from "../../../model/advice/pot/alternatives.ts";
import { atSpacing } from "../../../model/plan/planBed.ts";
import type { PotShape } from "../../../model/pot/pot.ts";
import { outlineOf } from "../../../model/pot/potOutline.ts";
import { expectClose } from "../../support/close.ts";
import { planned } from "../handMade.ts";

const common = { wallThickness: 1, wallConductivity: 0.1, outerDepth: 24, rimDepth: -2, plugLeakLitres: 0 };

const shapes: Record<string, PotShape> = {
  straight: { ...common, shape: "cylinder", outerRadius: 10 },
  "flower pot": { ...common, shape: "tapered", rimRadius: 14, baseRadius: 9 },
  "round jar": { ...common, shape: "jar", neckRadius: 5, bellyRadius: 13, bellyDepth: 12, baseRadius: 6 },
  outline: {
    ...common,
    shape: "profile",
    points: [
      { r: 8, d: -2 },
      { r: 12, d: 10 },
      { r: 7, d: 24 },
    ],
  },
};

/** Of frustums between the outline's points, by the textbook: π/3 (R² + R r + r²) × height. */
const outerVolume = (pot: PotShape): number => {
  const points = outlineOf(pot);
  return points
    .slice(1)
    .reduce(
      (sum, { r, d }, i) => sum + (Math.PI / 3) * (r ** 2 + r * points[i]!.r + points[i]!.r ** 2) * (d - points[i]!.d),
      0,
    );
};

describe("a pot of another size", () => {
  it.each(Object.entries(shapes))("has the cube of the factor times the outer volume: %s", (_, pot) => {
    for (const factor of [0.5, Math.cbrt(2), 2])
      expectClose(outerVolume(scaledPot(pot, factor)), factor ** 3 * outerVolume(pot), {
        tolerance: 1e-9,
        relative: true,
        unit: "cm³",
        what: `volume at ${factor.toFixed(2)} times the lengths`,
      });
  });

  it.each(Object.entries(shapes))("keeps its rim, wall and plug: %s", (_, pot) => {
    const { rimDepth, wallThickness, wallConductivity, plugLeakLitres } = scaledPot(pot, 1.5);
    expect({ rimDepth, wallThickness, wallConductivity, plugLeakLitres }).toEqual({
      rimDepth: pot.rimDepth,
      wallThickness: pot.wallThickness,
      wallConductivity: pot.wallConductivity,
      plugLeakLitres: pot.plugLeakLitres,
    });
  });

  it("is the same one at a factor of 1", () => {
    for (const pot of Object.values(shapes)) expect(scaledPot(pot, 1)).toEqual(pot);
  });
});

describe("what would change a bed", () => {
  const roomy = { spacing: 140, lid: false, mulch: { kind: "organic", cover: 50 } };
  const names = (changes: object) => alternatives(planned({ ...roomy, ...changes })).map(({ name }) => name);

  it("is a bigger pot, a second pot, full mulch and a lid", () => {
    expect(names({})).toEqual(["bigger pot", "second pot", "full mulch", "lid"]);
  });

  it("leaves out what is done already", () => {
    expect(names({ lid: true })).toEqual(["bigger pot", "second pot", "full mulch"]);
    expect(names({ mulch: { kind: "organic", cover: 100 } })).toEqual(["bigger pot", "second pot", "lid"]);
  });

  // A pot of 10 cm radius needs a circle of 12 cm, one of twice the size (12.6 cm) of 15.1 cm. A square of
  // 28 cm is a circle of 15.8 cm, its half one of 11.2 cm; one of 26 cm 14.7 cm; one of 32 cm 18.1 cm, its half 12.8 cm.
  it("leaves out what does not fit the ground", () => {
    expect(names({ spacing: 28, plantsFromWall: 2 })).toEqual(["bigger pot", "full mulch", "lid"]);
    expect(names({ spacing: 26, plantsFromWall: 2 })).toEqual(["full mulch", "lid"]);
    expect(names({ spacing: 32, plantsFromWall: 2 })).toEqual(["bigger pot", "second pot", "full mulch", "lid"]);
  });

  it("changes one thing of the plan and leaves the rest", () => {
    const plan = planned(roomy);
    const [bigger, second, mulch, lid] = alternatives(plan).map((each) => each.plan);
    expectClose(outerVolume(bigger!.pot), 2 * outerVolume(plan.pot), {
      tolerance: 1e-9,
      relative: true,
      unit: "cm³",
      what: "a pot twice the size",
    });
    expect({ ...bigger, pot: plan.pot }).toEqual(plan);
    expectClose(second!.areaPerPot, plan.areaPerPot / 2, {
      tolerance: 1e-9,
      unit: "cm²",
      what: "ground of one of two",
    });
    expect(second).toEqual(atSpacing(plan, second!.bed.spacing));
    expect(mulch).toEqual({ ...plan, mulchCover: 1 });
    expect(lid).toEqual({ ...plan, lid: true });
  });
});
