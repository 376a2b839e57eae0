import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { MONTHS } from "../../model/calendar/months.ts";
import * as loadChecks from "../../model/checks/loadChecks.ts";
import * as loadFlowChecks from "../../model/checks/loadFlowChecks.ts";
import * as loadLineChecks from "../../model/checks/loadLineChecks.ts";
import * as loadSupplyChecks from "../../model/checks/loadSupplyChecks.ts";
import { buildPot } from "../../model/pot/buildPot.ts";
import * as load from "../../reference-data/load.ts";
import { rowSchema, tableSchema } from "../../reference-data/table.ts";
import { expectClose } from "../support/close.ts";

const { rowNamed, sourceOf, textureClasses, soilDistributions, crops, easyWaterOf, seeds, walls, pots } = load;
const { exampleWeather, otherWatering, salt } = load;
const folder = new URL("../../reference-data/", import.meta.url);
const files = readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((name) => /^[^.]*\.json$/.test(name));

const tables = [
  ...[
    textureClasses(),
    soilDistributions(),
    crops(),
    seeds(),
    walls(),
    pots(),
    exampleWeather(),
    otherWatering(),
    salt(),
  ],
  ...Object.values(loadChecks).map((load) => load()),
  ...Object.values(loadFlowChecks).map((load) => load()),
  ...Object.values(loadLineChecks).map((load) => load()),
  ...Object.values(loadSupplyChecks).map((load) => load()),
];

/** The paths of a row's values, lists taken whole: `mean.Ks`. */
function columnsOf(value: unknown, path: string): string[] {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return [path];
  return Object.entries(value).flatMap(([key, inner]) => columnsOf(inner, path === "" ? key : `${path}.${key}`));
}

const valuesOf = ({
  name: _name,
  source: _source,
  flags: _flags,
  ...values
}: {
  name: string;
  [key: string]: unknown;
}) => columnsOf(values, "");

test("every file of the folder is read by a loader and valid", () => {
  const titleOf = (file: string): string => JSON.parse(readFileSync(new URL(file, folder), "utf8")).title;
  expect(tables.map(({ title }) => title).sort()).toEqual(files.map(titleOf).sort());
});

test("every file has its entry in the README", () => {
  const readme = readFileSync(new URL("README.md", folder), "utf8");
  expect(files.filter((file) => !readme.includes(`\`${file}\``))).toEqual([]);
});

test.each(tables)("every value has a source and a unit: $title", (table) => {
  for (const row of table.rows) {
    for (const column of valuesOf(row)) {
      expect(sourceOf(table, row, column).citation).not.toBe("");
      expect(Object.keys(table.units).filter((known) => `${column}.`.startsWith(`${known}.`))).not.toEqual([]);
    }
  }
});

test.each(tables)("names are not given twice, and flags stand on values that exist: $title", (table) => {
  expect(new Set(table.rows.map(({ name }) => name)).size).toBe(table.rows.length);
  for (const row of table.rows) {
    const paths = valuesOf(row);
    for (const flagged of Object.keys(row.flags ?? {})) {
      expect(paths.some((path) => `${path}.`.startsWith(`${flagged}.`))).toBe(true);
    }
  }
});

test("loam has the means of Carsel & Parrish and a standard deviation of Ks of 1.82 cm/h, seen", () => {
  const loam = rowNamed(textureClasses(), "loam");
  expect(loam.mean).toEqual({ thetaR: 0.078, thetaS: 0.43, alpha: 0.036, n: 1.56, Ks: 24.96, l: 0.5 });
  expect(loam.sd).toEqual({ thetaR: 0.013, thetaS: 0.1, alpha: 0.021, n: 0.11, Ks: 43.68 });
  expect(sourceOf(textureClasses(), loam, "sd.Ks").flag).toBe("seen");
  expect(sourceOf(textureClasses(), loam, "sd.n").flag).toBe("memory");
  expect(sourceOf(textureClasses(), loam, "mean.l").citation).toContain("Mualem");
});

