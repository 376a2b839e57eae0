/** Finding the parts of an evaluated notebook. */
import type { PageContent } from "../../notebooks/notebook/evaluate.ts";
import type { Block, Figure, Table } from "../../notebooks/notebook/notebook.ts";

export const blocksOf = ({ sections }: PageContent): Block[] => sections.flatMap((section) => section.blocks);

export const tableOf = (page: PageContent, name: string): Table =>
  blocksOf(page).find(
    (block): block is Table => typeof block === "object" && block.kind === "table" && block.name === name,
  )!;

export const figuresOf = (page: PageContent): Figure[] => [
  page.picture,
  ...blocksOf(page).filter((block): block is Figure => typeof block === "object" && block.kind === "figure"),
];
