/** Words on a terminal. */
import { max } from "d3-array";

/** Lines are kept shorter than a narrow terminal. */
const WIDTH = 78;

/** A paragraph as lines; those after the first are indented. A no-break space keeps words together. */
export function wrap(text: string, indent = ""): string {
  const [first = "", ...words] = text.split(" ");
  const lines = [first];
  for (const word of words) {
    const longer = `${lines.at(-1)} ${word}`;
    if (longer.length > WIDTH) lines.push(indent + word);
    else lines[lines.length - 1] = longer;
  }
  return lines.map((line) => line.replaceAll(NO_BREAK, " ").trimEnd()).join("\n");
}

const NO_BREAK = "\u00a0";

export const unbroken = (text: string): string => text.replaceAll(" ", NO_BREAK);

/** A table as lines: every column as wide as its widest cell, two spaces between them and at the left. */
export function table(rows: readonly string[][]): string {
  const width = (column: number) => max(rows, (row) => row[column]?.length) ?? 0;
  const line = (row: string[]) => row.map((cell, column) => `  ${cell.padEnd(width(column))}`).join("");
  return rows.map((row) => line(row).trimEnd()).join("\n");
}

const OPTION_WIDTH = 20;

/** An option and its meaning, as a help text lists them. */
export const optionLine = (name: string, meaning: string): string =>
  wrap(`  ${name.padEnd(OPTION_WIDTH)}${meaning}`, " ".repeat(OPTION_WIDTH + 2));

export type StatusLine = ReturnType<typeof statusLine>;

const ERASE = "\r\x1b[K";

/** Tells what is being worked on: in a terminal one line that is drawn again and erased, elsewhere a line for each task. */
export function statusLine(stream: NodeJS.WriteStream) {
  let shown = "";
  return {
    show(task: string, detail = "") {
      if (stream.isTTY) stream.write(`${ERASE}${task}${detail}`);
      else if (task !== shown) stream.write(`${task}\n`);
      shown = task;
    },
    erase() {
      if (stream.isTTY && shown !== "") stream.write(ERASE);
    },
  };
}
