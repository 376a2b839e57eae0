import { mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { csvParseRows } from "d3-dsv";
import { JSDOM } from "jsdom";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { soundValue } from "../../../model/input/faults.ts";
import { print as printFiles } from "../../../notebooks/commands/print.ts";
import { initialFilled, readPlan } from "../../../notebooks/form/planForm.ts";
import { evaluate } from "../../../notebooks/notebook/evaluate.ts";
import type { Table } from "../../../notebooks/notebook/notebook.ts";
import { writePrint } from "../../../notebooks/print/printFiles.ts";
import { notebooks } from "../../../notebooks/questions/list.ts";
import { directEnsembles, directSolver } from "../../../notebooks/solving/solvers.ts";
import { inProcess, launch } from "../../support/commands.ts";
import { oneIn } from "../../support/deep.ts";

const name = "how-far-does-water-spread";
let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "print-"));
});
afterAll(() => rm(folder, { recursive: true }));

const print = (...args: string[]) => inProcess(() => printFiles(args));

describe("print", () => {
  it("is a command that writes its files, tells their names and exits 0", async () => {
    const own = join(folder, "own");
    const { code, out, err } = await launch("print", ["where-does-each-pot-go", "--out", own]).ended;
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(out.trim().split("\n")).toHaveLength((await readdir(own)).length);
    expect(await readFile(join(own, "where-does-each-pot-go.md"), "utf8")).toMatch(/^# .*\?\n/);
  });

  it("refuses every bad input together, with field, value and range, and exit code 2", async () => {
    const bad = ["--pot-wall-thickness", "thick", "--start-suction-kpa", "0", "--soil-name", "lome"];
    const { code, err } = await print(name, "--out", folder, "--units", "metric", ...bad);
    expect(code).toBe(2);
    expect(err).toContain('Wall thickness is "thick"; it must be a number from 0.3 to 5 cm');
    expect(err).toContain('Suction of the soil at the start is "0"; it must be a number from 5 to 1500 kPa');
    expect(err).toContain('Soil is "lome"; it must be one of sand, ');
  });

  it("refuses what does not fit together", async () => {
    const { code, err } = await print(
      name,
      "--out",
      folder,
      "--units",
      "metric",
      "--pot-height",
      "6",
      "--pot-rim-above-soil",
      "20",
    );
    expect(code).toBe(2);
    expect(err).toMatch(/height of the rim above the soil is 20 cm; it must be less than/);
  });

  it.each([
    [["no-such-notebook"], /no notebook "no-such-notebook".*how-far-does-water-spread/],
    [[name], /--out is missing/],
    [[name, "--out", "x", "--colour", "blue"], /--colour/],
    [[name, "--out", "x", "--units", "cubits"], /--units is "cubits"; it must be one of metric, us/],
    [[name, "--out", "x", "--plan", "no-such-file.json"], /--plan is "no-such-file.json"/],
  ])("refuses %j with exit code 2", async (args, message) => {
    const { code, err } = await print(...args);
    expect(code).toBe(2);
    expect(err).toMatch(message);
  });

  it("refuses a corrupt plan file and one of a later version", async () => {
    const path = join(folder, "plan.json");
    for (const [text, message] of [
      ["{ half", /the plan file is not a complete JSON text/],
      ['{ "version": 2 }', /plan version is 2/],
    ] as const) {
      await writeFile(path, text);
      const { code, err } = await print(name, "--out", folder, "--plan", path);
      expect(code).toBe(2);
      expect(err).toMatch(message);
    }
  });

  it("explains itself, the notebooks and a notebook's options", async () => {
    const all = await print("--help");
    expect(all.code).toBe(0);
    for (const notebook of notebooks) expect(all.out).toContain(`${notebook.name}\n      ${notebook.question}`);
    expect((await print(name, "--help")).out).toContain("--pot-wall-thickness\n      Wall thickness: from 0.3 to 5 cm");
  });
});

/** In the short run every third notebook: printing is the same for all of them. */
describe.each(oneIn(3, notebooks))("the print of $name", (notebook) => {
  const solver = directSolver({ accuracy: "live" });

  it("holds the answer, every drawing and every number", async () => {
    const filled = initialFilled(undefined);
    const inputs = { plan: soundValue(readPlan(filled)), units: "us", view: {} } as const;
    const evaluated = await evaluate(notebook, inputs, solver, directEnsembles({ every: 20 }));
    const own = join(folder, notebook.name);
    await writePrint(notebook, evaluated, filled, own);
    const files = await readdir(own);
    const text = await readFile(join(own, `${notebook.name}.md`), "utf8");
    expect(text.startsWith(`# ${notebook.question}\n\n${evaluated.answer}\n`)).toBe(true);
    for (const svg of files.filter((file) => file.endsWith(".svg"))) {
      expect(text).toContain(`(${svg})`);
      const { document } = new JSDOM(await readFile(join(own, svg), "utf8"), { contentType: "image/svg+xml" }).window;
      expect(document.documentElement.namespaceURI).toBe("http://www.w3.org/2000/svg");
      expect(document.documentElement.getAttribute("aria-label")).toMatch(/\w/);
    }
    const { answer, numbers } = JSON.parse(await readFile(join(own, `${notebook.name}.json`), "utf8"));
    expect(answer).toBe(evaluated.answer);
    const tables = evaluated.sections.flatMap(({ blocks }) => blocks).filter(isTable);
    for (const table of tables) {
      const [headings, ...rows] = csvParseRows(await readFile(join(own, `${table.name}.csv`), "utf8"));
      expect(headings).toEqual(table.columns.map(({ heading }) => heading));
      expect(rows).toEqual(table.rows.map((row) => row.map(String)));
      expect(Object.values(numbers[table.name][0])).toEqual(table.rows[0]);
    }
    expect(files.filter((file) => file.endsWith(".csv")).length).toBe(tables.length + 1);
    for (const line of ["| Soil | loam |", "| Rim diameter | 12 in |", "| Days between refills | 3 days |"])
      expect(text).toContain(line);
    expect(numbers.settings).toContainEqual({ control: "Wall thickness", value: "0.6 in" });
  });
});

const isTable = (block: unknown): block is Table => typeof block === "object" && (block as Table).kind === "table";
