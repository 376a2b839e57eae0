import { least, range } from "d3-array";
import { MONTHS, type Month } from "../../calendar/months.ts";
import { type Fault, figures, lowerLimit, type Reader, type Rule, upperLimit } from "../../input/faults.ts";
import type { OutlinePoint } from "../../pot/pot.ts";
import { jarOutline } from "../../pot/potOutline.ts";
import { wallRoomFault } from "../../pot/wallRoom.ts";
import { poreExponentFault } from "../../soil/poreExponent.ts";
import { poreSpaceFault } from "../../soil/poreSpace.ts";
import { UNIT_SYSTEMS, type UnitSystem, unitOf } from "../../units/units.ts";
import type { RecordReader } from "../../weather/dailyCsv.ts";
import { bedRules } from "./bedRules.ts";
import { monthName } from "./livingRows.ts";
import { isStartMoisture } from "./startMoisture.ts";
import { supplyRules } from "./supplyRules.ts";

/** Percentages read off a report may miss 100 by their rounding. */
const ROUNDING_PERCENT = 0.5;

/** The checks across a plan's fields, in the person's own units. */
export function planRules(units: UnitSystem, readRecord: RecordReader): Rule[] {
  const unit = unitOf("length", units);
  return [
    soilRules,
    (reader) => wallRules(reader, unit),
    (reader) => heightRules(reader, unit),
    (reader) => jarRules(reader, unit),
    (reader) => profileRules(reader, unit),
    (reader) => roomRules(reader, unit),
    suctionRules,
    startRules,
    ...MONTHS.map((month) => (reader: Reader) => monthRules(reader, month, units)),
    airRules,
    (reader) => recordRules(reader, units, readRecord),
    ...bedRules(units),
    ...supplyRules(units),
  ];
}

function soilRules(reader: Reader): (Fault | false)[] {
  const { number, fault } = reader;
  const sum = number("soil.sand") + number("soil.silt") + number("soil.clay");
  const layers = number("soil.sandHeight") + number("soil.siltHeight") + number("soil.clayHeight");
  return [
    Math.abs(sum - 100) > ROUNDING_PERCENT && fault("soil", "100 %", sum),
    layers === 0 && fault("soil", "greater than 0", layers),
    ...["soil", "bedMix"].flatMap((soil) => [
      poreSpaceFault(reader, { thetaR: `${soil}.thetaR`, thetaS: `${soil}.thetaS` }),
      poreExponentFault(reader, { n: `${soil}.n`, l: `${soil}.l` }),
    ]),
  ];
}

/** Every diameter the wall takes room from; a jar or a profile may end in a point. */
function diameters({ number, count, word }: Reader): { name: string; value: number }[] {
  const named = [
    ["diameter", "pot diameter"],
    ["rimDiameter", "rim"],
    ["neckDiameter", "neck"],
    ...(word("pot.shape") === "tapered" ? [["baseDiameter", "base"]] : []),
    ...range(count("pot.points") - 1).map((i) => [`points.${i}.diameter`, "narrowest point"]),
  ];
  return named
    .map(([key, name]) => ({ name: name!, value: number(`pot.${key}`) }))
    .filter(({ value }) => !Number.isNaN(value));
}

function wallRules(reader: Reader, unit: string): (Fault | false)[] {
  const { number, fault } = reader;
  const wall = number("pot.wallThickness");
  const narrowest = least(diameters(reader), ({ value }) => value);
  const insideBase = number("pot.baseDiameter") - 2 * wall;
  return [
    narrowest !== undefined &&
      wall >= narrowest.value / 2 &&
      fault("pot.wallThickness", `thinner than half the ${narrowest.name}, ${upperLimit(narrowest.value / 2)} ${unit}`),
    insideBase > 0 &&
      number("pot.drainHoleDiameter") >= insideBase &&
      fault("pot.drainHoleDiameter", `less than the base inside the wall, ${upperLimit(insideBase)} ${unit}`),
  ];
}

function heightRules(reader: Reader, unit: string): (Fault | false)[] {
  const { number, fault } = reader;
  const [height, wall, above] = [heightOf(reader), number("pot.wallThickness"), number("pot.rimAboveSoil")];
  const inside = height - wall;
  return [
    wall >= height && fault("pot.wallThickness", `thinner than the pot's height, ${upperLimit(height)} ${unit}`),
    inside > 0 &&
      above >= inside &&
      fault(
        "pot.rimAboveSoil",
        `less than ${upperLimit(inside)} ${unit}, the pot's height inside, so that it holds water below the soil surface`,
      ),
  ];
}

function heightOf({ number, count }: Reader): number {
  const points = count("pot.points");
  return points > 0 ? number(`pot.points.${points - 1}.belowRim`) : number("pot.height");
}

