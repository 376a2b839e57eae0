/** The unit system, and the plan as a file. */
import { serializePlan } from "../../model/public/plan.ts";
import { UNIT_SYSTEMS, type UnitSystem } from "../../model/public/units.ts";
import type { Form, FormEvents } from "../form/form.ts";
import { filledOfText, typedPlan } from "../form/planForm.ts";
import { words } from "../words/words.ts";
import { element, radioChoices } from "./dom.ts";
import { saveText } from "./saveText.ts";

/** Saving what the page says; saving and loading a plan. */
export function planFiles(events: FormEvents, savePage: () => void): HTMLElement {
  const trouble = element("ul", { class: "fault", "aria-live": "polite" });
  const file = element("input", { type: "file", accept: ".json,application/json", id: "plan-file", onchange: load });

  async function load() {
    const text = await file.files?.[0]?.text();
    file.value = "";
    if (text === undefined) return;
    const filled = filledOfText(text);
    if (filled.ok) events.fill(filled.value);
    const messages = filled.ok ? [] : [words.planNotLoaded, ...filled.faults.map(({ message }) => message)];
    trouble.replaceChildren(...messages.map((message) => element("li", {}, message)));
  }
  const save = () => saveText("pot-plan.json", serializePlan(typedPlan(events.form())), "application/json");
  return element(
    "div",
    { class: "tools" },
    element("button", { type: "button", onclick: savePage }, words.savePage),
    element("button", { type: "button", onclick: save }, words.savePlan),
    element("label", { for: file.id, class: "file" }, words.loadPlan, file),
    trouble,
  );
}

export function unitSwitch(events: FormEvents) {
  const labels = { metric: "centimetres, litres", us: "inches, US gallons" };
  const choose = (units: UnitSystem) => events.fill({ settings: events.form().settings, units });
  const options = UNIT_SYSTEMS.map((value) => ({ value, label: labels[value] }));
  const { choices, check } = radioChoices("units", options, choose);
  const node = element("fieldset", { class: "units" }, element("legend", {}, words.units), ...choices);
  return { node, show: ({ units }: Form) => check(units) };
}
