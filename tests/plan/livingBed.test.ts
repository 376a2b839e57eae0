import { describe, expect, it } from "vitest";
import { MONTHS } from "../../model/calendar/months.ts";
import { soundValue } from "../../model/input/faults.ts";
import { resolvePlan } from "../../model/plan/plan.ts";
import { atSpacing } from "../../model/plan/planBed.ts";
import { START_MOISTURE } from "../../model/plan/typed/startMoisture.ts";
import { planEdges, planToProblem, soilAt } from "../../model/problems/bareProblem.ts";
import { vanGenuchten } from "../../model/soil/vanGenuchten.ts";
import { crops, exampleWeather, rowNamed, textureClasses } from "../../reference-data/load.ts";
import { expectClose } from "../support/close.ts";

const BED = {
  version: 1,
  units: "metric",
  soil: { kind: "class", name: "clay" },
  pot: { shape: "cylinder", diameter: 20, height: 25 },
  crop: { kind: "listed", name: "lettuce" },
};

/** The same pot, in inches. */
const US_BED = { ...BED, units: "us", pot: { shape: "cylinder", diameter: 8, height: 10 } };

const planned = (changes: object = {}) => soundValue(resolvePlan({ ...BED, ...changes }));
const plannedUs = (changes: object = {}) => soundValue(resolvePlan({ ...US_BED, ...changes }));

function faultsOf(changes: object, bed: object = BED) {
  const result = resolvePlan({ ...bed, ...changes });
  return result.ok ? [] : result.faults;
}

const messages = (changes: object, bed?: object) => faultsOf(changes, bed).map(({ message }) => message);

const even = (month: object) => Object.fromEntries(MONTHS.map((name) => [name, month]));
const ownWeather = (changes: object = {}) => ({
  weather: { kind: "own", latitude: 45, months: { ...even({ high: 20, low: 10, rain: 40 }), ...changes } },
});
const ownCrop = (changes: object = {}) => ({ crop: { kind: "own", easyWaterSuctionKPa: 50, ...changes } });
const classMean = (name: string) => rowNamed(textureClasses(), name).mean;

describe("how moist a bed starts", () => {
  it.each([
    ["bone dry", 1500],
    ["dry", 500],
    ["moist", 50],
    ["just rained", 10],
  ])("in words, %s, is a suction of %d kPa", (startMoisture, kPa) => {
    // 1 cm of water is 0.0980665 kPa.
    expectClose(planned({ startMoisture }).startHead, -kPa / 0.0980665, { tolerance: 1e-9, unit: "cm", what: "start" });
    expect(planned({ startMoisture }).startHead).toBe(planned({ startSuctionKPa: kPa }).startHead);
  });

  it("is dry where nothing is said of it", () => {
    expect(planned().startHead).toBe(planned({ startMoisture: "dry" }).startHead);
  });

  it("is refused when told twice, naming both", () => {
    const faults = faultsOf({ startMoisture: "moist", startSuctionKPa: 120 });
    expect(faults.map(({ path, message }) => [path, message])).toEqual([
      [
        "startMoisture",
        'moisture at the start is "moist"; it must be left out where the suction at the start is given too (120 kPa), or that be left out',
      ],
    ]);
  });

  it("is refused in other words, with the one probably meant", () => {
    expect(messages({ startMoisture: "moistt" })).toEqual([
      'moisture at the start is "moistt"; it must be one of bone dry, dry, moist, just rained (did you mean moist?)',
    ]);
    expect(Object.keys(START_MOISTURE)).toEqual(["bone dry", "dry", "moist", "just rained"]);
  });
});

