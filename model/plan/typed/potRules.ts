/** The checks of a plan's pot across its fields: whether it can be made, and what it holds. */
import { least, range } from "d3-array";
import { type Fault, lowerLimit, type Reader, upperLimit } from "../../input/faults.ts";
import { potLitres } from "../../pot/buildPot.ts";
import { wallRoomFault } from "../../pot/wallRoom.ts";
import { HOURS_PER_DAY } from "../../units/factors.ts";
import { fromModel, type UnitSystem, unitOf } from "../../units/units.ts";
import type { CheckedPlan } from "./planSchema.ts";
import { potRow } from "./potRows.ts";
import { inModelUnits } from "./rowWalk.ts";
import { toPot } from "./typedPot.ts";

/** Least water in a full pot, L: no gardener buries a smaller one (our own choice). */
const LEAST_LITRES = 0.05;
/** A plug that lets out what the pot holds within an hour is none (our own choice). */
const MOST_FILLS_PER_DAY = HOURS_PER_DAY;

/** In the person's own units. What a pot holds is reckoned where nothing else is wrong with it. */
export function potRules(reader: Reader, units: UnitSystem): (Fault | false)[] {
  const unit = unitOf("length", units);
  const rules = [wallRules, heightRules, jarRules, profileRules];
  const faults = rules.flatMap((rule) => rule(reader, unit)).filter((fault) => fault !== false);
  const pot = reader.part("pot") as CheckedPlan["pot"] | undefined;
  if (pot === undefined || faults.length > 0) return faults;
  const room = wallRoomFault(reader, toPot(pot), unit);
  return room ? [room] : waterRules(reader, inModelUnits({ pot: potRow }, { pot }, units), units);
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

function waterRules(
  { number, fault }: Reader,
  { pot }: Pick<CheckedPlan, "pot">,
  units: UnitSystem,
): (Fault | false)[] {
  const litres = potLitres(toPot(pot));
  const leak = fromModel(MOST_FILLS_PER_DAY * litres, "flow", units);
  const fewest = `${lowerLimit(fromModel(LEAST_LITRES, "volume", units))} ${unitOf("volume", units)}`;
  return [
    litres < LEAST_LITRES &&
      fault("pot", `at least ${fewest}: a larger pot or a thinner wall holds more`, fromModel(litres, "volume", units)),
    number("pot.plugLeak") > leak &&
      fault(
        "pot.plugLeak",
        `at most ${upperLimit(leak)} ${unitOf("flow", units)}: a plug that leaks more lets out all that the pot holds within an hour`,
      ),
  ];
}
