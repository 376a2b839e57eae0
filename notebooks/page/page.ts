/** Mounts a notebook in the browser: the form, the live cells, and what is shown from them. */
import type { ControlGroup } from "../form/controlTypes.ts";
import { createForm, type Form, type FormEvents } from "../form/form.ts";
import { controlAt } from "../form/inputControls.ts";
import { initialFilled, usableFilled } from "../form/planForm.ts";
import { contentNow } from "../notebook/evaluate.ts";
import { type Block, type Figure, isCell, type Notebook, type Section } from "../notebook/notebook.ts";
import { htmlFile } from "../print/htmlFile.ts";
import type { Cell } from "../runtime/cells.ts";
import { type LiveCells, startCells } from "../runtime/liveCells.ts";
import { whenStill } from "../runtime/whenStill.ts";
import { pageQueue, runsWorker } from "../solving/pageWorkers.ts";
import { type Busy, workerSolver } from "../solving/solvers.ts";
import { words } from "../words/words.ts";
import { blockMaker } from "./blocks.ts";
import { type LiveControl, liveControl } from "./controls.ts";
import { element } from "./dom.ts";
import { ensembleProgress } from "./ensembleProgress.ts";
import { type HandleLayer, handleLayer } from "./handles.ts";
import { keep, recall } from "./memory.ts";
import { planFiles, unitSwitch } from "./planTools.ts";
import { saveText } from "./saveText.ts";
import "./page.css";

/** All notebooks share what a person has filled in. */
const memoryKey = "porous-pot-plan";

export function mountNotebook(notebook: Notebook) {
  const answer = element("div", { class: "answer", role: "status" });
  const { cells, status, progress } = liveCells(answer, notebook.basis ?? words.fine);
  const kept = recall(memoryKey) as { good?: unknown } | undefined;
  const remember = ({ settings, units, good }: Form) => keep(memoryKey, { settings, units, good });
  const shown: ((form: Form) => void)[] = [status.form, remember];
  const events = createForm(
    notebook.controls.flatMap((group) => group.controls),
    { start: initialFilled(kept), good: usableFilled(kept?.good) },
    cells,
    (form) => shown.map((show) => show(form)),
  );
  const form = formNodes(notebook.controls, events);
  const units = unitSwitch(events);
  for (const { show } of [form, units]) {
    shown.push(show);
    show(events.form());
  }
  const parts = {
    ...form,
    answer,
    status: status.node,
    progress: progress.node,
    units: units.node,
    files: planFiles(events, savePage),
  };
  document.body.append(pageNode(notebook, cells, parts, handleLayer(events)));

  async function savePage() {
    const said = await contentNow(notebook, cells);
    saveText(`${notebook.name}.html`, htmlFile(notebook, said, document), "text/html");
  }
}

/** The cells with the page's workers behind them, and the lines that show what these do. */
function liveCells(answer: HTMLElement, done: string) {
  const status = statusLine(answer, done);
  const progress = ensembleProgress({ stop: () => ensembles.stop(), goOn: () => ensembles.goOn() });
  const worker = runsWorker();
  worker.onerror = ({ message }) => status.fail(message);
  const ensembles = pageQueue(worker, {
    onProgress(now) {
      progress.show(now);
      status.gathering(now?.state === "working");
    },
  });
  const solver = workerSolver(worker, (busy) => {
    status.busy(busy);
    ensembles.hold(busy.isAwaited);
  });
  return { cells: startCells(solver, ensembles, whenStill(status.resting)), status, progress };
}

interface PageParts {
  answer: HTMLElement;
  form: HTMLElement;
  underPicture: HTMLElement;
  status: HTMLElement;
  progress: HTMLElement;
  units: HTMLElement;
  files: HTMLElement;
}

function pageNode(notebook: Notebook, cells: LiveCells, parts: PageParts, hands: HandleLayer) {
  const { answer } = parts;
  const picture = element("div", { class: "picture" });
  watchInto(cells, notebook.answer, answer, (text) => [element("p", {}, text)]);
  watchInto(cells, notebook.picture, picture, pictureNodes(hands));
  const shown = (section: Section) => sectionNode(section, cells);
  stickWhileShort(answer);
  return element(
    "main",
    notebook.sections.some(({ onPaper }) => onPaper) ? { class: "has-paper" } : {},
    element("header", {}, element("h1", {}, notebook.question), parts.units),
    answer,
    element(
      "div",
      { class: "bench" },
      element(
        "div",
        { class: "view" },
        picture,
        parts.progress,
        parts.status,
        parts.underPicture,
        ...notebook.sections.filter((section) => section.underPicture).map(shown),
      ),
      parts.form,
    ),
    ...notebook.sections.filter((section) => !section.underPicture).map(shown),
    limitsNode(notebook.limits),
    parts.files,
    element("nav", {}, element("a", { href: "index.html" }, words.allQuestions)),
  );
}

function pictureNodes(hands: HandleLayer): (figure: Figure) => HTMLElement[] {
  const node = blockMaker({}, ({ handles }, drawing, width) => handles && hands.cover(drawing, width, handles));
  return (figure) => [node(figure), ...(figure.handles ? [hands.actions(figure.handles)] : [])];
}

