import { describe, expect, it } from "vitest";
import { resolvePlan, soundValue, UNIT_SYSTEMS } from "../../model/index.ts";
import demoPlan from "../../notebooks/demo-plan.json" with { type: "json" };
import { isShown } from "../../notebooks/lib/controlTypes.ts";
import { planControls } from "../../notebooks/lib/planControls.ts";
import { filledOfText, initialFilled, readPlan, typedPlan } from "../../notebooks/lib/planForm.ts";
import { expectClose } from "../support/close.ts";

const filledOf = (plan: unknown) => soundValue(filledOfText(JSON.stringify(plan)));

const own = {
  version: 1,
  units: "us",
  name: "two words",
  notes: "kept",
  soil: { kind: "own", thetaR: 0.07, thetaS: 0.41, alpha: 0.02, n: 1.4, Ks: 12.5, l: 0.5 },
  pot: {
    shape: "profile",
    points: [
      { diameter: 4, belowRim: 0 },
      { diameter: 9, belowRim: 5 },
      { diameter: 3, belowRim: 10 },
    ],
    wallThickness: 0.45,
    wallConductivity: 0.03,
    rimAboveSoil: 0.5,
    drainHoleDiameter: 0,
    plugLeak: 0,
  },
  filling: { kind: "float" },
  startSuctionKPa: 80,
  days: 10,
  crop: { kind: "own", name: "rocket", easyWaterSuctionKPa: 55, tooWetSuctionKPa: 2 },
  rootDepth: 6,
  sowing: { kind: "seed", sowingDepth: 0.5, emergenceDays: 5, sproutingSuctionKPa: 300 },
  sowingDay: 4,
};

describe("the form of a plan", () => {
  it("starts from the demo bed", () => {
    const resolved = soundValue(resolvePlan(demoPlan));
    const read = soundValue(readPlan(initialFilled(undefined)));
    expect(read.soil).toEqual(resolved.soil);
    expect(read.name).toBe(resolved.name);
    expectClose(read.pot.outerDepth, 11 * 2.54, { tolerance: 1e-9, unit: "cm", what: "depth of the base" });
  });

  it("loses nothing of a plan that is loaded and saved", () => {
    expect(typedPlan(filledOf(own))).toEqual(own);
  });

  it("saves the same bed in the other unit system", () => {
    const inches = readPlan(filledOf(own));
    const centimetres = readPlan({ ...filledOf(own), units: "metric" });
    if (!inches.ok || !centimetres.ok) throw new Error("refused");
    const { pot } = centimetres.value;
    if (pot.shape !== "profile") throw new Error("another pot");
    expectClose(pot.points[1]!.r, (9 * 2.54) / 2, { tolerance: 1e-9, unit: "cm", what: "belly radius" });
    expectClose(pot.wallConductivity, 0.03 * 2.54, { tolerance: 1e-9, unit: "cm/day", what: "wall conductivity" });
    expectClose(centimetres.value.rootDepth, inches.value.rootDepth, {
      tolerance: 1e-9,
      unit: "cm",
      what: "root depth",
    });
  });

  it("falls back to the demo bed when what was kept is no form", () => {
    for (const kept of [null, 3, "x", {}, { units: "cubits", settings: {} }])
      expect(initialFilled(kept)).toEqual(initialFilled(undefined));
  });

  it("keeps what a person had filled in", () => {
    const kept = { units: "metric", settings: { "soil.name": "clay" } };
    expect(initialFilled(kept)).toMatchObject({
      units: "metric",
      settings: { "soil.name": "clay", "pot.shape": "tapered" },
    });
  });

  it("names the fault of a plan file and leaves the form alone", () => {
    expect(filledOfText("{")).toMatchObject({ ok: false });
    expect(filledOfText(JSON.stringify({ ...own, version: 9 }))).toMatchObject({
      ok: false,
      faults: [{ path: "version" }],
    });
  });

  it("tells that sand, silt and clay do not add to 100", () => {
    const { settings, units } = initialFilled(undefined);
    const read = readPlan({ units, settings: { ...settings, "soil.kind": "texture", "soil.sand": 90 } });
    expect(read).toMatchObject({ ok: false, faults: [{ path: "soil" }] });
  });

  it.each(UNIT_SYSTEMS)("has sliders that stay within what a plan allows, %s", (units) => {
    const shapes = ["tapered", "jar", "cylinder"];
    const kinds = ["class", "texture", "jar", "own"].flatMap((kind, i) => ({
      "soil.kind": kind,
      "pot.shape": shapes[i % 3]!,
    }));
    for (const control of planControls.filter((each) => each.kind === "number"))
      for (const value of [control.min, control.max])
        for (const kind of kinds) {
          const start = initialFilled(undefined).settings;
          const settings = { ...start, ...kind, ...other(control.field), [control.field]: value };
          if (!isShown(control, settings)) continue;
          const read = readPlan({ units, settings });
          const ranges = read.ok
            ? []
            : read.faults.filter(
                ({ path, allowed }) =>
                  path === control.field && /^(from|at least \d|at most \d|greater than \d|less than \d)/.test(allowed),
              );
          expect(ranges.map(({ message }) => message)).toEqual([]);
        }
  });
});

/** The choices under which a control is shown. */
const other = (field: string) => ({
  "filling.kind": "every",
  "crop.kind": field.startsWith("crop.") ? "own" : "listed",
  "sowing.kind": /rootBall|hand/.test(field) ? "starter" : "seed",
  sowWhen: "own",
});
