import { describe, expect, it } from "vitest";
import { bedLayout, type SowingAdvice } from "../../../model/public/advice.ts";
import { distanceInside, type Plan, placeOfStrings, resolvePlan, soundValue } from "../../../model/public/plan.ts";
import { filledOfText, readPlan, typedPlan } from "../../../notebooks/form/planForm.ts";
import { evaluate } from "../../../notebooks/notebook/evaluate.ts";
import type { Block, Figure, Handles, Table } from "../../../notebooks/notebook/notebook.ts";
import { svgText } from "../../../notebooks/print/printFiles.ts";
import { notebook } from "../../../notebooks/questions/where-does-each-pot-go/notebook.ts";
import { directSolver } from "../../../notebooks/solving/solvers.ts";
import { expectClose } from "../../support/close.ts";
import { plan as planOf } from "../../support/livingPlan.ts";

const solver = directSolver({ accuracy: "live" });

const BED = { bed: { shape: "rectangle", length: 4.8, width: 1.2 }, spacing: 65 };
const bedPlan = (changes: object = {}) => planOf({ ...BED, startSuctionKPa: 33, ...changes });

const shown = (plan: Plan, units: "metric" | "us" = "metric") => evaluate(notebook, { plan, units, view: {} }, solver);

const blocksOf = async (plan: Plan, units: "metric" | "us" = "metric"): Promise<Block[]> =>
  (await shown(plan, units)).sections.flatMap(({ blocks }) => blocks);

/** The figure or table of a name. */
const named = (blocks: Block[], name: string) =>
  blocks.find((block) => typeof block === "object" && "name" in block && block.name === name);

const tableOf = async (plan: Plan, name: string) => named(await blocksOf(plan), name) as Table;

const handlesOf = async (plan: Plan): Promise<Handles> => (await shown(plan)).picture.handles!;

/** The plan after a change of settings, as the page would have it. */
function changed(plan: object, settings: object): Plan {
  const filled = soundValue(filledOfText(JSON.stringify(plan)));
  return soundValue(readPlan({ ...filled, settings: { ...filled.settings, ...settings } }));
}

const typed = (changes: object = {}) => ({
  version: 1,
  units: "metric",
  soil: { kind: "class", name: "loam" },
  pot: { shape: "cylinder", diameter: 20, height: 22 },
  crop: { kind: "listed", name: "tomato" },
  ...BED,
  ...changes,
});

const NOWHERE: SowingAdvice = {
  kind: "nowhere",
  reason: "dry",
  inner: 0,
  outer: 0,
  innerCause: "wall",
  sowingDay: 0,
  until: 1,
  isDayChosen: false,
};

describe("the answer", { timeout: 60_000 }, () => {
  it("counts the pots of the bed, tells how they stand, what they wet and what they hold", async () => {
    const { answer } = await shown(bedPlan());
    expect(answer).toMatch(/^Your 1\.2 × 4\.8 m bed takes 14 pots, 65 cm \(25\.5 in\) apart in squares: /);
    expect(answer).toMatch(/easy water for tomato reaches \d+ % of it in your loam, one round of filling takes \d+ L/);
  });

  it("says which pot has been moved too near, and to what", async () => {
    const near = bedPlan({
      potPlaces: [
        { x: 1, y: 0.6 },
        { x: 1.4, y: 0.6 },
      ],
    });
    expect((await shown(near)).answer).toMatch(/pot 2 stands 40 cm from pot 1, nearer than the spacing of 65 cm\.$/);
    const edge = bedPlan({ potPlaces: [{ x: 1, y: 0.15 }] });
    expect((await shown(edge)).answer).toMatch(
      /pot 1 stands 15 cm from the bed’s edge, nearer than the 22 cm of the plan\.$/,
    );
  });
});

