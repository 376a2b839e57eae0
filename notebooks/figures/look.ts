/** Colours and marks of every figure. */

export const ink = "#2b2a26";
export const faint = "#8a8374";
export const terracotta = "#b8623c";
export const paper = "#faf6ec";
/** What is too dry, too wet or out of its place. */
export const warning = "#9a2a12";

/** Soil moisture, parts of the soil's volume: a band every 0.05, from the paper's dry soil to deep water, evenly spaced in Lab. */
export const moistureThresholds = [0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45];
export const moistureColours = [
  "#f1e6cd",
  "#d8dec0",
  "#bfd5b3",
  "#9dc7ad",
  "#75b8a8",
  "#53a4a0",
  "#388c95",
  "#1d7387",
  "#145771",
  "#0a3d5c",
] as const;
export const potWater = "#7fb3d0";

export interface Series {
  colour: string;
  /** Dashes tell the lines apart in a black and white print. */
  dash: string;
  symbol: "circle" | "square" | "triangle" | "star";
}

/** Told apart by colour-blind eyes (Okabe and Ito's set, darkened for paper), by dashes and by marks. */
export const seriesLooks = {
  sand: { colour: "#b35900", dash: "", symbol: "circle" },
  loam: { colour: "#00735c", dash: "7 3", symbol: "square" },
  clay: { colour: "#6a4c93", dash: "2 3", symbol: "triangle" },
  own: { colour: ink, dash: "", symbol: "star" },
} as const satisfies Record<string, Series>;
