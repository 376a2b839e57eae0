/** Writes what a notebook says to a folder: Markdown, HTML, SVG, CSV and JSON. */
import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { JSDOM } from "jsdom";
import { present } from "../../model/public/plan.ts";
import { type Control, isShown } from "../form/controlTypes.ts";
import { numberWithUnit } from "../form/fieldReading.ts";
import type { Filled } from "../form/planForm.ts";
import type { PageContent } from "../notebook/evaluate.ts";
import type { Block, Figure, Notebook, Table } from "../notebook/notebook.ts";
import { csv, rowTexts, tableOf } from "../notebook/tables.ts";
import { words } from "../words/words.ts";
import { FIGURE_WIDTH, htmlFile } from "./htmlFile.ts";

/** The paths written. */
export async function writePrint(
  notebook: Notebook,
  { sections, ...shown }: PageContent,
  filled: Filled,
  folder: string,
): Promise<string[]> {
  await mkdir(folder, { recursive: true });
  const putIn = { heading: words.putIn, blocks: [settingsTable(notebook, filled)] };
  const evaluated = { ...shown, sections: [...sections, putIn] };
  const blocks = [evaluated.picture, ...evaluated.sections.flatMap((section) => section.blocks)];
  const files = [
    [`${notebook.name}.md`, markdown(notebook, evaluated)],
    [`${notebook.name}.html`, htmlFile(notebook, evaluated, new JSDOM("").window.document)],
    [`${notebook.name}.json`, json(notebook, evaluated, blocks.filter(isTable))],
    ...blocks.filter(isFigure).map((figure) => [`${figure.name}.svg`, svgText(figure)]),
    ...blocks.filter(isTable).map((table) => [`${table.name}.csv`, csv(table)]),
  ] as [string, string][];
  return Promise.all(
    files.map(async ([name, text]) => {
      await writeFile(join(folder, name), text);
      return join(folder, name);
    }),
  );
}

/** The controls of the notebook as they stood. */
function settingsTable({ controls }: Notebook, { settings, units }: Filled): Table {
  const shown = controls.flatMap((group) => group.controls).filter((control) => isShown(control, settings));
  const typedValue = ({ field, initial }: Control) => present(settings[field] ?? initial, `value of ${field}`);
  const text = (control: Control) => {
    if (control.kind === "number") return numberWithUnit(Number(typedValue(control)), control.measure, units);
    if (control.kind === "text") return words.lines(String(typedValue(control)).trimEnd().split("\n").length);
    const chosen = control.chosen?.(settings) ?? typedValue(control);
    const option = control.options.find(({ value }) => value === chosen);
    return present(option, `choice "${chosen}" of ${control.field}`).label;
  };
  return tableOf("settings", "The controls as they stood", shown, [
    ["control", ({ label }) => label],
    ["value", text],
  ]);
}

const isFigure = (block: Block): block is Figure => typeof block === "object" && block.kind === "figure";
const isTable = (block: Block): block is Table => typeof block === "object" && block.kind === "table";

export function svgText(figure: Figure): string {
  const { document } = new JSDOM("").window;
  return `${figure.draw({ document, width: FIGURE_WIDTH }).outerHTML}\n`;
}

function markdown({ question, limits }: Notebook, { answer, picture, sections }: PageContent): string {
  const parts = [
    `# ${question}`,
    answer,
    blockText(picture),
    ...sections.flatMap(({ heading, blocks }) => [`## ${heading}`, ...blocks.map(blockText)]),
    `## ${words.limits}`,
    limits.map((limit) => `- ${limit}`).join("\n"),
  ];
  return `${parts.join("\n\n")}\n`;
}

function blockText(block: Block): string {
  if (typeof block === "string") return block;
  if (block.kind === "figure") return `![${block.name}](${block.name}.svg)\n\n${block.caption}`;
  return block.kind === "table" ? tableText(block) : `**${block.question}**\n\n${block.answer}`;
}

function tableText(table: Table): string {
  const { caption, columns } = table;
  const line = (cells: string[]) => `| ${cells.join(" | ")} |`;
  const head = [line(columns.map(({ heading }) => heading)), line(columns.map(() => "---"))];
  return `${caption}\n\n${[...head, ...rowTexts(table).map(line)].join("\n")}`;
}

function json({ name, question }: Notebook, { answer, picture }: PageContent, tables: Table[]): string {
  const numbers = Object.fromEntries(
    tables.map(({ name: table, columns, rows }) => [table, rows.map((row) => record(columns, row))]),
  );
  return `${JSON.stringify({ notebook: name, question, answer, picture: picture.caption, numbers }, null, 2)}\n`;
}

const record = (columns: Table["columns"], row: (number | string)[]) =>
  Object.fromEntries(columns.map(({ heading }, i) => [heading, row[i]]));
