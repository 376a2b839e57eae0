import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, it, test } from "vitest";

const read = (path: string) => readFileSync(path, "utf8");
const scripts: Record<string, string> = JSON.parse(read("package.json")).scripts;
const files = ["model", "notebooks", "reference-data", "tests"].flatMap((folder) =>
  readdirSync(folder, { recursive: true, encoding: "utf8" }).map((file) => `${folder}/${file}`),
);

/** The npm scripts that a text names. */
const commandsIn = (text: string) =>
  [...text.matchAll(/npm (?:run (?:--silent )?([a-z:]+)|(start|test))/g)].flatMap(([, run, own]) => run ?? own ?? []);

describe("the README", () => {
  const text = read("README.md");

  it("names the two commands just as they are typed", () => {
    const blocks = [...text.matchAll(/```sh\n(.*?)\n```/gs)].map(([, command]) => command);
    expect(blocks).toEqual(["npm ci && npm start", "npm ci && npm test"]);
  });

  it("names only commands that package.json has", () => {
    expect(commandsIn(text)).toEqual(expect.arrayContaining(["start", "test", "solve", "print", "build", "bench"]));
    expect(commandsIn(text).filter((name) => !(name in scripts))).toEqual([]);
  });

  it("shows a picture with words for those who cannot see it, below 300 kB", () => {
    const [, words, path] = text.match(/!\[(.*?)\]\((.*?)\)/s)!;
    expect(words!.length).toBeGreaterThan(50);
    expect(readFileSync(path!).length).toBeLessThan(300_000);
  });
});

describe("the page for contributors", () => {
  const text = read("DEVELOPERS.md");

  it("names every command of package.json, and no other", () => {
    expect(new Set(commandsIn(text))).toEqual(new Set(Object.keys(scripts)));
  });

  it("names only files and folders that are there", () => {
    const named = [...text.matchAll(/`([\w./-]+(?:\.(?:ts|json|md)|\/))`/g)].map(([, path = ""]) => path);
    expect(named.length).toBeGreaterThan(50);
    const isThere = (path: string) =>
      existsSync(path) || files.some((file) => file.endsWith(`/${path.replace(/\/$/, "")}`));
    expect(named.filter((path) => path !== "dist/" && !isThere(path))).toEqual([]);
  });

  it("is read in a quarter of an hour, on a screen of any width", () => {
    expect(text.split(/\s+/).length).toBeLessThanOrEqual(1500);
    expect(text.split("\n").filter((line) => line.length > 125)).toEqual([]);
  });
});

test("every command runs a file that is there", () => {
  const run = Object.values(scripts).flatMap((script) => script.match(/[\w/.-]+\.ts/g) ?? []);
  expect(run.length).toBeGreaterThan(10);
  expect(run.filter((file) => !existsSync(file))).toEqual([]);
});

const PAGES = ["README.md", "DEVELOPERS.md", ...files.filter((file) => file.endsWith("README.md"))];

describe.each(PAGES)("links in %s", (file) => {
  it("lead to files that are there", () => {
    const links = [...read(file).matchAll(/\]\(([^)]+)\)/g)].map(([, link]) => link!.replace(/#.*/, ""));
    const local = links.filter((link) => link !== "" && !/^https?:/.test(link));
    expect(local.filter((link) => !existsSync(join(dirname(file), link)))).toEqual([]);
  });
});
