import { least, max, range } from "d3-array";
import { z } from "zod";
import { equalCircle, LEAST_SPACING, POT_GRIDS } from "../bed/potGrid.ts";
import { heldLevel } from "../flow/potSupply.ts";
import { BARE_GROUND, type Problem } from "../flow/problem.ts";
import type { Row, Run } from "../flow/run.ts";
import { type Checked, checkInput, type Fault, type Reader, type Rule, readJson } from "../input/faults.ts";
import { numberField } from "../input/fields.ts";
import { last } from "../input/lists.ts";
import type { PotShape } from "../pot/pot.ts";
import { wallRoomFault } from "../pot/wallRoom.ts";
import { PORE_EXPONENT, poreExponentFault } from "../soil/poreExponent.ts";
import { LEAST_PORE_SPACE, poreSpaceFault } from "../soil/poreSpace.ts";

/** Limits wide enough for any soil, pot or experiment, narrow enough to catch a slip of the unit. */
const head = (title: string, below: number) => numberField(title, { min: -1e7, max: below }, "cm");
const length = (title: string) => numberField(title, { above: 0, max: 1000 }, "cm");
const depth = (title: string) => numberField(title, { min: -1000, max: 1000 }, "cm");
const radius = (title: string) => numberField(title, { min: 0, max: 1000 }, "cm");

const potCommon = {
  outerDepth: length("depth of the pot's base"),
  rimDepth: depth("depth of the pot's rim").default(0),
  wallThickness: length("pot wall"),
  wallConductivity: numberField("wall conductivity", { min: 0, max: 1000 }, "cm/day"),
  plugLeakLitres: numberField("plug leak", { min: 0, max: 1000 }, "L/day").default(0),
};

const potSchema = z
  .discriminatedUnion("shape", [
    z.strictObject({ shape: z.literal("cylinder"), outerRadius: length("pot radius"), ...potCommon }),
    z.strictObject({
      shape: z.literal("tapered"),
      rimRadius: length("rim radius"),
      baseRadius: length("base radius"),
      ...potCommon,
    }),
    z.strictObject({
      shape: z.literal("jar"),
      neckRadius: length("neck radius"),
      bellyRadius: length("belly radius"),
      bellyDepth: depth("depth of the belly"),
      baseRadius: radius("base radius"),
      ...potCommon,
    }),
    z.strictObject({
      shape: z.literal("profile"),
      points: z
        .array(z.strictObject({ r: radius("radius of a profile point"), d: depth("depth of a profile point") }))
        .min(2)
        .max(500)
        .meta({ title: "profile", description: "a list of 2 to 500 points { r, d }, from the rim down" }),
      ...potCommon,
    }),
  ])
  .meta({ title: "pot" });

const fillingSchema = z
  .discriminatedUnion("kind", [
    z.strictObject({ kind: z.literal("held") }),
    z.strictObject({
      kind: z.literal("refilled"),
      atDays: z
        .array(numberField("refill day", { min: 0, max: 10_000 }, "days"))
        .min(1)
        .max(10_000)
        .meta({ title: "list of refill days", description: "a list of 1 to 10000 days, increasing, from 0 on" }),
    }),
  ])
  .meta({ title: "filling" });

/** Soil about a pot alone, closed at `radius`; or among others on an even grid, in three dimensions. */
const regionSchema = z
  .discriminatedUnion("pots", [
    z.strictObject({
      pots: z.literal("alone").optional(),
      radius: length("region radius"),
      depth: length("region depth"),
    }),
    z.strictObject({ pots: z.enum(POT_GRIDS), spacing: length("pot spacing"), depth: length("region depth") }),
  ])
  .meta({ title: "region" });

/** The problem file as it is written: one run, cm and day, litres where a name says so. */
export const problemFileSchema = z
  .strictObject({
    soil: z
      .strictObject({
        retention: z
          .strictObject({
            thetaR: numberField("residual water content thetaR", { min: 0, below: 1 }),
            thetaS: numberField("saturated water content thetaS", { min: LEAST_PORE_SPACE, max: 1 }),
            alpha: numberField("alpha", { min: 1e-5, max: 10 }, "1/cm"),
            n: numberField("n", { above: 1, max: 20 }),
          })
          .meta({ title: "holding water" }),
        conductivity: z
          .strictObject({
            Ks: numberField("saturated conductivity Ks", { min: 1e-6, max: 1e6 }, "cm/day"),
            l: numberField("l", PORE_EXPONENT).default(0.5),
          })
          .meta({ title: "passing water" }),
      })
      .meta({ title: "soil" }),
    pot: potSchema,
    filling: fillingSchema,
    startHead: head("pressure head at the start", 0),
    region: regionSchema,
    ask: z
      .strictObject({
        days: z
          .array(numberField("asked day", { above: 0, max: 10_000 }, "days"))
          .min(1)
          .max(10_000)
          .meta({
            title: "list of asked days",
            description: "a list of 1 to 10000 days, increasing, each greater than 0",
          }),
        edgeHead: numberField("edge head", { min: -1e7, below: 0 }, "cm"),
        radiusAtDepth: numberField("depth at which the radius is read", { min: 0, max: 1000 }, "cm"),
      })
      .meta({ title: "question" }),
    accuracy: z.enum(["live", "standard", "reference"]).meta({ title: "accuracy" }).default("standard"),
  })
  .meta({
    title: "problem",
  });