describe("the tables", { timeout: 60_000 }, () => {
  it("of strings lead back to each pot within a millimetre, in both unit systems", async () => {
    const plan = bedPlan({ rowAngle: 20 });
    const bed = bedLayout(plan, 30, NOWHERE);
    for (const [units, cm] of [
      ["metric", 1],
      ["us", 2.54],
    ] as const) {
      const table = named(await blocksOf(plan, units), "strings") as Table;
      expect(table.rows.length).toBe(bed.pots.length);
      table.rows.forEach((row, k) => {
        const numbers = row.filter((value) => typeof value === "number") as number[];
        const [a, b, x, y] = numbers.map((value) => value * cm) as [number, number, number, number];
        const side = row[3] === "right" ? -1 : row[3] === "left" ? 1 : sideOf(bed.pegs, bed.pots[k]!);
        const place = placeOfStrings(bed.pegs, { a, b, side });
        expectClose(place.x, x, { tolerance: 0.1, unit: "cm", what: `pot ${k + 1} along` });
        expectClose(place.y, y, { tolerance: 0.1, unit: "cm", what: `pot ${k + 1} across` });
        expectClose(x, bed.pots[k]!.x, { tolerance: 1e-9, unit: "cm", what: "along" });
      });
    }
  });

  it("to buy by count pots, lids, and stoppers that fit the hole", async () => {
    const plan = planOf({
      bed: BED.bed,
      spacing: 65,
      pot: { shape: "cylinder", diameter: 20, height: 22, drainHoleDiameter: 2 },
    });
    const { rows } = await tableOf(plan, "shopping");
    expect(rows.map(([what, count]) => [what, count]).slice(0, 3)).toEqual([
      ["pots", "14"],
      ["lids", "14"],
      ["stoppers", "14"],
    ]);
    expect(rows[2]![2]).toContain("tapered, 1.7 cm");
    const open = await tableOf({ ...plan, lid: false }, "shopping");
    expect(open.rows.map(([what]) => what)).not.toContain("lids");
  });
});

const sideOf = ([a, b]: readonly [{ x: number; y: number }, { x: number; y: number }], p: { x: number; y: number }) =>
  (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x) >= 0 ? 1 : -1;

describe("parts moved by hand", { timeout: 60_000 }, () => {
  it("change the plan: a pot goes where it is wanted, and the others stay", async () => {
    const before = laidOutPots(bedPlan());
    const handles = await handlesOf(bedPlan());
    expect(handles.items.length).toBe(14);
    const to = { x: before[2]!.x + 7, y: before[2]!.y + 3 };
    const { bed } = changed(typed(), handles.items[2]!.moved(to));
    expect(bed.potPlaces!.length).toBe(14);
    expectClose(bed.potPlaces![2]!.x, to.x, { tolerance: 0.01, unit: "cm", what: "along" });
    expectClose(bed.potPlaces![2]!.y, to.y, { tolerance: 0.01, unit: "cm", what: "across" });
    expectClose(bed.potPlaces![3]!.x, before[3]!.x, { tolerance: 0.01, unit: "cm", what: "the next one" });
  });

  it("go no farther than the bed and its other pots let them, so that the plan stays one that can be used", async () => {
    const handles = await handlesOf(bedPlan());
    for (const to of [{ x: -500, y: 900 }, handles.items[1]!.place, handles.items[8]!.place]) {
      const { bed } = changed(typed(), handles.items[0]!.moved(to));
      const place = bed.potPlaces![0]!;
      expect(distanceInside(bed.outline, place)).toBeGreaterThanOrEqual(10 - 0.02);
      for (const other of bed.potPlaces!.slice(1))
        expect(Math.hypot(other.x - place.x, other.y - place.y)).toBeGreaterThanOrEqual(20 - 0.02);
    }
  });

  it("are told with their places for who cannot see them, and are drawn where their handles are", async () => {
    const handles = await handlesOf(bedPlan({ spacing: 60, edgeDistance: 30 }));
    expect(handles.items[0]!.name).toMatch(/^Pot 1, 30 cm along, 30 cm across$/);
    for (const { place } of handles.items) {
      const back = handles.placeAt(handles.project(place, 500), 500);
      expectClose(back.x, place.x, { tolerance: 1e-9, unit: "cm", what: "along" });
      expectClose(back.y, place.y, { tolerance: 1e-9, unit: "cm", what: "across" });
    }
    const { picture } = await shown(bedPlan({ spacing: 60, edgeDistance: 30 }));
    const { x, y } = handles.project(handles.items[4]!.place, 720);
    expect(svgText(picture)).toContain(`<circle cx="${x}" cy="${y}"`);
  });

  it("can be taken away, added where there is most room, and sent back to the grid", async () => {
    const handles = await handlesOf(bedPlan());
    const fewer = changed(typed(), handles.items[3]!.removed!());
    expect(fewer.bed.potPlaces!.length).toBe(13);
    const action = (from: Handles, label: RegExp) => from.actions.find((each) => label.test(each.label))!.settings;
    expect(action(handles, /grid/)).toBeNull();
    const without = await handlesOf(fewer);
    const more = changed(typed(), action(without, /Add a pot/)!);
    expect(more.bed.potPlaces!.length).toBe(14);
    const hole = handles.items[3]!.place;
    const added = more.bed.potPlaces!.at(-1)!;
    expect(Math.hypot(added.x - hole.x, added.y - hole.y)).toBeLessThan(20);
    for (const other of fewer.bed.potPlaces!)
      expect(Math.hypot(added.x - other.x, added.y - other.y)).toBeGreaterThanOrEqual(64.9);
    expect(changed(typed({ potPlaces: [{ x: 1, y: 0.5 }] }), action(without, /grid/)!).bed.potPlaces).toBeNull();
    expect((await handlesOf(bedPlan({ potPlaces: [{ x: 1, y: 0.5 }] }))).items[0]!.removed).toBeUndefined();
  });

  it("are the corners of a rectangle too, once that is asked for: the bed stays as it was until one is moved", async () => {
    const { settings } = (await handlesOf(bedPlan())).actions.find(({ label }) => /corners/.test(label))!;
    const { bed } = changed(typed(), settings!);
    expect(bed.outline).toMatchObject({
      points: [
        { x: 0, y: 0 },
        { x: 480, y: 0 },
        { x: 480, y: 120 },
        { x: 0, y: 120 },
      ],
    });
    const round = await handlesOf(bedPlan({ bed: { shape: "circle", diameter: 3 } }));
    expect(round.actions.filter(({ label }) => /corner/.test(label))).toEqual([]);
  });

  it("are corners too where the bed is of any shape", async () => {
    const points = [
      { x: 0, y: 0 },
      { x: 3, y: 0 },
      { x: 3, y: 2 },
      { x: 0, y: 1.5 },
    ];
    const plan = bedPlan({ bed: { shape: "polygon", points } });
    const handles = await handlesOf(plan);
    const corner = handles.items.find(({ name }) => name.startsWith("Corner C of the bed"))!;
    const moved = changed(typed(), corner.moved({ x: 350, y: 240 }));
    expect(moved.bed.outline).toMatchObject({ points: [{}, {}, { x: 350, y: 240 }, {}] });
    expect(changed(typed(), corner.removed!()).bed.outline).toMatchObject({ points: { length: 3 } });
    const added = handles.actions.find(({ label }) => /corner/.test(label))!.settings!;
    expect(changed(typed(), added).bed.outline).toMatchObject({ points: { length: 5 } });
  });

  it("leave what was typed as it was when a bed becomes one that cannot be used", () => {
    const crossed = [
      { x: 0, y: 0 },
      { x: 3, y: 2 },
      { x: 3, y: 0 },
      { x: 0, y: 2 },
    ];
    const filled = soundValue(filledOfText(JSON.stringify(typed())));
    const settings = {
      ...filled.settings,
      "bed.shape": "polygon",
      "bed.points": JSON.stringify(crossed.map(({ x, y }) => ({ x: 100 * x, y: 100 * y }))),
    };
    const read = readPlan({ ...filled, settings });
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.faults.map(({ message }) => message).join()).toMatch(/cross/);
    expect(typedPlan({ ...filled, settings })).toMatchObject({ bed: { points: crossed }, spacing: 65 });
  });
});

