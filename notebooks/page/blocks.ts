/** Turns the blocks of a notebook into elements of the page. */

import { first, last } from "../../model/public/plan.ts";
import type { Block, Exercise, Figure, Table } from "../notebook/notebook.ts";
import { csv, rowTexts } from "../notebook/tables.ts";
import { words } from "../words/words.ts";
import { element } from "./dom.ts";
import { saveText } from "./saveText.ts";

interface BlockOptions {
  /** With a button that saves a drawing or a table as a file. */
  canSave?: boolean;
}

/** Makes the elements of blocks. A figure of the same name as one before is drawn into that one's element. */
export function blockMaker(options: BlockOptions = {}, onDrawn: OnDrawn = () => {}): (block: Block) => HTMLElement {
  const figures = new Map<string, FigureView>();
  function figureNode(figure: Figure): HTMLElement {
    const view = figures.get(figure.name) ?? figureView(figure.name, options, onDrawn);
    figures.set(figure.name, view);
    view.show(figure);
    return view.node;
  }
  return (block) => {
    if (typeof block === "string") return element("p", {}, block);
    if (block.kind === "figure") return figureNode(block);
    return block.kind === "table" ? tableNode(block, options) : workedNode(block);
  };
}

type OnDrawn = (figure: Figure, drawing: HTMLElement, width: number) => void;

interface FigureView {
  node: HTMLElement;
  show(figure: Figure): void;
}

/** How far from the screen a figure is kept up to date, so that a person who scrolls finds it drawn. */
const NEAR = "50%";

/**
 * Drawn for the first time wherever it is, so that its place is kept. After that a figure that is not near the screen waits
 * until it comes near, is saved, or the page is printed. One that is near is drawn at once, which leaves the frame less to
 * do, and what comes until that frame is drawn with it.
 */
function figureView(name: string, { canSave = false }: BlockOptions, onDrawn: OnDrawn): FigureView {
  const drawing = element("div", { class: "drawing" });
  const caption = element("figcaption");
  let latest: Figure | undefined;
  let width = 0;
  let drawn: { figure: Figure; width: number } | undefined;
  let isNear = false;
  let isFrameAwaited = false;

  function draw() {
    if (!latest || width === 0 || (drawn?.figure === latest && drawn.width === width)) return;
    drawn = { figure: latest, width };
    drawing.replaceChildren(latest.draw({ document, width }));
    onDrawn(latest, drawing, width);
  }
  function drawWhereSeen() {
    if (isNear || !drawn) draw();
  }
  function drawSoon() {
    if (isFrameAwaited) return;
    isFrameAwaited = true;
    drawWhereSeen();
    requestAnimationFrame(() => {
      isFrameAwaited = false;
      drawWhereSeen();
    });
  }
  function save() {
    draw();
    saveText(`${name}.svg`, new XMLSerializer().serializeToString(first(drawing.childNodes)), "image/svg+xml");
  }
  new ResizeObserver((entries) => {
    width = Math.floor(first(entries).contentRect.width) || width;
    drawWhereSeen();
  }).observe(drawing);
  const near = (entries: IntersectionObserverEntry[]) => {
    isNear = last(entries).isIntersecting;
    drawWhereSeen();
  };
  new IntersectionObserver(near, { rootMargin: NEAR }).observe(drawing);
  window.addEventListener("beforeprint", draw);

  const buttons = canSave ? [saveButton(words.saveDrawing, save)] : [];
  return {
    node: element("figure", { "data-figure": name }, drawing, caption, ...buttons),
    show(figure) {
      latest = figure;
      caption.textContent = figure.caption;
      drawSoon();
    },
  };
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
