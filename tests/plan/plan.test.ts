import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { z } from "zod";
import { soundValue } from "../../model/input/faults.ts";
import { readPlan, resolvePlan, serializePlan } from "../../model/plan/plan.ts";
import { planSchema } from "../../model/plan/typed/planSchema.ts";
import { potLitres } from "../../model/pot/buildPot.ts";
import { problemFileSchema } from "../../model/problems/problemFile.ts";
import { expectClose } from "../support/close.ts";

const BED = {
  version: 1,
  units: "metric",
  soil: { kind: "class", name: "loam" },
  pot: { shape: "tapered", rimDiameter: 30, baseDiameter: 18, height: 28 },
  crop: { kind: "listed", name: "tomato" },
};

const resolved = (typed: object) => soundValue(resolvePlan(typed));

function faultsOf(typed: unknown) {
  const result = resolvePlan(typed);
  return result.ok ? [] : result.faults;
}

const demoText = () => readFileSync(new URL("../../notebooks/demo-plan.json", import.meta.url), "utf8");

describe("a plan", () => {
  it("that names a soil, a pot and a crop is filled in, in cm and day", () => {
    expect(resolved(BED)).toEqual({
      version: 1,
      units: "metric",
      name: "",
      notes: "",
      soil: {
        className: "loam",
        texture: null,
        parameters: { thetaR: 0.078, thetaS: 0.43, alpha: 0.036, n: 1.56, Ks: 24.96, l: 0.5 },
      },
      pot: {
        shape: "tapered",
        rimRadius: 15,
        baseRadius: 9,
        wallThickness: 1.6,
        wallConductivity: 0.08,
        rimDepth: -2,
        outerDepth: 26,
        plugLeakLitres: 0,
      },
      drainHoleDiameter: 0,
      filling: { kind: "every", days: 3 },
      // 500 kPa of suction; 1 cm of water is 0.0980665 kPa.
      startHead: expect.closeTo(-500 / 0.0980665, 6),
      days: 14,
      // Roots: the lesser of 0.7 to 1.5 m, Allen et al. (1998), Table 22.
      crop: {
        name: "tomato",
        easyWaterHead: -800,
        tooWetHead: -25,
        deepestRoots: 70,
        // Taylor & Ashcroft (1972) and Feddes et al. (1978); Allen et al. (1998), Tables 12, 11 and 22.
        uptake: { h1: -10, h2: -25, h3: { highDemand: -800, lowDemand: -1500 }, h4: -8000 },
        Kc: { initial: 0.6, mid: 1.15, end: 0.8 },
        stageDays: { initial: 30, development: 40, mid: 45, late: 30 },
        heightMetres: 0.6,
        p: 0.4,
      },
      rootDepth: 20,
      sowing: { kind: "seed", sowingDepth: 1, emergenceDays: 14, sproutingHead: -3000 },
      sowingDay: null,
      bedMix: null,
      weather: { isExample: true, latitude: 40, altitudeMetres: 0, months: expect.any(Object), years: null },
      month: "july",
      areaPerPot: 70 ** 2,
      bed: {
        outline: { shape: "rectangle", length: 480, width: 120 },
        spacing: 70,
        grid: "square",
        rowAngle: 0,
        edgeDistance: 70 / 3,
        isEdgeUsual: true,
        potPlaces: null,
        plantSpacing: 30,
      },
      plantsFromWall: 15,
      plantStage: "full grown",
      mulchCover: 0,
      lid: true,
      handWatering: null,
      carrying: { canLitres: 10, hoseLitresPerMinute: 12 },
      // 31 + 28 + 31 + 15.
      plantingDay: 105,
      roof: { area: 500_000, runoff: 0.85, firstFlushMm: 0.5 },
      tank: { litres: 1000, waterHeight: 120, outletHeight: 60, lid: true },
      spareTanks: null,
      topUp: null,
      line: {
        celsius: 20,
        valve: "garden tap",
        mainLength: 500,
        mainBore: 16,
        mainHump: null,
        rowBore: 13,
        rowHeight: 5,
        tubeBore: 4,
        tubeLength: 40,
        // The rim's.
        tubeEndHeight: 2,
        emitter: null,
        whenFull: "overflow",
        joints: null,
        wantedMinutes: 60,
        slack: 0.1,
      },
    });
  });

  it("may have as little as 0.05 of room for water in its soil, and all of the room there is", () => {
    for (const [thetaR, thetaS] of [
      [0, 0.05],
      [0.38, 0.43],
      [0.35, 0.4],
      [0.95, 1],
      [0, 1],
    ])
      expect(resolved({ ...BED, soil: own({ thetaR, thetaS }) }).soil.parameters).toMatchObject({ thetaR, thetaS });
  });

  it("left to its defaults is the same in both unit systems", () => {
    const metric = resolved({ ...BED, pot: { shape: "cylinder", diameter: 25.4, height: 30.48 } });
    const us = resolved({ ...BED, units: "us", pot: { shape: "cylinder", diameter: 10, height: 12 } });
    expectClose(us.pot.wallThickness, metric.pot.wallThickness, { tolerance: 1e-12, unit: "cm", what: "wall" });
    expectClose(us.pot.outerDepth, metric.pot.outerDepth, { tolerance: 1e-12, unit: "cm", what: "base depth" });
    expectClose(us.rootDepth, metric.rootDepth, { tolerance: 1e-12, unit: "cm", what: "root depth" });
  });

  it("in inches and gallons is read as inches and gallons, its own soil in cm and day all the same", () => {
    const soil = { kind: "own", thetaR: 0.05, thetaS: 0.4, alpha: 0.02, n: 1.5, Ks: 10 };
    const plan = resolved({
      ...BED,
      units: "us",
      soil,
      pot: {
        shape: "cylinder",
        diameter: 10,
        height: 12,
        wallThickness: 0.5,
        wallConductivity: 0.05,
        rimAboveSoil: -1,
        plugLeak: 0.1,
      },
      sowing: { kind: "seed", sowingDepth: 0.5 },
    });
    expect(plan.pot).toEqual({
      shape: "cylinder",
      outerRadius: 12.7,
      wallThickness: 1.27,
      wallConductivity: 0.127,
      rimDepth: 2.54,
      outerDepth: expect.closeTo(33.02, 10),
      plugLeakLitres: expect.closeTo(0.3785411784, 12),
    });
    expect(plan.soil.parameters).toEqual({ thetaR: 0.05, thetaS: 0.4, alpha: 0.02, n: 1.5, Ks: 10, l: 0.5 });
    expect(plan.sowing).toMatchObject({ sowingDepth: 1.27 });
  });

  // Texture edge cases: Soil Survey Manual, USDA Handbook 18.
  it.each([
    [{ kind: "texture", sand: 50, silt: 30, clay: 20 }, "loam"],
    [{ kind: "texture", sand: 55, silt: 25, clay: 20 }, "sandy clay loam"],
    [{ kind: "texture", sand: 33.3, silt: 33.3, clay: 33.3 }, "clay loam"],
    [{ kind: "texture", sand: 0, silt: 0, clay: 100 }, "clay"],
    [{ kind: "jar", sandHeight: 8.5, siltHeight: 0.9, clayHeight: 0.6 }, "loamy sand"],
  ])("finds the class of the soil %j: %s", (soil, name) => {
    const plan = resolved({ ...BED, soil });
    expect(plan.soil.className).toBe(name);
    const { sand, silt, clay } = plan.soil.texture!;
    expectClose(sand + silt + clay, 100, { tolerance: 1e-9, unit: "%", what: "sum of the shares" });
  });

  it.each([
    { kind: "texture", sand: 50, silt: 30, clay: 20 },
    { kind: "jar", sandHeight: 5, siltHeight: 3, clayHeight: 2 },
  ])("takes sand and clay of a $kind as uncertain by 5 points unless told otherwise", (soil) => {
    expect(resolved({ ...BED, soil }).soil.texture!.sd).toBe(5);
    expect(resolved({ ...BED, soil: { ...soil, uncertainty: 1.5 } }).soil.texture!.sd).toBe(1.5);
  });

  it("takes any shares of the triangle to exactly one class", () => {
    for (let sand = 0; sand <= 100; sand += 3.7)
      for (let clay = 0; clay <= 100 - sand; clay += 2.3)
        expect(
          resolved({ ...BED, soil: { kind: "texture", sand, clay, silt: 100 - sand - clay } }).soil.className,
        ).not.toBeNull();
  });

  it("describes jars and profiles by what a gardener can measure", () => {
    const jar = { shape: "jar", neckDiameter: 12, bellyDiameter: 28, bellyBelowRim: 14, baseDiameter: 12, height: 27 };
    expect(resolved({ ...BED, pot: { ...jar, rimAboveSoil: 3 } }).pot).toMatchObject({
      neckRadius: 6,
      bellyRadius: 14,
      bellyDepth: 11,
      baseRadius: 6,
      rimDepth: -3,
      outerDepth: 24,
    });
    const points = [24, 30, 10].map((diameter, i) => ({ diameter, belowRim: 10 * i }));
    expect(resolved({ ...BED, pot: { shape: "profile", points, rimAboveSoil: 3 } }).pot).toMatchObject({
      points: [
        { r: 12, d: -3 },
        { r: 15, d: 7 },
        { r: 5, d: 17 },
      ],
      outerDepth: 17,
    });
  });

  it("takes crops and starters of a person's own", () => {
    const plan = resolved({
      ...BED,
      crop: { kind: "own", name: "chard", easyWaterSuctionKPa: 98.0665 },
      sowing: { kind: "starter", rootBallDepth: 8, rootBallRadius: 3 },
    });
    const easyWater = expect.closeTo(-1000, 9);
    expect(plan.crop).toEqual({
      name: "chard",
      easyWaterHead: easyWater,
      tooWetHead: expect.closeTo(-25, 9),
      deepestRoots: 60,
      // Listed crops: -10 over -25 cm.
      uptake: {
        h1: expect.closeTo(-10, 9),
        h2: expect.closeTo(-25, 9),
        h3: { highDemand: easyWater, lowDemand: easyWater },
        h4: -8000,
      },
      Kc: { initial: 0.7, mid: 1.05, end: 0.95 },
      stageDays: { initial: 24, development: 36, mid: 40, late: 20 },
      heightMetres: 0.4,
      p: 0.4,
    });
    expect(plan.sowing).toEqual({ kind: "starter", rootBallDepth: 8, rootBallRadius: 3, handWateringDays: 7 });
  });

  it("takes the deepest roots of a crop of one's own as typed, in the plan's own unit", () => {
    const crop = { kind: "own", name: "chard", easyWaterSuctionKPa: 50, deepestRoots: 40 };
    expect(resolved({ ...BED, crop }).crop.deepestRoots).toBe(40);
    expect(resolved({ ...BED, units: "us", pot: { ...BED.pot, height: 12 }, crop }).crop.deepestRoots).toBe(101.6);
  });

  it("saved and read again is what was typed, to the letter", () => {
    for (const typed of [BED, JSON.parse(demoText()), { ...BED, days: "a fortnight" }]) {
      const again = readPlan(serializePlan(typed));
      expect(again.typed).toEqual(typed);
      expect(again).toEqual(resolvePlan(typed));
    }
  });

  it("of the demonstration is sound, is marked as invented and has a pot of about 12 L", () => {
    const demo = soundValue(readPlan(demoText()));
    expect(demo.notes).toMatch(/invented/i);
    expectClose(potLitres(demo.pot), 12, { tolerance: 0.5, unit: "L", what: "demo pot" });
  });
});

