import { group, range, sort } from "d3-array";
import { z } from "zod";
import { type Checked, checkInput, type Fault, fault, type Reader, readJson, soundValue } from "../input/faults.ts";
import { numberField } from "../input/fields.ts";
import { resolvePlan } from "../plan/plan.ts";
import { type Drawing, MEMBER_GROUPS } from "./members.ts";
import { OUTCOME_DAYS, type Outcome } from "./outcome.ts";

/** Part `i` of an ensemble split in `n`, i from 1. */
export interface Shard {
  i: number;
  n: number;
}

/** What one machine gives of an ensemble, as it stands in a part file; the whole ensemble is its part 1 of 1. */
export interface EnsemblePart {
  version: 1;
  /** As it was typed. */
  plan: unknown;
  drawing: Drawing;
  sowingDay: number;
  shard: Shard;
  /** Of the part's members, by index. */
  outcomes: Outcome[];
}

/** Every n-th of the members, or of anything else with their index. */
export function shardMembers<M extends { index: number }>(members: readonly M[], { i, n }: Shard): M[] {
  return members.filter(({ index }) => index % n === i - 1);
}

const whole = (title: string, min: number, max: number) =>
  z
    .int()
    .min(min)
    .max(max)
    .meta({ title, description: `a whole number from ${min} to ${max}` });
const MOST = 1_000_000;
const MOST_PARTS = 10_000;
const byDay = (title: string) =>
  z
    .array(z.number())
    .meta({ title, description: `a list of ${OUTCOME_DAYS.length} numbers, or an empty one where the run failed` });
const cm = (title: string) => numberField(title, { min: 0 }, "cm");

const outcomeSchema = z
  .strictObject({
    index: whole("place of the member", 0, MOST),
    trouble: z.string().nullable().meta({ title: "trouble of the member", description: "a text or null" }),
    radius: byDay("wetted radius by day"),
    depth: byDay("wetted depth by day"),
    sowing: z
      .strictObject({ inner: cm("inner sowing limit"), outer: cm("outer sowing limit"), isOuterAtLeast: z.boolean() })
      .meta({ title: "sowing limits" }),
    emptyDay: numberField("day on which the pot is empty", { min: 0 }, "days").nullable(),
    seepageLitres: numberField("water given", { min: 0 }, "L"),
  })
  .superRefine(({ trouble, radius, depth }, context) => {
    const length = trouble === null ? OUTCOME_DAYS.length : 0;
    for (const [name, list] of Object.entries({ radius, depth }))
      if (list.length !== length) context.addIssue({ code: "custom", path: [name] });
  })
  .meta({ title: "outcome" });

const partSchema = z
  .strictObject({
    version: z.literal(1).meta({ title: "version of the part file" }),
    plan: z.unknown(),
    drawing: z
      .strictObject({
        count: whole("number of members", 1, MOST),
        seed: whole("seed", 0, 2 ** 32 - 1),
        varied: z
          .array(z.enum(MEMBER_GROUPS).meta({ title: "what varies" }))
          .meta({ title: "list of what varies", description: `a list of any of ${MEMBER_GROUPS.join(", ")}` }),
      })
      .meta({ title: "drawing" }),
    sowingDay: numberField("sowing day", { min: 0 }, "days"),
    shard: z
      .strictObject({ i: whole("number of the part", 1, MOST_PARTS), n: whole("number of parts", 1, MOST_PARTS) })
      .meta({ title: "shard" }),
    outcomes: z.array(outcomeSchema).meta({ title: "outcomes", description: "a list of outcomes" }),
  })
  .meta({ title: "part of an ensemble" });

/** The text of a part file, or everything that is wrong with it, the plan inside it included. */
export function readPart(text: string): Checked<EnsemblePart> {
  const json = readJson(text, "the part file");
  if (!json.ok) return json;
  const part = checkInput(partSchema, json.value, [shardRules, outcomeRules]);
  const plan = resolvePlan((json.value as { plan?: unknown } | null)?.plan);
  const faults = [
    ...faultsOf(part),
    ...faultsOf(plan).map((f) => ({ ...f, path: ["plan", f.path].filter(Boolean).join(".") })),
  ];
  return part.ok && faults.length === 0 ? part : { ok: false, faults };
}