type ProblemFile = z.output<typeof problemFileSchema>;

const RULES: Rule[] = [
  soilRules,
  widthRules,
  depthRules,
  jarRules,
  profileRules,
  roomRules,
  increasing("filling.atDays"),
  increasing("ask.days"),
];

/** A problem file's text as a run to solve, or everything that is wrong with it. */
export function readProblem(text: string): Checked<Problem> {
  const json = readJson(text, "the problem file");
  if (!json.ok) return json;
  const file = checkInput(problemFileSchema, json.value, RULES);
  return file.ok ? { ok: true, value: toProblem(file.value) } : file;
}

function toProblem({ soil, pot, filling, ask, region, ...rest }: ProblemFile): Problem {
  return {
    ...BARE_GROUND,
    ...rest,
    ...groundOf(region),
    soil: { ...soil.retention, ...soil.conductivity },
    pot,
    filling: filling.kind === "held" ? { kind: "held", levelDepth: heldLevel(pot) } : filling,
    days: ask.days,
    edges: [{ head: ask.edgeHead, depth: ask.radiusAtDepth }],
  };
}

function groundOf(region: ProblemFile["region"]): Pick<Problem, "region" | "neighbours"> {
  const { depth } = region;
  if ("radius" in region) return { region: { radius: region.radius, depth }, neighbours: null };
  const { pots: grid, spacing } = region;
  return { region: { radius: equalCircle(grid, spacing), depth }, neighbours: { grid, spacing } };
}

/** A row of the answer. A reason stands beside a number that is no place of the edge. */
interface AnswerRow extends Row {
  radiusReason?: string;
  depthReason?: string;
}

/** A run as the answer of a problem file: what is printed, with the keys of `trouble` beside `status`. */
export type Answer = Omit<Run, "trouble" | "rows" | "frames" | "grid" | "history" | "startTheta"> &
  Partial<NonNullable<Run["trouble"]>> & { rows: AnswerRow[] };

/** What is printed of a run: its status, its trouble if any, and its rows (cm, days, litres). */
export function answerOf(run: Run): Answer {
  const { status, trouble, cells, steps, milliseconds, balanceError, firstEmptyDay, rows, grid } = run;
  const answered = rows.map((row): AnswerRow => {
    const radiusReason = reasonOf(row.wettedRadius, grid.sectors?.reach ?? last(grid.rEdges), "at this depth");
    const depthReason = reasonOf(row.wettedDepth, last(grid.dEdges), "below the pot");
    return { ...row, ...(radiusReason && { radiusReason }), ...(depthReason && { depthReason }) };
  });
  return { status, ...trouble, cells, steps, milliseconds, balanceError, firstEmptyDay, rows: answered };
}

function reasonOf(place: number, end: number, where: string): string | undefined {
  if (place === 0) return `no edge: no soil ${where} is wetter than the edge head`;
  if (place >= end) return `no edge: the soil ${where} is wetter than the edge head as far as the region goes`;
  return undefined;
}

function soilRules(reader: Reader): (Fault | false)[] {
  return [
    poreSpaceFault(reader, { thetaR: "soil.retention.thetaR", thetaS: "soil.retention.thetaS" }),
    poreExponentFault(reader, { n: "soil.retention.n", l: "soil.conductivity.l" }),
  ];
}

interface Width {
  path: string;
  name: string;
  r: number;
}

/** Every radius of the pot that the wall takes room from. A jar or a profile may end in a point. */
function widths({ number, count, word }: Reader): Width[] {
  const named: [string, string][] = [
    ["outerRadius", "pot radius"],
    ["rimRadius", "rim radius"],
    ["neckRadius", "neck radius"],
    ["bellyRadius", "belly radius"],
    ...(word("pot.shape") === "tapered" ? ([["baseRadius", "base radius"]] satisfies [string, string][]) : []),
    ...range(count("pot.points") - 1).map((i): [string, string] => [
      `points.${i}.r`,
      "narrowest radius of the profile",
    ]),
  ];
  return named
    .map(([key, name]) => ({ path: `pot.${key}`, name, r: number(`pot.${key}`) }))
    .filter(({ r }) => !Number.isNaN(r));
}

