import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, it } from "vitest";

const read = (path: string) => readFileSync(path, "utf8");
const scripts = Object.keys(JSON.parse(read("package.json")).scripts);

describe("the README", () => {
  const text = read("README.md");

  it("names the two commands just as they are typed", () => {
    const blocks = [...text.matchAll(/```sh\n(.*?)\n```/gs)].map(([, command]) => command);
    expect(blocks).toEqual(["npm ci && npm start", "npm ci && npm test"]);
  });

  it("names only commands that package.json has", () => {
    const named = [...text.matchAll(/npm (?:run (?:--silent )?([a-z]+)|(start|test))/g)].map(([, a, b]) => a ?? b);
    expect(named).toEqual(expect.arrayContaining(["start", "test", "solve", "print", "build", "bench"]));
    expect(named.filter((name) => !scripts.includes(name!))).toEqual([]);
  });

  it("shows a picture with words for those who cannot see it, below 300 kB", () => {
    const [, words, path] = text.match(/!\[(.*?)\]\((.*?)\)/s)!;
    expect(words!.length).toBeGreaterThan(50);
    expect(readFileSync(path!).length).toBeLessThan(300_000);
  });
});

describe.each(["README.md", "reference-data/README.md"])("links in %s", (file) => {
  it("lead to files that are there", () => {
    const links = [...read(file).matchAll(/\]\(([^)]+)\)/g)].map(([, link]) => link!.replace(/#.*/, ""));
    const local = links.filter((link) => link !== "" && !/^https?:/.test(link));
    expect(local.filter((link) => !existsSync(join(dirname(file), link)))).toEqual([]);
  });
});