const tapered = BED.pot;

describe("a plan with", () => {
  it.each<[string, object, string, RegExp]>([
    [
      "a word for a number",
      { days: "two weeks" },
      "days",
      /days to look ahead is "two weeks"; it must be a number from 0.01 to 120 days/,
    ],
    ["a number that is none", { rootDepth: Number.NaN }, "rootDepth", /depth of most roots is not a number/],
    [
      "a negative height",
      { pot: { ...tapered, height: -28 } },
      "pot.height",
      /pot height is -28 cm; it must be from 2 to 150 cm/,
    ],
    ["a negative suction", { startSuctionKPa: -100 }, "startSuctionKPa", /-100 kPa; it must be from 1 to 10000 kPa/],
    ["zero days", { days: 0 }, "days", /0 days; it must be from 0.01 to 120 days/],
    ["absurd days", { days: 1e6 }, "days", /1000000 days; it must be from 0.01 to 120 days/],
    ["refills every 0 days", { filling: { kind: "every", days: 0 } }, "filling.days", /days between refills is 0 days/],
    [
      "shares that miss 100 %",
      { soil: { kind: "texture", sand: 40, silt: 40, clay: 15 } },
      "soil",
      /sum of sand, silt and clay is 95 %; it must be 100 %/,
    ],
    [
      "shares beyond 100 %",
      { soil: { kind: "texture", sand: 40, silt: 40, clay: 21 } },
      "soil",
      /is 101 %; it must be 100 %/,
    ],
    [
      "a texture more uncertain than any",
      { soil: { kind: "texture", sand: 40, silt: 40, clay: 20, uncertainty: 21 } },
      "soil.uncertainty",
      /uncertainty of sand and clay is 21 percentage points; it must be from 0 to 20 percentage points/,
    ],
    [
      "an empty jar",
      { soil: { kind: "jar", sandHeight: 0, siltHeight: 0, clayHeight: 0 } },
      "soil",
      /height of soil in the jar is 0 cm/,
    ],
    [
      "an unknown soil",
      { soil: { kind: "class", name: "sandy lome" } },
      "soil.name",
      /soil is "sandy lome"; it must be one of sand,.*did you mean sandy loam\?/,
    ],
    ["an unknown kind of soil", { soil: { kind: "clas" } }, "soil.kind", /soil kind is "clas".*did you mean class\?/],
    [
      "an unknown crop",
      { crop: { kind: "listed", name: "tomatoe" } },
      "crop.name",
      /crop is "tomatoe".*did you mean tomato\?/,
    ],
    [
      "a wall thicker than half the pot",
      { pot: { ...tapered, rimDiameter: 18, wallThickness: 12 } },
      "pot.wallThickness",
      /^pot wall is 12 cm; it must be thinner than half the rim, 9 cm$/,
    ],
    [
      "a wall thicker than the pot is high",
      { pot: { ...tapered, height: 3, wallThickness: 4, rimAboveSoil: 0 } },
      "pot.wallThickness",
      /thinner than the pot's height, 3 cm/,
    ],
    [
      "a pot that stands clear of the soil",
      { pot: { ...tapered, rimAboveSoil: 27 } },
      "pot.rimAboveSoil",
      /27 cm; it must be less than 26.4 cm/,
    ],
    [
      "a cone whose water would stand above the soil",
      {
        pot: {
          shape: "profile",
          points: [
            { diameter: 10, belowRim: 0 },
            { diameter: 0, belowRim: 20 },
          ],
          wallThickness: 1,
          rimAboveSoil: 17,
        },
      },
      "pot.wallThickness",
      // At the surface the cone is 3 cm high still; its side is 3 · 5 / √(5² + 20²) cm away from the axis.
      /^pot wall is 1 cm; it must be less than 0\.7276 cm, so that water stands in the pot below the soil surface$/,
    ],
    [
      "a pot that holds less than a twentieth of a litre",
      // π · 2.5² · 2.5 cm³.
      { pot: small({ height: 3 }) },
      "pot",
      /^water in the full pot is 0\.0490874 L; it must be at least 0\.05 L: a larger pot or a thinner wall holds more$/,
    ],
    [
      "a plug that empties the pot within an hour",
      // 24 · π · 2.5² · 3.5 cm³ = 1.6493 L.
      { pot: small({ height: 4, plugLeak: 1.65 }) },
      "pot.plugLeak",
      /^plug leak is 1\.65 L\/day; it must be at most 1\.649 L\/day: a plug that leaks more lets out all/,
    ],
    [
      "a drain hole wider than the base",
      { pot: { ...tapered, drainHoleDiameter: 16 } },
      "pot.drainHoleDiameter",
      /less than the base inside the wall, 14.8 cm/,
    ],
    ["n of 1", { soil: own({ n: 1 }) }, "soil.n", /n is 1; it must be from 1.05 to 4/],
    [
      "hardly any room between thetaR and thetaS",
      { soil: own({ thetaR: 0.3501 }) },
      "soil.thetaR",
      /thetaR is 0\.3501; it must be at most 0\.35, thetaS less 0\.05: with less room, soil holds next to no water/,
    ],
    [
      "less pore space than any soil",
      { soil: own({ thetaR: 0, thetaS: 0.04 }) },
      "soil.thetaS",
      /thetaS is 0\.04; it must be from 0\.05 to 1$/,
    ],
    [
      "a pore exponent with which dry soil passes water too easily",
      { soil: own({ n: 2, l: -3 }) },
      "soil.l",
      /^l is -3; it must be at least -2\.5 where n is 2: below that, dry soil would pass/,
    ],
    [
      "a pore exponent beyond all that are known",
      { soil: own({ l: 11 }) },
      "soil.l",
      /^l is 11; it must be from -10 to 10$/,
    ],
    [
      "a crop that wants its air and its water at once",
      { crop: { kind: "own", easyWaterSuctionKPa: 2 } },
      "crop.easyWaterSuctionKPa",
      /greater than the suction below which roots lack air, 2\.452 kPa$/,
    ],
    [
      "roots that stay out of the soil",
      { crop: { kind: "own", easyWaterSuctionKPa: 50, deepestRoots: 0 } },
      "crop.deepestRoots",
      /depth of the crop's deepest roots is 0 cm; it must be from 5 to 300 cm/,
    ],
    [
      "a mistyped key",
      { startSuction: 3 },
      "startSuction",
      /startSuction is not a known key; did you mean startSuctionKPa\?/,
    ],
    ["a key with no likeness", { colour: "red" }, "colour", /known here: version, units, name/],
    ["no pot", { pot: undefined }, "pot", /pot is missing; it must be a group of values whose shape is one of/],
    [
      "an unknown unit system",
      { units: "imperial" },
      "units",
      /unit system is "imperial"; it must be "metric" or "us"/,
    ],
    ["a version that never was", { version: 0 }, "version", /plan version is 0; it must be 1/],
  ])("%s is refused by field, value and allowed range, and keeps what was typed", (_, change, path, message) => {
    const typed = { ...BED, ...change };
    const result = resolvePlan(typed);
    expect(result.typed).toBe(typed);
    expect(faultsOf(typed).map((fault) => fault.path)).toEqual([path]);
    expect(faultsOf(typed)[0]!.message).toMatch(message);
  });

  it("a jar or a profile that cannot be is refused at every point that is wrong", () => {
    const jar = { shape: "jar", neckDiameter: 12, bellyDiameter: 10, bellyBelowRim: 27, baseDiameter: 11, height: 27 };
    expect(faultsOf({ ...BED, pot: jar }).map(({ path }) => path)).toEqual([
      "pot.bellyDiameter",
      "pot.bellyDiameter",
      "pot.bellyBelowRim",
    ]);
    const points = [3, 20, 10].map((diameter, i) => ({ diameter, belowRim: 10 - i }));
    expect(faultsOf({ ...BED, pot: { shape: "profile", points } }).map(({ path }) => path)).toEqual([
      "pot.wallThickness",
      "pot.points.0.belowRim",
      "pot.points.1.belowRim",
      "pot.points.2.belowRim",
    ]);
  });

  it("a pot as small, and a plug as leaky, as may be is taken; what stands above the soil counts", () => {
    for (const change of [{ height: 3.1 }, { height: 3.1, rimAboveSoil: 2.5 }, { height: 4, plugLeak: 1.649 }])
      expect(faultsOf({ ...BED, pot: small(change) })).toEqual([]);
  });

  it("too small a pot with too leaky a plug tells both, in the person's own unit", () => {
    const pot = { shape: "cylinder", diameter: 1.5, height: 2, wallThickness: 0.25, rimAboveSoil: 0, plugLeak: 1 };
    // π · 0.5² · 1.75 in³ of 1/231 US gal.
    expect(faultsOf({ ...BED, units: "us", pot }).map(({ path, message }) => [path, message])).toEqual([
      [
        "pot",
        expect.stringMatching(/^water in the full pot is 0\.00594999 US gal; it must be at least 0\.01321 US gal:/),
      ],
      ["pot.plugLeak", expect.stringMatching(/^plug leak is 1 US gal\/day; it must be at most 0\.1427 US gal\/day:/)],
    ]);
  });

  it("ranges tells them in the person's own unit", () => {
    expect(faultsOf({ ...BED, units: "us", rootDepth: 300 })[0]!.message).toBe(
      "depth of most roots is 300 in; it must be from 0.394 to 39.4 in",
    );
  });

  it("many faults tells all of them at once, those across fields too", () => {
    const typed = {
      ...BED,
      units: "metre",
      soil: { kind: "texture", sand: 50, silt: 40, clay: 30 },
      pot: { ...tapered, rimDiameter: 18, height: "tall", wallThickness: 12, lid: true },
      days: 0,
      crop: { kind: "own", easyWaterSuctionKPa: 1 },
    };
    expect(
      faultsOf(typed)
        .map(({ path }) => path)
        .sort(),
    ).toEqual(["crop.easyWaterSuctionKPa", "days", "pot.height", "pot.lid", "pot.wallThickness", "soil", "units"]);
  });
});

