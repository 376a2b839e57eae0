/** The gravity line of a plan's bed: a main from the tank, a pipe along each row of pots, a small tube to each pot. */

import { ascending, median } from "d3-array";
import type { Place } from "../bed/outline.ts";
import { turnedPlace } from "../bed/turning.ts";
import { first, present } from "../input/lists.ts";
import { LOSS, PLASTIC_ROUGHNESS, VALVES } from "../line/fittings.ts";
import type { Line, Outlet, Piece } from "../line/network.ts";
import type { Plan } from "../plan/plan.ts";
import { LITRES_PER_M3, M_PER_CM, M_PER_MM, SECONDS_PER_HOUR } from "../units/factors.ts";

/** The line, m, and where its pieces run over the bed, cm: of a piece that stands upright both ends are one place. */
export interface BedLine {
  line: Line;
  ways: Way[];
  /** The pots of each row, in the water's order. */
  rows: number[][];
}

export interface Way {
  from: Place;
  to: Place;
}

/** The parts of a plan that its line rests on. */
export type LinedBed = Pick<Plan, "bed" | "pot" | "tank" | "line">;

/** The parts that the line rests on, picked from a plan. */
export const linedBed = ({ bed, pot, tank, line }: LinedBed): LinedBed => ({ bed, pot, tank, line });

/** What its flows rest on: no pipe is cut for them. */
export interface FlowingBed extends Omit<LinedBed, "line"> {
  line: Omit<LinedBed["line"], "slack">;
}

/** Pots whose distance across the rows is less than this share of the spacing share a row: our own choice. */
const ONE_ROW = 0.45;
/** Nobody cuts a pipe of such a length, cm; turning a bed makes them. */
const ROUNDING = 1e-6;
const MIDDLE: Place = { x: 0, y: 0 };

/**
 * Each row's pipe begins where the first pots of all rows stand; a cross pipe of the main's bore joins the rows, and the main
 * comes to the first one. A pot that stands beside its row's pipe has a longer tube.
 */
export function bedLine(plan: FlowingBed, pots: readonly Place[]): BedLine {
  const { rowAngle, spacing } = plan.bed;
  const places = pots.map((pot) => turnedPlace(pot, -rowAngle, MIDDLE));
  const rows = rowsOf(places, ONE_ROW * spacing);
  const start = Math.min(...places.map(({ x }) => x));
  const laid = laying(plan);
  let node = laid.main({ x: start, y: first(rows).y });
  for (const [k, { y, pots: own }] of rows.entries()) {
    const corner = { x: start, y };
    const before = rows[k - 1];
    if (before) node = laid.cross(node, { from: { x: start, y: before.y }, to: corner }, k + 1);
    let tee = { piece: node, place: corner };
    for (const { pot, place } of own) {
      const next = { x: place.x, y };
      if (next.x - tee.place.x > ROUNDING)
        tee = { piece: laid.row(tee.piece, { from: tee.place, to: next }, { row: k + 1, pot }), place: next };
      laid.tube(tee.piece, { from: tee.place, to: place }, pot);
    }
  }
  const back = (place: Place) => turnedPlace(place, rowAngle, MIDDLE);
  return {
    line: { pieces: laid.pieces, celsius: plan.line.celsius },
    ways: laid.ways.map(({ from, to }) => ({ from: back(from), to: back(to) })),
    rows: rows.map(({ pots: own }) => own.map(({ pot }) => pot)),
  };
}

interface StandingPot {
  pot: number;
  place: Place;
}

/** By y; in each row by x. A row's pipe runs where most of its pots stand, though one of them was moved aside. */
function rowsOf(places: readonly Place[], apart: number): { y: number; pots: StandingPot[] }[] {
  const rows: [StandingPot, ...StandingPot[]][] = [];
  const byY = places.map((place, pot) => ({ pot, place })).sort((a, b) => ascending(a.place.y, b.place.y));
  for (const each of byY) {
    const row = rows.at(-1);
    if (row && each.place.y - row[0].place.y < apart) row.push(each);
    else rows.push([each]);
  }
  return rows.map((pots) => ({
    y: present(
      median(pots, ({ place }) => place.y),
      "pot in the row",
    ),
    pots: pots.sort((a, b) => ascending(a.place.x, b.place.x)),
  }));
}

