/** Runs a notebook's cells without a browser: what the page shows, as plain values. */
import type { Plan } from "../../model/public/plan.ts";
import type { UnitSystem } from "../../model/public/units.ts";
import type { Settings } from "../form/controlTypes.ts";
import { setPlan, setView } from "../form/form.ts";
import type { Cell, EnsembleSolver, Solver } from "../runtime/cells.ts";
import { type LiveCells, startCells } from "../runtime/liveCells.ts";
import { directEnsembles } from "../solving/solvers.ts";
import { type Block, type Figure, isCell, type Notebook, type Section } from "./notebook.ts";

export interface Inputs {
  plan: Plan;
  units: UnitSystem;
  /** Values of the notebook's own controls by field; the others have their initial values. */
  view: Settings;
}

export interface PageContent {
  answer: string;
  picture: Figure;
  sections: { heading: string; blocks: Block[] }[];
}

export async function evaluate(
  notebook: Notebook,
  inputs: Inputs,
  solver: Solver,
  ensembles: EnsembleSolver = directEnsembles(),
): Promise<PageContent> {
  const cells = startCells(solver, ensembles);
  setPlan(cells, inputs.plan, inputs.units);
  setView(
    cells,
    notebook.controls.flatMap((group) => group.controls),
    inputs.view,
  );
  try {
    return await contentNow(notebook, cells);
  } finally {
    cells.stop();
  }
}

/** What cells that live on say now, or as soon as they can. */
export const contentNow = async (notebook: Notebook, cells: LiveCells): Promise<PageContent> => ({
  answer: await cells.value(notebook.answer),
  picture: await cells.value(notebook.picture),
  sections: await Promise.all(notebook.sections.map((section) => evaluateSection(section, cells))),
});

async function evaluateSection({ heading, content }: Section, cells: LiveCells) {
  const values = content.map((item) => (isCell(item) ? cells.value(item as Cell<Block | Block[]>) : item));
  return { heading, blocks: (await Promise.all(values)).flat() };
}