function jarRules({ number, fault }: Reader, unit: string): (Fault | false)[] {
  const [neck, belly] = [number("pot.neckDiameter"), number("pot.bellyDiameter")];
  const [base, height] = [number("pot.baseDiameter"), number("pot.height")];
  return [
    belly < neck && fault("pot.bellyDiameter", `at least the neck diameter, ${lowerLimit(neck)} ${unit}`),
    belly < base && fault("pot.bellyDiameter", `at least the base diameter, ${lowerLimit(base)} ${unit}`),
    number("pot.bellyBelowRim") >= height &&
      fault("pot.bellyBelowRim", `less than the pot's height, ${upperLimit(height)} ${unit}`),
  ];
}

function profileRules({ number, count, fault }: Reader, unit: string): (Fault | false)[] {
  const depthOf = (i: number) => number(`pot.points.${i}.belowRim`);
  return [
    depthOf(0) > 0 && fault("pot.points.0.belowRim", `0 ${unit}, the rim`),
    ...range(1, count("pot.points")).map(
      (i) =>
        depthOf(i) < depthOf(i - 1) &&
        fault(
          `pot.points.${i}.belowRim`,
          `at least that of the point before it, ${lowerLimit(depthOf(i - 1))} ${unit}`,
        ),
    ),
  ];
}

/** A jar or a profile that narrows to its end is all wall there. */
function roomRules(reader: Reader, unit: string): (Fault | false)[] {
  const [wall, above] = [reader.number("pot.wallThickness"), Math.max(reader.number("pot.rimAboveSoil"), 0)];
  const isTooThick = wall >= heightOf(reader) - above || diameters(reader).some(({ value }) => wall >= value / 2);
  return [!isTooThick && wallRoomFault(reader, outlineIn(reader), above, unit)];
}

/** Depths from the rim; empty for shapes that hardly narrow. */
function outlineIn(reader: Reader): OutlinePoint[] {
  const { number, count, word } = reader;
  const radius = (name: string) => number(`pot.${name}`) / 2;
  const points = range(count("pot.points")).map((i) => ({
    r: radius(`points.${i}.diameter`),
    d: number(`pot.points.${i}.belowRim`),
  }));
  if (word("pot.shape") !== "jar") return points;
  return jarOutline({
    neckRadius: radius("neckDiameter"),
    bellyRadius: radius("bellyDiameter"),
    bellyDepth: number("pot.bellyBelowRim"),
    baseRadius: radius("baseDiameter"),
    rimDepth: 0,
    outerDepth: number("pot.height"),
  });
}

function suctionRules({ number, fault }: Reader): (Fault | false)[] {
  const tooWet = number("crop.tooWetSuctionKPa");
  const easyWater = number("crop.easyWaterSuctionKPa");
  return [
    easyWater <= tooWet &&
      fault(
        "crop.easyWaterSuctionKPa",
        `greater than the suction below which roots lack air, ${lowerLimit(tooWet)} kPa`,
      ),
    number("crop.wiltingSuctionKPa") <= easyWater &&
      fault(
        "crop.wiltingSuctionKPa",
        `greater than the suction at which the crop starts to suffer, ${lowerLimit(easyWater)} kPa`,
      ),
  ];
}

function startRules({ number, word, fault }: Reader): (Fault | false)[] {
  const suction = number("startSuctionKPa");
  const isWord = isStartMoisture(word("startMoisture") ?? "");
  return [
    isWord &&
      !Number.isNaN(suction) &&
      fault(
        "startMoisture",
        `left out where the suction at the start is given too (${figures(suction)} kPa), or that be left out`,
      ),
  ];
}

function monthRules({ number, fault }: Reader, month: Month, units: UnitSystem): (Fault | false)[] {
  const path = `weather.months.${month}`;
  const high = number(`${path}.high`);
  return [
    number(`${path}.low`) >= high &&
      fault(
        `${path}.low`,
        `less than the day's high of ${monthName(month)}, ${figures(high)} ${unitOf("temperature", units)}`,
      ),
    number(`${path}.rain`) > 0 &&
      number(`${path}.rainDays`) === 0 &&
      fault(`${path}.rainDays`, `more than 0, for there is rain in ${monthName(month)}`),
  ];
}

/** Each fault of the record tells its line. */
function recordRules({ word }: Reader, units: UnitSystem, readRecord: RecordReader): Fault[] {
  const [record, typedUnits] = [word("weather.record"), word("weather.recordUnits")];
  if (word("weather.kind") !== "daily" || record === undefined) return [];
  const read = readRecord(record, UNIT_SYSTEMS.find((system) => system === typedUnits) ?? units);
  return read.ok ? [] : read.faults.map((fault) => ({ ...fault, path: "weather.record" }));
}

/** Known of one month, they are asked for in all. */
function airRules({ isGiven, word, fault }: Reader): (Fault | false)[] {
  if (word("weather.kind") !== "own") return [];
  const paths = MONTHS.flatMap((month) =>
    ["humidity", "wind", "sunHours"].map((name) => `weather.months.${month}.${name}`),
  );
  const missing = paths.filter((path) => !isGiven(path));
  if (missing.length === paths.length) return [];
  return missing.map((path) =>
    fault(path, "given, as humidity, wind and sunshine are asked for in all months or in none"),
  );
}
