/** Common sizes of pots. */
import type { Settings } from "../../model/public/plan.ts";
import { type PotRow, pots } from "../../reference-data/load.ts";
import type { ChoiceControl } from "./controlTypes.ts";

const potRows = pots().rows;

/** Fills the measures below it, which all stay open; shows the size that they agree with. */
export const potSize: ChoiceControl = {
  kind: "choice",
  field: "potSize",
  label: "Common sizes",
  style: "select",
  help: () => "Common practice, no source. Measure your own pot where you can.",
  options: [{ value: "", label: "own measures" }, ...potRows.map(({ name }) => ({ value: name, label: name }))],
  fills: (name) => measuresOf(potRows.find((pot) => pot.name === name)),
  chosen: (settings) => potRows.find((pot) => agree(measuresOf(pot), settings))?.name ?? "",
};

function measuresOf(pot: PotRow | undefined): Settings {
  if (!pot) return {};
  const { name, source, flags, ...measures } = pot;
  return Object.fromEntries(Object.entries(measures).map(([key, value]) => [`pot.${key}`, value]));
}

const agree = (some: Settings, all: Settings) => Object.entries(some).every(([field, value]) => all[field] === value);
