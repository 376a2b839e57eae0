/** What a run gives; plain data throughout, cm and day unless the name says otherwise. */
export interface Run {
  status: "finished" | "stopped" | "failed";
  /** Present when `failed`: what went wrong, and when, at which step and where (radius and depth of the worst cell), and what to change first. */
  trouble?: { reason: string; day: number; step: number; place: { r: number; d: number }; change: string };
  cells: number;
  steps: number;
  /** The solve alone. */
  milliseconds: number;
  /**
   * |storage change − in + out| over the largest of in, out, storage change and a millionth of the water in the ground, on
   * the last asked day reached.
   */
  balanceError: number;
  firstEmptyDay: number | null;
  /** One per asked day reached; a refill at an asked time counts after that time's row and frame. */
  rows: Row[];
  frames: Frame[];
  /** Water content at the start, by cell. */
  startTheta: Float64Array;
  grid: GridLines;
  history: History;
}

export interface Row {
  day: number;
  seepageLitres: number;
  waterLevelDepth: number;
  wettedRadius: number;
  wettedDepth: number;
  drainageLitres: number;
}

/** Soil state at one time, by cell number. */
export interface Frame {
  day: number;
  h: Float64Array;
  theta: Float64Array;
  waterLevelDepth: number;
}

/** The tensor grid: cell (i, j) lies between rEdges[i..i+1] and dEdges[j..j+1]. */
export interface GridLines {
  rEdges: Float64Array;
  dEdges: Float64Array;
  /** Where the values of a column's and of a row's cells stand. */
  rCentre: Float64Array;
  dCentre: Float64Array;
  /** Soil volume by cell, cm³, full rings. */
  V: Float64Array;
  /**
   * Cell number at [j * (rEdges.length − 1) + i]; −1 inside the pot. Where rings are cut into sectors, sector after sector, −1
   * outside the region as well.
   */
  cellAt: Int32Array;
  /** Absent where rings are whole. */
  sectors?: SectorLines;
}

/** Sectors of the rings, from the middle of the region's side to its corner. */
export interface SectorLines {
  /** Angles, from 0. */
  edges: Float64Array;
  /** Distance from the axis to the middle of the side. */
  reach: number;
}

/** Values after every time step, the start (day 0) included; all arrays have the same length. */
export interface History {
  day: number[];
  waterLevelDepth: number[];
  /** Poured into the pot since the start, by hand or by the float, litres. */
  pouredLitres: number[];
  /** Water given by the pot since the start (wall and plug leak), litres. */
  seepageLitres: number[];
  /** Water lost through the region's bottom since the start, litres. */
  drainageLitres: number[];
  /** Taken by roots since the start, and what they would have taken with all the water they want, litres. */
  uptakeLitres: number[];
  wantedLitres: number[];
  /** Lost from the soil to the air since the start, litres. */
  evaporationLitres: number[];
  /** Rain and watering by hand taken up by the soil since the start, and what ran off, litres. */
  rainLitres: number[];
  runoffLitres: number[];
  /** Lost from an open pot to the air and over its rim, less the rain that it caught, since the start, litres. */
  potLossLitres: number[];
  /** In the order of `Problem.edges`. */
  edges: EdgeHistory[];
}

/** 0 where no soil is wetter than the edge; the region's size where the edge lies beyond it. */
export interface EdgeHistory {
  /** Largest radius from the axis, at the edge's depth, that is wetter than the edge's head. */
  radius: number[];
  /** Largest depth on the axis that is wetter than the edge's head. */
  wettedDepth: number[];
}

export interface Progress {
  day: number;
  lastDay: number;
  step: number;
}
