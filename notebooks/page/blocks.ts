/** Turns the blocks of a notebook into elements of the page. */

import { first } from "../../model/public/plan.ts";
import type { Block, Exercise, Figure, Table } from "../notebook/notebook.ts";
import { csv, rowTexts } from "../notebook/tables.ts";
import { words } from "../words/words.ts";
import { element } from "./dom.ts";
import { saveText } from "./saveText.ts";

interface BlockOptions {
  /** With a button that saves a drawing or a table as a file. */
  canSave?: boolean;
}

export function blockNode(block: Block, options: BlockOptions = {}): HTMLElement {
  if (typeof block === "string") return element("p", {}, block);
  if (block.kind === "figure") return figureNode(block, options);
  return block.kind === "table" ? tableNode(block, options) : workedNode(block);
}

/** Draws again when its width changes, and then calls `onDrawn`. */
export function figureNode(
  figure: Figure,
  { canSave = false }: BlockOptions = {},
  onDrawn: (drawing: HTMLElement, width: number) => void = () => {},
): HTMLElement {
  const drawing = element("div", { class: "drawing" });
  let drawnWidth = 0;
  new ResizeObserver((entries) => {
    const width = Math.floor(first(entries).contentRect.width);
    if (width === 0 || width === drawnWidth) return;
    drawnWidth = width;
    drawing.replaceChildren(figure.draw({ document, width }));
    onDrawn(drawing, width);
  }).observe(drawing);
  const save = () =>
    saveText(`${figure.name}.svg`, new XMLSerializer().serializeToString(first(drawing.childNodes)), "image/svg+xml");
  const caption = element("figcaption", {}, figure.caption);
  return element(
    "figure",
    { "data-figure": figure.name },
    drawing,
    caption,
    ...(canSave ? [saveButton(words.saveDrawing, save)] : []),
  );
}

const saveButton = (label: string, save: () => void) =>
  element("button", { type: "button", class: "save", onclick: save }, label);

function tableNode(content: Table, { canSave = false }: BlockOptions): HTMLElement {
  const { name, caption, columns } = content;
  const head = element("tr", {}, ...columns.map(({ heading }) => element("th", { scope: "col" }, heading)));
  const body = rowTexts(content).map((row) => element("tr", {}, ...row.map((text) => element("td", {}, text))));
  const table = element(
    "table",
    {},
    element("caption", {}, caption),
    element("thead", {}, head),
    element("tbody", {}, ...body),
  );
  const save = () => saveText(`${name}.csv`, csv(content), "text/csv");
  return element(
    "div",
    {},
    element("div", { class: "table", tabindex: 0, role: "region", "aria-label": caption }, table),
    ...(canSave ? [saveButton(words.saveTable, save)] : []),
  );
}

const workedNode = ({ question, answer }: Exercise): HTMLElement =>
  element("details", {}, element("summary", {}, question), element("p", {}, answer));
