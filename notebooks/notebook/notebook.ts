import type { Place } from "../../model/public/plan.ts";
import type { ControlGroup, Settings } from "../form/controlTypes.ts";
import type { Cell } from "../runtime/cells.ts";

/**
 * How to write a notebook
 *
 * 1. A folder `notebooks/<name>/` with `notebook.ts` (cells only, no browser, no physics). Add it to
 *    `notebooks/questions/list.ts`: building, printing and the browser tests then cover it.
 * 2. Sources (`sources.ts`): `plan` (checked, cm and day), `units` ("metric" or "us"). A value of the notebook's own is
 *    `source<number>("day")`, set by a control that names it as its `cell` and gives its `initial` value.
 * 3. Compute with `derive({ plan, day }, ({ plan, day }) => …)`; have flow problems solved with
 *    `solution(derive({ plan }, … => ({ of: plan, problems: { loam: planToProblem(plan, …) } })))`, which gives
 *    `{ of, accuracy, runs: { loam: Run } }`, coarse first and then fine. Write every sentence and label from `of`, the
 *    plan the runs belong to, and never from `plan`: while a slider moves the runs lag behind. Do not let an ask depend
 *    on a value that only chooses what to show (a day): keep the frames and choose in the cell that draws.
 *    Many beds at once, for a band: `ensemble(…)`, explained at the head of `cells.ts`.
 * 4. Offer controls of the plan from `soilControls.ts`, `potControls.ts`, `cropControls.ts`; they are shared, remembered, and
 *    checked by the plan's schema.
 * 5. Figures: `draw({ document, width })` gives an SVG, through `chart` (`plotting.ts`) and the colours of `look.ts`;
 *    fix the axes so that nothing jumps while a slider moves. `drawCrossSection` draws pot and soil. No `Plot.raster`
 *    and no continuous legend: they need a browser. Tables give the printed CSV and JSON, so add one for every figure.
 * 6. Lengths and volumes in words: `formatBoth(cm, "length", units)`. A run that failed never reaches a cell:
 *    what rests on it says why instead.
 * 7. See it: `npm run build`, open `dist/<name>.html`; `npm run print -- <name> --out out/print`. Test the cells with
 *    `evaluate(notebook, inputs, directSolver())`; its ensembles are solved in place, where there are few members.
 */

/**
 * One question. The page shows, from the top: the question; the answer in one sentence; the picture; the controls; the
 * sections (how it was worked out); limits and cautions. The terminal prints the same cells, and tests read them.
 */
export interface Notebook {
  /** The folder's name, and the name in the terminal. */
  name: string;
  /** The title. */
  question: string;
  answer: Cell<string>;
  picture: Cell<Figure>;
  controls: ControlGroup[];
  /** Said under the picture when all is worked out, in place of the usual words. */
  basis?: string;
  sections: Section[];
  limits: string[];
}

export interface Section {
  heading: string;
  /** Stands under the picture, beside the controls where the page is wide. */
  underPicture?: boolean;
  /** Printing the page prints these sections and the answer alone; their drawings and tables can be saved as files. */
  onPaper?: boolean;
  content: (Block | Cell<Block> | Cell<Block[]>)[];
}

/** A string is a paragraph. */
export type Block = string | Figure | Table | Exercise;

export interface Figure {
  kind: "figure";
  /** File name of the printed drawing, without ending. */
  name: string;
  /** One sentence: what to see. Say the settings it belongs to from the result, never from a control. */
  caption: string;
  draw(stage: Stage): SVGElement;
  /** Parts that a person may move by hand on a page. */
  handles?: Handles;
}

/** Places on a drawing that change the plan's settings when they are moved: by pointer, touch or keyboard. */
export interface Handles {
  /** Where a place, cm, is drawn at a width, and which place is drawn there; pixels from the drawing's upper left corner. */
  project(place: Place, width: number): { x: number; y: number };
  placeAt(pixel: { x: number; y: number }, width: number): Place;
  items: readonly Handle[];
  /** Further actions of a person; `settings` is null where an action would change nothing now. */
  actions: readonly { label: string; settings: Settings | null }[];
}

export interface Handle {
  /** What it is and where it is, for people who cannot see it. */
  name: string;
  place: Place;
  /** Size on the drawing, cm. */
  radius: number;
  /** The settings with it moved there, or as near as it may go. */
  moved(to: Place): Settings;
  /** The settings without it; absent where it cannot go. */
  removed?(): Settings;
}

export interface Stage {
  document: Document;
  /** Width to fill, pixels. */
  width: number;
}

export interface Table {
  kind: "table";
  /** File name of the printed numbers, without ending. */
  name: string;
  caption: string;
  /** Headings, with their units; `digits` after the point for numbers (2 when absent). */
  columns: { heading: string; digits?: number }[];
  rows: (number | string)[][];
}

/** A question with an answer that the reader opens. */
export interface Exercise {
  kind: "worked";
  question: string;
  answer: string;
}

export const defineNotebook = (notebook: Notebook): Notebook => notebook;

export const isCell = (item: Section["content"][number]): item is Cell<Block> | Cell<Block[]> =>
  typeof item === "object" && ["source", "derived", "solution", "ensemble", "rested"].includes(item.kind);
