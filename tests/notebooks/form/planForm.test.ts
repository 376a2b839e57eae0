import { cross } from "d3-array";
import { describe, expect, it } from "vitest";
import { MONTHS, PLAN_INPUTS, type Plan, resolvePlan, soundValue } from "../../../model/public/plan.ts";
import { UNIT_SYSTEMS } from "../../../model/public/units.ts";
import demoPlan from "../../../notebooks/demo-plan.json" with { type: "json" };
import { isShown } from "../../../notebooks/form/controlTypes.ts";
import { controlAt } from "../../../notebooks/form/inputControls.ts";
import * as groups from "../../../notebooks/form/planControls.ts";
import { filledOfText, initialFilled, readPlan, typedPlan } from "../../../notebooks/form/planForm.ts";
import { expectClose } from "../../support/close.ts";

const metric = {
  version: 1,
  units: "metric",
  name: "",
  notes: "",
  soil: { kind: "class", name: "clay" },
  pot: {
    shape: "cylinder",
    diameter: 20,
    height: 30,
    wallThickness: 1,
    wallConductivity: 0.1,
    rimAboveSoil: 2,
    drainHoleDiameter: 0,
    plugLeak: 0,
  },
  filling: { kind: "float" },
  days: 10,
  crop: { kind: "listed", name: "kale" },
  rootDepth: 15,
  sowing: { kind: "seed", sowingDepth: 1, emergenceDays: 7, sproutingSuctionKPa: 300 },
};

const planControls = PLAN_INPUTS.map(({ path }) => controlAt(path));

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
  crop: {
    kind: "own",
    name: "rocket",
    easyWaterSuctionKPa: 55,
    tooWetSuctionKPa: 2,
    cropCoefficientInitial: 0.6,
    cropCoefficientMid: 1,
    cropCoefficientEnd: 0.9,
    depletionShare: 0.35,
    daysToFullSize: 45,
    height: 11,
    deepestRoots: 15,
    wiltingSuctionKPa: 900,
  },
  rootDepth: 6,
  sowing: { kind: "seed", sowingDepth: 0.5, emergenceDays: 5, sproutingSuctionKPa: 300 },
  sowingDay: 4,
  bedMix: { kind: "own", thetaR: 0.05, thetaS: 0.5, alpha: 0.03, n: 1.6, Ks: 200, l: 0.5, depth: 9 },
  weather: {
    kind: "own",
    latitude: -33,
    altitude: 1250,
    months: yearOf({ high: 71, low: 48.5, rain: 1.3, rainDays: 6, humidity: 45, wind: 5.5, sunHours: 4.5 }),
  },
  month: "january",
  bed: {
    shape: "polygon",
    points: [
      { x: 0, y: 0 },
      { x: 12.5, y: -1 },
      { x: 14, y: 6.25 },
      { x: 3, y: 5 },
    ],
  },
  spacing: 25.5,
  potGrid: "triangular",
  rowAngle: -5,
  edgeDistance: 7,
  potPlaces: [
    { x: 3, y: 2 },
    { x: 6.3, y: 2.15 },
  ],
  plantSpacing: 11,
  plantsFromWall: 5,
  plantStage: "half grown",
  mulch: { kind: "organic", cover: 65 },
  lid: false,
  handWatering: { kind: "every", days: 2, amount: 0.3 },
  carrying: { can: 2.5, hose: 4 },
  planting: { month: "october", day: 31 },
  roof: { area: 410, runoff: 92, firstFlush: 0.03 },
  tank: { volume: 275, waterHeight: 47.5, outletHeight: 30.5, lid: false },
  spareTanks: { kind: "alike", count: 3, volume: 55, transfer: 35 },
  topUp: { kind: "below", share: 15, amount: 12 },
  line: {
    waterTemperature: 71.5,
    valve: "ball valve",
    main: { length: 22, bore: 0.62, way: { kind: "humped", highest: 40, lowest: -3 } },
    rowPipe: { bore: 0.5, height: 1.5 },
    tube: {
      bore: 0.16,
      length: 9.5,
      endHeight: 2.5,
      end: { kind: "emitter", flowAtOneMetre: 0.53, exponent: 0.55 },
    },
    fullPots: "stop",
    joints: { kind: "rows", bore: 0.75, depth: 7 },
    wantedMinutes: 45,
    slack: 5,
  },
};

/** Twelve months that all differ. */
function yearOf(month: Record<string, number>) {
  const later = (i: number) => Object.entries(month).map(([name, value]) => [name, value + i]);
  return Object.fromEntries(MONTHS.map((name, i) => [name, Object.fromEntries(later(i))]));
}