const faultsOf = (checked: Checked<unknown>) => (checked.ok ? [] : checked.faults);

/** The text of a part's file, which `readPart` reads again. */
export function serializePart(part: EnsemblePart): string {
  return `${JSON.stringify(part)}\n`;
}

function shardRules({ number, fault }: Reader): (Fault | false)[] {
  const [i, n] = [number("shard.i"), number("shard.n")];
  return [i > n && fault("shard.i", `at most the number of parts, ${n}`)];
}

/** One outcome for each of the part's members, in their order. */
function outcomeRules({ number, count, fault }: Reader): (Fault | false)[] {
  const [i, n, members] = [number("shard.i"), number("shard.n"), number("drawing.count")];
  if (!(i <= n && members > 0)) return [];
  const expected = range(i - 1, members, n);
  const given = count("outcomes");
  return [
    given !== expected.length &&
      fault("outcomes", `one for each of the ${expected.length} members of part ${i} of ${n}`),
    ...expected.slice(0, given).map((index, k) => {
      const path = `outcomes.${k}.index`;
      return (
        Number.isFinite(number(path)) &&
        number(path) !== index &&
        fault(path, `${index}, the next of part ${i} of ${n}`)
      );
    }),
  ];
}

/** A part that has been checked, and what to call it: its file's name. */
export interface NamedPart {
  name: string;
  part: EnsemblePart;
}

/** The whole ensemble from its parts in any order, the same as if it had never been split; or why they do not fit. */
export function mergeParts(parts: readonly NamedPart[]): Checked<EnsemblePart> {
  const [first] = parts;
  if (!first) return { ok: false, faults: [fault("", "the list of parts", undefined, "one part or more")] };
  const faults = [...parts.flatMap((other) => differences(first, other)), ...shardFaults(first.part.shard.n, parts)];
  if (faults.length > 0) return { ok: false, faults };
  const outcomes = sort(
    parts.flatMap(({ part }) => part.outcomes),
    ({ index }) => index,
  );
  return { ok: true, value: { ...first.part, shard: { i: 1, n: 1 }, outcomes } };
}

/** What must be the same in all parts, in words; plans may be typed differently as long as they mean the same. */
function identityOf({ plan, drawing, sowingDay, shard }: EnsemblePart): Record<string, string | number> {
  return {
    plan: JSON.stringify(soundValue(resolvePlan(plan))),
    "number of members": drawing.count,
    seed: drawing.seed,
    "list of what varies": MEMBER_GROUPS.filter((name) => drawing.varied.includes(name)).join(", "),
    "sowing day": sowingDay,
    "number of parts": shard.n,
  };
}

function differences(first: NamedPart, other: NamedPart): Fault[] {
  const [expected, given] = [identityOf(first.part), identityOf(other.part)];
  return Object.keys(expected)
    .filter((field) => given[field] !== expected[field])
    .map((field) => {
      const words = field === "plan" ? "the plan" : String(expected[field]);
      const value = field === "plan" ? "another plan" : given[field];
      return fault(other.name, `the ${field} of ${other.name}`, value, `${words} of ${first.name}`);
    });
}

function shardFaults(n: number, parts: readonly NamedPart[]): Fault[] {
  const byShard = group(
    parts.filter(({ part }) => part.shard.n === n),
    ({ part }) => part.shard.i,
  );
  return range(1, n + 1).flatMap((i) => {
    const names = byShard.get(i)?.map(({ name }) => name) ?? [];
    const shard = `part ${i} of ${n}`;
    if (names.length === 0) return [fault("", shard, undefined, "among the parts")];
    return names.length === 1 ? [] : [doubled(shard, names)];
  });
}

function doubled(shard: string, names: readonly string[]): Fault {
  const [value, allowed] = [names.join(" and "), "in one file alone"];
  return { path: "", field: shard, value, allowed, message: `${shard} is in ${value}; it must be ${allowed}` };
}
