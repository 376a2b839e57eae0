import { entry } from "../input/lists.ts";
import type { CellState, SoilTable } from "../soil/soilTable.ts";
import type { Mesh } from "./mesh.ts";

/** The soils in the cells of a mesh. */
export interface Ground {
  tableOf(cell: number): SoilTable;
  /** The layer of a cell, counted from the top. */
  layerOf(cell: number): number;
  /** Depth at which the upper one of two cells' layers ends. */
  bottomBetween(a: number, b: number): number;
  /** By cell: residual and saturated water content, and u where the head is 0. */
  readonly thetaR: Float64Array;
  readonly thetaS: Float64Array;
  readonly uSaturated: Float64Array;
  uAtHead(cell: number, h: number): number;
  /** Fills every array of `cells` from `cells.u`. */
  evaluate(cells: CellState): void;
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
  const byCell = (read: (table: SoilTable) => number) => Float64Array.from(layer, (k) => read(entry(layers, k).table));
  const startOf = (k: number) => layer.findIndex((own) => own >= k);
  const parts = layers.map(({ table }, k) => ({ table, from: startOf(k), to: startOf(k + 1) }));
  return {
    tableOf,
    layerOf,
    bottomBetween: (a, b) => entry(layers, Math.min(layerOf(a), layerOf(b))).bottom,
    thetaR: byCell(({ soil }) => soil.thetaR),
    thetaS: byCell(({ soil }) => soil.thetaS),
    uSaturated: byCell((table) => table.uAtHead(0)),
    uAtHead: (cell, h) => tableOf(cell).uAtHead(h),
    evaluate(cells) {
      for (const { table, from, to } of parts) if (from >= 0) table.evaluate(cells, from, to < 0 ? dCell.length : to);
    },
  };
}