describe("a bed mix over native soil", () => {
  const mix = { bedMix: { kind: "class", name: "sandy loam", depth: 30 } };

  it("named is the mean of its class, down to its depth in the person's own unit", () => {
    expect(planned(mix).bedMix).toEqual({ className: "sandy loam", parameters: classMean("sandy loam"), depth: 30 });
    expect(plannedUs({ bedMix: { ...mix.bedMix, depth: 12 } }).bedMix!.depth).toBe(30.48);
  });

  it("by its own parameters is in cm and day in both unit systems", () => {
    const parameters = { thetaR: 0.05, thetaS: 0.5, alpha: 0.03, n: 1.6, Ks: 200, l: 0.5 };
    const { l, ...typed } = parameters;
    for (const [bed, depth] of [
      [planned({ bedMix: { kind: "own", ...typed, depth: 25.4 } }), 25.4],
      [plannedUs({ bedMix: { kind: "own", ...typed, depth: 10 } }), 25.4],
    ] as const)
      expect(bed.bedMix).toEqual({ className: null, parameters, depth });
  });

  it("is the run's top layer, over the native soil", () => {
    const plan = planned(mix);
    expect(planToProblem(plan)).toMatchObject({
      soil: classMean("clay"),
      topLayer: { soil: classMean("sandy loam"), depth: 30 },
    });
    expect(planToProblem(planned()).topLayer).toBeNull();
  });

  it.each([
    [10, "sandy loam"],
    [40, "clay"],
  ])("of 20 cm has the front around starters %d cm deep where moisture has risen in %s", (rootBallDepth, name) => {
    const plan = planned({
      bedMix: { ...mix.bedMix, depth: 20 },
      sowing: { kind: "starter", rootBallDepth, rootBallRadius: 4 },
    });
    const { theta } = vanGenuchten(classMean(name));
    const rise = theta(planEdges(plan).front.head) - theta(plan.startHead);
    expectClose(rise, 0.01, { tolerance: 1e-9, unit: "cm³/cm³", what: "rise at the front" });
  });

  it("ends where it ends: at its depth the native soil begins", () => {
    expect(soilAt(planned(mix), 29.99)).toEqual(classMean("sandy loam"));
    expect(soilAt(planned(mix), 30)).toEqual(classMean("clay"));
    expect(soilAt(planned(), 0)).toEqual(classMean("clay"));
  });

  it.each<[string, object, string, RegExp]>([
    [
      "too thin",
      { ...mix.bedMix, depth: 4 },
      "bedMix.depth",
      /depth of the bed mix is 4 cm; it must be from 5 to 100 cm/,
    ],
    ["without a depth", { kind: "class", name: "loam" }, "bedMix.depth", /depth of the bed mix is missing/],
    ["of no known class", { ...mix.bedMix, name: "lome" }, "bedMix.name", /bed mix is "lome".*did you mean loam\?/],
    [
      "drier at its wettest than at its driest",
      { kind: "own", thetaR: 0.4, thetaS: 0.3, alpha: 0.02, n: 1.5, Ks: 10, depth: 30 },
      "bedMix.thetaR",
      /residual water content thetaR of the bed mix is 0.4; it must be at most 0\.25, thetaS less 0\.05/,
    ],
    [
      "of a pore exponent with which dry soil passes water too easily",
      { kind: "own", thetaR: 0.1, thetaS: 0.3, alpha: 0.02, n: 1.5, Ks: 10, l: -8, depth: 30 },
      "bedMix.l",
      /l of the bed mix is -8; it must be at least -3 where n is 1\.5: below that, dry soil would pass water too easily/,
    ],
    [
      "of an unknown kind",
      { kind: "peat" },
      "bedMix.kind",
      /bed mix kind is "peat"; it must be one of none, class, own/,
    ],
  ])("%s is refused", (_, bedMix, path, message) => {
    expect(faultsOf({ bedMix }).map((fault) => fault.path)).toEqual([path]);
    expect(messages({ bedMix })[0]).toMatch(message);
  });

  it("too deep is refused in inches where a person uses them", () => {
    expect(messages({ bedMix: { ...mix.bedMix, depth: 40 } }, US_BED)).toEqual([
      "depth of the bed mix is 40 in; it must be from 1.97 to 39.4 in",
    ]);
  });
});

