/**
 * A pot as the flow model meets it. Depths `d` are below the soil surface, positive down (negative: above the soil);
 * `dw` is the depth of the water level inside. Lengths cm, areas cm², volumes cm³, time in days.
 */
export interface Pot {
  /** Outer surface from the rim down and in to the axis: depths never decrease, the last point has radius 0. */
  readonly outline: readonly OutlinePoint[];
  readonly wallThickness: number;
  /** Saturated conductivity of the wall, cm/day. */
  readonly wallConductivity: number;
  /** Water level depth when filled to the rim. */
  readonly fullDepth: number;
  /** Water level depth when empty: the inner base. */
  readonly emptyDepth: number;
  /** Volume between the inner base and the rim. */
  readonly capacity: number;
  /** Loss through the plug of a full pot into soil at zero pressure, cm³/day; 0 when the plug is tight. */
  readonly plugLeak: number;
  /** Water held when the level stands at `dw`; 0 at or below `emptyDepth`. Above the rim the inside goes on upright. */
  volumeAt(dw: number): number;
  /** Inverse of `volumeAt`, to rounding; below 0 the level goes on falling with the inner base's area. */
  levelAt(volume: number): number;
  /** Area of the water surface, −dV/d(dw), at a level; that of the inner base at or below `emptyDepth`. */
  surfaceAt(dw: number): number;
}

export interface OutlinePoint {
  r: number;
  d: number;
}

interface PotCommon {
  wallThickness: number;
  wallConductivity: number;
  /** Depth of the base's outer surface below the soil surface. */
  outerDepth: number;
  /** Depth of the rim below the soil surface; negative when it stands above. */
  rimDepth: number;
  /** See `Pot.plugLeak`, in litres a day. */
  plugLeakLitres: number;
}

/**
 * Plain description of a pot, outer dimensions, everything filled in. A profile's points run from the rim (at
 * `rimDepth`) down to `outerDepth`, with depths below the soil surface like the rest; a last radius above 0 is closed by
 * a flat base.
 */
export type PotShape =
  | (PotCommon & { shape: "cylinder"; outerRadius: number })
  | (PotCommon & { shape: "tapered"; rimRadius: number; baseRadius: number })
  | (PotCommon & { shape: "jar"; neckRadius: number; bellyRadius: number; bellyDepth: number; baseRadius: number })
  | (PotCommon & { shape: "profile"; points: OutlinePoint[] });
