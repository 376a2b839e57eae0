/**
 * Plans by chance, as a person would type them: every row of the plan's schema over its whole range or, in every other
 * plan, over the narrower one of its slider. What the cross checks refuse is drawn again just there, so a plan keeps its
 * other values where a rule is added. Each value has a stream of its own, named by seed, plan, round and path.
 */
import { range, sum } from "d3-array";
import { type Plan, resolvePlan } from "../../model/plan/plan.ts";
import { PLAN_ROWS } from "../../model/plan/typed/planRows.ts";
import type { Fields, ListRow, Node, NumberRow, Union } from "../../model/plan/typed/row.ts";
import { randomStreams, type Uniform } from "../../model/random/randomStreams.ts";
import { toPerson } from "../../model/units/measures.ts";
import type { UnitSystem } from "../../model/units/units.ts";
import { recordReader } from "../../model/weather/dailyCsv.ts";

export interface DrawnPlan {
  typed: Values;
  plan: Plan;
  /** How many plans were refused on the way to this one. */
  refused: number;
}

type Values = Readonly<Record<string, unknown>>;

interface Drawing {
  units: UnitSystem;
  /** Over whole ranges, not those of the sliders. */
  isWide: boolean;
  stream(path: string): Uniform;
}

/** A plan that is refused so often is drawn in vain. */
const MOST_ROUNDS = 500;
/** Where a value is at fault in so many rounds on end, all that stands about it is drawn again. */
const ROUNDS_OF_ONE_VALUE = 20;

/** The plan of that number; throws where the rules refuse whatever is drawn. */
export function drawnPlan(seed: number, number: number): DrawnPlan {
  const roundOf = (round: number) => drawingOf(`${seed} ${number}`, round);
  const readRecord = recordReader();
  let typed = drawnFields(PLAN_ROWS, "", roundOf(0));
  for (let round = 1; round <= MOST_ROUNDS; round++) {
    const resolved = resolvePlan(typed, readRecord);
    if (resolved.ok) return { typed, plan: resolved.value, refused: round - 1 };
    const isStubborn = round % ROUNDS_OF_ONE_VALUE === 0;
    const paths = new Set(resolved.faults.map(({ path }) => (isStubborn ? path.replace(/\..*/, "") : path)));
    for (const path of paths) typed = redrawn(PLAN_ROWS, typed, path.split("."), "", roundOf(round));
  }
  throw new Error(`plan ${number} of seed ${seed} was refused ${MOST_ROUNDS} times`);
}

function drawingOf(plan: string, round: number): Drawing {
  const streamOf = (name: string) => randomStreams(hash(`${plan} ${name}`), ["values"]).values;
  return {
    units: streamOf("units")() < 0.5 ? "metric" : "us",
    isWide: streamOf("width")() < 0.5,
    stream: (path) => streamOf(`${round} ${path}`),
  };
}

/** FNV-1a, 32 bits. */
function hash(text: string): number {
  let value = 0x811c9dc5;
  for (const letter of text) value = Math.imul(value ^ letter.charCodeAt(0), 0x01000193);
  return value >>> 0;
}

const below = (path: string, name: string) => (path === "" ? name : `${path}.${name}`);

function drawnFields(fields: Fields, path: string, drawing: Drawing): Values {
  const drawn = Object.entries(fields).map(([name, node]) => [name, drawnNode(node, below(path, name), drawing)]);
  return Object.fromEntries(drawn.filter(([, value]) => value !== undefined));
}

/** Draws anew what stands at a path, or the last there is on the way to it. */
function redrawn(fields: Fields, values: Values, keys: string[], path: string, drawing: Drawing): Values {
  const [key = "", ...rest] = keys;
  const [node, value, own] = [fields[key], values[key] as Values | undefined, below(path, key)];
  if (node === undefined) return { ...values, ...drawnFields(fields, path, drawing) };
  const inner = value && rest.length > 0 ? fieldsOf(node, value) : undefined;
  const drawn =
    value && inner ? adjusted(own, redrawn(inner, value, rest, own, drawing), drawing) : drawnNode(node, own, drawing);
  return { ...values, [key]: drawn };
}

function fieldsOf(node: Node, value: Values): Fields | undefined {
  if (node.kind === "group") return node.fields;
  return node.kind === "union" ? node.options[String(value[node.key])] : undefined;
}

/** Of what may be left out, one in so many is. */
const LEFT_OUT = 1 / 4;

function drawnNode(node: Node, path: string, drawing: Drawing): unknown {
  const isOptional = node.kind === "group" ? !node.isRequired : "optional" in node || "default" in node;
  // What is given together or not at all shares one choice.
  const choice = ("way" in node && node.way?.path) || path;
  if (isOptional && drawing.stream(`${choice} left out`)() < LEFT_OUT) return undefined;
  return adjusted(path, drawnValue(node, path, drawing), drawing);
}

function drawnValue(node: Node, path: string, drawing: Drawing): unknown {
  const next = drawing.stream(path);
  switch (node.kind) {
    case "number":
      return drawnNumber(node, drawing, next());
    case "choice":
      return oneOf(node.values, next());
    case "flag":
      return next() < 0.5;
    case "text":
      return oneOf(["", "Ünnamed <b>bed</b>", "a".repeat(40)], next());
    case "fixed":
      return node.value(drawing.units);
    case "list":
      return drawnList(node, path, drawing, next);
    case "group":
      return drawnFields(node.fields, path, drawing);
    case "union":
      return drawnOption(node, path, drawing, next());
  }
}