test("tomato starts to suffer at 800 cm of suction on a hot day and at 1500 on a cool one", () => {
  const { easyWaterHead, tooWetHead } = rowNamed(crops(), "tomato");
  expect(easyWaterHead).toEqual({ highDemand: -800, lowDemand: -1500 });
  expect(tooWetHead).toBe(-25);
});

test("every crop's easy-water head is drier than its too-wet head, and drier still on a cool day", () => {
  for (const { easyWaterHead, laterEasyWaterHead, tooWetHead } of crops().rows) {
    for (const heads of [easyWaterHead, laterEasyWaterHead ?? null].filter((known) => known !== null)) {
      expect(heads.lowDemand).toBeLessThan(heads.highDemand);
      expect(heads.highDemand).toBeLessThan(tooWetHead);
    }
  }
});

const HERBS = ["basil", "parsley", "coriander", "dill", "mint", "chives"];
const canBeWatered = ({ easyWaterHead, easyWaterLike }: load.CropRow) => (easyWaterHead ?? easyWaterLike) != null;
const isComplete = (crop: load.CropRow) =>
  canBeWatered(crop) &&
  [crop.Kc, crop.rootDepthMetres, crop.p, crop.stageDays, crop.heightMetres].every((value) => value !== null);

test("26 crops and more, five herbs and more among them, have all that water use is reckoned from", () => {
  const complete = crops()
    .rows.filter(isComplete)
    .map(({ name }) => name);
  expect(complete.length).toBeGreaterThanOrEqual(26);
  expect(HERBS.filter((herb) => complete.includes(herb)).length).toBeGreaterThanOrEqual(5);
});

test("a crop without suctions of its own takes those of one that has them; one with its own takes no others", () => {
  for (const crop of crops().rows.filter(canBeWatered)) {
    const like = crop.easyWaterLike && rowNamed(crops(), crop.easyWaterLike);
    expect(crop.easyWaterHead === null).toBe(like !== undefined);
    expect(easyWaterOf(crop)).toEqual(like ? like.easyWaterHead : crop.easyWaterHead);
    expect(easyWaterOf(crop).lowDemand).toBeLessThan(0);
  }
  expect(easyWaterOf(rowNamed(crops(), "garlic"))).toEqual({ highDemand: -450, lowDemand: -550 });
});

test("a crop with neither suctions nor a stand-in is refused", () => {
  const { easyWaterLike: _, ...garlic } = rowNamed(crops(), "garlic");
  expect(() => easyWaterOf(garlic)).toThrow("garlic has no suction at which to water, and no crop stands in for it");
});

test("every value of our own choice has its reason in the row, and no other value pretends to need one", () => {
  for (const crop of crops().rows) {
    const own = valuesOf({ ...crop, reasons: undefined })
      .filter((column) => column !== "reasons" && sourceOf(crops(), crop, column.split(".")[0]!).flag === "own choice")
      .map((column) => column.split(".")[0]);
    expect(Object.keys(crop.reasons ?? {}).sort()).toEqual([...new Set(own)].sort());
  }
});

test("roots drink nothing wetter than the airless head and drier than the wilting head, beyond where drinking begins to fall", () => {
  for (const crop of crops().rows) {
    // h1, h2 and h4 for all vegetables, Feddes et al. (1978), read in a listing.
    expect([crop.airlessHead, crop.tooWetHead, crop.wiltingHead]).toEqual([-10, -25, -8000]);
    if (canBeWatered(crop)) expect(crop.wiltingHead).toBeLessThan(easyWaterOf(crop).lowDemand);
  }
});

// Common practice: these are planted as cloves, tubers, slips, runners, roots or offsets.
const PLANTED = ["artichoke", "asparagus", "garlic", "mint", "potato", "strawberry", "sweet potato"];

test("every crop that can be chosen is sown, or is one of those that are planted", () => {
  const sown = seeds().rows.map(({ name }) => name);
  const unsown = crops().rows.filter((crop) => isComplete(crop) && !sown.includes(crop.name));
  expect(unsown.map(({ name }) => name).sort()).toEqual(PLANTED);
});

