/** What a person may ask of the band command. */

import { type Drawing, type Shard, SOIL_GROUPS } from "../../../model/public/ensemble.ts";
import { type Checked, fault } from "../../../model/public/plan.ts";
import { hasSpread } from "../../words/bandWords.ts";
import { type GivenOptions, type OptionTypes, readOptions, writableFaults } from "../commandOptions.ts";
import { DEMO_TEXT, planText, resolveChanged, type TypedPlan } from "../start/options.ts";

export interface BandAsk extends TypedPlan {
  drawing: Drawing;
  shard: Shard;
  /** Where to write the part. */
  out: string | undefined;
}

const OPTIONS = {
  soil: { type: "string" },
  units: { type: "string" },
  plan: { type: "string" },
  members: { type: "string" },
  seed: { type: "string" },
  out: { type: "string" },
  shard: { type: "string" },
  help: { type: "boolean" },
} as const satisfies OptionTypes;

type Given = GivenOptions<typeof OPTIONS>;

export const DEFAULTS = { members: 200, seed: 1 };

const LIMITS = { members: { min: 1, max: 1_000_000 }, seed: { min: 0, max: 2 ** 32 - 1 }, parts: 10_000 };

/** Reads the options and the plan they name; every fault of both at once. */
export async function readBand(args: string[]): Promise<Checked<BandAsk>> {
  const { given, faults: optionFaults } = readOptions(args, OPTIONS, { help: "npm run band -- --help" });
  const text = await planText(given.plan);
  const read = resolveChanged(text.ok ? text.value : DEMO_TEXT, given);
  const [count, seed, shard] = [whole("members", given), whole("seed", given), readShard(given)];
  const faults = [
    optionFaults,
    await writableFaults(given.out, "--out"),
    ...[text, read, count, seed, shard].map((each) => (each.ok ? [] : each.faults)),
    read.ok && !hasSpread(read.value.plan) ? [ownSoil] : [],
  ].flat();
  if (!(read.ok && count.ok && seed.ok && shard.ok) || faults.length > 0) return { ok: false, faults };
  const drawing = { count: count.value, seed: seed.value, varied: SOIL_GROUPS };
  return { ok: true, value: { ...read.value, drawing, shard: shard.value, out: given.out } };
}

const ownSoil = fault(
  "soil",
  "soil",
  "its own parameters",
  "a name, or sand, silt and clay: only of these is it known how soils differ",
);

function whole(name: keyof typeof DEFAULTS, given: Given): Checked<number> {
  const typed = given[name];
  const { min, max } = LIMITS[name];
  const value = typed === undefined ? DEFAULTS[name] : wholeOf(typed);
  if (value >= min && value <= max) return { ok: true, value };
  return { ok: false, faults: [fault(`--${name}`, WORDS[name], typed, `a whole number from ${min} to ${max}`)] };
}

const WORDS = { members: "number of soils", seed: "seed" };

/** NaN where it is anything else. */
const wholeOf = (text: string): number => (/^\d+$/.test(text.trim()) ? Number(text) : Number.NaN);

function readShard({ shard: typed, out }: Given): Checked<Shard> {
  const [i, n, ...rest] = (typed ?? "1/1").split("/").map(wholeOf) as [number, number];
  const isShard = rest.length === 0 && i >= 1 && i <= n && n <= LIMITS.parts;
  const faults = [
    ...(isShard ? [] : [fault("--shard", "part", typed, `i/n, such as 2/3: part i of n, n up to ${LIMITS.parts}`)]),
    ...(typed !== undefined && out === undefined
      ? [fault("--out", "file of the part", undefined, "given, so that the parts can be merged")]
      : []),
  ];
  return faults.length > 0 ? { ok: false, faults } : { ok: true, value: { i, n } };
}
