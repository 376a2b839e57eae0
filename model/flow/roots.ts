import { bisector, pairs, sum } from "d3-array";
import { entry } from "../input/lists.ts";
import type { Boundary } from "./boundary.ts";
import type { Roots, UptakeLimits } from "./problem.ts";
import { soilShares } from "./soilShares.ts";
import type { TensorMesh } from "./tensorMesh.ts";

// In the loops over cells and faces `!` stands in place of a check, which would cost time.

/** Demands between which h3 is interpolated, cm/day (Feddes et al. 1978). */
const HIGH_DEMAND = 0.5;
const LOW_DEMAND = 0.1;

/**
 * Water that roots take, cell by cell: of the demand Tp over the ground A of the pot each cell's share β of the roots
 * takes what the suction there allows (Feddes, Kowalik & Zaradny 1978), α(h) from 0 above h1 to 1 at h2 and to h3, and to 0
 * at h4; and roots in moist soil make good
 * for those in dry or airless soil (Jarvis 1989, J. Hydrol. 107:57-72, from memory):
 *
 *   Q = −Tp A α β / max(ω, ωc),   ω = Σ α β,   ωc = 1 − adaptability
 *
 * so that plants take all they want as long as ω ≥ ωc. The derivatives leave out that ω changes too. Roots grow day by day.
 */
export function rootUptake(mesh: TensorMesh, roots: Roots, area: number): Boundary {
  const { cell, shareAt } = rootShares(mesh, roots);
  return {
    name: "roots",
    isFromPot: false,
    cell,
    endHead: roots.limits.h4,
    // A hair to the wet side, where the slope is already there.
    cornerHead: roots.limits.h4 * (1 - 1e-6),
    begin({ kernel: { loops }, room, places }) {
      // The shares, and what the loop keeps of α and its slope.
      const { at, values } = room.numbers(3 * cell.length);
      let day = Number.NaN;
      return (_, { t, spell: { transpiration: demand } }) => {
        if (Math.floor(t) !== day) {
          day = Math.floor(t);
          values.set(shareAt(day + 0.5));
        }
        const { h1, h2, h3, h4 } = headsAt(roots.limits, demand);
        loops.fillRoots(...places, at, demand * area, 1 - roots.adaptability, h1, h2, h3, h4);
      };
    },
  };
}

/** h1 to h4 at one demand. */
type Heads = Omit<UptakeLimits, "h3"> & { h3: number };

/** h3 lies between its two values as the demand does (cm/day). */
export function headsAt({ h3, ...limits }: UptakeLimits, demand: number): Heads {
  const share = Math.min(Math.max((demand - LOW_DEMAND) / (HIGH_DEMAND - LOW_DEMAND), 0), 1);
  return { ...limits, h3: h3.lowDemand + share * (h3.highDemand - h3.lowDemand) };
}

interface RootShares {
  /** Cells that roots ever reach. */
  cell: Int32Array;
  /** Share of the roots in each of them, 1 in sum; 0 where no soil has roots. */
  shareAt(t: number): Float64Array;
}

/**
 * Root density (1 − d/depth)(1 − |r − plantRadius|/spread), nothing where a factor is below 0, integrated over each box of
 * the grid; of a box that the pot cuts, and of boxes joined in one cell, the part that is soil.
 */
function rootShares(mesh: TensorMesh, { plantRadius, growth }: Roots): RootShares {
  const { rEdges, dEdges, cellAt } = mesh.grid;
  const soilShare = soilShares(mesh);
  const weight = new Float64Array(mesh.cellCount);
  function weigh({ depth, spread }: RootSize): void {
    const byColumn = pairs(
      Array.from(rEdges, (r) => ringIntegral(r, plantRadius, spread)),
      (from, to) => to - from,
    );
    const byRow = pairs(
      Array.from(dEdges, (d) => depthIntegral(d, depth)),
      (from, to) => to - from,
    );
    const columns = byColumn.length;
    weight.fill(0);
    cellAt.forEach((cell, k) => {
      const row = Math.floor(k / columns) % byRow.length;
      if (cell >= 0) weight[cell]! += byColumn[k % columns]! * byRow[row]! * soilShare[cell]!;
    });
  }
  const reached = new Set<number>();
  for (const size of growth) {
    weigh(size);
    for (const [c, value] of weight.entries()) if (value > 0) reached.add(c);
  }
  const cell = Int32Array.from([...reached].sort((c, other) => c - other));
  const share = new Float64Array(cell.length);
  let now: RootSize | undefined;
  return {
    cell,
    shareAt(t) {
      const size = sizeAt(growth, t);
      if (now?.depth === size.depth && now.spread === size.spread) return share;
      now = size;
      weigh(size);
      const total = sum(weight);
      cell.forEach((c, k) => {
        share[k] = total > 0 ? entry(weight, c) / total : 0;
      });
      return share;
    },
  };
}

type RootSize = Pick<Roots["growth"][number], "depth" | "spread">;

const byDay = bisector(({ day }: Roots["growth"][number]) => day);

function sizeAt(growth: Roots["growth"], t: number): RootSize {
  const k = byDay.right(growth, t);
  const [before, after] = [entry(growth, Math.max(k - 1, 0)), entry(growth, Math.min(k, growth.length - 1))];
  const share = after.day > before.day ? Math.min(Math.max((t - before.day) / (after.day - before.day), 0), 1) : 0;
  return {
    depth: before.depth + share * (after.depth - before.depth),
    spread: before.spread + share * (after.spread - before.spread),
  };
}

/** ∫ (1 − d/depth) dd from the surface, as far as the roots go. */
function depthIntegral(d: number, depth: number): number {
  const reach = Math.min(d, depth);
  return reach - (reach * reach) / (2 * depth);
}

/** ∫ (1 − |r − plants|/spread) 2πr dr from the axis. */
function ringIntegral(r: number, plants: number, spread: number): number {
  const [inner, outer] = [plants - spread, plants + spread];
  const rising = (to: number) => (to ** 3 / 3 - (inner * to * to) / 2) / spread;
  const falling = (to: number) => ((outer * to * to) / 2 - to ** 3 / 3) / spread;
  const start = Math.max(inner, 0);
  const near = Math.min(Math.max(r, start), plants);
  const far = Math.min(Math.max(r, plants), outer);
  return 2 * Math.PI * (rising(near) - rising(start) + falling(far) - falling(plants));
}
