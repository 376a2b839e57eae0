/** Turns the blocks of a notebook into elements of the page. */
import { element } from "./dom.ts";
import type { Block, Figure, Table, Worked } from "./notebook.ts";
import { cellText } from "./tables.ts";

export function blockNode(block: Block): HTMLElement {
  if (typeof block === "string") return element("p", {}, block);
  if (block.kind === "figure") return figureNode(block);
  return block.kind === "table" ? tableNode(block) : workedNode(block);
}

/** Draws again when its width changes. */
export function figureNode(figure: Figure): HTMLElement {
  const drawing = element("div", { class: "drawing" });
  let drawnWidth = 0;
  new ResizeObserver(([entry]) => {
    const width = Math.floor(entry!.contentRect.width);
    if (width === 0 || width === drawnWidth) return;
    drawnWidth = width;
    drawing.replaceChildren(figure.draw({ document, width }));
  }).observe(drawing);
  return element("figure", { "data-figure": figure.name }, drawing, element("figcaption", {}, figure.caption));
}

function tableNode({ caption, columns, rows }: Table): HTMLElement {
  const head = element("tr", {}, ...columns.map(({ heading }) => element("th", { scope: "col" }, heading)));
  const body = rows.map((row) =>
    element("tr", {}, ...row.map((value, i) => element("td", {}, cellText(value, columns[i]!)))),
  );
  const table = element(
    "table",
    {},
    element("caption", {}, caption),
    element("thead", {}, head),
    element("tbody", {}, ...body),
  );
  return element("div", { class: "table", tabindex: 0, role: "region", "aria-label": caption }, table);
}

const workedNode = ({ question, answer }: Worked): HTMLElement =>
  element("details", {}, element("summary", {}, question), element("p", {}, answer));