describe("the weather", () => {
  it("unless told otherwise is that of the example, and says so", () => {
    const { weather, month } = planned();
    const july = rowNamed(exampleWeather(), "july");
    expect(weather.isExample).toBe(true);
    expect(Object.keys(weather.months)).toEqual([...MONTHS]);
    expect(weather.months.july).toEqual({
      high: july.highC,
      low: july.lowC,
      rainMm: july.rainMm,
      rainDays: july.rainDays,
      air: null,
    });
    expect(weather).toMatchObject({ altitudeMetres: 0, years: null });
    expect(month).toBe("july");
    expect(planned({ month: "may" }).month).toBe("may");
  });

  it("of one's own is in °C and mm, whatever it was typed in", () => {
    const metric = planned(ownWeather({ july: { high: 30, low: 15, rain: 25.4, rainDays: 3 } })).weather;
    const fahrenheit = { ...even({ high: 68, low: 50, rain: 1 }), july: { high: 86, low: 59, rain: 1, rainDays: 3 } };
    const us = plannedUs({ weather: { kind: "own", latitude: 45, months: fahrenheit } }).weather;
    expect(metric).toMatchObject({ isExample: false, latitude: 45 });
    expect(metric.months.july).toEqual({ high: 30, low: 15, rainMm: 25.4, rainDays: 3, air: null });
    expect(us.months.july).toEqual({ high: 30, low: 15, rainMm: 25.4, rainDays: 3, air: null });
    expect(us.months.may).toMatchObject({ high: 20, low: 10 });
  });

  it.each([
    [0, 0],
    [1, 1],
    [40, 8],
    [400, 28],
  ])("of one's own with %d mm of rain and no word of its days has %d of them", (rain, days) => {
    expect(planned(ownWeather({ march: { high: 20, low: 10, rain } })).weather.months.march.rainDays).toBe(days);
  });

  it("in Fahrenheit typed as Celsius is refused with the range in the person's unit", () => {
    expect(messages(ownWeather({ july: { high: 90, low: 60, rain: 0 } }))).toEqual([
      "day's high of July is 90 °C; it must be from -40 to 50 °C (is it in °F?)",
      "night's low of July is 60 °C; it must be from -40 to 50 °C (is it in °F?)",
    ]);
    const months = { ...even({ high: 70, low: 50, rain: 1 }), july: { high: 130, low: 60, rain: 0 } };
    expect(messages({ weather: { kind: "own", latitude: 45, months } }, US_BED)).toEqual([
      "day's high of July is 130 °F; it must be from -40 to 122 °F",
    ]);
  });

  it("with months missing names each of them", () => {
    const { weather } = ownWeather();
    const { july, may, ...months } = weather.months as Record<string, object>;
    expect(faultsOf({ weather: { ...weather, months } }).map(({ path, message }) => [path, message])).toEqual([
      [
        "weather.months.may",
        "weather of May is missing; it must be a group of values: high, low, rain, rainDays, humidity, wind, sunHours",
      ],
      [
        "weather.months.july",
        "weather of July is missing; it must be a group of values: high, low, rain, rainDays, humidity, wind, sunHours",
      ],
    ]);
  });

  it("tells of every month that is wrong, at once", () => {
    const faults = messages(
      ownWeather({
        may: { high: 10, low: 12, rain: 5 },
        june: { high: 21, low: 21, rain: -1 },
        august: { high: 25, low: 12, rain: 5, rainDays: 0 },
      }),
    );
    expect(faults).toEqual([
      "rain of June is -1 mm; it must be from 0 to 1500 mm",
      "night's low of May is 12 °C; it must be less than the day's high of May, 10 °C",
      "night's low of June is 21 °C; it must be less than the day's high of June, 21 °C",
      "days with rain of August is 0 days; it must be more than 0, for there is rain in August",
    ]);
  });

  it("beyond the polar circles and in no known month is refused", () => {
    expect(messages({ weather: { ...ownWeather().weather, latitude: -70 }, month: "julio" })).toEqual([
      "latitude is -70 degrees; it must be from -66 to 66 degrees",
      expect.stringMatching(/^month is "julio"; it must be one of january, .*did you mean july\?/),
    ]);
  });
});

