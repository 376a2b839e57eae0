/** Where a plan's water comes from, resolved: planting day, roof, tanks and line. */

import { dayOfYear } from "../calendar/yearDays.ts";
import type { Valve } from "../line/fittings.ts";
import type { PotShape } from "../pot/pot.ts";
import { CM3_PER_LITRE } from "../units/factors.ts";
import type { CheckedPlan } from "./typed/planSchema.ts";

export interface WaterSupply {
  /** Day of the year, 1 to 365, on which the season begins. */
  plantingDay: number;
  roof: Roof;
  tank: Tank;
  spareTanks: { count: number; litres: number; transferLitres: number } | null;
  topUp: { belowShare: number; litres: number } | null;
  line: LinePlan;
}

export interface Roof {
  /** cm², as seen from above. */
  area: number;
  /** Share of the rain that runs off, 0 to 1. */
  runoff: number;
  /** Let go of each rain after a dry day, mm. */
  firstFlushMm: number;
}

/** cm and litres. */
export interface Tank {
  litres: number;
  /** Of the water in the full tank; its walls stand straight. */
  waterHeight: number;
  /** Above the bed's soil. */
  outletHeight: number;
  lid: boolean;
}

/** cm, bores in mm. */
export interface LinePlan {
  celsius: number;
  valve: Valve;
  mainLength: number;
  mainBore: number;
  /** Heights above the soil that the main goes through on its way; null where it falls all the way. */
  mainHump: { highest: number; lowest: number } | null;
  rowBore: number;
  rowHeight: number;
  tubeBore: number;
  tubeLength: number;
  tubeEndHeight: number;
  /** null: an open end. */
  emitter: { litresPerHourAtOneMetre: number; exponent: number } | null;
  whenFull: "overflow" | "stop";
  /** Tubes between the pots of a row, low in their walls; null where there are none. */
  joints: { bore: number; depth: number } | null;
  wantedMinutes: number;
  /** Share added to each length. */
  slack: number;
}

/** The water in a tank of straight walls, cm², as seen from above. */
export const waterSurface = ({ litres, waterHeight }: Pick<Tank, "litres" | "waterHeight">): number =>
  (litres * CM3_PER_LITRE) / waterHeight;

/** Share of a full tank's water that stands above the ends of the small tubes: the rest never runs to a pot. */
export function usableShare({ tank, line }: Pick<WaterSupply, "tank" | "line">): number {
  const above = tank.outletHeight + tank.waterHeight - line.tubeEndHeight;
  return Math.min(above / tank.waterHeight, 1);
}

export function toSupply(checked: CheckedPlan, pot: PotShape): WaterSupply {
  const { planting, roof, tank, spareTanks, topUp } = checked;
  const { volume: litres, waterHeight, outletHeight, lid } = tank;
  return {
    plantingDay: dayOfYear(planting.month, planting.day),
    roof: { area: roof.area, runoff: roof.runoff / 100, firstFlushMm: roof.firstFlush },
    tank: { litres, waterHeight, outletHeight, lid },
    spareTanks:
      spareTanks.kind === "none"
        ? null
        : { count: spareTanks.count, litres: spareTanks.volume, transferLitres: spareTanks.transfer },
    topUp: topUp.kind === "none" ? null : { belowShare: topUp.share / 100, litres: topUp.amount },
    line: toLine(checked.line, pot),
  };
}

function toLine(line: CheckedPlan["line"], pot: PotShape): LinePlan {
  const { main, rowPipe, tube, joints } = line;
  const { way } = main;
  const { end } = tube;
  return {
    celsius: line.waterTemperature,
    valve: line.valve,
    mainLength: main.length,
    mainBore: main.bore,
    mainHump: way.kind === "falling" ? null : { highest: way.highest, lowest: way.lowest },
    rowBore: rowPipe.bore,
    rowHeight: rowPipe.height,
    tubeBore: tube.bore,
    tubeLength: tube.length,
    tubeEndHeight: tube.endHeight ?? -pot.rimDepth,
    emitter: end.kind === "open" ? null : { litresPerHourAtOneMetre: end.flowAtOneMetre, exponent: end.exponent },
    whenFull: line.fullPots,
    joints: joints.kind === "none" ? null : { bore: joints.bore, depth: joints.depth },
    wantedMinutes: line.wantedMinutes,
    slack: line.slack / 100,
  };
}