function widthRules(reader: Reader): (Fault | false)[] {
  const { number, fault } = reader;
  const all = widths(reader);
  const narrowest = least(all, ({ r }) => r);
  const widest = max(all, ({ r }) => r) ?? Number.NaN;
  return [
    narrowest !== undefined &&
      number("pot.wallThickness") >= narrowest.r &&
      fault("pot.wallThickness", `less than the ${narrowest.name}, ${narrowest.r} cm`),
    number("region.radius") <= widest && fault("region.radius", `greater than the pot's largest radius, ${widest} cm`),
    number("region.spacing") < LEAST_SPACING * 2 * widest &&
      fault("region.spacing", `at least ${LEAST_SPACING} times the pot's width, ${LEAST_SPACING * 2 * widest} cm`),
  ];
}

function depthRules({ number, fault }: Reader): (Fault | false)[] {
  const [rim, base, wall] = [number("pot.rimDepth"), number("pot.outerDepth"), number("pot.wallThickness")];
  const soilDepth = number("region.depth");
  return [
    rim >= base && fault("pot.rimDepth", `less than the depth of the pot's base, ${base} cm`),
    rim < base && wall >= base - rim && fault("pot.wallThickness", `less than the pot's height, ${base - rim} cm`),
    rim < 0 &&
      wall >= base &&
      fault("pot.outerDepth", `greater than the pot wall, ${wall} cm, so that water stands below the soil surface`),
    base >= soilDepth && fault("pot.outerDepth", `less than the depth of the soil, ${soilDepth} cm`),
    number("ask.radiusAtDepth") > soilDepth &&
      fault("ask.radiusAtDepth", `at most the depth of the soil, ${soilDepth} cm`),
  ];
}

function jarRules({ number, word, fault }: Reader): (Fault | false)[] {
  if (word("pot.shape") !== "jar") return [];
  const [neck, belly, base] = [number("pot.neckRadius"), number("pot.bellyRadius"), number("pot.baseRadius")];
  const [rimDepth, bellyDepth, baseDepth] = [
    number("pot.rimDepth"),
    number("pot.bellyDepth"),
    number("pot.outerDepth"),
  ];
  return [
    belly < neck && fault("pot.bellyRadius", `at least the neck radius, ${neck} cm`),
    belly < base && fault("pot.bellyRadius", `at least the base radius, ${base} cm`),
    bellyDepth <= rimDepth && fault("pot.bellyDepth", `greater than the depth of the rim, ${rimDepth} cm`),
    bellyDepth >= baseDepth && fault("pot.bellyDepth", `less than the depth of the pot's base, ${baseDepth} cm`),
  ];
}

function profileRules({ number, count, fault }: Reader): (Fault | false)[] {
  const points = count("pot.points");
  if (points === 0) return [];
  const depthOf = (i: number) => number(`pot.points.${i}.d`);
  const [rim, base] = [number("pot.rimDepth"), number("pot.outerDepth")];
  return [
    number("pot.points.0.r") === 0 && fault("pot.points.0.r", "greater than 0 cm, the rim being open"),
    Math.abs(depthOf(0) - rim) > 0 && fault("pot.points.0.d", `the depth of the rim, ${rim} cm`),
    Math.abs(depthOf(points - 1) - base) > 0 &&
      fault(`pot.points.${points - 1}.d`, `the depth of the pot's base, ${base} cm`),
    ...range(1, points).map(
      (i) =>
        depthOf(i) < depthOf(i - 1) &&
        fault(`pot.points.${i}.d`, `at least the depth of the point before it, ${depthOf(i - 1)} cm`),
    ),
  ];
}

function roomRules(reader: Reader): (Fault | false)[] {
  const pot = reader.part("pot") as PotShape | undefined;
  if (pot === undefined) return [];
  const { wallThickness, outerDepth, rimDepth } = pot;
  const isTooThick =
    wallThickness >= outerDepth - Math.max(rimDepth, 0) || widths(reader).some(({ r }) => wallThickness >= r);
  return [!isTooThick && wallRoomFault(reader, pot, "cm")];
}

function increasing(list: string): Rule {
  return ({ number, count, fault }) =>
    range(1, count(list)).map((i) => {
      const before = number(`${list}.${i - 1}`);
      return (
        number(`${list}.${i}`) <= before && fault(`${list}.${i}`, `greater than the one before it, ${before} days`)
      );
    });
}