/** What a form adds to a plan that says nothing of a living bed and its water. */
const life = {
  bedMix: { kind: "none" },
  weather: { kind: "example" },
  month: "july",
  bed: { shape: "rectangle", length: 4.8, width: 1.2 },
  spacing: 70,
  potGrid: "square",
  rowAngle: 0,
  plantSpacing: 30,
  plantsFromWall: 15,
  plantStage: "full grown",
  mulch: { kind: "none" },
  lid: true,
  handWatering: { kind: "none" },
  carrying: { can: 10, hose: 12 },
  planting: { month: "april", day: 15 },
  roof: { area: 50, runoff: 85, firstFlush: 0.5 },
  tank: { volume: 1000, waterHeight: 120, outletHeight: 60, lid: true },
  spareTanks: { kind: "none" },
  topUp: { kind: "none" },
  line: {
    waterTemperature: 20,
    valve: "garden tap",
    main: { length: 5, bore: 16, way: { kind: "falling" } },
    rowPipe: { bore: 13, height: 5 },
    tube: { bore: 4, length: 40, end: { kind: "open" } },
    fullPots: "overflow",
    joints: { kind: "none" },
    wantedMinutes: 60,
    slack: 10,
  },
};

/** A year of days that are all alike, as a person may paste it. */
const recordOf = (day: string) => ["date, high, low, rain", ...datesOf2023.map((date) => `${date}, ${day}`)].join("\n");
const datesOf2023 = Array.from({ length: 365 }, (_, i) =>
  new Date(Date.UTC(2023, 0, 1 + i)).toISOString().slice(0, 10),
);

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

  it.each([
    { bedMix: { kind: "class", name: "sandy loam", depth: 25 } },
    { startMoisture: "just rained" },
    { startSuctionKPa: 33 },
    { mulch: { kind: "organic", cover: 0 }, handWatering: { kind: "every", days: 0.5, amount: 1 } },
    { bed: { shape: "circle", diameter: 2.75 }, edgeDistance: 33, rowAngle: 45 },
    { potPlaces: [{ x: 1.234567, y: 0.6 }] },
    { month: "may", spacing: 95, plantStage: "young", lid: false },
    { planting: { month: "january", day: 31 }, roof: { area: 0, runoff: 100, firstFlush: 0 } },
    { spareTanks: { kind: "alike", count: 2, volume: 300, transfer: 0 } },
    { topUp: { kind: "below", share: 30, amount: 80 } },
    {
      line: { ...life.line, tube: { ...life.line.tube, endHeight: 2 }, joints: { kind: "rows", bore: 20, depth: 15 } },
    },
  ])("loses nothing of %j, and says of the rest what it meant", (changes) => {
    const plan = { ...metric, ...changes };
    const start = "startSuctionKPa" in changes ? {} : { startMoisture: "dry" };
    expect(typedPlan(filledOf(plan))).toEqual({ ...metric, ...life, ...start, ...changes });
    expect(soundValue(resolvePlan(typedPlan(filledOf(plan))))).toEqual(soundValue(resolvePlan(plan)));
  });

  it("loses nothing of a daily record of the weather", () => {
    const weather = {
      kind: "daily",
      latitude: 45,
      altitude: 210,
      recordUnits: "us",
      record: recordOf("71, 48.5, 0.1"),
    };
    expect(typedPlan(filledOf({ ...metric, weather }))).toMatchObject({ weather });
  });

  it("keeps a daily record that is at fault, and says which line is", () => {
    const record = recordOf("20, 10, 1");
    const { settings, units } = filledOf({ ...metric, weather: { kind: "daily", latitude: 45, record } });
    const bad = record.replace("2023-01-03, 20, 10, 1", "2023-01-03, 20, 10, -1");
    const filled = { units, settings: { ...settings, "weather.record": bad } };
    expect(readPlan(filled)).toMatchObject({
      ok: false,
      faults: [{ path: "weather.record", message: expect.stringMatching(/^line 4: rain is -1 mm/) }],
    });
    expect(typedPlan(filled)).toMatchObject({ weather: { record: bad } });
  });

  it("forgets the places of pots and the edge distance of the plan before, where the next one has none", () => {
    const { settings } = filledOf({ ...metric, potPlaces: [{ x: 1, y: 0.6 }], edgeDistance: 33 });
    const next = typedPlan({ units: "metric", settings: { ...settings, ...filledOf(metric).settings } });
    expect(next).not.toHaveProperty("potPlaces");
    expect(next).not.toHaveProperty("edgeDistance");
  });

  it("gives a huge pot as much room as its plan meant, and a late crop its wilting", () => {
    const crop = { kind: "own", easyWaterSuctionKPa: 1000 };
    const plan = { ...metric, pot: { ...metric.pot, diameter: 79 }, crop };
    const [read, meant] = [typedPlan(filledOf(plan)), plan].map((typed) => soundValue(resolvePlan(typed)));
    expectClose(read!.bed.spacing, meant!.bed.spacing, { tolerance: 1e-4, unit: "cm", what: "spacing" });
    expectClose(read!.crop.uptake.h4, meant!.crop.uptake.h4, { tolerance: 0.01, unit: "cm", what: "wilting head" });
  });

  it("says of days with rain that were left out what the plan took them for", () => {
    const weather = { kind: "own", latitude: 45, months: yearOf({ high: 20, low: 5, rain: 30 }) };
    const [read, meant] = [typedPlan(filledOf({ ...metric, weather })), { ...metric, weather }].map((typed) =>
      soundValue(resolvePlan(typed)),
    );
    expect(read!.weather).toEqual(meant!.weather);
  });

  it("starts a place's own weather from the example's, and writes no months of the example", () => {
    const { settings, units } = filledOf(metric);
    expect(typedPlan({ settings, units })).toMatchObject({ weather: { kind: "example" } });
    const read = soundValue(readPlan({ units, settings: { ...settings, "weather.kind": "own" } }));
    const example = soundValue(resolvePlan(metric)).weather;
    expect(read.weather).toEqual({ ...example, isExample: false });
  });

  it("opens of a place's own weather the chosen month alone", () => {
    const open = (kind: string, airHow = "unknown") =>
      groups.weather
        .filter((control) => isShown(control, { "weather.kind": kind, month: "may", airHow }))
        .map(({ field }) => field);
    const inMay = (...names: string[]) => names.map((name) => `weather.months.may.${name}`);
    const place = ["month", "weather.kind", "weather.latitude", "weather.altitude"];
    const means = inMay("high", "low", "rain", "rainDays");
    expect(open("own")).toEqual([...place, "airHow", ...means]);
    expect(open("own", "known")).toEqual([...place, "airHow", ...means, ...inMay("humidity", "wind", "sunHours")]);
    expect(open("daily", "known")).toEqual([...place, "weather.recordUnits", "weather.record"]);
    expect(open("example", "known")).toEqual(["month", "weather.kind"]);
  });

  it("fills the suction that a word for the start stands for", () => {
    const [words] = groups.start;
    if (words?.kind !== "choice") throw new Error("no choice of words");
    expect(words.fills?.("moist")).toEqual({ startSuctionKPa: 50 });
    expect(words.fills?.("own")).toEqual({});
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
    expect(saved(centimetres.value)).toEqual(saved(inches.value));
  });

  it("turns 48.5 °F into 9.17 °C, and back", () => {
    const months = (units: "metric" | "us") =>
      typedPlan({ ...filledOf(own), units }) as { weather: { months: Record<string, { low: number }> } };
    expect(months("us").weather.months.january!.low).toBe(48.5);
    expectClose(months("metric").weather.months.january!.low, 9.166667, { tolerance: 1e-9, unit: "°C", what: "low" });
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
    const { settings: start } = initialFilled(undefined);
    const cases = planControls
      .filter((each) => each?.kind === "number")
      .flatMap((control) => cross([control], [control.min, control.max], kinds))
      .map(([control, value, kind]) => ({
        control,
        settings: { ...start, ...kind, ...other(control.field), [control.field]: value },
      }));
    for (const { control, settings } of cases.filter((each) => isShown(each.control, each.settings)))
      expect(rangeFaults(control.field, readPlan({ units, settings }))).toEqual([]);
  });
});

