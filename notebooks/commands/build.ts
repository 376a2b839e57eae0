/** Builds one self-contained page per notebook into `dist/`, and an index page that lists the questions. */
import { mkdir, rename, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build, type Plugin, type Rolldown } from "vite";
import { viteSingleFile } from "vite-plugin-singlefile";
import type { Notebook } from "../notebook/notebook.ts";
import { notebooks } from "../questions/list.ts";

const pageFolder = fileURLToPath(new URL("../page/", import.meta.url));

export const distFolder = fileURLToPath(new URL("../../dist/", import.meta.url));

export async function buildNotebooks() {
  await mkdir(distFolder, { recursive: true });
  for (const notebook of notebooks) await buildPage(notebook);
  await replaceFile(join(distFolder, "index.html"), indexPage());
}

/** A page bundled into a single file needs a build of its own. */
async function buildPage(notebook: Notebook) {
  const { output } = (await build({
    root: pageFolder,
    configFile: false,
    logLevel: "warn",
    plugins: [pageOf(notebook), viteSingleFile()],
    build: { write: false, rolldownOptions: { input: join(pageFolder, "page.html") } },
  })) as Rolldown.RolldownOutput;
  const page = output.find(({ fileName }) => fileName === "page.html") as Rolldown.OutputAsset;
  await replaceFile(join(distFolder, `${notebook.name}.html`), page.source);
}

/** Puts a notebook into the page that all of them share. */
function pageOf({ name, question }: Notebook): Plugin {
  const handler = (html: string) => html.replace("%QUESTION%", question).replace("%NAME%", name);
  return { name: "page-of-notebook", transformIndexHtml: { order: "pre", handler } };
}

/** In one stroke: a page that is open, or another build, never meets half a file. */
async function replaceFile(path: string, content: string | Uint8Array) {
  const unfinished = `${path}.${process.pid}`;
  await writeFile(unfinished, content);
  await rename(unfinished, path);
}

function indexPage(): string {
  const items = notebooks.map(({ name, question }) => `<li><a href="${name}.html">${question}</a></li>`).join("\n");
  return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="icon" href="data:,">
<title>Porous pots: questions</title>
<style>
body { margin: 2rem auto; max-width: 40rem; padding: 0 1rem; font: 1.1rem/1.5 Georgia, serif; background: #faf6ec; color: #2b2a26; }
a { color: #0b5a6b; } li { margin: 0.6rem 0; }
</style>
<main>
<h1>Watering a bed with buried clay pots</h1>
<ol>
${items}
</ol>
</main>
</html>
`;
}

if (import.meta.url === pathToFileURL(process.argv[1]!).href) await buildNotebooks();
