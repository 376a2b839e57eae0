import { describe, expect, it } from "vitest";
import {
  alternatives,
  carryingFor,
  demandOf,
  ENOUGH,
  enoughIntervals,
  type IntervalShare,
  intervalProblem,
  litresByInterval,
  metByInterval,
  metShare,
  TRIED_INTERVALS,
  verdictOf,
  watchedOutcome,
  watchedProblem,
} from "../../../model/public/advice.ts";
import { type Problem, type Run, vanGenuchten } from "../../../model/public/flow.ts";
import { daysUntilStress, type Plan, type PlanInput, resolvePlan, soundValue } from "../../../model/public/plan.ts";
import { fromModel, type UnitSystem } from "../../../model/public/units.ts";
import demoPlan from "../../../notebooks/demo-plan.json" with { type: "json" };
import { setPlan } from "../../../notebooks/form/form.ts";
import { evaluate } from "../../../notebooks/notebook/evaluate.ts";
import { svgText } from "../../../notebooks/print/printFiles.ts";
import { courseOf } from "../../../notebooks/questions/when-do-i-refill/course.ts";
import { notebook } from "../../../notebooks/questions/when-do-i-refill/notebook.ts";
import { answerSentence, halfDays, percent } from "../../../notebooks/questions/when-do-i-refill/refillWords.ts";
import { saltGrams } from "../../../notebooks/questions/when-do-i-refill/saltWords.ts";
import { rootZoneAtStart } from "../../../notebooks/questions/when-do-i-refill/thirst.ts";
import type { Solved } from "../../../notebooks/runtime/cells.ts";
import { startCells } from "../../../notebooks/runtime/liveCells.ts";
import { directSolver } from "../../../notebooks/solving/solvers.ts";
import { expectClose } from "../../support/close.ts";
import { oneIn } from "../../support/deep.ts";
import { blocksOf, figuresOf, tableOf } from "../../support/pageParts.ts";

const solver = directSolver({ accuracy: "live" });

type Changes = Partial<PlanInput>;

const planOf = (changes: Changes): Plan => soundValue(resolvePlan({ ...demoPlan, ...changes }));

const shown = (changes: Changes, units: UnitSystem = "us") =>
  evaluate(notebook, { plan: planOf(changes), units, view: {} }, solver);

function runOf(problem: Problem): Run {
  let solved: Solved<unknown> | undefined;
  solver.ask(
    0,
    { of: null, problems: { own: problem } },
    {
      deliver(each) {
        solved = each;
      },
      fail(error) {
        throw error;
      },
    },
  );
  return solved!.runs.own!;
}

const outcomeOf = (plan: Plan) => watchedOutcome(plan, runOf(watchedProblem(plan)));
const shareAt = (plan: Plan, days: number) => metByInterval(runOf(intervalProblem(plan, days)), days);
const triedOf = (plan: Plan): IntervalShare[] => TRIED_INTERVALS.map((days) => ({ days, share: shareAt(plan, days) }));

const every = (days: number): Changes => ({ filling: { kind: "every", days } });
const sand: Changes = { soil: { kind: "class", name: "sand" } };
const float: Changes = { filling: { kind: "float" } };
const once: Changes = { filling: { kind: "once" } };
/** A clay so tight about so small a ground that daily refills drown it. */
const drowned: Changes = { soil: { kind: "class", name: "silty clay" }, spacing: 17.8, plantsFromWall: 2 };
const wetFloat: Changes = {
  ...float,
  soil: { kind: "class", name: "clay" },
  spacing: 17.8,
  plantsFromWall: 2,
  plantStage: "young",
};

