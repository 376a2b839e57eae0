/** The figures of the bench as tables for a terminal. */

import { ALLOWED_ERROR } from "../../model/flow/gridRule.ts";
import { type Errors, isWithin } from "../support/errors.ts";
import { type Figures, isLivingWithin, isNeighbourWithin, type LivingFigure } from "./figures.ts";
import type { Figure } from "./measure.ts";
import type { NeighbourFigure } from "./neighbourFigures.ts";

export function printFigures(figures: Figures): void {
  const { shared, reference, otherPots, living, early, neighbours, sweep, demoBed, ensemble, browser } = figures;
  table(
    "Test problem 'buried cylinder' against the known answers; must: live 45 ms, standard 100 ms in loam and clay, 400 ms in sand, reference 20 s",
    shared,
  );
  section("Reference setting, error estimated from two grids, %");
  for (const { name, errors } of reference) console.log(name.padEnd(50), ...errorColumns(errors));
  section("Time of other pots over the cylinder's, loam kept full; must: 1.5");
  for (const { name, accuracy, ratio } of otherPots) console.log(name.padEnd(50), accuracy.padEnd(9), ratio.toFixed(2));
  section("Roots, sun, an open pot and a bed mix at once; must: 2 times what the same pot and ground take without");
  console.log(`${"run".padEnd(50)} accuracy       ms   times  with a shower  seep.% uptake%  evap.%`);
  for (const row of living) console.log(...livingColumns(row));
  section("What a living bed's rows and columns decide, error and the largest allowed, %");
  for (const { name, accuracy, error, allowed } of early)
    console.log(
      name.padEnd(50),
      accuracy.padEnd(9),
      (100 * error).toFixed(2).padStart(6),
      (100 * allowed).toFixed(0),
      error > allowed ? "above its bound" : "",
    );
  section(
    `Pots all about, two weeks in three dimensions; must: 60 s, 2 %, 500 MB (by now ${neighbours.megabytes.toFixed(0)} MB); beside them the circle of the same area`,
  );
  console.log(
    `${"run".padEnd(50)} accuracy   cells      ms  seep.%  radius%  depth% balance  circle%  midway  circle  corner, cm of suction`,
  );
  for (const row of neighbours.rows) console.log(...neighbourColumns(row));
  table("Every class, against the reference setting", sweep);
  table("Coarse answer of the demo bed", demoBed);
  section(
    `An ensemble of ${ensemble.members} soils called loam in ${ensemble.threads} threads; must: first 1 s, all 8 s`,
  );
  console.log(
    `first members ${ensemble.firstMilliseconds.toFixed(0)} ms, all ${ensemble.allMilliseconds.toFixed(0)} ms, failed ${ensemble.failed}`,
  );
  if (!browser) return;
  section("In a browser's worker, time over Node's; must: 1.3");
  for (const { name, accuracy, milliseconds, ratio } of browser.runs)
    console.log(name.padEnd(50), accuracy.padEnd(9), milliseconds.toFixed(0).padStart(6), ratio.toFixed(2));
}

const section = (heading: string) => console.log(`\n${heading}`);

function table(heading: string, rows: Figure[]): void {
  section(heading);
  console.log(`${"run".padEnd(50)} accuracy   cells  steps      ms  seep.%  radius%  depth%  empty% balance`);
  for (const row of rows) console.log(columns(row).join(" "));
}

function columns({ name, accuracy, cells, steps, milliseconds, balanceError, errors }: Figure): string[] {
  return [
    name.padEnd(50),
    accuracy.padEnd(9),
    String(cells).padStart(6),
    String(steps).padStart(6),
    milliseconds.toFixed(0).padStart(7),
    ...errorColumns(errors),
    balanceError.toExponential(0).padStart(7),
    errors && !isWithin(errors, ALLOWED_ERROR[accuracy]) ? "above its bound" : "",
  ];
}

function livingColumns({ name, accuracy, milliseconds, ratio, showerRatio, errors }: LivingFigure): string[] {
  const { seepage, uptake, evaporation } = errors;
  return [
    name.padEnd(50),
    accuracy.padEnd(9),
    milliseconds.toFixed(0).padStart(6),
    ratio.toFixed(2).padStart(7),
    showerRatio.toFixed(2).padStart(14),
    ...[seepage, uptake, evaporation].map((error) => (100 * error).toFixed(2).padStart(7)),
    isLivingWithin(errors, accuracy) ? "" : "above its bound",
  ];
}

function neighbourColumns(row: NeighbourFigure): string[] {
  const { name, accuracy, cells, milliseconds, errors, balanceError, circleOff, suctions } = row;
  const { midway, circle, corner } = suctions;
  return [
    name.padEnd(50),
    accuracy.padEnd(9),
    String(cells).padStart(6),
    milliseconds.toFixed(0).padStart(7),
    ...errorColumns(errors).slice(0, 3),
    balanceError.toExponential(0).padStart(7),
    (100 * circleOff).toFixed(2).padStart(8),
    ...[midway, circle, corner].map((suction) => suction.toFixed(1).padStart(7)),
    isNeighbourWithin(row) ? "" : "above its bound",
  ];
}

function errorColumns(errors: Errors | undefined): string[] {
  const { seepage, radius, depth, emptying } = errors ?? {};
  return [seepage, radius, depth, emptying].map((error) =>
    (error === undefined ? "" : (100 * error).toFixed(2)).padStart(7),
  );
}
