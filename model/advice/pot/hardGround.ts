import { sum } from "d3-array";
import type { Frame, Run } from "../../flow/run.ts";
import { entry } from "../../input/lists.ts";
import type { PottedGround } from "../../plan/planPart.ts";

/** Shares of the ground, as deep as the crop's deepest roots, that stand too wet and too dry for roots to drink freely. */
export function hardGround({ crop }: PottedGround, { grid }: Run, { h }: Frame): { tooWet: number; tooDry: number } {
  const { h2, h3 } = crop.uptake;
  const columns = grid.rEdges.length - 1;
  const isRooted = (k: number) => entry(grid.dCentre, Math.floor(k / columns)) < crop.deepestRoots;
  const cells = [...new Set(grid.cellAt.filter((cell, k) => cell >= 0 && isRooted(k)))];
  const volumeWhere = (isMeant: (head: number) => boolean) =>
    sum(cells, (cell) => (isMeant(entry(h, cell)) ? entry(grid.V, cell) : 0));
  const whole = volumeWhere(() => true);
  return {
    tooWet: volumeWhere((head) => head > h2) / whole,
    tooDry: volumeWhere((head) => head < h3.highDemand) / whole,
  };
}

/** What most of the ground that is hard to drink from suffers from. */
export function hardGroundCause(plan: PottedGround, run: Run, frame: Frame): "wet" | "dry" {
  const { tooWet, tooDry } = hardGround(plan, run, frame);
  return tooWet > tooDry ? "wet" : "dry";
}
