import { median } from "d3-array";
import { describe, expect, it } from "vitest";
import { type Drawing, drawMembers, MEMBER_GROUPS, SOIL_GROUPS } from "../../model/ensemble/members.ts";
import { walls } from "../../reference-data/load.ts";
import { planned } from "../advice/handMade.ts";
import { expectClose } from "../support/close.ts";

const draw = (plan: ReturnType<typeof planned>, drawing: Partial<Drawing> = {}) =>
  drawMembers(plan, { count: 400, seed: 5, varied: MEMBER_GROUPS, ...drawing });

describe("members", () => {
  it("stand in order of their index", () => {
    expect(draw(planned(), { count: 3 }).map(({ index }) => index)).toEqual([0, 1, 2]);
  });

  it("for the bands differ in their soil alone", () => {
    const plan = planned();
    const members = draw(plan, { varied: SOIL_GROUPS });
    expect(new Set(members.map(({ soil }) => soil.Ks)).size).toBe(400);
    expect(new Set(members.map(({ soil }) => soil.n)).size).toBe(400);
    for (const { className, wallFactor, startHead, potScale } of members)
      expect({ className, wallFactor, startHead, potScale }).toEqual({
        className: "loam",
        wallFactor: 1,
        startHead: plan.startHead,
        potScale: 1,
      });
  });

  it("whose conductivity alone varies keep the plan's retention, and the other way round", () => {
    const { parameters } = planned().soil;
    for (const { soil } of draw(planned(), { varied: ["conductivity"] }))
      expect(soil).toEqual({ ...parameters, Ks: soil.Ks });
    for (const { soil } of draw(planned(), { varied: ["retention"] })) {
      expect(soil).toMatchObject({ Ks: parameters.Ks, l: parameters.l });
      expect(soil.alpha).not.toBe(parameters.alpha);
    }
  });

  it("where nothing varies are the plan, without a drawn class", () => {
    const plan = planned();
    expect(draw(plan, { count: 1, varied: [] })).toEqual([
      {
        index: 0,
        soil: plan.soil.parameters,
        className: null,
        wallFactor: 1,
        startHead: plan.startHead,
        potScale: 1,
      },
    ]);
  });

  it("of a soil given by its own parameters keep it", () => {
    const soil = { kind: "own", thetaR: 0.05, thetaS: 0.4, alpha: 0.02, n: 1.4, Ks: 10 };
    const plan = planned({ soil });
    for (const member of draw(plan)) expect(member).toMatchObject({ soil: plan.soil.parameters, className: null });
  });

  it("of a texture bear the classes around its point, five percentage points unless told otherwise", () => {
    const texture = { kind: "texture", sand: 35, silt: 38, clay: 27 };
    const classes = (soil: object) => new Set(draw(planned({ soil })).map(({ className }) => className));
    expect(classes({ ...texture, uncertainty: 0 })).toEqual(new Set(["clay loam"]));
    expect(classes(texture)).toEqual(classes({ ...texture, uncertainty: 5 }));
    expect(classes(texture).size).toBeGreaterThan(2);
  });
});

/** The middle of log-uniform draws is their geometric mean; its standard error is half the width over √N. */
function expectLogUniform(values: number[], least: number, greatest: number, what: string) {
  expect(Math.min(...values)).toBeGreaterThanOrEqual(least * (1 - 1e-12));
  expect(Math.max(...values)).toBeLessThanOrEqual(greatest * (1 + 1e-12));
  const width = Math.log(greatest / least);
  const middle = Math.log(median(values)! / least) / width;
  expectClose(middle, 0.5, { tolerance: (4 * 0.5) / Math.sqrt(values.length), what: `middle of ${what}` });
}

describe("what is not the soil is drawn evenly in its logarithm", () => {
  it("the wall's conductance over the published range, whatever the plan's own", () => {
    const { min, max } = walls().ranges.conductance;
    const plan = planned({
      pot: { shape: "cylinder", diameter: 20, height: 25, wallThickness: 2, wallConductivity: 0.5 },
    });
    const conductances = draw(plan).map(({ wallFactor }) => (wallFactor * 0.5) / 2);
    expectLogUniform(conductances, min, max, "conductance");
  });

  it("the suction at the start between a third and three times the plan's, within what a plan may hold", () => {
    const suctions = (kPa: number) => draw(planned({ startSuctionKPa: kPa })).map(({ startHead }) => -startHead);
    const own = -planned({ startSuctionKPa: 500 }).startHead;
    expectLogUniform(suctions(500), own / 3, 3 * own, "suction");
    expectLogUniform(suctions(1), 10, 3 * -planned({ startSuctionKPa: 1 }).startHead, "suction of a wet start");
    expectLogUniform(suctions(10_000), -planned({ startSuctionKPa: 10_000 }).startHead / 3, 1e5, "of a dry start");
  });

  it("the pot's size between four fifths and five quarters", () => {
    expectLogUniform(
      draw(planned()).map(({ potScale }) => potScale),
      0.8,
      1.25,
      "size",
    );
  });

  it.each([
    { shape: "cylinder", diameter: 10, height: 25 },
    { shape: "tapered", rimDiameter: 20, baseDiameter: 10, height: 25 },
    { shape: "jar", neckDiameter: 10, bellyDiameter: 20, bellyBelowRim: 10, baseDiameter: 6, height: 25 },
    { shape: "cylinder", diameter: 20, height: 8, rimAboveSoil: 3 },
    { shape: "cylinder", diameter: 20, height: 5, rimAboveSoil: -3 },
    {
      shape: "profile",
      points: [
        { diameter: 10, belowRim: 0 },
        { diameter: 20, belowRim: 10 },
        { diameter: 0, belowRim: 20 },
      ],
    },
  ])("but no pot so small that its wall fills it: $shape", (pot) => {
    // The narrowest radius, the depth or the height is 5 cm and the wall 3.9 cm: 1.1 walls fill a pot scaled by 0.858.
    const scales = draw(planned({ pot: { ...pot, wallThickness: 3.9 } })).map(({ potScale }) => potScale);
    expectLogUniform(scales, 0.858, 1.25, "size");
  });
});