test("the example's weather is a whole year of warm dry summer and mild wet winter", () => {
  const { rows } = exampleWeather();
  expect(rows.map(({ name }) => name)).toEqual([...MONTHS]);
  const rainOf = (name: string) => rowNamed(exampleWeather(), name).rainMm;
  expect(rainOf("july")).toBeLessThan(rainOf("january") / 5);
  for (const { rainMm, rainDays } of rows) expect(rainMm).toBeGreaterThanOrEqual(rainDays);
});

test("classes of salty water follow on each other from 0 to no end, and salt's crops are listed crops", () => {
  const classes = salt().rows.flatMap((row) => (row.source === "ayersWestcot1985" ? [row.waterDSm] : []));
  expect(classes).toEqual([
    { min: 0, max: 0.7 },
    { min: 0.7, max: 3 },
    { min: 3, max: null },
  ]);
  const suffering = salt().rows.filter(({ source }) => source === "maasHoffman1977");
  expect(suffering.length).toBe(17);
  for (const { name } of suffering) expect(rowNamed(crops(), name).name).toBe(name);
});

test("every sown crop is one of the crops, and sprouts wetter than its base potential", () => {
  for (const { name, sproutingSuction, basePotentialMPa } of seeds().rows) {
    expect(rowNamed(crops(), name).name).toBe(name);
    // 1 MPa is 10 197 cm of water at 4 °C.
    if (basePotentialMPa) expect(sproutingSuction).toBeLessThan(-10_197 * basePotentialMPa.max);
  }
});

test("the default wall conducts 0.08 cm/day, and default conductivity over default thickness is the conductance", () => {
  const { conductivity, thickness, conductance } = walls().ranges;
  expect(conductivity).toEqual({ min: 0.03, max: 0.15, default: 0.08 });
  const ratio = conductivity.default / thickness.default;
  expectClose(ratio, conductance.default, { tolerance: 1e-12, unit: "1/day", what: "K/wall" });
  const thinnest = conductivity.max / thickness.min;
  expectClose(thinnest, conductance.max, { tolerance: 1e-12, unit: "1/day", what: "largest K/wall" });
  const thickest = conductivity.min / thickness.max;
  expectClose(thickest, conductance.min, { tolerance: 1e-12, unit: "1/day", what: "smallest K/wall" });
});

const filled = { wallConductivity: 0.08, rimDepth: 0, plugLeakLitres: 0 };

test("a jar holds what its name says to 5 %, a flower pot something, and each drain hole fits its base", () => {
  for (const pot of pots().rows) {
    const { wallThickness, height: outerDepth, baseDiameter } = pot;
    const common = { ...filled, wallThickness, outerDepth, baseRadius: baseDiameter / 2 };
    expect(pot.drainHoleDiameter).toBeLessThan(baseDiameter - 2 * wallThickness);
    if (pot.shape === "tapered") {
      const flowerPot = buildPot({ ...common, shape: "tapered", rimRadius: pot.rimDiameter / 2 });
      expect(flowerPot.capacity).toBeGreaterThan(500);
    } else {
      const { neckDiameter, bellyDiameter, bellyBelowRim: bellyDepth, name } = pot;
      const radii = { neckRadius: neckDiameter / 2, bellyRadius: bellyDiameter / 2 };
      const litres = buildPot({ ...common, ...radii, shape: "jar", bellyDepth }).capacity / 1000;
      expectClose(litres, Number(name.split(" ")[2]), { tolerance: 0.05, relative: true, unit: "L", what: name });
    }
  }
});

test("an unknown name is refused with the known ones", () => {
  expect(() => rowNamed(textureClasses(), "peat")).toThrow("peat is not known; known are sand, loamy sand, sandy loam");
});

test("a table without a source, or with a column that nobody declared, is refused", () => {
  const schema = tableSchema(rowSchema);
  const source = { columns: ["x"], citation: "c", place: "p", obtained: "o", flag: "seen" };
  const table = { title: "t", units: {}, sources: [source], rows: [{ name: "a" }] };
  expect(schema.safeParse(table).success).toBe(true);
  expect(schema.safeParse({ ...table, sources: [] }).success).toBe(false);
  expect(schema.safeParse({ ...table, rows: [{ name: "a", y: 1 }] }).success).toBe(false);
});
