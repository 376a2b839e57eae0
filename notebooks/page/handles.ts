/** The parts of a drawing that a person moves by hand: a button on each, for pointer, touch and keyboard. */
import type { Place } from "../../model/public/plan.ts";
import { convert, type UnitSystem } from "../../model/public/units.ts";
import type { FormEvents } from "../form/form.ts";
import type { Handle, Handles } from "../notebook/notebook.ts";
import { words } from "../words/words.ts";
import { element } from "./dom.ts";

/** The least size of a button, pixels, so that a finger finds it. */
const LEAST = 24;

/** Steps of the arrow keys, cm: alone, and with Shift. */
const STEPS: Record<UnitSystem, { small: number; large: number }> = {
  metric: { small: 1, large: 10 },
  us: { small: convert(0.5, "in", "cm"), large: convert(4, "in", "cm") },
};

const ARROWS: Record<string, Place> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: 1 },
  ArrowDown: { x: 0, y: -1 },
};

export interface HandleLayer {
  /** Puts buttons over a drawing each time it has been drawn. The button that had the focus keeps it. */
  cover(drawing: HTMLElement, width: number, handles: Handles): void;
  /** The buttons for further actions. */
  actions(handles: Handles): HTMLElement;
}

/** A redraw takes the buttons away, so what is held in hand is kept here: by its place in the list. */
export function handleLayer(events: Pick<FormEvents, "form" | "change">): HandleLayer {
  let focused: number | null = null;
  let latest: { handles: Handles; width: number } | undefined;

  function drag(index: number, start: { x: number; y: number }, down: PointerEvent) {
    const grip = { x: down.clientX - start.x, y: down.clientY - start.y };
    const move = (event: PointerEvent) => {
      const pixel = { x: event.clientX - grip.x, y: event.clientY - grip.y };
      const item = latest?.handles.items[index];
      if (latest && item) events.change(item.moved(latest.handles.placeAt(pixel, latest.width)));
    };
    const end = () => {
      window.removeEventListener("pointermove", move);
      window.removeEventListener("pointerup", end);
      window.removeEventListener("pointercancel", end);
    };
    window.addEventListener("pointermove", move);
    window.addEventListener("pointerup", end);
    window.addEventListener("pointercancel", end);
  }

  function press(item: Handle, event: KeyboardEvent) {
    const { small, large } = STEPS[events.form().units];
    const step = event.shiftKey ? large : small;
    const arrow = ARROWS[event.key];
    const isRemoval = event.key === "Delete" || event.key === "Backspace";
    const change = arrow
      ? item.moved({ x: item.place.x + step * arrow.x, y: item.place.y + step * arrow.y })
      : isRemoval && item.removed?.();
    if (!change) return;
    event.preventDefault();
    events.change(change);
  }

  function button(item: Handle, index: number, width: number, handles: Handles) {
    const { x, y } = handles.project(item.place, width);
    const size = Math.max(
      2 * Math.abs(handles.project({ ...item.place, x: item.place.x + item.radius }, width).x - x),
      LEAST,
    );
    return element("button", {
      type: "button",
      class: "handle",
      "aria-label": item.name,
      style: `left:${x - size / 2}px;top:${y - size / 2}px;width:${size}px;height:${size}px`,
      onpointerdown: (event) => drag(index, { x, y }, event as PointerEvent),
      onkeydown: (event) => press(item, event as KeyboardEvent),
      onfocus: () => {
        focused = index;
      },
    });
  }

  // A redraw leaves the page without a focus; a person who has gone elsewhere has set it there.
  document.addEventListener("focusin", ({ target }) => {
    if (!(target as HTMLElement).classList.contains("handle")) focused = null;
  });

  return {
    cover(drawing, width, handles) {
      const held = document.activeElement === document.body ? focused : null;
      latest = { handles, width };
      const buttons = handles.items.map((item, index) => button(item, index, width, handles));
      drawing.append(...buttons);
      if (held !== null) buttons[Math.min(held, buttons.length - 1)]?.focus({ preventScroll: true });
    },
    actions: ({ actions }) =>
      element(
        "div",
        { class: "tools" },
        element("p", { class: "help" }, words.howToMove),
        ...actions.map(({ label, settings }) =>
          element(
            "button",
            { type: "button", disabled: settings === null, onclick: () => settings && events.change(settings) },
            label,
          ),
        ),
      ),
  };
}
