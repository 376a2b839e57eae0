import { entry } from "../input/lists.ts";
import type { SoilTable } from "../soil/soilTable.ts";
import type { Mesh } from "./mesh.ts";

/** The soils in the cells of a mesh. */
export interface Ground {
  /** From the top: each soil fills the cells from one number up to another. */
  readonly layers: readonly { table: SoilTable; from: number; to: number }[];
  tableOf(cell: number): SoilTable;
  /** The layer of a cell, counted from the top. */
  layerOf(cell: number): number;
  /** Depth at which the upper one of two cells' layers ends. */
  bottomBetween(a: number, b: number): number;
  uAtHead(cell: number, h: number): number;
}

/**
 * Soils one on the other, from the top, each down to its `bottom` (cm, increasing; the last one reaches below every cell).
 * The mesh numbers its cells downward and has an edge at each bottom.
 */
export function layeredGround(
  { dCell }: Pick<Mesh, "dCell">,
  layers: readonly { table: SoilTable; bottom: number }[],
): Ground {
  const layer = Int32Array.from(dCell, (d) => layers.findIndex(({ bottom }) => d < bottom));
  const layerOf = (cell: number) => entry(layer, cell);
  const tableOf = (cell: number) => entry(layers, layerOf(cell)).table;
  const count = (k: number) => layer.filter((own) => own < k).length;
  return {
    layers: layers.map(({ table }, k) => ({ table, from: count(k), to: count(k + 1) })),
    tableOf,
    layerOf,
    bottomBetween: (a, b) => entry(layers, Math.min(layerOf(a), layerOf(b))).bottom,
    uAtHead: (cell, h) => tableOf(cell).uAtHead(h),
  };
}
