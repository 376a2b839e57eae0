import { readFileSync } from "node:fs";
import { basename } from "node:path";
import { expect, test } from "vitest";
import { type Source, sourcesIn } from "./sources.ts";

const entries = sourcesIn("model/public");
const product = sourcesIn("model", "notebooks", "reference-data");
const others = sourcesIn("tests");

/** Built pages call it. */
const STARTED_BY_PAGES = "notebooks/page/page.ts mountNotebook";

const importedBy = (sources: readonly Source[]) =>
  new Set(
    sources.flatMap(({ imports }) => imports.flatMap(({ file, names }) => names.map((name) => `${file} ${name}`))),
  );

test("the public names are those of the list, by entry", () => {
  const list = readFileSync(new URL("./public-names.txt", import.meta.url), "utf8")
    .trim()
    .split("\n");
  const names = entries.flatMap(({ file, exports }) => exports.map(({ name }) => `${basename(file, ".ts")} ${name}`));
  expect(names.sort()).toEqual(list);
});

test("every public name, and every function and constant that a file gives away, is used in another file", () => {
  const used = importedBy([...product, ...others]);
  const unused = product.flatMap(({ file, exports }) =>
    exports
      .filter(({ isType }) => !isType || file.startsWith("model/public/"))
      .map(({ name }) => `${file} ${name}`)
      .filter((name) => !used.has(name) && !used.has(`${file} *`) && name !== STARTED_BY_PAGES),
  );
  expect(unused).toEqual([]);
});

test("every public function has a doc comment", () => {
  const given = importedBy(entries);
  const functions = product.flatMap(({ file, text }) =>
    text.split("\n").flatMap((line, k, lines) => {
      const [, name] = line.match(/^export (?:function\*? |const )(\w+)(?: = )?[<(]/) ?? [];
      return given.has(`${file} ${name}`) ? { name, isDocumented: lines[k - 1]?.endsWith("*/") } : [];
    }),
  );
  expect(functions.length).toBeGreaterThan(100);
  expect(functions.filter(({ isDocumented }) => !isDocumented)).toEqual([]);
});
