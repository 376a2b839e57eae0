/** Makes the page of every notebook, a single file each, and an index page that lists the questions. */
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build, type Rolldown } from "vite";
import { viteSingleFile } from "vite-plugin-singlefile";
import { notebooks } from "../questions/list.ts";

const pageFolder = fileURLToPath(new URL("../page/", import.meta.url));

export interface BuiltPage {
  /** Of the file. */
  name: string;
  html: string;
}

/** The index comes last. */
export async function notebookPages(): Promise<BuiltPage[]> {
  const html = await bundledPage();
  const pages = notebooks.map(({ name, question }) => ({
    name: `${name}.html`,
    html: html.replace("%QUESTION%", question).replace("%NAME%", name),
  }));
  return [...pages, { name: "index.html", html: indexPage() }];
}

/** The page that all notebooks share, before it is told which one it shows: twelve bundles would take ten times as long. */
async function bundledPage(): Promise<string> {
  const { output } = (await build({
    root: pageFolder,
    configFile: false,
    logLevel: "warn",
    plugins: [viteSingleFile()],
    build: { write: false, rolldownOptions: { input: join(pageFolder, "page.html") } },
  })) as Rolldown.RolldownOutput;
  const page = output.find(({ fileName }) => fileName === "page.html") as Rolldown.OutputAsset;
  return String(page.source);
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
