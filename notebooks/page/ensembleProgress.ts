/** How many members of an ensemble are in, and a button that stops it or lets it go on. Hidden where there is none. */

import type { EnsembleProgress } from "../solving/memberQueue.ts";
import { words } from "../words/words.ts";
import { element } from "./dom.ts";

export function ensembleProgress({ stop, goOn }: { stop(): void; goOn(): void }) {
  const bar = element("progress", { "aria-label": words.progress, value: 0 });
  const count = element("span", { class: "count" });
  const button = element("button", { type: "button", onclick: press }, words.stop);
  // What is read aloud: its end and what a person did, not every step.
  const told = element("span", { role: "status" });
  const node = element("div", { class: "progress", hidden: true }, bar, count, button, told);
  let state: EnsembleProgress["state"] = "done";

  function press() {
    if (state === "working") stop();
    else goOn();
  }
  function show(now: EnsembleProgress | null) {
    node.hidden = now === null;
    if (now === null) return;
    state = now.state;
    bar.max = Math.max(now.total, 1);
    bar.value = now.count;
    setText(count, words.counted(now.count, now.total));
    setText(button, state === "stopped" ? words.goOn : words.stop);
    // Stays in its place, so that whoever has just pressed it does not lose the way.
    button.setAttribute("aria-disabled", String(state === "done"));
    setText(told, { working: "", stopped: words.stopped, done: words.allIn }[state]);
  }
  return { node, show };
}

function setText(node: HTMLElement, text: string) {
  if (node.textContent !== text) node.textContent = text;
}
