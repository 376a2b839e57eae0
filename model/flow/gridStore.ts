import { farthestGround, sidesOf } from "../bed/potGrid.ts";
import { entry, last } from "../input/lists.ts";
import type { Pot } from "../pot/pot.ts";
import { type SoilTable, soilTable } from "../soil/soilTable.ts";
import { type VanGenuchtenParameters, vanGenuchten } from "../soil/vanGenuchten.ts";
import { type Fineness, gridLines, type SoilBlock } from "./gridRule.ts";
import { type MeshKernel, meshKernel } from "./meshKernel.ts";
import { minimumDegreeOrder } from "./ordering.ts";
import { type TensorMesh, tensorMesh } from "./tensorMesh.ts";
import { wedgeMesh } from "./wedgeMesh.ts";

/** What a run needs that hangs on the shapes of pot and soil alone, whatever the soil and the wall. */
export interface Grid {
  readonly mesh: TensorMesh;
  /** Serves one run at a time. */
  readonly kernel: MeshKernel;
  /** The table of a soil, made anew only where it is not one of the last few. */
  tableOf(soil: VanGenuchtenParameters, wetEnd: number): SoilTable;
}

/** Lends grids, and keeps those given back for the next run about the same pot: they take a tenth of a quick run. */
export interface GridStore {
  take(pot: Pot, block: SoilBlock, fineness: Fineness): Grid;
  /** The grid must not be used by the giver any more. */
  giveBack(grid: Grid): void;
}

/** Grids kept at once: those of a pot before and after a change, at two settings, or of the spacings of one search. */
const MOST = 12;

export function gridStore(): GridStore {
  const keys = new WeakMap<Grid, string>();
  const spare: Grid[] = [];
  return {
    take(pot, block, fineness) {
      const key = JSON.stringify([pot.outline, block, fineness]);
      const known = spare.find((grid) => keys.get(grid) === key);
      if (known) {
        spare.splice(spare.indexOf(known), 1);
        return known;
      }
      const grid = newGrid(pot, block, fineness);
      keys.set(grid, key);
      return grid;
    },
    giveBack(grid) {
      spare.push(grid);
      if (spare.length > MOST) spare.shift();
    },
  };
}

/** Tables kept by a grid: those of two soils before and after a change. */
const MOST_TABLES = 4;

function keptTables(): Grid["tableOf"] {
  const kept: { key: string; table: SoilTable }[] = [];
  return (soil, wetEnd) => {
    const key = JSON.stringify([soil, wetEnd]);
    const known = kept.find((each) => each.key === key);
    if (known) return known.table;
    const table = soilTable(vanGenuchten(soil), { wetEnd });
    kept.push({ key, table });
    if (kept.length > MOST_TABLES) kept.shift();
    return table;
  };
}

function newGrid(pot: Pot, block: SoilBlock, fineness: Fineness): Grid {
  const mesh = meshOf(pot, block, fineness);
  const order = minimumDegreeOrder(mesh, distanceFromPot(mesh, pot));
  return { mesh, kernel: meshKernel(mesh, order), tableOf: keptTables() };
}

function meshOf(pot: Pot, block: SoilBlock, fineness: Fineness): TensorMesh {
  const { outline } = pot;
  const { neighbours } = block;
  if (!neighbours) return tensorMesh({ geometry: "axisymmetric", outline, ...gridLines(pot, block, fineness) });
  const corners = sidesOf(neighbours.grid);
  const apothem = neighbours.spacing / 2;
  const toCorner = { ...block, radius: farthestGround(neighbours.grid, neighbours.spacing) };
  const wedge = { corners, apothem, sectors: fineness.sectors, halves: 1 } as const;
  return wedgeMesh({ outline, ...gridLines(pot, toCorner, fineness) }, wedge);
}

function distanceFromPot({ rCell, dCell }: TensorMesh, pot: Pot): Float64Array {
  const base = last(pot.outline).d;
  const widest = Math.max(...pot.outline.map(({ r }) => r));
  return rCell.map((r, i) => Math.hypot(Math.max(r - widest, 0), Math.max(entry(dCell, i) - base, 0)));
}
