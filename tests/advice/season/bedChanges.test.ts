import { expect, it } from "vitest";
import { type BedChange, changedBeds, changeProblems, changesOf } from "../../../model/advice/season/bedChanges.ts";
import { NO_THIRST, RUN_DAYS } from "../../../model/advice/season/season.ts";
import { bedDays } from "../../../model/advice/season/seasonDemand.ts";
import { TANK_SIZES } from "../../../model/advice/season/supplySize.ts";
import { DAYS_OF_YEAR } from "../../../model/calendar/yearDays.ts";
import { entry } from "../../../model/input/lists.ts";
import type { Plan } from "../../../model/plan/plan.ts";
import { toEnd } from "../../../notebooks/runtime/toEnd.ts";
import { expectClose } from "../../support/close.ts";
import { plan as planOf } from "../../support/livingPlan.ts";
import { releaseBy } from "../../support/release.ts";
import { handMade } from "../handMade.ts";

const SQUARE = { bed: { shape: "rectangle", length: 2.4, width: 2.4 }, spacing: 60 };
const plan = planOf(SQUARE);

const namesOf = (plan: Plan) => changesOf(plan, "radish").map(({ name }) => name);

it("offers only what changes something", () => {
  const some = (cover: number) => planOf({ ...SQUARE, mulch: { kind: "organic", cover } });
  expect(namesOf(planOf(SQUARE))[0]).toBe("full mulch");
  expect(namesOf(planOf(SQUARE))).not.toContain("no mulch");
  expect(namesOf(some(50)).slice(0, 2)).toEqual(["full mulch", "no mulch"]);
  expect(namesOf(some(100))[0]).toBe("no mulch");
});

it.each([
  [{ kind: "every", days: 3 }, 6],
  [{ kind: "every", days: 10 }, 20],
  [{ kind: "every", days: 11 }, null],
  [{ kind: "float" }, 5],
  [{ kind: "once" }, null],
])("fills later than %j: every %s days", (filling, days) => {
  const later = changesOf(planOf({ ...SQUARE, filling }), "radish").find(({ name }) => name === "later filling");
  expect(later?.plan.filling ?? null).toEqual(days === null ? null : { kind: "every", days });
});

/** Of a bed whose pots give so much a day, litres, and whose plants get a share of what they want. */
function runsOf(names: readonly string[], given: number, met: (name: string) => number) {
  const day = [0, RUN_DAYS];
  const upTo = (daily: number) => [0, daily * RUN_DAYS];
  const run = (name: string) => {
    const { history, ...rest } = handMade(plan, { day, seepageLitres: upTo(given) });
    const litres = { potLossLitres: upTo(0), wantedLitres: upTo(1), uptakeLitres: upTo(met(name)) };
    return { ...rest, history: { ...history, ...litres } };
  };
  return Object.fromEntries(names.map((name) => [name, run(name)]));
}

const YEARS = 2;
const AS_IT_IS = 0.25;
const CHANGED = 0.5;
/** Tomatoes and radishes by FAO-56's list: 30 + 40 + 45 + 30 and 5 + 10 + 15 + 5 days. */
const TOMATO_DAYS = 145;
const RADISH_DAYS = 35;

/** Weather in which the air asks for nothing: pots give what sinks away, on each day of the season. */
function changed(rainMm: number) {
  const supplied = planOf({ ...SQUARE, filling: { kind: "float" }, roof: { area: 100, runoff: 100, firstFlush: 0 } });
  const length = YEARS * DAYS_OF_YEAR;
  const weather = { rainMm: new Float64Array(length).fill(rainMm), EToMm: new Float64Array(length) };
  const release = releaseBy(AS_IT_IS, { age: 50, perLitre: 0, met: 0.7 });
  const asked = { weather, days: bedDays(supplied, release, weather), pots: 16 };
  const changes = changesOf(supplied, "radish");
  const names = Object.keys(changeProblems(changes));
  const runs = runsOf(names, CHANGED, (name) => (name === firstMonth(names, "full mulch") ? 0.4 : 0.8));
  return toEnd(
    changedBeds({ changes, runs, bed: { plan: supplied, release, asked }, plan: supplied, wantedShare: 0.9 }),
  );
}

const firstMonth = (names: readonly string[], change: BedChange["name"]) =>
  names.find((name) => name.startsWith(`${change}: `) && !name.endsWith(NO_THIRST));

it("counts pots and what they give a year, each change by its own runs", () => {
  const beds = changed(20);
  expect(beds.map(({ change }) => change.name)).toEqual([
    "as it is",
    "full mulch",
    "fewer pots",
    "other crop",
    "later filling",
  ]);
  // A square of 240 cm takes 4 × 4 pots 60 cm apart, and 3 × 3 of them 75 cm apart.
  expect(beds.map(({ pots }) => pots)).toEqual([16, 16, 9, 16, 16]);
  const known = [
    AS_IT_IS * TOMATO_DAYS * 16,
    CHANGED * TOMATO_DAYS * 16,
    CHANGED * TOMATO_DAYS * 9,
    CHANGED * RADISH_DAYS * 16,
    CHANGED * TOMATO_DAYS * 16,
  ];
  for (const [k, { given, change }] of beds.entries())
    expectClose(given, entry(known, k), { tolerance: 1e-9, relative: true, unit: "L", what: change.name });
  for (const [k, { leastMet, change }] of beds.entries())
    expectClose(leastMet, entry([0.7, 0.4, 0.8, 0.8, 0.8], k), { tolerance: 1e-12, what: `share met, ${change.name}` });
});

it("finds the smallest tank enough where rain fills it every day, and none where it never rains", () => {
  expect(changed(20).map(({ carried, tank }) => [carried, tank])).toEqual(Array(5).fill([1, TANK_SIZES.least]));
  expect(changed(0).map(({ carried, tank }) => [carried, tank])).toEqual(Array(5).fill([0, null]));
});
