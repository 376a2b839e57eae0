/** What a notebook says as one HTML file without a script: to keep, to send, to print. */
import type { PageContent } from "../notebook/evaluate.ts";
import type { Block, Figure, Notebook, Section, Table } from "../notebook/notebook.ts";
import { rowTexts } from "../notebook/tables.ts";
import { words } from "../words/words.ts";

/** Pixels; prints well across a page. */
export const FIGURE_WIDTH = 720;

/** Of a notebook with sections for paper these alone, and what was added to its own. `document` draws the figures. */
export function htmlFile(notebook: Notebook, { answer, picture, sections }: PageContent, document: Document): string {
  const hasPaper = notebook.sections.some(({ onPaper }) => onPaper);
  const isKept = (section: Section | undefined) => !hasPaper || !section || section.onPaper;
  const block = (each: Block) => blockHtml(each, document);
  const parts = [
    tag("h1", notebook.question),
    tag("p", answer, ' class="answer"'),
    ...(hasPaper ? [] : [block(picture)]),
    ...sections.flatMap(({ heading, blocks }, k) =>
      isKept(notebook.sections[k]) ? [tag("h2", heading), ...blocks.map(block)] : [],
    ),
    tag("h2", words.limits),
    `<ul>\n${notebook.limits.map((limit) => tag("li", limit)).join("\n")}\n</ul>`,
  ];
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(notebook.question)}</title>
<style>${STYLE}</style>
</head>
<body>
<main>
${parts.join("\n")}
</main>
</body>
</html>
`;
}

const STYLE = `
body { margin: 1.5rem auto; max-width: 50rem; padding: 0 1rem; font: 1rem/1.45 Georgia, serif; background: #faf6ec; color: #2b2a26; }
h1, h2 { font-weight: normal; } .answer { font-size: 1.2rem; color: #0b5a6b; }
figure { margin: 1rem 0; } svg { max-width: 100%; height: auto; } .scaled svg { max-width: none; }
.table { overflow-x: auto; } table { border-collapse: collapse; font-size: 0.95rem; } caption { text-align: left; font-style: italic; }
th, td { text-align: left; font-weight: normal; padding: 0.15rem 1rem 0.15rem 0; border-bottom: 1px solid #d9d0bb; } th { color: #655f52; }
@media print { body { background: none; margin: 0; } figure, table, li { break-inside: avoid; } }
`;

const tag = (name: string, text: string, attributes = "") => `<${name}${attributes}>${escaped(text)}</${name}>`;

const escaped = (text: string): string =>
  text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");

function blockHtml(block: Block, document: Document): string {
  if (typeof block === "string") return tag("p", block);
  if (block.kind === "figure") return figureHtml(block, document);
  return block.kind === "table" ? tableHtml(block) : tag("h3", block.question) + tag("p", block.answer);
}

/** A drawing with sizes in millimetres keeps its scale. */
function figureHtml(figure: Figure, document: Document): string {
  const svg = figure.draw({ document, width: FIGURE_WIDTH });
  const scaled = svg.getAttribute("width")?.endsWith("mm") ? ' class="scaled"' : "";
  return `<figure${scaled}>\n${svg.outerHTML}\n${tag("figcaption", figure.caption)}\n</figure>`;
}

function tableHtml(table: Table): string {
  const { caption, columns } = table;
  const line = (cells: string[]) => `<tr>${cells.join("")}</tr>`;
  const head = line(columns.map(({ heading }) => tag("th", heading)));
  const body = rowTexts(table).map((row) => line(row.map((text) => tag("td", text))));
  return `<div class="table"><table>\n${tag("caption", caption)}\n<thead>${head}</thead>\n<tbody>\n${body.join("\n")}\n</tbody>\n</table></div>`;
}
