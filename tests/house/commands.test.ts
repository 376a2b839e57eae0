import { expect, test } from "vitest";
import { sourcesIn } from "./sources.ts";

const sources = new Map(sourcesIn("model", "notebooks", "reference-data").map((source) => [source.file, source]));

/** A file and all that it imports, at once or later. */
function reached(file: string, seen = new Set<string>()): Set<string> {
  if (seen.has(file)) return seen;
  seen.add(file);
  for (const to of sources.get(file)?.imports ?? []) reached(to.file, seen);
  return seen;
}

const importsJsdom = (file: string) => sources.get(file)?.text.includes('from "jsdom"') ?? false;

test("only print loads a document of its own: the start, a band and a problem file wait for no jsdom", () => {
  const commands = [...sources.keys()].filter((file) => file.startsWith("notebooks/commands/"));
  const loading = commands.filter((file) => [...reached(file)].some(importsJsdom));
  expect(loading).toEqual(["notebooks/commands/print.ts"]);
});
