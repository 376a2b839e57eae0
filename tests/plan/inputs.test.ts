import { describe, expect, it } from "vitest";
import { z } from "zod";
import { soundValue } from "../../model/input/faults.ts";
import { type Plan, resolvePlan } from "../../model/plan/plan.ts";
import { planPart } from "../../model/plan/planPart.ts";
import { PART_NAMES } from "../../model/plan/typed/partNames.ts";
import { PLAN_INPUTS } from "../../model/plan/typed/planInputs.ts";
import { PLAN_SCHEMAS } from "../../model/plan/typed/planSchema.ts";
import type { Input } from "../../model/plan/typed/rowWalk.ts";
import { applies, controlAt, emptyForm } from "../../notebooks/form/inputControls.ts";
import { initialFilled, typedPlan } from "../../notebooks/form/planForm.ts";
import { isSameData } from "../../notebooks/runtime/sameData.ts";

interface JsonSchema {
  properties?: Record<string, JsonSchema>;
  oneOf?: JsonSchema[];
  items?: JsonSchema;
  anyOf?: JsonSchema[];
}

/** The paths of all that may be typed; a list is one. */
function leavesOf({ properties, oneOf }: JsonSchema, path = ""): string[] {
  if (oneOf) return oneOf.flatMap((option) => leavesOf(option, path));
  if (!properties) return [path];
  return Object.entries(properties).flatMap(([name, inner]) => leavesOf(inner, path === "" ? name : `${path}.${name}`));
}

const named = PLAN_INPUTS.map((input) => ({ input, name: `${input.path} ${input.row.title}` }));

describe("the rows of the plan's inputs", () => {
  it("are one for every leaf of the plan's schema, and no more", () => {
    const schema = z.toJSONSchema(PLAN_SCHEMAS.metric, { io: "input" }) as JsonSchema;
    expect([...new Set(leavesOf(schema))].sort()).toEqual([...new Set(PLAN_INPUTS.map(({ path }) => path))].sort());
    const own = PLAN_INPUTS.map(({ path, when }) => JSON.stringify([path, when]));
    expect(new Set(own).size).toBe(own.length);
  });

  it("have a control each, or say why not", () => {
    for (const { input, name } of named) {
      const { noControl } = input.row;
      expect(noControl === undefined ? controlAt(input.path)?.label : noControl, name).toMatch(/\w/);
    }
  });

  it("start a form from the plan's defaults", () => {
    for (const { input, name } of named) {
      const { row, path } = input;
      if (row.kind === "number" && typeof row.default === "number") expect(emptyForm[path], name).toBe(row.default);
    }
    const { pot, soil, crop } = typedPlan({ units: "metric", settings: emptyForm }) as Record<string, object>;
    const [all, bare] = [emptyForm, undefined].map((settings) =>
      soundValue(
        resolvePlan(
          settings ? typedPlan({ units: "metric", settings }) : { version: 1, units: "metric", pot, soil, crop },
        ),
      ),
    );
    expect(rounded(all)).toEqual(rounded(bare));
  });
});

/** What a form's seven figures, and a suction in whole kPa, leave of a plan. */
function rounded(plan: Plan | undefined): unknown {
  const edge = { ...plan?.bed, isEdgeUsual: true };
  const three = (_: string, value: unknown) => (typeof value === "number" ? Number(value.toPrecision(3)) : value);
  return JSON.parse(JSON.stringify({ ...plan, bed: edge }, three));
}

describe("what an input bears on", () => {
  it.each(named.filter(({ input }) => canChange(input)))("$name", ({ input }) => {
    const before = openFor(input);
    const after = { ...before, [input.path]: otherValue(input, before[input.path]) };
    const [one, other] = [before, after].map((settings) =>
      soundValue(resolvePlan(typedPlan({ units: "metric", settings }))),
    );
    if (!one || !other) throw new Error("no plans");
    const changed = PART_NAMES.filter((part) => !isSameData(planPart(one, [part]), planPart(other, [part])));
    const meant = PART_NAMES.filter((part) => input.bearsOn.includes(part));
    // Another choice may leave some of them as they are: a crop of one's own may sprout like the listed one.
    if (input.row.kind === "choice") expect(meant).toEqual(expect.arrayContaining(changed));
    else expect(changed).toEqual(meant);
  });
});

/** One record is not sound in both unit systems: what its units change is a matter of the form's test of records. */
const canChange = ({ path, row }: Input) =>
  ["number", "flag", "choice"].includes(row.kind) && path !== "weather.recordUnits";

/** Settings under which the plan holds an input, and all that it may leave out is given. */
function openFor(input: Input) {
  const ways = PLAN_INPUTS.flatMap(({ path, row: { way } }) =>
    way && (path !== "startSuctionKPa" || input.path === path) && path !== "potPlaces"
      ? [[way.path, way.given.value]]
      : [],
  );
  const when = input.when.map(({ path, values }) => [path, values[0] ?? ""]);
  const settings = { ...initialFilled(undefined).settings, ...emptyForm, ...PROFILE };
  const open = { ...settings, ...Object.fromEntries(ways), ...Object.fromEntries(when) };
  expect(applies(input, open)).toBe(true);
  return open["weather.kind"] === "daily" ? { ...open, "weather.record": RECORD } : open;
}

const PROFILE = { "pot.points": '[{"diameter":20,"belowRim":0},{"diameter":20,"belowRim":30}]' };
const RECORD = [
  "date,high,low,rain",
  ...Array.from({ length: 365 }, (_, i) => `${new Date(Date.UTC(2023, 0, 1 + i)).toISOString().slice(0, 10)},20,10,0`),
].join("\n");

/** A little more, or a little less where that is too much. */
function otherValue({ path, row }: Input, now: number | string | undefined): number | string {
  if (row.kind === "choice") return row.values.find((value) => value !== now) ?? "";
  if (row.kind === "flag") return now === "yes" ? "no" : "yes";
  if (path.startsWith("soil.") && /sand$|silt$|clay$/.test(path)) return Number(now) + 0.4;
  const { isWhole, range } = row as { isWhole?: true; range: { max?: number; below?: number } };
  const step = isWhole ? 1 : Math.max(0.02 * Math.abs(Number(now)), 0.01);
  const most = range.max ?? range.below ?? Number.POSITIVE_INFINITY;
  return Number(now) + step < most ? Number(now) + step : Number(now) - step;
}