/** What is said of a field's range, and not of how it goes with other fields. */
function rangeFaults(field: string, read: ReturnType<typeof readPlan>): string[] {
  const isRange = (allowed: string) => /^(from|at least \d|at most \d|greater than \d|less than \d)/.test(allowed);
  const faults = read.ok ? [] : read.faults;
  return faults.filter(({ path, allowed }) => path === field && isRange(allowed)).map(({ message }) => message);
}

/** A resolved living bed, rounded to what is left of it after a change of units. */
function saved({ bedMix, weather, bed, plantsFromWall, handWatering, carrying, crop, ...rest }: Plan) {
  const { plantingDay, roof, tank, spareTanks, topUp, line } = rest;
  const water = { plantingDay, roof, tank, spareTanks, topUp, line };
  const rounded = (_: string, value: unknown) => (typeof value === "number" ? Number(value.toPrecision(5)) : value);
  return JSON.stringify({ bedMix, weather, bed, plantsFromWall, handWatering, carrying, crop, ...water }, rounded);
}

/** The choices under which a control is shown. */
const other = (field: string) => ({
  startMoisture: "own",
  "bedMix.kind": field === "bedMix.name" ? "class" : "own",
  "weather.kind": "own",
  airHow: "known",
  "planting.month": "january",
  "spareTanks.kind": "alike",
  "topUp.kind": "below",
  "line.main.way.kind": "humped",
  tubeEndHow: "own",
  "line.tube.end.kind": "emitter",
  "line.joints.kind": "rows",
  "bed.shape": field === "bed.diameter" ? "circle" : "rectangle",
  edgeHow: "own",
  "mulch.kind": "organic",
  "handWatering.kind": "every",
  "filling.kind": "every",
  "crop.kind": field.startsWith("crop.") ? "own" : "listed",
  "sowing.kind": /rootBall|hand/.test(field) ? "starter" : "seed",
  sowWhen: "own",
});