describe("the ground about a pot", () => {
  it("is what the grid gives it, 70 cm apart in both unit systems, and as typed otherwise", () => {
    expect(planned().areaPerPot).toBe(4900);
    expect(plannedUs().bed).toEqual(planned().bed);
    expect(planned({ spacing: 50 }).areaPerPot).toBe(2500);
    const triangular = planned({ spacing: 50, potGrid: "triangular" });
    expectClose(triangular.areaPerPot, 2165.0635, { tolerance: 1e-4, unit: "cm²", what: "ground in triangles" });
    expectClose(plannedUs({ spacing: 27 }).bed.spacing, 68.58, { tolerance: 1e-9, unit: "cm", what: "27 in" });
  });

  it("left out grows with the pot, so that a plan with a huge pot stays sound", () => {
    const pot = { shape: "cylinder", diameter: 100, height: 60 };
    expectClose(planned({ pot }).bed.spacing, 3.5 * 50, { tolerance: 1e-9, unit: "cm", what: "spacing" });
  });

  it("changes with the spacing that is tried, as if that had been typed", () => {
    const typed = planned({ spacing: 50, potGrid: "triangular" });
    const tried = atSpacing(planned({ potGrid: "triangular" }), 50);
    expect(tried.areaPerPot).toBe(typed.areaPerPot);
    expect(tried.bed.spacing).toBe(50);
  });

  it.each([
    { shape: "cylinder", diameter: 40, height: 30 },
    { shape: "tapered", rimDiameter: 40, baseDiameter: 20, height: 30 },
    { shape: "tapered", rimDiameter: 20, baseDiameter: 40, height: 30 },
    { shape: "jar", neckDiameter: 12, bellyDiameter: 40, bellyBelowRim: 15, baseDiameter: 15, height: 30 },
    { shape: "profile", points: [20, 40, 10].map((diameter, i) => ({ diameter, belowRim: 15 * i })) },
  ])("leaves some soil between two of %j", (pot) => {
    expect(messages({ pot, spacing: 49.9 })).toEqual([
      "pot spacing is 49.9 cm; it must be 1.25 times the pot's width of 40 cm or more, at least 50 cm: pots nearer than that leave hardly any soil between them",
    ]);
    expect(messages({ pot, spacing: 50 })).toEqual([]);
  });

  it("with pots too near is told in inches where a person uses them", () => {
    const pot = { shape: "cylinder", diameter: 16.2, height: 12 };
    expect(messages({ pot, spacing: 18 }, US_BED)).toEqual([
      "pot spacing is 18 in; it must be 1.25 times the pot's width of 16.2 in or more, at least 20.25 in: pots nearer than that leave hardly any soil between them",
    ]);
  });

  it("holds plants, mulch and a lid as typed, in the person's unit", () => {
    const typed = { plantStage: "young", mulch: { kind: "organic", cover: 80 }, lid: false };
    expect(planned({ ...typed, plantsFromWall: 25 })).toMatchObject({
      plantsFromWall: 25,
      plantStage: "young",
      mulchCover: 0.8,
      lid: false,
    });
    expectClose(plannedUs({ plantsFromWall: 6 }).plantsFromWall, 15.24, {
      tolerance: 1e-12,
      unit: "cm",
      what: "plants from the wall",
    });
  });

  it("is watered by hand by so many mm, in the person's unit", () => {
    expect(planned({ handWatering: { kind: "every", days: 2, amount: 10 } }).handWatering).toEqual({ days: 2, mm: 10 });
    expect(plannedUs({ handWatering: { kind: "every", days: 2, amount: 0.5 } }).handWatering).toEqual({
      days: 2,
      mm: expect.closeTo(12.7, 12),
    });
  });

  it("has water carried to it in cans and hoses of the person's unit, each with its default", () => {
    const { carrying } = plannedUs({ carrying: { can: 2 } });
    expectClose(carrying.canLitres, 7.570823568, { tolerance: 1e-9, unit: "L", what: "can of 2 US gal" });
    expectClose(carrying.hoseLitresPerMinute, 12, { tolerance: 1e-12, unit: "L/min", what: "hose" });
    expect(planned({ carrying: { hose: 20 } }).carrying).toEqual({ canLitres: 10, hoseLitresPerMinute: 20 });
  });

  it.each<[object, string]>([
    [{ spacing: 500 }, "pot spacing is 500 cm; it must be from 20 to 400 cm"],
    [{ potGrid: "round" }, 'pot grid is "round"; it must be one of square, triangular'],
    [{ plantsFromWall: -3 }, "distance of the plants from the pot's wall is -3 cm; it must be from 0 to 200 cm"],
    [{ plantStage: "old" }, 'stage of the plants is "old"; it must be one of young, half grown, full grown, ripening'],
    [
      { mulch: { kind: "organic", cover: 120 } },
      "share of the ground under mulch is 120 %; it must be from 0 to 100 %",
    ],
    [{ mulch: { kind: "gravel" } }, 'mulch kind is "gravel"; it must be one of none, organic'],
    [{ lid: "yes" }, 'lid is "yes"; it must be true or false'],
    [
      { handWatering: { kind: "every", days: 0, amount: 10 } },
      "days between waterings by hand is 0 days; it must be from 0.5 to 60 days",
    ],
    [
      { handWatering: { kind: "every", days: 2, amount: 200 } },
      "water given by hand each time is 200 mm; it must be from 1 to 100 mm",
    ],
    [{ carrying: { can: 100 } }, "watering can is 100 L; it must be from 1 to 30 L"],
    [{ carrying: { hose: 0 } }, "flow of the hose is 0 L/min; it must be from 1 to 100 L/min"],
    [{ carrying: { bucket: 3 } }, "carrying.bucket is not a known key; known here: can, hose"],
  ])("refuses %j", (changes, message) => {
    expect(messages(changes)).toEqual([message]);
  });

  it("in US units tells ranges in US units", () => {
    expect(
      messages(
        {
          spacing: 200,
          handWatering: { kind: "every", days: 2, amount: 10 },
          carrying: { can: 20, hose: 0.1 },
        },
        US_BED,
      ),
    ).toEqual([
      "water given by hand each time is 10 in; it must be from 0.0394 to 3.94 in",
      "watering can is 20 US gal; it must be from 0.264 to 7.93 US gal",
      "flow of the hose is 0.1 US gal/min; it must be from 0.264 to 26.4 US gal/min",
      "pot spacing is 200 in; it must be from 7.87 to 157 in",
    ]);
  });
});

