/** Where a plan's water comes from, resolved: planting day, roof, tanks and line. */

import { dayOfYear } from "../calendar/yearDays.ts";
import type { Valve } from "../line/fittings.ts";
import type { PotShape } from "../pot/pot.ts";
import type { Quantity } from "../units/units.ts";
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

type Convert = (quantity: Quantity) => (value: number) => number;

/** The water in a tank of straight walls, cm², as seen from above. */
export const waterSurface = ({ litres, waterHeight }: Pick<Tank, "litres" | "waterHeight">): number =>
  (litres * 1000) / waterHeight;

/** Share of a full tank's water that stands above the ends of the small tubes: the rest never runs to a pot. */
export function usableShare({ tank, line }: Pick<WaterSupply, "tank" | "line">): number {
  const above = tank.outletHeight + tank.waterHeight - line.tubeEndHeight;
  return Math.min(above / tank.waterHeight, 1);
}

export function toSupply(checked: CheckedPlan, pot: PotShape, to: Convert): WaterSupply {
  const { planting, roof, tank, spareTanks, topUp } = checked;
  const litres = to("volume");
  return {
    plantingDay: dayOfYear(planting.month, planting.day),
    roof: {
      area: to("area")(roof.area),
      runoff: roof.runoff / 100,
      firstFlushMm: to("rain")(roof.firstFlush),
    },
    tank: {
      litres: litres(tank.volume),
      waterHeight: to("length")(tank.waterHeight),
      outletHeight: to("length")(tank.outletHeight),
      lid: tank.lid,
    },
    spareTanks:
      spareTanks.kind === "none"
        ? null
        : {
            count: spareTanks.count,
            litres: litres(spareTanks.volume),
            transferLitres: to("flow")(spareTanks.transfer),
          },
    topUp: topUp.kind === "none" ? null : { belowShare: topUp.share / 100, litres: litres(topUp.amount) },
    line: toLine(checked.line, pot, to),
  };
}

function toLine(line: CheckedPlan["line"], pot: PotShape, to: Convert): LinePlan {
  const { main, rowPipe, tube, joints } = line;
  const [cm, mm] = [to("length"), to("bore")];
  return {
    celsius: to("temperature")(line.waterTemperature),
    valve: line.valve,
    mainLength: to("distance")(main.length),
    mainBore: mm(main.bore),
    mainHump: main.way.kind === "falling" ? null : { highest: cm(main.way.highest), lowest: cm(main.way.lowest) },
    rowBore: mm(rowPipe.bore),
    rowHeight: cm(rowPipe.height),
    tubeBore: mm(tube.bore),
    tubeLength: cm(tube.length),
    tubeEndHeight: tube.endHeight === undefined ? -pot.rimDepth : cm(tube.endHeight),
    emitter:
      tube.end.kind === "open"
        ? null
        : { litresPerHourAtOneMetre: to("emitter flow")(tube.end.flowAtOneMetre), exponent: tube.end.exponent },
    whenFull: line.fullPots,
    joints: joints.kind === "none" ? null : { bore: mm(joints.bore), depth: cm(joints.depth) },
    wantedMinutes: line.wantedMinutes,
    slack: line.slack / 100,
  };
}
