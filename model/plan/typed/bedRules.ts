/** The checks of a plan's bed across its fields: its outline, and whether its pots fit into it. */
import { max, range } from "d3-array";
import { densestCount, layOutPots } from "../../bed/layout.ts";
import { type BedOutline, bedArea, bedBounds, type Place } from "../../bed/outline.ts";
import { cornerName, type OutlineTrouble, outlineTroubles } from "../../bed/outlineTroubles.ts";
import { type PlaceTrouble, placeTroubles } from "../../bed/placeTroubles.ts";
import { groundPerPot, LEAST_SPACING, type PotGrid } from "../../bed/potGrid.ts";
import { type Fault, fault, figures, lowerLimit, type Reader, type Rule } from "../../input/faults.ts";
import { fromModel, type Quantity, toModel, type UnitSystem, unitOf } from "../../units/units.ts";
import { usualEdgeDistance, usualOutline, usualSpacing } from "./bedDefaults.ts";
import { BED_SIZE, MOST_POTS } from "./bedRows.ts";

/** In the person's own units. */
export function bedRules(units: UnitSystem): Rule[] {
  const rules = [spacingRules, edgeRules, outlineRules, sizeRules, countRules, placeRules];
  return rules.map((rule) => (reader) => rule(reader, typedBed(reader, units), wordsIn(units)));
}

/** What is known of the bed, cm; what is left out, or at fault by itself, is as usual. */
interface TypedBed {
  potWidth: number;
  grid: PotGrid;
  spacing: number;
  edgeDistance: number;
  rowAngle: number;
  /** Of a polygon. */
  corners: Place[];
  /** Missing where what was typed is none. */
  outline: BedOutline | undefined;
  potPlaces: Place[];
}

type Faults = (Fault | false)[];
type Words = ReturnType<typeof wordsIn>;

/** A length in cm as a person reads it; limits are rounded so that whatever keeps to them is allowed. */
function wordsIn(units: UnitSystem) {
  const own = (cm: number, quantity: Quantity) => fromModel(cm, quantity, units);
  return {
    own,
    least: (cm: number, quantity: Quantity) => `${lowerLimit(own(cm, quantity))} ${unitOf(quantity, units)}`,
    about: (cm: number, quantity: Quantity) => `${Number(own(cm, quantity).toPrecision(3))} ${unitOf(quantity, units)}`,
  };
}

function typedBed({ number, word, count }: Reader, units: UnitSystem): TypedBed {
  const cm = (path: string, quantity: Quantity) => toModel(number(path), quantity, units);
  const known = (typed: number, usual: number) => (Number.isNaN(typed) ? usual : typed);
  const placesAt = (path: string) =>
    range(count(path)).map((i) => ({ x: cm(`${path}.${i}.x`, "distance"), y: cm(`${path}.${i}.y`, "distance") }));
  const potWidth = toModel(widestDiameter({ number, count }), "length", units);
  const spacing = known(cm("spacing", "length"), usualSpacing(potWidth / 2));
  const corners = placesAt("bed.points");
  const shape = word("bed.shape");
  const typedOutline =
    shape === undefined ? undefined : outlineOf(shape, (side) => cm(`bed.${side}`, "distance"), corners);
  const edgeDistance = known(cm("edgeDistance", "length"), usualEdgeDistance(spacing, potWidth / 2, typedOutline));
  return {
    ...{ potWidth, spacing, edgeDistance, corners },
    grid: word("potGrid") === "triangular" ? "triangular" : "square",
    rowAngle: known(number("rowAngle"), 0),
    outline: shape === undefined ? usualOutline(edgeDistance) : typedOutline,
    potPlaces: placesAt("potPlaces"),
  };
}

/** The pot's largest diameter, in the person's unit. */
function widestDiameter({ number, count }: Pick<Reader, "number" | "count">): number {
  const points = range(count("pot.points")).map((i) => `points.${i}.diameter`);
  const named = ["diameter", "rimDiameter", "neckDiameter", "bellyDiameter", "baseDiameter", ...points];
  return max(named.map((key) => number(`pot.${key}`))) ?? Number.NaN;
}

function outlineOf(shape: string, cm: (side: string) => number, corners: Place[]): BedOutline | undefined {
  const [length, width, diameter] = [cm("length"), cm("width"), cm("diameter")];
  if (shape === "rectangle" && length > 0 && width > 0) return { shape, length, width };
  if (shape === "circle" && diameter > 0) return { shape, diameter };
  const isSound = shape === "polygon" && corners.length >= 3 && corners.every(isKnown);
  return isSound && outlineTroubles(corners).length === 0 ? { shape, points: corners } : undefined;
}

const isKnown = ({ x, y }: Place) => !Number.isNaN(x) && !Number.isNaN(y);

function spacingRules({ number, fault }: Reader, { potWidth }: TypedBed, { own, least, about }: Words): Faults {
  const limit = LEAST_SPACING * potWidth;
  return [
    number("spacing") < own(limit, "length") &&
      fault(
        "spacing",
        `${LEAST_SPACING} times the pot's width of ${about(potWidth, "length")} or more, at least ${least(limit, "length")}: pots nearer than that leave hardly any soil between them`,
      ),
  ];
}