describe("a crop", () => {
  it("that has no suctions of its own takes those of the crop that stands in for it", () => {
    expect(rowNamed(crops(), "basil").easyWaterHead).toBeNull();
    const { crop } = planned({ crop: { kind: "listed", name: "basil" } });
    // Lettuce: Taylor & Ashcroft (1972).
    expect(crop).toMatchObject({ name: "basil", easyWaterHead: -400 });
    expect(crop.uptake.h3).toEqual({ highDemand: -400, lowDemand: -600 });
  });

  it.each(crops().rows.map(({ name }) => name))("called %s has all that a living bed asks of it, in order", (name) => {
    const { uptake, Kc, stageDays, heightMetres, p, deepestRoots } = planned({ crop: { kind: "listed", name } }).crop;
    const { h1, h2, h3, h4 } = uptake;
    const heads = [h1, h2, h3.highDemand, h3.lowDemand, h4];
    expect(heads).toEqual(heads.toSorted((a, b) => b - a));
    for (const value of [...Object.values(Kc), ...Object.values(stageDays), heightMetres, p, deepestRoots])
      expect(value).toBeGreaterThan(0);
  });

  it("of one's own takes its growth as typed, in the person's unit", () => {
    const typed = {
      cropCoefficientInitial: 0.5,
      cropCoefficientMid: 1.2,
      cropCoefficientEnd: 0.6,
      depletionShare: 0.55,
      daysToFullSize: 100,
    };
    const { crop } = planned(ownCrop({ ...typed, height: 150, wiltingSuctionKPa: 196.133 }));
    expect(crop).toMatchObject({
      Kc: { initial: 0.5, mid: 1.2, end: 0.6 },
      p: 0.55,
      stageDays: { initial: 40, development: 60, mid: 40, late: 20 },
      heightMetres: 1.5,
    });
    expectClose(crop.uptake.h4, -2000, { tolerance: 1e-9, unit: "cm", what: "wilting head" });
    expectClose(plannedUs(ownCrop({ height: 50 })).crop.heightMetres, 1.27, {
      tolerance: 1e-12,
      unit: "m",
      what: "height",
    });
    expectClose(plannedUs(ownCrop()).crop.heightMetres, 0.4, { tolerance: 1e-12, unit: "m", what: "usual height" });
  });

  it("of one's own that suffers late wilts later still, so that a plan without the word stays sound", () => {
    const { easyWaterHead, uptake } = planned(ownCrop({ easyWaterSuctionKPa: 1000 })).crop;
    expect(uptake.h4).toBe(2 * easyWaterHead);
  });

  it.each<[object, string]>([
    [
      { easyWaterSuctionKPa: 200, wiltingSuctionKPa: 150 },
      "suction at which the crop wilts is 150 kPa; it must be greater than the suction at which the crop starts to suffer, 200 kPa",
    ],
    [{ wiltingSuctionKPa: 20 }, "suction at which the crop wilts is 20 kPa; it must be from 100 to 3000 kPa"],
    [{ cropCoefficientInitial: 2 }, "crop coefficient of young plants is 2; it must be from 0.1 to 1.5"],
    [{ cropCoefficientMid: 0 }, "crop coefficient of full-grown plants is 0; it must be from 0.1 to 1.5"],
    [{ cropCoefficientEnd: -1 }, "crop coefficient at the end is -1; it must be from 0.1 to 1.5"],
    [{ depletionShare: 1 }, "share of the available water used before stress is 1; it must be from 0.1 to 0.8"],
    [{ daysToFullSize: 5 }, "days to full size is 5 days; it must be from 10 to 200 days"],
    [{ height: 500 }, "height of the crop is 500 cm; it must be from 5 to 400 cm"],
  ])("of one's own refuses %j", (changes, message) => {
    expect(messages(ownCrop(changes))).toContain(message);
  });
});