const oneOf = <T>(values: readonly T[], share: number): T => values[Math.floor(share * values.length)]!;

function drawnOption({ key, options }: Union, path: string, drawing: Drawing, share: number): Values {
  const name = oneOf(Object.keys(options), share);
  return { [key]: name, ...drawnFields(options[name]!, path, drawing) };
}

/** The first and the last of a number's chances fall on the ends of its range; wide ranges are drawn by their logarithm. */
function drawnNumber({ range: limits, slider, measure, isWhole }: NumberRow, drawing: Drawing, share: number): number {
  const { min, above = 0, max, below = 1 } = limits;
  const [low, high] = slider && !drawing.isWide ? slider : ([min ?? above, max ?? below] as const);
  const value = between(low, high, Math.min(Math.max((share - 0.03) / 0.94, 0), 1));
  return inPersonsUnit(isWhole ? Math.round(value) : value, measure, drawing.units);
}

function between(low: number, high: number, share: number): number {
  return low > 0 && high > 20 * low ? low * (high / low) ** share : low + share * (high - low);
}

/** In the four figures that people type. */
const inPersonsUnit = (value: number, measure: NumberRow["measure"], units: UnitSystem): number =>
  Number(toPerson(value, measure, units).toPrecision(4));

/** Points that belong together, cm. */
type Points = Readonly<Record<string, number>>[];

function drawnList({ fields }: ListRow, path: string, { units, isWide }: Drawing, next: Uniform): Values[] {
  const points =
    path === "pot.points" ? drawnProfile(next, isWide) : path === "bed.points" ? drawnBed(next) : places(next);
  return points.map((point) =>
    Object.fromEntries(
      Object.entries(point).map(([name, value]) => [name, inPersonsUnit(value, fields[name]!.measure, units)]),
    ),
  );
}

/** From the rim down: bulges and waists, some with level shelves, every fourth ends in a point. */
function drawnProfile(next: Uniform, isWide: boolean): Points {
  const height = between(isWide ? 2 : 6, isWide ? 150 : 80, next());
  const depths = range(1 + Math.floor(6 * next())).map(() => height * next());
  const isShelved = next() < 0.2;
  const belowRim = [0, ...depths.sort((a, b) => a - b), ...(isShelved ? depths.slice(-1) : []), height];
  belowRim.sort((a, b) => a - b);
  const isPointed = next() < 0.25;
  return belowRim.map((depth, i) => {
    const diameter = between(isWide ? 2 : 6, isWide ? 200 : 80, next());
    return { diameter: isPointed && i === belowRim.length - 1 ? 0 : diameter, belowRim: depth };
  });
}

/** Corners about a middle, each at its own distance and in order of angle: sides never cross. */
function drawnBed(next: Uniform): Points {
  const count = 3 + Math.floor(8 * next());
  const size = between(40, 2000, next());
  return range(count).map((i) => {
    const [reach, angle] = [size * (0.3 + 0.7 * next()), (2 * Math.PI * i) / count];
    return { x: reach * Math.cos(angle), y: reach * Math.sin(angle) };
  });
}

const places = (next: Uniform): Points =>
  range(1 + Math.floor(3 * next())).map(() => ({ x: 300 * next(), y: 300 * next() }));

/** Makes values fit together that chance alone would hardly ever bring together. */
function adjusted(path: string, value: unknown, drawing: Drawing): unknown {
  const values = value as Values;
  if (path === "soil" && values.kind === "texture") return addedUp(values);
  if (path === "weather" && values.kind === "daily") return { ...values, record: drawnRecord(values, drawing) };
  return value;
}

function addedUp(texture: Values): Values {
  const names = ["sand", "silt", "clay"];
  const total = sum(names, (name) => Number(texture[name]));
  const shares = names.map((name) => [name, Number(((100 * Number(texture[name])) / total).toFixed(2))]);
  return { ...texture, ...Object.fromEntries(shares) };
}

/** A year of days about a mean temperature that swings with the season. */
function drawnRecord({ recordUnits }: Values, { units, stream }: Drawing): string {
  const next = stream("days of a record");
  const own = recordUnits === "us" || recordUnits === "metric" ? recordUnits : units;
  const [mean, swing, wetShare, wetMm] = [30 * next(), 15 * next(), next(), 30 * next()];
  const days = range(365).map((day) => {
    const middle = mean - swing * Math.cos((2 * Math.PI * day) / 365) + 4 * next();
    const rain = next() < wetShare ? wetMm * next() : 0;
    const [high, low] = [middle + 12 * next(), middle - 12 * next()];
    const date = new Date(Date.UTC(2023, 0, 1 + day)).toISOString().slice(0, 10);
    const cells = [high, low].map((celsius) => inPersonsUnit(celsius, "temperature", own));
    return [date, ...cells, inPersonsUnit(rain, "rain", own)].join(",");
  });
  return ["date,high,low,rain", ...days].join("\n");
}