function edgeRules({ number, fault }: Reader, { potWidth }: TypedBed, { own, least }: Words): Faults {
  return [
    number("edgeDistance") < own(potWidth / 2, "length") &&
      fault(
        "edgeDistance",
        `half the pot's width or more, at least ${least(potWidth / 2, "length")}: nearer to the edge a pot stands out of the bed`,
      ),
  ];
}

function outlineRules({ fault }: Reader, { corners }: TypedBed): Faults {
  if (corners.length < 3 || !corners.every(isKnown)) return [];
  return outlineTroubles(corners).map((trouble) => fault("bed.points", troubleWords(trouble, corners.length)));
}

function troubleWords(trouble: OutlineTrouble, count: number): string {
  const side = (i: number) => `from ${cornerName(i)} to ${cornerName((i + 1) % count)}`;
  switch (trouble.kind) {
    case "flat":
      return "more than a line: all its corners lie in one row, and it holds no ground";
    case "sameCorner":
      return `of corners that lie apart: ${trouble.corners.map(cornerName).join(" and ")} are at the same place`;
    case "crossing":
      return `free of crossings: its side ${side(trouble.sides[0])} meets its side ${side(trouble.sides[1])}`;
  }
}

/** Whether one pot finds a place, and no bed is longer than any may be. */
function sizeRules({ number, fault }: Reader, bed: TypedBed, { own, least, about }: Words): Faults {
  const { outline, edgeDistance } = bed;
  if (outline?.shape === "polygon") return polygonSizeRules(fault, outline, bed, { own, least, about });
  return ["bed.length", "bed.width", "bed.diameter"].map(
    (path) =>
      number(path) < own(2 * edgeDistance, "distance") &&
      fault(
        path,
        `enough for one pot, at least ${least(2 * edgeDistance, "distance")}, for a pot's middle stands ${about(edgeDistance, "length")} or more from the edge`,
      ),
  );
}

function polygonSizeRules(fault: Reader["fault"], outline: BedOutline, bed: TypedBed, { about }: Words): Faults {
  const { x0, y0, x1, y1 } = bedBounds(outline);
  const isTooLong = Math.max(x1 - x0, y1 - y0) > BED_SIZE.max;
  const isTooSmall = !isTooLong && !isCrowded(outline, bed) && layOutPots(outline, bed).length === 0;
  return [
    isTooLong && fault("bed.points", `no more than ${about(BED_SIZE.max, "distance")} long and wide`),
    isTooSmall &&
      fault(
        "bed.points",
        `wide enough for one pot: no place in it lies ${about(bed.edgeDistance, "length")} from every side`,
      ),
  ];
}

const isCrowded = (outline: BedOutline, { grid, spacing }: TypedBed) =>
  bedArea(outline) > MOST_POTS * groundPerPot(grid, spacing);

function countRules({ fault: faultAt }: Reader, bed: TypedBed, { own, least, about }: Words): Faults {
  const { outline, grid, spacing, potWidth, potPlaces } = bed;
  if (outline === undefined) return [];
  const limit = Math.sqrt(bedArea(outline) / MOST_POTS / groundPerPot(grid, 1));
  const most = mostPots(outline, potWidth);
  return [
    isCrowded(outline, bed) &&
      faultAt(
        "spacing",
        `wider in so large a bed, at least ${least(limit, "length")}, for nearer it takes more than ${MOST_POTS} pots`,
        figures(own(spacing, "length")),
      ),
    potPlaces.length > most &&
      fault(
        "potPlaces",
        "number of pots",
        potPlaces.length,
        `at most ${most}: more pots ${about(potWidth, "length")} wide do not fit into the bed`,
      ),
  ];
}

/** That stand in the bed with their whole width, wall to wall. */
const mostPots = (outline: BedOutline, potWidth: number) => densestCount(outline, potWidth, potWidth / 2);

/** So many places at fault are told one by one. */
const TOLD_PLACES = 5;

/** A pot nearer to the edge or to another than the plan's own limits is a person's choice; in another, or outside, is none. */
function placeRules(_: Reader, { outline, potPlaces, potWidth }: TypedBed, { own, about }: Words): Faults {
  if (outline === undefined || !potPlaces.every(isKnown) || potPlaces.length > mostPots(outline, potWidth)) return [];
  const troubles = placeTroubles(outline, potPlaces, { spacing: potWidth, edgeDistance: 0 });
  const first = troubles.filter(({ pot }, i) => pot !== troubles[i - 1]?.pot);
  const more = first.length - TOLD_PLACES;
  return [
    ...first.slice(0, TOLD_PLACES).map((trouble) => {
      const { x, y } = potPlaces[trouble.pot]!;
      const at = `x ${figures(own(x, "distance"))}, y ${figures(own(y, "distance"))}`;
      const path = `potPlaces.${trouble.pot}`;
      return fault(path, `place of pot ${trouble.pot + 1}`, at, placeWords(trouble, potWidth, about));
    }),
    more > 0 &&
      fault("potPlaces", "number of misplaced pots", first.length, "0: more are outside, or too near to others"),
  ];
}

function placeWords(trouble: PlaceTrouble, potWidth: number, about: Words["about"]): string {
  if (trouble.kind !== "nearPot") return `inside the bed, whose edge is ${about(trouble.distance, "distance")} away`;
  const { other, distance } = trouble;
  return `at least the pot's width of ${about(potWidth, "length")} from every other pot; pot ${other + 1} is ${about(distance, "length")} away`;
}