describe("a living bed", () => {
  it("with many faults tells all of them at once, those across fields too", () => {
    const faults = faultsOf({
      bedMix: { kind: "class", name: "loam", depth: 1 },
      startMoisture: "moist",
      startSuctionKPa: 100,
      ...ownWeather({ may: { high: 5, low: 8, rain: 0 }, june: { high: 99, low: 10, rain: 0 } }),
      month: "mai",
      spacing: 22,
      plantStage: "grown",
      lid: 1,
      ...ownCrop({ wiltingSuctionKPa: 100, easyWaterSuctionKPa: 120 }),
    });
    expect(faults.map(({ path }) => path).sort()).toEqual([
      "bedMix.depth",
      "crop.wiltingSuctionKPa",
      "lid",
      "month",
      "plantStage",
      "spacing",
      "startMoisture",
      "weather.months.june.high",
      "weather.months.may.low",
    ]);
  });

  it("written out in full means the same as one left to its defaults", () => {
    const inFull = {
      bedMix: { kind: "none" },
      startMoisture: "dry",
      weather: { kind: "example" },
      month: "july",
      spacing: 70,
      potGrid: "square",
      plantsFromWall: 15,
      plantStage: "full grown",
      mulch: { kind: "none" },
      lid: true,
      handWatering: { kind: "none" },
      carrying: { can: 10, hose: 12 },
    };
    expect(planned(inFull)).toEqual(planned());
  });
});