describe("a plan file", () => {
  it("that is corrupt is refused in plain words, its text kept", () => {
    const result = readPlan('{"version": 1, "units"');
    expect(result.ok ? [] : result.faults.map(({ message }) => message)).toEqual([
      expect.stringMatching(/^the plan file is not a complete JSON text/),
    ]);
    expect(result.typed).toBe('{"version": 1, "units"');
  });

  it("of a later version says so and nothing else, since its other keys are not ours to judge", () => {
    const result = readPlan(JSON.stringify({ ...BED, version: 2, beds: [] }));
    expect(result.ok ? [] : result.faults.map(({ message }) => message)).toEqual([
      "plan version is 2; it must be 1: this plan was saved by a later version",
    ]);
  });

  it.each(["3", "null", "[]", '"plan"'])("that holds %s instead of a plan is refused", (text) => {
    const result = readPlan(text);
    expect(result.ok ? [] : result.faults.map(({ message }) => message)).toEqual([
      expect.stringMatching(/^plan is .*; it must be a group of values: version, units/),
    ]);
  });
});

describe("the exported JSON Schemas", () => {
  it.each([
    ["plan", planSchema],
    ["problem", problemFileSchema],
  ])("of the %s file are those of the code (npm run schemas writes them)", (name, schema) => {
    const file = new URL(`../../reference-data/schemas/${name}.schema.json`, import.meta.url);
    expect(JSON.parse(readFileSync(file, "utf8"))).toEqual(
      JSON.parse(JSON.stringify(z.toJSONSchema(schema, { io: "input" }))),
    );
  });
});

function own(change: object) {
  return { kind: "own", thetaR: 0.05, thetaS: 0.4, alpha: 0.02, n: 1.5, Ks: 10, ...change };
}

function small(change: object) {
  return { shape: "cylinder", diameter: 6, height: 3, wallThickness: 0.5, rimAboveSoil: 0, ...change };
}