/** An answer that would cover more than a quarter of the screen scrolls away with the rest. */
function stickWhileShort(answer: HTMLElement) {
  const judge = () => answer.classList.toggle("tall", answer.offsetHeight > window.innerHeight / 4);
  new ResizeObserver(judge).observe(answer);
  window.addEventListener("resize", judge);
}

const limitsNode = (limits: string[]) =>
  element(
    "section",
    {},
    element("h2", {}, words.limits),
    element("ul", {}, ...limits.map((limit) => element("li", {}, limit))),
  );

function sectionNode({ heading, content, onPaper = false }: Section, cells: LiveCells): HTMLElement {
  const items = content.map((item) => {
    const node = blockMaker({ canSave: onPaper });
    if (!isCell(item)) return node(item);
    const holder = element("div");
    watchInto(cells, item as Cell<Block | Block[]>, holder, (value) => [value].flat().map(node));
    return holder;
  });
  return element("section", onPaper ? { class: "on-paper" } : {}, element("h2", {}, heading), ...items);
}

/** What could not be worked out says why, in place of an answer that belongs to something else. */
function watchInto<T>(cells: LiveCells, cell: Cell<T>, holder: HTMLElement, render: (value: T) => HTMLElement[]) {
  const trouble = element("p", { class: "fault", role: "alert" });
  const fail = (error: unknown) => {
    trouble.textContent = `${words.cannotWorkOut} ${error instanceof Error ? error.message : String(error)}`;
    holder.replaceChildren(trouble);
  };
  cells.watch(cell, (value) => fill(holder, render(value)), fail);
}

/** What stands there already is left as it is, and keeps the focus. */
function fill(holder: HTMLElement, nodes: HTMLElement[]) {
  for (const [i, node] of nodes.entries()) {
    const there = holder.childNodes[i];
    if (!there) holder.append(node);
    else if (there !== node) there.replaceWith(node);
  }
  while (holder.childNodes.length > nodes.length) holder.lastChild?.remove();
}

/**
 * What the picture rests on: a first coarse run, the full one, or values from before a fault. While there is more to come
 * the answer is not read aloud.
 */
function statusLine(answer: HTMLElement, done: string) {
  const node = element("p", { class: "basis", "aria-live": "polite" });
  let isBusy = true;
  let isGathering = false;
  let isResting = false;
  let isStale = false;
  function say() {
    node.textContent = isStale ? words.lastGood : isBusy ? words.coarse : done;
    node.classList.toggle("fault", isStale);
    const isMoreToCome = String(isBusy || isGathering || isResting);
    document.documentElement.dataset.busy = isMoreToCome;
    answer.setAttribute("aria-busy", isMoreToCome);
  }
  return {
    node,
    busy(busy: Busy) {
      isBusy = busy.isBusy;
      say();
    },
    gathering(gathering: boolean) {
      isGathering = gathering;
      say();
    },
    resting(resting: boolean) {
      isResting = resting;
      say();
    },
    form({ faults }: Form) {
      isStale = Object.keys(faults).length > 0;
      say();
    },
    fail(message: string) {
      node.textContent = `${words.cannotWorkOut} ${message}`;
    },
  };
}

function formNodes(groups: ControlGroup[], events: FormEvents) {
  const live: LiveControl[] = [];
  const fieldset = ({ heading, controls }: ControlGroup) => {
    const made = controls.map((control) => liveControl(control, events));
    live.push(...made);
    return element("fieldset", { class: "group" }, element("legend", {}, heading), ...made.map(({ node }) => node));
  };
  const others = otherFaults(groups, events);
  const form = (...content: HTMLElement[]) =>
    element("form", { onsubmit: (event) => event.preventDefault() }, ...content);
  return {
    form: form(others.node, ...groups.filter((group) => !group.underPicture).map(fieldset)),
    underPicture: form(...groups.filter((group) => group.underPicture).map(fieldset)),
    show: (now: Form) => [...live, others].map((part) => part.show(now)),
  };
}

/** Faults of the plan that no control of this page can show: the control that mends one is brought in, and stays. */
function otherFaults(groups: ControlGroup[], events: FormEvents): LiveControl {
  const fields = new Set(groups.flatMap(({ controls }) => controls.map(({ field }) => field)));
  const list = element("ul", { class: "fault", "aria-live": "polite" });
  const node = element("div", {}, list);
  const broughtIn = new Map<string, LiveControl>();
  function bringIn(field: string) {
    const control = controlAt(field);
    if (!control || broughtIn.has(field)) return;
    const live = liveControl(control, events);
    broughtIn.set(field, live);
    node.append(live.node);
  }
  function show(form: Form) {
    const others = Object.entries(form.faults).filter(([field]) => !fields.has(field));
    for (const [field] of others) bringIn(field);
    const loose = others.filter(([field]) => !broughtIn.has(field));
    list.replaceChildren(...loose.map(([, message]) => element("li", {}, message)));
    for (const live of broughtIn.values()) live.show(form);
  }
  return { node, show };
}
