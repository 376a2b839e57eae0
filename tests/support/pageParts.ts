/** Finding the parts of an evaluated notebook. */
import type { Evaluated } from "../../notebooks/notebook/evaluate.ts";
import type { Block, Figure, Table } from "../../notebooks/notebook/notebook.ts";

export const blocksOf = ({ sections }: Evaluated): Block[] => sections.flatMap((section) => section.blocks);

export const tableOf = (page: Evaluated, name: string): Table =>
  blocksOf(page).find(
    (block): block is Table => typeof block === "object" && block.kind === "table" && block.name === name,
  )!;

export const figuresOf = (page: Evaluated): Figure[] => [
  page.picture,
  ...blocksOf(page).filter((block): block is Figure => typeof block === "object" && block.kind === "figure"),
];
