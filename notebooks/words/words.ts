/** Words that every notebook uses, in one place, so that one thing is called the same everywhere. */
export const words = {
  allQuestions: "All questions",
  putIn: "What was put in",
  limits: "Limits and cautions",
  units: "Units",
  savePlan: "Save this plan as a file",
  loadPlan: "Load a plan from a file",
  savePage: "Save what this page says (HTML)",
  saveDrawing: "Save this drawing (SVG)",
  saveTable: "Save this table (CSV)",
  howToMove:
    "Drag a part of the drawing, or reach it with the Tab key and move it with the arrow keys (with Shift in larger steps); the Delete key takes it away.",
  planNotLoaded: "The plan was not loaded; what you see is as it was.",
  chooseFile: "Choose a file",
  lines: (count: number) => `${count} ${count === 1 ? "line" : "lines"}`,
  coarse: "A first, coarse picture; a finer one is being worked out …",
  fine: "Worked out with the accuracy that the answer is based on.",
  progress: "How many are worked out",
  counted: (count: number, total: number) => `${count} of ${total} worked out`,
  stopped: "Stopped. What you see is from those so far.",
  allIn: "All are worked out.",
  stop: "Stop",
  goOn: "Go on",
  lastGood: "Something typed cannot be used. Answer and picture still belong to the last values that could.",
  cannotWorkOut: "This could not be worked out:",
  brokeDown: (reason: string) =>
    `A helper in the background broke down (${reason}). Change a setting, or start again, to try once more.`,
} as const;

/** What a reader may want to look up. */
const meanings = {
  "soil moisture": "how much of the soil’s volume is water.",
  suction: "how hard the soil holds its water, in kPa: 0 is soaked, 10 moist, 1500 too dry for most plants.",
  "easy water":
    "soil moist enough that the chosen crop drinks freely; its edge is the suction at which the crop starts to suffer.",
  "wetted radius": "how far from the pot’s centre soil with easy water reaches, at the depth of most roots.",
  "wetting front": "where moisture has risen by 0.01 of the soil’s volume, about what a trowel shows.",
  "pot level": "how high the water stands in the pot.",
  refill: "filling the pot to its rim again.",
  "sowing band": "the distances from the pot’s wall at which soil is moist enough to sprout seeds and not soaked.",
} as const;

export type Word = keyof typeof meanings;

/** Paragraphs that explain some of the words. */
export const explained = (...terms: Word[]): string[] =>
  terms.map((term) => `${sentenceCase(term)}: ${meanings[term]}`);

export const sentenceCase = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** How every run is worked out. */
export const flowEquation =
  "The soil around the pot is cut into rings. For each of them, and for the water in the pot, the flow equation of Richards is solved together: ∂θ/∂t = (1/r) ∂/∂r (r K ∂h/∂r) + ∂/∂d (K (∂h/∂d − 1)), with θ soil moisture, h the pressure head, K how readily the soil passes water, r the distance from the pot’s axis and d the depth. θ(h) and K(h) follow van Genuchten (1980) and Mualem (1976).";

/** Where an answer rests on the mean of a class. */
export const meanSoil =
  "This speaks of the mean of all soils of one name, and soils of one name differ: “How sure is it? Soils of one name differ” shows by how much.";

/** "a, b and c". */
export const listed = (parts: readonly string[], word: "and" | "or" = "and"): string =>
  new Intl.ListFormat("en-GB", { type: word === "and" ? "conjunction" : "disjunction" }).format(parts);

/** Every notebook's page ends with them. */
export const cautions = [
  "Call before you dig: cables and pipes may lie where the pots go.",
  "Keep garden water apart from drinking water, and follow local codes first.",
];

export const spreadOfSoils =
  "Soils of one name differ: how fast they pass water often varies tenfold. Walls of pots that look alike vary threefold. Dig and look before you rely on a number.";

/** What holds for every run, on a page and in the terminal. */
export const runLimits = [
  "How water spreads and where to sow are worked out for one pot in bare soil, even throughout each layer, under a lid and mulch: no rain, no sun and no roots. “When do I refill?” adds them.",
  spreadOfSoils,
];

export const modelLimits = [...runLimits, "The bed that a page first shows is invented."];
