import { MONTHS, type Month } from "../../calendar/months.ts";
import { type Fault, figures, lowerLimit, type Reader, type Rule } from "../../input/faults.ts";
import { poreExponentFault } from "../../soil/poreExponent.ts";
import { poreSpaceFault } from "../../soil/poreSpace.ts";
import { UNIT_SYSTEMS, type UnitSystem, unitOf } from "../../units/units.ts";
import type { RecordReader } from "../../weather/dailyCsv.ts";
import { bedRules } from "./bedRules.ts";
import { monthName } from "./livingRows.ts";
import { potRules } from "./potRules.ts";
import { isStartMoisture } from "./startMoisture.ts";
import { supplyRules } from "./supplyRules.ts";

/** Percentages read off a report may miss 100 by their rounding. */
const ROUNDING_PERCENT = 0.5;

/** The checks across a plan's fields, in the person's own units. */
export function planRules(units: UnitSystem, readRecord: RecordReader): Rule[] {
  return [
    soilRules,
    (reader) => potRules(reader, units),
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