/** Pieces laid one after another; each gives its index, for the next to go on from. */
function laying({ line, tank }: FlowingBed) {
  const pieces: Piece[] = [];
  const ways: Way[] = [];
  const add = (piece: Omit<Piece, "roughness" | "outlet" | "via"> & Partial<Piece>, way: Way): number => {
    ways.push(way);
    return pieces.push({ roughness: PLASTIC_ROUGHNESS, outlet: null, via: [], ...piece }) - 1;
  };
  const bore = { main: line.mainBore * M_PER_MM, row: line.rowBore * M_PER_MM, tube: line.tubeBore * M_PER_MM };
  const rowHeight = line.rowHeight * M_PER_CM;
  /** A row's pipe lies level at the height of all rows. */
  const level = (name: string, parent: number, way: Way, pipe: Pick<Piece, "kind" | "innerDiameter">) =>
    add(
      { ...pipe, name, parent, length: distance(way) * M_PER_CM, minorLoss: LOSS.teeStraight, height: rowHeight },
      way,
    );
  return {
    pieces,
    ways,
    /** From the tank down to the soil, and by a riser to the height of the rows. */
    main(corner: Place): number {
      const upright = { from: corner, to: corner };
      const main = add(
        {
          ...{
            name: "main",
            kind: "main",
            parent: null,
            length: line.mainLength * M_PER_CM,
            innerDiameter: bore.main,
            height: 0,
          },
          minorLoss: LOSS.entrance + VALVES[line.valve] + LOSS.elbow,
          via: humpOf(line, tank.outletHeight),
        },
        { from: { x: corner.x - line.mainLength, y: corner.y }, to: corner },
      );
      if (rowHeight === 0) return main;
      const riser = {
        name: "riser",
        kind: "riser",
        parent: main,
        length: Math.abs(rowHeight),
        height: rowHeight,
      } as const;
      return add({ ...riser, innerDiameter: bore.main, minorLoss: LOSS.elbow }, upright);
    },
    cross: (parent: number, way: Way, row: number) =>
      level(`cross pipe to row ${row}`, parent, way, { kind: "cross pipe", innerDiameter: bore.main }),
    row: (parent: number, way: Way, { row, pot }: { row: number; pot: number }) =>
      level(`row ${row} to pot ${pot + 1}`, parent, way, { kind: "row pipe", innerDiameter: bore.row }),
    tube: (parent: number, way: Way, pot: number) =>
      add(
        {
          ...{
            name: `tube of pot ${pot + 1}`,
            kind: "tube",
            parent,
            innerDiameter: bore.tube,
            minorLoss: LOSS.teeBranch,
          },
          length: (line.tubeLength + distance(way)) * M_PER_CM,
          height: line.tubeEndHeight * M_PER_CM,
          outlet: outletOf(line, pot),
        },
        way,
      ),
  };
}

const distance = ({ from, to }: Way) => Math.hypot(to.x - from.x, to.y - from.y);

/** A third and two thirds along: the higher place first where the line goes up from the tank, else the lower one. */
function humpOf({ mainHump, mainLength }: FlowingBed["line"], outletHeight: number): Piece["via"] {
  if (!mainHump) return [];
  const { highest, lowest } = mainHump;
  const heights = highest > outletHeight ? [highest, lowest] : [lowest, highest];
  return heights.map((height, k) => ({ along: ((k + 1) / 3) * mainLength * M_PER_CM, height: height * M_PER_CM }));
}

/** q = k √h or another power of the head, as makers tell it: flow under one metre, and the exponent. */
function outletOf({ emitter }: FlowingBed["line"], pot: number): Outlet {
  if (!emitter) return { pot, emitter: null };
  const coefficient = emitter.litresPerHourAtOneMetre / LITRES_PER_M3 / SECONDS_PER_HOUR;
  return { pot, emitter: { coefficient, exponent: emitter.exponent } };
}
