import { JSDOM } from "jsdom";
import { beforeAll, describe, expect, it } from "vitest";
import { lineFilling } from "../../../model/public/advice.ts";
import { type Plan, potPlacesOf } from "../../../model/public/plan.ts";
import { evaluate, type PageContent } from "../../../notebooks/notebook/evaluate.ts";
import type { Block, Table } from "../../../notebooks/notebook/notebook.ts";
import { htmlFile } from "../../../notebooks/print/htmlFile.ts";
import { notebook } from "../../../notebooks/questions/my-bed/notebook.ts";
import { notebook as bedNotebook } from "../../../notebooks/questions/where-does-each-pot-go/notebook.ts";
import { notebook as tankNotebook } from "../../../notebooks/questions/will-the-tank-last/notebook.ts";
import { directSolver } from "../../../notebooks/solving/solvers.ts";
import { minutesWords } from "../../../notebooks/words/lineWords.ts";
import { plan as planOf } from "../../support/livingPlan.ts";

const solver = directSolver({ accuracy: "live" });

/** A crop of six weeks: few runs. */
const plan = planOf({
  bed: { shape: "rectangle", length: 2.4, width: 1 },
  spacing: 60,
  crop: { kind: "listed", name: "radish" },
  planting: { month: "june", day: 20 },
  startSuctionKPa: 33,
});

const shownOf = (of: typeof notebook, plan: Plan) => evaluate(of, { plan, units: "metric", view: {} }, solver);
const blocksOf = ({ sections }: PageContent): Block[] => sections.flatMap(({ blocks }) => blocks);
const tableIn = (shown: PageContent, name: string) =>
  blocksOf(shown).find((block) => typeof block === "object" && block.kind === "table" && block.name === name) as Table;

describe("the season page", { timeout: 60_000 }, () => {
  let shown: PageContent;
  beforeAll(async () => {
    shown = await shownOf(notebook, plan);
  }, 60_000);
  const row = (name: string) => String(tableIn(shown, "my-bed").rows.find(([what]) => what === name)![1]);

  it("tells pots, spacing, band, filling and tank in one sentence", () => {
    expect(shown.answer).toMatch(
      /^Your 1 × 2\.4 m bed: \d+ pots 60 cm \(23\.5 in\) apart, radish .* from their walls on 20 June, pots filled every 3 days with the valve open for up to .*, and a 1000 L \(260 US gal\) tank that lasts through .* years\.$/,
    );
  });

  it("tells the same as the notebooks that it gathers", async () => {
    const [bed, tank] = [await shownOf(bedNotebook, plan), await shownOf(tankNotebook, plan)];
    expect(tableIn(shown, "strings")).toEqual(tableIn(bed, "strings"));
    expect(tableIn(shown, "shopping")).toEqual(tableIn(bed, "shopping"));
    const years = tank.answer.match(/through (.*? years)/)![1];
    expect(row("does the tank last")).toContain(`through ${years}`);
    const { valveMinutes } = lineFilling(plan, potPlacesOf(plan));
    expect(row("valve, for the first filling")).toBe(`open for ${minutesWords(valveMinutes!)}`);
  });

  it("counts the season's days and refills", () => {
    expect(row("season")).toMatch(/^20 June to \d+ \w+, \d+ days$/);
    const { rows } = tableIn(shown, "season");
    const days = Number(row("season").match(/(\d+) days/)![1]);
    const refills = rows.reduce((sum, [, count]) => sum + Number(count), 0);
    expect(refills).toBe(Math.ceil(days / 3));
  });

  it("tells longer minutes where the tank stands lower, as the line's own filling has them", async () => {
    const dry = planOf({
      ...{ bed: { shape: "rectangle", length: 2.4, width: 1 }, spacing: 60, crop: { kind: "listed", name: "radish" } },
      ...{ planting: { month: "june", day: 20 }, startSuctionKPa: 33, tank: { volume: 1500, outletHeight: 20 } },
    });
    const { rows } = tableIn(await shownOf(notebook, dry), "season");
    const minutes = rows.map((each) => Number(String(each[4]).match(/^[\d.]+/)?.[0]));
    const litres = Number(rows.at(-1)![2]);
    const full = lineFilling(dry, potPlacesOf(dry), { litresEach: litres }).valveMinutes!;
    expect(minutes.at(-1)).toBeGreaterThan(1.1 * full);
  });

  it("says so where filling that seldom leaves plants thirsty", async () => {
    const late = await shownOf(notebook, { ...plan, filling: { kind: "every", days: 14 } });
    const { rows } = tableIn(late, "season");
    const hardest = rows.reduce((worst, each) => (Number(each[5]) < Number(worst[5]) ? each : worst));
    expect(new Set(rows.map((each) => each[5])).size).toBeGreaterThan(1);
    expect(late.answer).toContain(`which leaves plants thirsty in ${hardest[0]}`);
  });

  it("keeps what it says as one HTML file without a script, its drawings within it", () => {
    const html = htmlFile(notebook, shown, new JSDOM("").window.document);
    const { document } = new JSDOM(html).window;
    expect(document.querySelector("h1")!.textContent).toBe(notebook.question);
    expect(document.querySelector(".answer")!.textContent).toBe(shown.answer);
    const headings = [...document.querySelectorAll("h2")].map((node) => node.textContent);
    const onPaper = notebook.sections.filter((section) => section.onPaper).map(({ heading }) => heading);
    expect(headings).toEqual([...onPaper, "Limits and cautions"]);
    expect(document.querySelectorAll("svg")).toHaveLength(2);
    expect(document.querySelectorAll("table")).toHaveLength(7);
    expect(document.querySelectorAll("script, link, img")).toHaveLength(0);
    expect(html).not.toMatch(/https?:\/\/(?!www\.w3\.org)/);
  });
});

it("a text with signs of its own stands in the file as it was written", () => {
  const said: PageContent = {
    answer: 'a < b & "c" > d',
    picture: {
      kind: "figure",
      name: "p",
      caption: "",
      draw: () => new JSDOM("<svg></svg>").window.document.querySelector("svg")!,
    },
    sections: notebook.sections.map(({ heading }) => ({ heading, blocks: ["<script>x</script>"] })),
  };
  const { document } = new JSDOM(htmlFile(notebook, said, new JSDOM("").window.document)).window;
  expect(document.querySelector(".answer")!.textContent).toBe('a < b & "c" > d');
  expect(document.querySelectorAll("script")).toHaveLength(0);
});
