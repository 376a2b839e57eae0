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
  /** Water held when the level stands at `dw`; 0 at or below `emptyDepth`. */
  volumeAt(dw: number): number;
  /** Inverse of `volumeAt`. */
  levelAt(volume: number): number;
  /** Area of the water surface, −dV/d(dw), at a level. */
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

/** Plain description of a pot, outer dimensions, everything filled in. */
export type PotShape =
  | (PotCommon & { shape: "cylinder"; outerRadius: number })
  | (PotCommon & { shape: "tapered"; rimRadius: number; baseRadius: number })
  | (PotCommon & { shape: "jar"; neckRadius: number; bellyRadius: number; bellyDepth: number; baseRadius: number })
  | (PotCommon & { shape: "profile"; points: OutlinePoint[] });
