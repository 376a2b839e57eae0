/** The controls as elements of the page. They keep no values: `show` writes the page's settings into them. */
import { fromPerson, toPerson, type UnitSystem, unitName } from "../../model/public/units.ts";
import {
  type ChoiceControl,
  type Control,
  isShown,
  type NumberControl,
  type TextControl,
} from "../form/controlTypes.ts";
import { numberText, numberWithUnit, rangeText, readNumber, sliderRange } from "../form/fieldReading.ts";
import type { Form, FormEvents } from "../form/form.ts";
import { words } from "../words/words.ts";
import { element, radioChoices } from "./dom.ts";

export interface LiveControl {
  node: HTMLElement;
  show(form: Form): void;
}

export function liveControl(control: Control, events: FormEvents): LiveControl {
  switch (control.kind) {
    case "number":
      return liveNumber(control, events);
    case "choice":
      return liveChoice(control, events);
    case "text":
      return liveText(control, events);
  }
}

const idOf = (control: Control, part: string) => `${control.field.replaceAll(".", "-")}-${part}`;

function liveNumber(control: NumberControl, events: FormEvents): LiveControl {
  const { label, field, measure } = control;
  const note = noteLine(control);
  const unit = element("span", { class: "unit" });
  const slider = element("input", { type: "range", class: "wide", id: idOf(control, "slider"), oninput: slide });
  const box = element("input", {
    type: "text",
    inputmode: "decimal",
    autocomplete: "off",
    id: idOf(control, "typed"),
    "aria-describedby": note.node.id,
    oninput: read,
    onblur: () => show(events.form()),
  });
  const node = element(
    "div",
    { class: "control number", "data-field": field },
    element("label", { for: slider.id }, label),
    element("span", { class: "typed" }, box, unit),
    slider,
    ...(control.plays ? [playButton(label, slider)] : []),
    note.node,
  );

  function slide() {
    const value = fromPerson(Number(slider.value), measure, events.form().units);
    box.value = numberText(value, measure, events.form().units);
    events.change({ [field]: value });
  }
  function read() {
    const reading = readNumber(box.value, control, events.form().units);
    if (reading.ok) events.change({ [field]: reading.value });
    else events.refuse(field, reading.message);
  }
  function show({ settings, units, faults }: Form) {
    const value = Number(settings[field]);
    node.hidden = !isShown(control, settings);
    unit.textContent = unitName(measure, units);
    box.setAttribute("aria-label", `${label}, typed, ${rangeText(control, units)}`);
    setRange(slider, sliderRange(control, units));
    if (document.activeElement !== slider) slider.value = String(toPerson(value, measure, units));
    slider.setAttribute("aria-valuetext", numberWithUnit(value, measure, units));
    if (!faults[field] && document.activeElement !== box) box.value = numberText(value, measure, units);
    box.setAttribute("aria-invalid", String(faults[field] !== undefined));
    note.say(faults[field], units);
  }
  return { node, show };
}

function setRange(slider: HTMLInputElement, { min, max, step }: ReturnType<typeof sliderRange>) {
  slider.min = String(min);
  slider.max = String(max);
  slider.step = String(step);
}

/** Moves the slider on by one step at a time, from the start again when it stands at its end. */
function playButton(label: string, slider: HTMLInputElement): HTMLElement {
  const millisecondsPerStep = 350;
  const button = element("button", { type: "button", class: "play wide", onclick: toggle }, "Play");
  let timer: ReturnType<typeof setInterval> | undefined;

  function pause() {
    clearInterval(timer);
    timer = undefined;
    say();
  }
  function stepOn() {
    slider.stepUp();
    slider.dispatchEvent(new Event("input"));
    if (Number(slider.value) >= Number(slider.max)) pause();
  }
  function toggle() {
    if (timer) return pause();
    if (Number(slider.value) >= Number(slider.max)) slider.value = slider.min;
    timer = setInterval(stepOn, millisecondsPerStep);
    say();
  }
  function say() {
    button.textContent = timer ? "Pause" : "Play";
    button.setAttribute("aria-label", `${timer ? "Pause" : "Play"}: ${label}`);
  }
  say();
  return button;
}

function liveChoice(control: ChoiceControl, events: FormEvents): LiveControl {
  const note = noteLine(control);
  const change = (value: string) => events.change({ ...control.fills?.(value), [control.field]: value });
  const { node, choose } = control.style === "select" ? selectBox(control, change) : radioButtons(control, change);
  node.append(note.node);
  return {
    node,
    show({ settings, units, faults }) {
      node.hidden = !isShown(control, settings);
      choose(control.chosen?.(settings) ?? String(settings[control.field]));
      note.say(faults[control.field], units);
    },
  };
}

function selectBox(control: ChoiceControl, change: (value: string) => void) {
  const options = control.options.map(({ value, label }) => element("option", { value }, label));
  const id = idOf(control, "choice");
  const select = element("select", { id, onchange: () => change(select.value) }, ...options);
  const node = element(
    "div",
    { class: "control choice", "data-field": control.field },
    element("label", { for: id }, control.label),
    select,
  );
  return { node, choose: (value: string) => (select.value = value) };
}

function radioButtons(control: ChoiceControl, change: (value: string) => void) {
  const { choices, check } = radioChoices(control.field, control.options, change);
  const node = element(
    "fieldset",
    { class: "control radio", "data-field": control.field },
    element("legend", {}, control.label),
    ...choices,
  );
  return { node, choose: check };
}

/** Its text is read when the box is left, or a file is chosen: half a text is at fault. */
function liveText(control: TextControl, events: FormEvents): LiveControl {
  const { label, field } = control;
  const note = noteLine(control);
  const change = (text: string) => events.change({ [field]: text });
  const box = element("textarea", {
    id: idOf(control, "typed"),
    rows: 6,
    spellcheck: "false",
    "aria-describedby": note.node.id,
    onchange: () => change(box.value),
  });
  const file = element("input", {
    type: "file",
    accept: ".csv,text/csv,text/plain",
    id: idOf(control, "file"),
    onchange: load,
  });
  async function load() {
    const text = await file.files?.[0]?.text();
    if (text !== undefined) change(text);
  }
  const node = element(
    "div",
    { class: "control text", "data-field": field },
    element("label", { for: box.id }, label),
    box,
    element("label", { for: file.id, class: "file" }, words.chooseFile, file),
    note.node,
  );
  return {
    node,
    show({ settings, units, faults }) {
      node.hidden = !isShown(control, settings);
      if (document.activeElement !== box) box.value = String(settings[field]);
      box.setAttribute("aria-invalid", String(faults[field] !== undefined));
      note.say(faults[field], units);
    },
  };
}

/** The line under a control: a fault when there is one, else the help. */
function noteLine(control: Control) {
  const node = element("p", { class: "note wide", id: idOf(control, "note"), "aria-live": "polite" });
  function say(fault: string | undefined, units: UnitSystem) {
    const text = fault ?? control.help?.(units) ?? "";
    node.classList.toggle("fault", fault !== undefined);
    if (node.textContent !== text) node.textContent = text;
  }
  return { node, say };
}
