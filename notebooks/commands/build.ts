/** `npm run build`: the pages of all notebooks in `dist/`, made anew only when something that they are made of has changed. */
import { createHash, randomUUID } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { mkdir, readFile, rename, writeFile } from "node:fs/promises";
import { join, relative } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const root = fileURLToPath(new URL("../../", import.meta.url));

export const distFolder = join(root, "dist");

/** What pages are made of, and what they are made with. */
const SOURCE_FOLDERS = ["model", "notebooks", "reference-data"];
const LOCK_FILE = "package-lock.json";

export interface BuildOptions {
  folder?: string;
  onStart?(): void;
}

/** Builds the pages unless they are as new as their sources; `onStart` is called only before a build. */
export async function buildNotebooks({ folder = distFolder, onStart = () => {} }: BuildOptions = {}): Promise<void> {
  const stamp = stampOf(sourcesHash());
  if (await isBuilt(folder, stamp)) return;
  onStart();
  const { notebookPages } = await import("./buildPages.ts");
  await mkdir(folder, { recursive: true });
  for (const { name, html } of await notebookPages()) await replaceFile(join(folder, name), `${html}${stamp}\n`);
}

/** Every page ends with it, and so tells for itself what it was made of: builds that run at once cannot mix. */
const stampOf = (hash: string) => `<!-- made of ${hash} -->`;

/** Read one after another: hundreds of small files are read faster so than by promises. */
function sourcesHash(): string {
  const files = [...SOURCE_FOLDERS.flatMap(filesIn).sort(), LOCK_FILE];
  const hash = createHash("sha256");
  for (const file of files) hash.update(file).update(readFileSync(join(root, file)));
  return hash.digest("hex");
}

/** The paths of all files in a folder and those within it, from the root. */
function filesIn(folder: string): string[] {
  const entries = readdirSync(join(root, folder), { recursive: true, withFileTypes: true });
  return entries.filter((entry) => entry.isFile()).map((entry) => relative(root, join(entry.parentPath, entry.name)));
}

/** Whether the index and all that it links to bear the stamp. */
async function isBuilt(folder: string, stamp: string): Promise<boolean> {
  const index = await builtFile(join(folder, "index.html"));
  const names = [...String(index).matchAll(/href="([a-z-]+\.html)"/g)].flatMap(([, name]) => name ?? []);
  const pages = await Promise.all(names.map((name) => builtFile(join(folder, name))));
  return [index, ...pages].every((page) => page.lastIndexOf(stamp) >= 0);
}

const builtFile = (path: string) => readFile(path).catch(() => Buffer.from(""));

/** In one stroke: a page that is open, or another build, never meets half a file. */
async function replaceFile(path: string, content: string) {
  const unfinished = `${path}.${randomUUID()}`;
  await writeFile(unfinished, content);
  await rename(unfinished, path);
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) await buildNotebooks();
