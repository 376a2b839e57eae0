import { range } from "d3-array";
import { describe, expect, it } from "vitest";
import {
  type EnsemblePart,
  mergeParts,
  type NamedPart,
  readPart,
  serializePart,
  shardMembers,
} from "../../model/ensemble/parts.ts";
import { handMadeOutcome, TYPED_PLAN, troubledOutcome } from "./handMade.ts";

const COUNT = 7;

function partOf(i: number, n: number, changes: Partial<EnsemblePart> = {}): EnsemblePart {
  const members = shardMembers(
    range(COUNT).map((index) => ({ index })),
    { i, n },
  );
  return {
    version: 1,
    plan: TYPED_PLAN,
    drawing: { count: COUNT, seed: 5, varied: ["conductivity", "retention"] },
    sowingDay: 2.5,
    shard: { i, n },
    outcomes: members.map(({ index }) =>
      index === 4 ? troubledOutcome(index) : handMadeOutcome({ index, radius: 20 + index / 3, emptyDay: index / 7 }),
    ),
    ...changes,
  };
}

const named = (...parts: EnsemblePart[]): NamedPart[] => parts.map((part, k) => ({ name: `part-${k + 1}.json`, part }));

function messages(checked: ReturnType<typeof mergeParts>): string[] {
  return checked.ok ? [] : checked.faults.map(({ message }) => message);
}

describe("a part", () => {
  it("takes every n-th member", () => {
    const members = range(8).map((index) => ({ index }));
    expect(shardMembers(members, { i: 2, n: 3 })).toEqual([{ index: 1 }, { index: 4 }, { index: 7 }]);
  });

  it("read from its file is the part that was written, failed members included", () => {
    for (const i of [1, 2, 3]) expect(readPart(serializePart(partOf(i, 3)))).toEqual({ ok: true, value: partOf(i, 3) });
  });

  it("of more machines than members may be empty", () => {
    expect(readPart(serializePart(partOf(9, 9))).ok).toBe(true);
  });
});

describe("a part file that is wrong is refused", () => {
  const faultsOf = (part: unknown) => messages(readPart(JSON.stringify(part)) as ReturnType<typeof mergeParts>);

  it("with all its faults, the plan's among them", () => {
    const faults = faultsOf({
      ...partOf(1, 2),
      plan: { ...TYPED_PLAN, soil: { kind: "class", name: "lome" } },
      drawing: { count: 7, seed: -1, varied: ["weather"] },
      shard: { i: 3, n: 2 },
    });
    expect(faults).toHaveLength(4);
    expect(faults[0]).toBe("seed is -1; it must be a whole number from 0 to 4294967295");
    expect(faults[1]).toMatch(/^what varies is "weather"; it must be one of conductivity, retention, wall, start, pot/);
    expect(faults[2]).toBe("number of the part is 3; it must be at most the number of parts, 2");
    expect(faults[3]).toMatch(/^soil is "lome"/);
  });

  it("if it is not JSON, or not a part", () => {
    expect(readPart("{")).toMatchObject({ ok: false, faults: [{ field: "the part file" }] });
    expect(readPart("3").ok).toBe(false);
    expect(readPart("null").ok).toBe(false);
  });

  it("if an outcome is missing, another part's, or given twice", () => {
    const { outcomes, ...part } = partOf(1, 2);
    const [first, second] = outcomes;
    expect(faultsOf({ ...part, outcomes: outcomes.slice(0, 3) })).toEqual([
      "outcomes is a list; it must be one for each of the 4 members of part 1 of 2",
    ]);
    const wrong = "place of the member is 0; it must be 2, the next of part 1 of 2";
    expect(faultsOf({ ...part, outcomes: [first, first, ...outcomes.slice(2)] })).toEqual([wrong]);
    const other = { ...second, index: 3 };
    expect(faultsOf({ ...part, outcomes: [first, other, ...outcomes.slice(2)] })).toEqual([
      "place of the member is 3; it must be 2, the next of part 1 of 2",
    ]);
  });

  it("if a solved member lacks days, or a failed one has some", () => {
    const { outcomes, ...part } = partOf(1, 2);
    const short = { ...outcomes[0], radius: [1, 2] };
    const failed = { ...outcomes[1], trouble: "no luck" };
    expect(faultsOf({ ...part, outcomes: [short, failed, ...outcomes.slice(2)] })).toEqual([
      "wetted radius by day is a list; it must be a list of 15 numbers, or an empty one where the run failed",
      "wetted radius by day is a list; it must be a list of 15 numbers, or an empty one where the run failed",
      "wetted depth by day is a list; it must be a list of 15 numbers, or an empty one where the run failed",
    ]);
  });
});

describe("parts", () => {
  it("in any order make the ensemble that was never split", () => {
    const merged = mergeParts(named(partOf(3, 3), partOf(1, 3), partOf(2, 3)));
    expect(merged).toEqual({ ok: true, value: partOf(1, 1) });
  });

  it("typed differently go together if they mean the same", () => {
    const { units, version, ...rest } = TYPED_PLAN;
    const typed = { ...rest, days: 14, version, units };
    const varied = ["retention", "conductivity"] as const;
    const other = partOf(2, 2, { plan: typed, drawing: { ...partOf(2, 2).drawing, varied } });
    expect(mergeParts(named(partOf(1, 2), other)).ok).toBe(true);
  });

  it("of which one is missing or doubled are refused, each named", () => {
    expect(messages(mergeParts(named(partOf(2, 5), partOf(4, 5), partOf(2, 5), partOf(1, 5))))).toEqual([
      "part 2 of 5 is in part-1.json and part-3.json; it must be in one file alone",
      "part 3 of 5 is missing; it must be among the parts",
      "part 5 of 5 is missing; it must be among the parts",
    ]);
  });

  it("of different ensembles are refused, each difference named", () => {
    const other = partOf(2, 2, {
      plan: { ...TYPED_PLAN, days: 20 },
      drawing: { count: 8, seed: 6, varied: ["wall"] },
      sowingDay: 3,
    });
    expect(messages(mergeParts(named(partOf(1, 2), other)))).toEqual([
      'the plan of part-2.json is "another plan"; it must be the plan of part-1.json',
      "the number of members of part-2.json is 8; it must be 7 of part-1.json",
      "the seed of part-2.json is 6; it must be 5 of part-1.json",
      'the list of what varies of part-2.json is "wall"; it must be conductivity, retention of part-1.json',
      "the sowing day of part-2.json is 3; it must be 2.5 of part-1.json",
    ]);
  });

  it("of different splits are refused", () => {
    expect(messages(mergeParts(named(partOf(1, 2), partOf(2, 2), partOf(2, 3))))).toEqual([
      "the number of parts of part-3.json is 3; it must be 2 of part-1.json",
    ]);
  });

  it("must be at least one", () => {
    expect(messages(mergeParts([]))).toEqual(["the list of parts is missing; it must be one part or more"]);
  });
});