const cases: Record<string, Changes> = {
  "the demo bed": {},
  "filled weekly": every(7),
  "still filling dry ground": every(4),
  "between two intervals tried": every(4.5),
  "longer than any interval tried": every(30),
  "a moist start": { ...every(7), startSuctionKPa: 30 },
  "a float": float,
  "a float that drowns": wetFloat,
  "filled once": once,
  "filled once in January": { ...once, month: "january" },
  "filled once in sand": { ...once, ...sand },
  "no interval carries": sand,
  "no interval carries, filled weekly": { ...sand, ...every(7) },
  "a float where no interval carries": { ...sand, ...float },
  "young plants": { plantStage: "young" },
  "January, where plants never suffer": { month: "january" },
  "too wet when filled daily": { ...drowned, ...every(1) },
  "a pot that does not empty": { pot: { ...demoPlan.pot, wallConductivity: 0.003 } as PlanInput["pot"] },
  "a bed mix": { soil: { kind: "class", name: "clay" }, bedMix: { kind: "class", name: "sandy loam", depth: 12 } },
  "a crop of one's own": { crop: { kind: "own", easyWaterSuctionKPa: 40 } },
  "an open pot in bare soil": { lid: false, mulch: { kind: "none" } },
};

describe("when do I refill", () => {
  it.each(oneIn(3, Object.entries(cases)))(
    "answers in one whole sentence without holes: %s",
    { timeout: 60_000 },
    async (_, changes) => {
      for (const units of ["us", "metric"] as const) {
        const page = await shown(changes, units);
        const words = [
          page.answer,
          ...blocksOf(page).map((block) => JSON.stringify(block)),
          ...figuresOf(page).map((each) => each.caption),
        ];
        expect(words.join("\n")).not.toMatch(/undefined|NaN|Infinity|null|\[object| {2}/);
        for (const each of figuresOf(page)) expect(svgText(each)).not.toMatch(/undefined|NaN|Infinity/);
        expect(page.answer).toMatch(/^[A-Z][^.]+(\.\d[^.]*)*\.$/);
      }
    },
  );

  it("advises the longest interval tried that carries the crop, and tells how long the plan's own filling lasts", async () => {
    const plan = planOf({});
    const longest = TRIED_INTERVALS.findLast((days) => shareAt(plan, days) >= ENOUGH)!;
    const { sufferDays, emptyDays } = outcomeOf(plan);
    const { answer } = await shown({});
    expect(answer).toMatch(
      new RegExp(
        `^Refill every ${longest} days or sooner: in the example’s invented July, filled every 3 days, full-grown tomato in your loam `,
      ),
    );
    expect(answer).toContain(
      ` begins to suffer ${halfDays(sufferDays!)} after a refill, when the pot has stood empty for ${halfDays(sufferDays! - emptyDays!)};`,
    );
    expect(answer).toContain(`a weekly refill cannot carry it and meets ${percent(shareAt(plan, 7))} of its thirst.`);
  });

  it("tells of a weekly refill that carries young plants", async () => {
    expect(shareAt(planOf({ plantStage: "young" }), 7)).toBeGreaterThanOrEqual(ENOUGH);
    const { answer } = await shown({ plantStage: "young" });
    expect(answer).toContain("young tomato in your loam");
    expect(answer).toMatch(/; a weekly refill carries it\.$/);
  });

  it("says of the plan's own week what it meets and that it cannot carry the crop", async () => {
    const { metBefore, emptyDays } = outcomeOf(planOf(every(7)));
    const { answer } = await shown(every(7));
    expect(answer).toContain(
      `filled every 7 days, full-grown tomato in your loam gets ${percent(metBefore)} of the water it wants, for the pot is empty ${halfDays(emptyDays!)} after a refill; a weekly refill cannot carry it.`,
    );
  });

  it("tells apart what carries in the long run but not yet", async () => {
    const { metBefore } = outcomeOf(planOf(every(4)));
    expect(metBefore).toBeLessThan(ENOUGH);
    expect(shareAt(planOf({}), 4)).toBeGreaterThanOrEqual(ENOUGH);
    expect((await shown(every(4))).answer).toContain(
      `gets ${percent(metBefore)} of the water it wants after a fortnight, while the dry ground still fills, and enough in the long run`,
    );
  });

  it("says plainly when no interval carries the crop, how far each comes, and what would be enough", async () => {
    const plan = planOf(sand);
    expect(triedOf(plan).every(({ share }) => share < ENOUGH)).toBe(true);
    const { metBefore } = outcomeOf(plan);
    const { answer } = await shown(sand);
    expect(answer).toContain(
      `No refill by hand carries full-grown tomato in your sand in the example’s invented July: even filled every day it gets ${percent(shareAt(plan, 1))} of the water it wants, ${percent(metBefore)} every 3 days as planned and ${percent(shareAt(plan, 7))} weekly; `,
    );
    const enough = alternatives(plan).filter((each) => outcomeOf(each.plan).metBefore >= ENOUGH);
    expect(enough.map(({ name }) => name)).toEqual(["second pot"]);
    expect(answer).toMatch(/; a second pot would be enough, filled every 3 days\.$/);
  });

  it("names no help where none of the changes is enough", async () => {
    const dense = cases["a pot that does not empty"]!;
    for (const { plan } of alternatives(planOf(dense))) expect(outcomeOf(plan).metBefore).toBeLessThan(ENOUGH);
    expect((await shown(dense)).answer).toMatch(
      /; filled every 3 days, none of the changes told below is enough by itself\.$/,
    );
  });

  it("needs no refill under a float, and tells litres a week and what refills by hand would be", async () => {
    const { litres, metBefore } = outcomeOf(planOf(float));
    expect(metBefore).toBeGreaterThan(0.995);
    const { answer } = await shown(float, "metric");
    expect(answer).toContain("Never, while the float keeps the pot full: ");
    expect(answer).toContain("gets all of the water it wants");
    expect(answer).toContain(` and ${Math.round(7 * litres)} L (`);
    expect(answer).toMatch(
      / a week flow in; by hand, refill every 4 days or sooner, for a weekly refill cannot carry it/,
    );
  });

  it("says so where a float drowns the roots, and how long to wait between refills instead", async () => {
    const plan = planOf(wetFloat);
    const { metBefore, sufferCause } = outcomeOf(plan);
    expect([metBefore < ENOUGH, sufferCause]).toEqual([true, "wet"]);
    const { shortest, longest } = enoughIntervals(triedOf(plan))!;
    const { answer } = await shown(wetFloat);
    expect(answer).toContain("A float does not serve here: ");
    expect(answer).toContain(
      `gets ${percent(metBefore)} of the water it wants, for the soil about its roots is too wet`,
    );
    expect(answer).toContain(`by hand, refill every ${shortest} to ${longest} days, not sooner`);
  });

  it("asks for fewer refills where soil gets too wet", async () => {
    const changes = { ...drowned, ...every(1) };
    const plan = planOf(changes);
    const { shortest, longest } = enoughIntervals(triedOf(plan))!;
    expect(shortest).toBeGreaterThan(1);
    const { answer } = await shown(changes);
    expect(answer).toContain(`Refill every ${shortest} to ${longest} days, not sooner: `);
    expect(answer).toContain("for the soil about its roots is too wet");
  });

  it("says that one filling is not enough, and when it is", async () => {
    const run = runOf(watchedProblem(planOf(once)));
    const { answer } = await shown(once);
    expect(answer).toContain("Once is not enough, refill every 4 days or sooner: ");
    expect(answer).toContain(`gets ${percent(metShare(run, 0, 14))} of the water it wants in the fortnight after`);
    const january: Changes = { ...once, month: "january" };
    expect(metShare(runOf(watchedProblem(planOf(january))), 14, 28)).toBeGreaterThanOrEqual(ENOUGH);
    expect((await shown(january)).answer).toMatch(/^One filling is enough for the four weeks looked at: /);
  });

  it("says that plants do not suffer, and of what becomes of the pot", async () => {
    const { sufferDays, emptyDays } = outcomeOf(planOf({ month: "january" }));
    expect(sufferDays).toBeNull();
    const { answer } = await shown({ month: "january" });
    expect(answer).toContain("Refill every 14 days or sooner (no longer wait was tried): ");
    expect(answer).toContain(
      `does not suffer within two weeks of a refill, though the pot is empty after ${halfDays(emptyDays!)}`,
    );
  });

  it("says that the climate is invented wherever it is, and only there", async () => {
    const months = Object.fromEntries(
      Object.entries(planOf({}).weather.months).map(([month, { high, low, rainMm }]) => [
        month,
        { high: high * 1.8 + 32, low: low * 1.8 + 32, rain: rainMm / 25.4 },
      ]),
    );
    const weather = { kind: "own", latitude: 40, months } as PlanInput["weather"];
    const [example, own] = [await shown({}), await shown({ weather })];
    expect(example.answer).toContain("the example’s invented July");
    for (const { caption } of figuresOf(example)) expect(caption).toContain("in July of the invented example climate");
    expect(tableOf(example, "thirst").caption).toContain("invented example climate");
    expect(own.answer).toContain(": in July, filled every 3 days");
    expect(JSON.stringify([figuresOf(own), blocksOf(own)])).not.toContain("invented");
  });

  it("gives volumes in the person's unit first and in the other", async () => {
    const litres = outcomeOf(planOf(float)).litres * 7;
    expect((await shown(float, "us")).answer).toContain(
      `${Math.round(litres / 3.785411784)} US gal (${Math.round(litres)} L)`,
    );
    expect((await shown(float, "metric")).answer).toContain(
      `${Math.round(litres)} L (${Math.round(litres / 3.785411784)} US gal)`,
    );
  });
});

describe("while a slider moves", () => {
  it("tells of no interval that belongs to another bed, and says that it is being worked out", async () => {
    const later = new Map<number, () => void>();
    let isLate = false;
    // Once told to, the runs of higher ranks stay out while the plan's own comes at once.
    const cells = startCells({
      ask: (rank, ask, deliver) => {
        const answerIt = () => solver.ask(rank, ask, deliver);
        if (isLate && rank > 0) later.set(rank, answerIt);
        else answerIt();
      },
    });
    setPlan(cells, planOf({}), "us");
    const heard: string[] = [];
    cells.watch(
      notebook.answer,
      (text) => heard.push(text),
      (error) => heard.push(String(error)),
    );
    await expect.poll(() => heard.at(-1)).toMatch(/^Refill every 4 days or sooner: /);
    isLate = true;
    setPlan(cells, planOf(sand), "us");
    await expect
      .poll(() => heard.at(-1))
      .toMatch(/^In the example’s invented July, .* in your sand .*; how often to refill is still being worked out\.$/);
    expect([...later.keys()].sort()).toEqual([1, 2]);
    later.get(1)!();
    await expect
      .poll(() => heard.at(-1))
      .toMatch(/^No refill by hand carries .*; what would help is still being worked out\.$/);
    later.get(2)!();
    await expect.poll(() => heard.at(-1)).toMatch(/^No refill by hand carries .* a second pot would be enough/);
    cells.stop();
  });

  it("asks for the intervals anew when the bed changes, and not when its filling or the can does", async () => {
    const asked: number[] = [];
    const cells = startCells({
      ask: (rank, ask, deliver) => {
        asked.push(rank);
        solver.ask(rank, ask, deliver);
      },
    });
    setPlan(cells, planOf({}), "us");
    const heard: string[] = [];
    cells.watch(
      notebook.answer,
      (text) => heard.push(text),
      (error) => heard.push(String(error)),
    );
    await expect.poll(() => heard.at(-1)).toContain("filled every 3 days");
    setPlan(cells, planOf(every(7)), "us");
    await expect.poll(() => heard.at(-1)).toContain("filled every 7 days");
    setPlan(cells, planOf({ ...once, carrying: { can: 1, hose: 2 } }), "us");
    await expect.poll(() => heard.at(-1)).toContain("filled once");
    expect(asked.filter((rank) => rank === 1).length).toBe(1);
    setPlan(cells, planOf(sand), "us");
    await expect.poll(() => heard.at(-1)).toContain("in your sand");
    expect(asked.filter((rank) => rank === 1).length).toBe(2);
    cells.stop();
  });
});

describe("the judgement of intervals", () => {
  const tried = (...shares: number[]): IntervalShare[] =>
    shares.map((share, i) => ({ days: TRIED_INTERVALS[i]!, share }));
  const usual = tried(1, 1, 0.95, 0.92, 0.7, 0.5, 0.4, 0.3);
  const wet = tried(0.5, 0.7, 0.95, 1, 0.8, 0.6, 0.5, 0.4);

  it("takes the longest that is enough, and the shortest without a gap to it", () => {
    expect(enoughIntervals(usual)).toEqual({ shortest: 1, longest: 4 });
    expect(enoughIntervals(wet)).toEqual({ shortest: 3, longest: 4 });
    expect(enoughIntervals(tried(1, 0.8, 0.95, 0.9, 0.5, 0.5, 0.5, 0.5))).toEqual({ shortest: 3, longest: 4 });
    expect(enoughIntervals(tried(0.8, 0.8, 0.8, 0.8, 0.8, 0.8, 0.8, 0.8))).toBeNull();
  });

  it.each([
    [usual, { days: 3, share: 0.95, cause: null }, "carries"],
    [usual, { days: 0.5, share: 0.95, cause: null }, "carries"],
    [usual, { days: 4, share: 0.8, cause: "dry" }, "catching up"],
    [usual, { days: 0.5, share: 0.8, cause: "wet" }, "fails"],
    [usual, { days: 4.5, share: 0.92, cause: null }, "carries"],
    [usual, { days: 4.5, share: 0.8, cause: "dry" }, "fails"],
    [usual, { days: 7, share: 0.95, cause: null }, "fails later"],
    [usual, { days: 20, share: 0.3, cause: "dry" }, "fails"],
    [tried(1, 1, 1, 1, 1, 1, 1, 0.95), { days: 20, share: 0.3, cause: "dry" }, "untried"],
    [wet, { days: 1, share: 0.4, cause: "wet" }, "fails"],
    [wet, { days: 1, share: 0.95, cause: null }, "fails later"],
    [wet, { days: 2.5, share: 0.92, cause: null }, "carries"],
  ] as const)("judges the plan's own days by them and by its own run (%#)", (all, own, verdict) => {
    expect(verdictOf(own, enoughIntervals([...all])!, [...all])).toBe(verdict);
  });

  it.each([
    [tried(1, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2), "Refill every day: "],
    [wet, "Refill every 3 to 4 days, not sooner: "],
    [tried(0.5, 0.7, 0.95, 0.8, 0.7, 0.6, 0.5, 0.4), "Refill every 3 days, neither sooner nor later: "],
    [tried(1, 1, 1, 1, 1, 1, 1, 1), "Refill every 14 days or sooner (no longer wait was tried): "],
  ])("leads the answer (%#)", (shares, words) => {
    const plan = planOf({});
    const run = runOf(watchedProblem(plan));
    expect(answerSentence({ plan, run, tried: shares, helping: [] }, "metric")).toContain(words);
  });

  it("never rounds up to what is enough", () => {
    expect([percent(0.8999), percent(0.9), percent(1), percent(0)]).toEqual([
      "89\u00a0%",
      "90\u00a0%",
      "100\u00a0%",
      "0\u00a0%",
    ]);
  });
});

describe("the pictures and tables", () => {
  const plan = planOf({});
  const run = runOf(watchedProblem(plan));

  it("draws the water that the pot still holds, from full to its end, and the share of each step", () => {
    const { left, met, capacity, emptyDays } = courseOf(plan, run);
    expectClose(left[0]!.litres, capacity, { tolerance: 1e-9, unit: "L", what: "full at the refill" });
    expectClose(left.find(({ day }) => day >= emptyDays! - 1e-9)!.litres, 0, {
      tolerance: 1e-6,
      unit: "L",
      what: "empty",
    });
    const { day, uptakeLitres, wantedLitres } = run.history;
    const start = day.lastIndexOf(12);
    const got = met
      .slice(0, -1)
      .reduce((sum, { share }, i) => sum + share * (wantedLitres[start + i + 1]! - wantedLitres[start + i]!), 0);
    expectClose(got, uptakeLitres.at(-1)! - uptakeLitres[start]!, {
      tolerance: 1e-9,
      unit: "L",
      what: "drunk after the refill",
    });
  });

  it("names in the main picture when the pot is at a quarter and empty, and when plants suffer", async () => {
    const { quarterDays, emptyDays, sufferDays } = outcomeOf(plan);
    const text = svgText((await shown({})).picture);
    for (const words of [
      `a quarter left, day ${quarterDays!.toFixed(1)}`,
      `empty, day ${emptyDays!.toFixed(1)}`,
      `suffer from day ${Number(sufferDays!.toFixed(1))}: too dry`,
      "enough",
      "water left in the pot (US gal)",
      "days since the refill",
    ])
      expect(text).toContain(words);
  });

  it("lists the intervals with what they meet and take", async () => {
    const { rows } = tableOf(await shown({}), "intervals");
    expect(rows.map(([days]) => days)).toEqual(TRIED_INTERVALS);
    for (const [days, met, refill, week, minutes] of rows as number[][]) {
      const litres = litresByInterval(runOf(intervalProblem(plan, days!)), days!);
      expect(`${met}\u00a0%`).toBe(percent(shareAt(plan, days!)));
      expectClose(refill!, fromModel(litres, "volume", "us"), {
        tolerance: 1e-9,
        unit: "US gal",
        what: `a refill, every ${days} days`,
      });
      expectClose(week!, (7 / days!) * refill!, { tolerance: 1e-9, unit: "US gal", what: "a week" });
      expectClose(minutes!, carryingFor(plan, (7 / days!) * litres).hoseMinutes, {
        tolerance: 1e-9,
        unit: "min",
        what: "hose",
      });
    }
  });

  it("lists what a refill takes by the plan and as advised", async () => {
    const { rows } = tableOf(await shown({}, "metric"), "amounts");
    const { litres } = outcomeOf(plan);
    const { trips, hoseMinutes } = carryingFor(plan, litres);
    expect(rows[0]).toEqual([
      "filled every 3 days",
      litres,
      (litres * 7) / 3,
      hoseMinutes,
      trips,
      (litres * 7) / 3 / 10,
    ]);
    expect(rows[1]![0]).toBe("filled every 4 days, in the long run");
    expect(rows[1]![1]).toBe(litresByInterval(runOf(intervalProblem(plan, 4)), 4));
  });

  it("lists no carrying under a float, and no week of one filling", async () => {
    const [floated] = tableOf(await shown(float, "metric"), "amounts").rows;
    const { litres } = outcomeOf(planOf(float));
    expect(floated).toEqual(["kept full by a float, each day", litres, litres * 7, "–", "–", "–"]);
    const [single] = tableOf(await shown(once, "metric"), "amounts").rows;
    expect([single![0], single![2], single![5]]).toEqual(["filled once", "–", "–"]);
  });

  it("lists every change that can be made with what its own run says, and why the others are left out", async () => {
    const page = await shown({});
    const { rows } = tableOf(page, "changes");
    const plans = [plan, ...alternatives(plan).map((each) => each.plan)];
    expect(rows.map(([name]) => String(name).split(":")[0])).toEqual([
      "as it is",
      "a pot twice the size",
      "a second pot",
      "mulch on all of the ground",
    ]);
    rows.forEach(([, litres, quarter, empty, suffer, met], i) => {
      const outcome = outcomeOf(plans[i]!);
      expect(litres).toBe(fromModel(outcome.litres, "volume", "us"));
      expect([quarter, empty]).toEqual([outcome.quarterDays, outcome.emptyDays]);
      expect(suffer).toBe(
        outcome.sufferDays === null ? "not in 16" : `${outcome.sufferDays.toFixed(1)}, too ${outcome.sufferCause}`,
      );
      expect(met).toBe(percent(outcome.metBefore));
    });
    expect(blocksOf(page).join(" ")).toContain("Not in the table: the pot has its lid already.");
    const open = tableOf(await shown({ lid: false }), "changes").rows;
    expect(open.at(-1)![0]).toBe("a lid on the pot");
  });

  it("tells the plants' thirst in both ways, a millimetre being a litre on a square metre", async () => {
    const { ETo, transpiration } = demandOf(plan, plan.plantStage);
    const { rows } = tableOf(await shown({}, "metric"), "thirst");
    const squareMetres = plan.areaPerPot / 10_000;
    expectClose(Number(rows[0]![1]), ETo, { tolerance: 1e-9, unit: "mm", what: "reference" });
    expectClose(Number(rows[0]![2]), ETo * squareMetres, { tolerance: 1e-9, unit: "L", what: "reference" });
    expectClose(Number(rows[1]![2]), transpiration * squareMetres, { tolerance: 1e-9, unit: "L", what: "drunk" });
    expect(rows.length).toBe(3);
    expect(tableOf(await shown({ lid: false }), "thirst").rows.at(-1)![0]).toBe(
      "given off by the water in the open pot",
    );
  });

  it("keeps FAO-56's books for a bed without a pot", async () => {
    const zone = rootZoneAtStart(plan);
    const { theta } = vanGenuchten(plan.soil.parameters);
    expectClose(zone.fieldCapacity, theta(-330), { tolerance: 1e-12, what: "field capacity of loam" });
    expectClose(zone.wiltingPoint, theta(-15_296), { tolerance: 1e-5, what: "wilting point of loam" });
    expectClose(zone.rootDepthMetres, plan.crop.deepestRoots / 100, { tolerance: 1e-9, unit: "m", what: "roots" });
    const days = daysUntilStress(zone, { pTable: plan.crop.p, ETcMm: demandOf(plan, "full grown").transpiration });
    expect(blocksOf(await shown({})).join(" ")).toContain(`with no pot, would last ${halfDays(days)}, counting`);
    const inSand = planOf(sand);
    expectClose(rootZoneAtStart(inSand).fieldCapacity, vanGenuchten(inSand.soil.parameters).theta(-100), {
      tolerance: 1e-12,
      what: "field capacity of sand",
    });
  });

  it("weighs a bed mix and the soil below it by how deep roots go in each", () => {
    const mixed = planOf({ ...sand, bedMix: { kind: "class", name: "loam", depth: 12 } });
    const share = 30.48 / mixed.crop.deepestRoots;
    const loam = vanGenuchten(mixed.bedMix!.parameters).theta(-330);
    const below = vanGenuchten(mixed.soil.parameters).theta(-100);
    expectClose(rootZoneAtStart(mixed).fieldCapacity, share * loam + (1 - share) * below, {
      tolerance: 1e-9,
      what: "field capacity",
    });
  });

  it("reckons salt by weight, and names the crop's threshold only where it is listed", async () => {
    // 640 mg/L per dS/m, Ayers & Westcot (1985), from memory.
    expectClose(saltGrams(25), 16, { tolerance: 1e-9, unit: "g", what: "salt in 25 L of 1 dS/m" });
    const words = blocksOf(await shown({})).join(" ");
    const perWeek = (outcomeOf(plan).litres * 7) / 3;
    expect(words).toContain(`would bring ${saltGrams(perWeek).toPrecision(2)} g of salt`);
    expect(words).toContain(
      "Tomato yields less once the water drawn from a soaked sample of its soil measures more than 2.5 dS/m",
    );
    const kale = blocksOf(await shown({ crop: { kind: "listed", name: "kale" } })).join(" ");
    expect(kale).toContain("At how much salt in the soil kale begins to suffer is not in our list.");
  });
});
