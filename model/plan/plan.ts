import { rowNamed, seeds, textureClasses } from "../../reference-data/load.ts";
import { type Checked, checkInput, fault, readJson } from "../input/faults.ts";
import type { PotShape } from "../pot/pot.ts";
import { textureFromJar } from "../soil/jarTest.ts";
import { type Texture, type TextureClass, textureClass } from "../soil/textureTriangle.ts";
import type { VanGenuchtenParameters } from "../soil/vanGenuchten.ts";
import { headOfSuction, type UnitSystem } from "../units/units.ts";
import { type RecordReader, recordReader } from "../weather/dailyCsv.ts";
import { type PlacedPots, toBed } from "./planBed.ts";
import { type PlanCrop, toCrop } from "./planCrop.ts";
import { type LivingBed, toLiving } from "./planLiving.ts";
import { toSupply, type WaterSupply } from "./planSupply.ts";
import { PLAN_ROWS } from "./typed/planRows.ts";
import { planRules } from "./typed/planRules.ts";
import { type CheckedPlan, PLAN_SCHEMAS } from "./typed/planSchema.ts";
import { inModelUnits } from "./typed/rowWalk.ts";
import { startSuction } from "./typed/startMoisture.ts";
import { toPot } from "./typed/typedPot.ts";

/** A plan with nothing left open: cm, day, pressure heads negative. `units` says only how to show it. */
export interface Plan extends LivingBed, PlacedPots, WaterSupply {
  version: 1;
  units: UnitSystem;
  name: string;
  notes: string;
  soil: PlanSoil;
  pot: PotShape;
  drainHoleDiameter: number;
  filling: { kind: "float" } | { kind: "every"; days: number } | { kind: "once" };
  startHead: number;
  /** How long to look ahead. */
  days: number;
  crop: PlanCrop;
  /** Depth of most roots, where the easy-water edge is read. */
  rootDepth: number;
  sowing: Sowing;
  /** null: the first day on which the sowing band is a hand wide. */
  sowingDay: number | null;
}

export interface PlanSoil {
  /** null for own parameters. */
  className: TextureClass | null;
  /** null where the class or the parameters were given. */
  texture: PlanTexture | null;
  parameters: VanGenuchtenParameters;
}

/** Sand, silt and clay, %; `sd`: the standard deviation of sand and of clay, percentage points. */
export interface PlanTexture extends Texture {
  sd: number;
}

export type Sowing =
  | { kind: "seed"; sowingDepth: number; emergenceDays: number; sproutingHead: number }
  | { kind: "starter"; rootBallDepth: number; rootBallRadius: number; handWateringDays: number };

/**
 * What was typed is handed back in both cases, so that nothing a person wrote is lost; `filled` is the same with the plan's
 * defaults, in the model's units.
 */
export type ResolvedPlan = ({ ok: true; value: Plan; filled: CheckedPlan } | Extract<Checked<Plan>, { ok: false }>) & {
  typed: unknown;
};

/**
 * Checks a plan as typed, fills its defaults and turns it into cm and day; or tells every fault at once. Who resolves plan
 * after plan gives one `recordReader` to all of them, so that a daily record is parsed once.
 */
export function resolvePlan(typed: unknown, readRecord: RecordReader = recordReader()): ResolvedPlan {
  const checked = checkPlan(typed, readRecord);
  if (!checked.ok) return { ...checked, typed };
  const filled = inModelUnits(PLAN_ROWS, checked.value, checked.value.units);
  return { ok: true, value: toPlan(filled, readRecord), filled, typed };
}

/** The text of a plan file, resolved. */
export function readPlan(text: string): ResolvedPlan {
  const json = readJson(text, "the plan file");
  return json.ok ? resolvePlan(json.value) : { ...json, typed: text };
}

/** The text of a plan file that holds just what was typed. */
export function serializePlan(typed: unknown): string {
  return `${JSON.stringify(typed, null, 2)}\n`;
}

function checkPlan(typed: unknown, readRecord: RecordReader): Checked<CheckedPlan> {
  const { version, units } = (typeof typed === "object" && typed !== null ? typed : {}) as Record<string, unknown>;
  if (typeof version === "number" && version > 1)
    return {
      ok: false,
      faults: [fault("version", "plan version", version, "1: this plan was saved by a later version")],
    };
  const system = units === "us" ? "us" : "metric";
  return checkInput(PLAN_SCHEMAS[system], typed, planRules(system, readRecord));
}

/** In the model's units. */
function toPlan(checked: CheckedPlan, readRecord: RecordReader): Plan {
  const { version, units, name, notes, filling, days, rootDepth, sowingDay } = checked;
  const pot = toPot(checked.pot);
  const crop = toCrop(checked.crop);
  return {
    ...{ version, units, name, notes, filling, days, rootDepth, sowingDay },
    soil: toSoil(checked.soil),
    pot,
    drainHoleDiameter: checked.pot.drainHoleDiameter,
    startHead: headOfSuction(startSuction(checked.startMoisture, checked.startSuctionKPa)),
    crop,
    sowing: toSowing(checked.sowing, crop.name),
    ...toLiving(checked, readRecord),
    ...toBed(checked, pot),
    ...toSupply(checked, pot),
  };
}

function toSoil(soil: CheckedPlan["soil"]): PlanSoil {
  switch (soil.kind) {
    case "class":
      return { className: soil.name, texture: null, parameters: classMean(soil.name) };
    case "texture":
      return ofTexture(soil, soil.uncertainty);
    case "jar": {
      const { sandHeight: sand, siltHeight: silt, clayHeight: clay, uncertainty } = soil;
      return ofTexture(textureFromJar({ sand, silt, clay }), uncertainty);
    }
    case "own": {
      const { kind, ...parameters } = soil;
      return { className: null, texture: null, parameters };
    }
  }
}

function ofTexture({ sand, silt, clay }: Texture, sd: number): PlanSoil {
  const texture = toHundredths({ sand, silt, clay });
  const className = textureClass(texture);
  return { className, texture: { ...texture, sd }, parameters: classMean(className) };
}

/** Scaled to 100 % in whole hundredths, so that no rounding puts a soil between two classes. */
function toHundredths({ sand, silt, clay }: Texture): Texture {
  const hundredths = (share: number) => Math.round((10_000 * share) / (sand + silt + clay));
  const s = hundredths(sand);
  const c = Math.min(hundredths(clay), 10_000 - s);
  return { sand: s / 100, silt: (10_000 - s - c) / 100, clay: c / 100 };
}

const classMean = (name: TextureClass) => rowNamed(textureClasses(), name).mean;

/** For a crop that the table of seeds does not hold: cm, days, cm of suction; our own choice. */
const SEED = { sowingDepth: { max: 1 }, emergenceDays: { max: 14 }, sproutingSuction: 3000 };

/** What is left out is the crop's own: its deepest sowing and its latest emergence. */
function toSowing(sowing: CheckedPlan["sowing"], cropName: string): Sowing {
  if (sowing.kind === "starter") return sowing;
  const seed = seeds().rows.find(({ name }) => name === cropName) ?? SEED;
  const { sowingDepth, emergenceDays, sproutingSuctionKPa } = sowing;
  return {
    kind: "seed",
    sowingDepth: sowingDepth ?? seed.sowingDepth.max,
    emergenceDays: emergenceDays ?? seed.emergenceDays.max,
    sproutingHead: sproutingSuctionKPa === undefined ? -seed.sproutingSuction : headOfSuction(sproutingSuctionKPa),
  };
}
