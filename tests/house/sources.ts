/** The product's source files as a parser sees them: what each imports, and the names it gives to others. */
import { readdirSync, readFileSync } from "node:fs";
import { posix } from "node:path";
import { parseSync } from "vite";

export interface Import {
  /** Path from the project's root. */
  file: string;
  /** "*" stands for all of them. */
  names: string[];
}

export interface Source {
  file: string;
  text: string;
  imports: Import[];
  exports: { name: string; isType: boolean }[];
}

const ROOT = new URL("../../", import.meta.url).pathname;

/** Every TypeScript and module file under these folders of the project. */
export function sourcesIn(...folders: string[]): Source[] {
  return folders.flatMap((folder) =>
    readdirSync(ROOT + folder, { recursive: true, encoding: "utf8" })
      .filter((file) => /\.m?ts$|\.mjs$/.test(file) && !file.endsWith(".d.ts"))
      .map((file) => sourceOf(`${folder}/${file}`))
      .sort((a, b) => (a.file < b.file ? -1 : 1)),
  );
}

/** Imports of packages and of data files are left out. */
function sourceOf(file: string): Source {
  const text = readFileSync(ROOT + file, "utf8");
  const { module } = parse(file, text);
  const exported = module.staticExports.flatMap(({ entries }) => entries);
  const requests = [
    ...module.staticImports.map(({ moduleRequest, entries }) => ({
      from: moduleRequest.value,
      names: entries.map(({ importName }) => importName.name ?? (importName.kind === "Default" ? "default" : "*")),
    })),
    ...exported.flatMap(({ moduleRequest, importName }) =>
      moduleRequest ? [{ from: moduleRequest.value, names: [importName.name ?? "*"] }] : [],
    ),
    ...module.dynamicImports.map(({ moduleRequest: { start, end } }) => ({
      from: text.slice(start + 1, end - 1),
      names: ["*"],
    })),
  ];
  const imports = requests.flatMap(({ from, names }) => {
    const path = from.replace(/\?.*/, "");
    return /^\..*\.m?[tj]s$/.test(path) ? [{ file: posix.join(posix.dirname(file), path), names }] : [];
  });
  const exports = exported.map(({ exportName, isType }) => ({ name: exportName.name ?? "default", isType }));
  return { file, text, imports, exports };
}

export function parse(file: string, text: string) {
  const parsed = parseSync(file, text);
  if (parsed.errors.length > 0) throw new Error(`${file}: ${parsed.errors[0]?.message}`);
  return parsed;
}
