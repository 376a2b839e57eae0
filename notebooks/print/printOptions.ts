/** The controls of a notebook as options of the terminal: `--pot-wall-thickness 1.2`, in the person's unit. */
import { UNIT_SYSTEMS, type UnitSystem } from "../../model/public/units.ts";
import type { Control } from "../form/controlTypes.ts";
import { rangeText, readNumber } from "../form/fieldReading.ts";
import type { Filled } from "../form/planForm.ts";
import type { Notebook } from "../notebook/notebook.ts";

type OptionTexts = Readonly<Record<string, string | undefined>>;
type OptionsResult = { ok: true; value: Filled } | { ok: false; faults: { message: string }[] };

const controlsOf = (notebook: Notebook) => notebook.controls.flatMap((group) => group.controls);

/** "pot.wallThickness" as "pot-wall-thickness", "startSuctionKPa" as "start-suction-kpa". */
const optionName = ({ field }: Control): string =>
  field
    .replace(/([a-z])([A-Z])/g, "$1-$2")
    .replaceAll(".", "-")
    .toLowerCase();

export function optionsOf(notebook: Notebook): Record<string, { type: "string" }> {
  const names = ["out", "plan", "units", ...controlsOf(notebook).map(optionName)];
  return Object.fromEntries(names.map((name) => [name, { type: "string" }]));
}

/** Puts what was given in place of what a plan or the defaults say; every fault at once. */
export function applyOptions(notebook: Notebook, start: Filled, given: OptionTexts): OptionsResult {
  const units = (given.units ?? start.units) as UnitSystem;
  if (!UNIT_SYSTEMS.includes(units))
    return { ok: false, faults: [{ message: `--units is "${units}"; it must be one of ${UNIT_SYSTEMS.join(", ")}.` }] };
  const read = controlsOf(notebook).flatMap((control) => {
    const text = given[optionName(control)];
    return text === undefined ? [] : [{ field: control.field, ...readOption(text, control, units) }];
  });
  const faults = read.filter((each) => !each.ok);
  if (faults.length > 0) return { ok: false, faults };
  const values = read.map((each) => [each.field, each.ok ? each.value : ""]);
  return { ok: true, value: { units, settings: { ...start.settings, ...Object.fromEntries(values) } } };
}

function readOption(text: string, control: Control, units: UnitSystem) {
  if (control.kind === "number") return readNumber(text, control, units);
  if (control.kind === "text") return { ok: true as const, value: text };
  if (control.options.some(({ value }) => value === text)) return { ok: true as const, value: text };
  return { ok: false as const, message: `${control.label} is "${text}"; it must be one of ${choices(control)}.` };
}

const choices = (control: Control) =>
  control.kind === "choice" ? control.options.map(({ value }) => value).join(", ") : "a text";

export function helpText(notebooks: readonly Notebook[], notebook: Notebook | undefined): string {
  const known = notebooks.map(({ name, question }) => `  ${name}\n      ${question}`);
  const own = notebook ? controlsOf(notebook).map(optionHelp) : [];
  return [
    "npm run print -- NOTEBOOK --out FOLDER [--plan FILE] [--units metric|us] [options]",
    "Writes a notebook's text (.md, .html), drawings (.svg) and numbers (.csv, .json) to FOLDER.",
    "",
    "Notebooks:",
    ...known,
    "",
    ...(notebook
      ? [`Options of ${notebook.name}:`, ...own]
      : ["npm run print -- NOTEBOOK --help lists a notebook's options."]),
  ].join("\n");
}

function optionHelp(control: Control): string {
  const allowed = control.kind === "number" ? rangeText(control, "metric") : choices(control);
  return `  --${optionName(control)}\n      ${control.label}: ${allowed}`;
}