const laidOutPots = (plan: Plan) => bedLayout(plan, 30, NOWHERE).pots;

describe("the drawing for paper", { timeout: 60_000 }, () => {
  it.each([
    ["metric", { shape: "rectangle", length: 4.8, width: 1.2 }],
    ["metric", { shape: "circle", diameter: 3 }],
    ["us", { shape: "rectangle", length: 30, width: 4 }],
  ] as const)("has the scale that it names, and fits A4 and Letter: %s, %j", async (units, bed) => {
    const plan = units === "us" ? usPlan(bed) : bedPlan({ bed });
    const figure = named(await blocksOf(plan, units), "bed-on-paper") as Figure;
    const scale = Number(/1 : (\d+)/.exec(figure.caption)![1]);
    const svg = svgText(figure);
    const [width, height] = ["width", "height"].map((side) =>
      Number(new RegExp(`^<svg[^>]* ${side}="([\\d.]+)mm"`).exec(svg)![1]),
    ) as [number, number];
    expect(width).toBeLessThanOrEqual(180);
    expect(height).toBeLessThanOrEqual(235);
    // The picture's own pixels over its millimetres, against the handles' pixels over the bed's centimetres.
    const { picture } = await shown(plan, units);
    const [a, b] = [0, 100].map((x) => picture.handles!.project({ x, y: 0 }, 720).x) as [number, number];
    const millimetresPerPixel = width / 720;
    expectClose(((b - a) * millimetresPerPixel) / 10, 100 / scale, {
      tolerance: 1e-6,
      unit: "cm",
      what: "a metre on paper",
    });
  });
});

const usPlan = (bed: object): Plan =>
  soundValue(
    resolvePlan({
      ...typed(),
      units: "us",
      pot: { shape: "cylinder", diameter: 8, height: 9 },
      spacing: 26,
      bed,
    } as never),
  );
