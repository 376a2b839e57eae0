import { describe, expect, it } from "vitest";
import { z } from "zod";
import {
  checkInput,
  faultLines,
  lowerLimit,
  nearest,
  type Rule,
  readJson,
  upperLimit,
} from "../../model/input/faults.ts";
import { numberField } from "../../model/input/fields.ts";

const schema = z.strictObject({
  width: numberField("shelf width", { above: 0, max: 200 }, "cm"),
  board: numberField("board", { min: 0.5, below: 10 }, "cm").default(2),
});
const fits: Rule = ({ number, fault }) => [
  number("board") >= number("width") && fault("board", `thinner than the shelf, ${number("width")} cm`),
];

function messages(input: unknown) {
  const result = checkInput(schema, input, [fits]);
  return result.ok ? [] : result.faults.map(({ message }) => message);
}

describe("a limit in four figures", () => {
  it.each([
    [9 / 2.54, 3.543, 3.544],
    [10.16, 10.16, 10.16],
    [0.1 + 0.2, 0.3, 0.3],
    [-3.93701, -3.938, -3.937],
    [0.0393701, 0.03937, 0.03938],
    [123456, 123400, 123500],
    [999.99, 999.9, 1000],
    [0, 0, 0],
  ])("%d lies between what is shown as an upper and as a lower one", (limit, upper, lower) => {
    expect([upperLimit(limit), lowerLimit(limit)]).toEqual([upper, lower]);
  });
});

describe("faults", () => {
  it("are none where all is right, and defaults are filled in", () => {
    expect(checkInput(schema, { width: 80 }, [fits])).toEqual({ ok: true, value: { width: 80, board: 2 } });
  });

  it("are records of path, field, value, allowed range and message", () => {
    expect(checkInput(schema, { width: 300 }, [fits])).toEqual({
      ok: false,
      faults: [
        {
          path: "width",
          field: "shelf width",
          value: 300,
          allowed: "greater than 0 and at most 200 cm",
          message: "shelf width is 300 cm; it must be greater than 0 and at most 200 cm",
        },
      ],
    });
  });

  it("across fields are found beside a wrong field, and reckon with defaults", () => {
    expect(messages({ width: 1, colour: "red" })).toEqual([
      "colour is not a known key; known here: width, board",
      "board is 2 cm; it must be thinner than the shelf, 1 cm",
    ]);
  });

  it("across fields are not invented from a value that is itself at fault", () => {
    expect(messages({ width: -1, board: 3 })).toHaveLength(1);
    expect(messages({ width: "1", board: 3 })).toEqual([
      'shelf width is "1"; it must be a number greater than 0 and at most 200 cm',
    ]);
  });

  it("across fields see a group with its defaults, or nothing where any of it is missing or at fault", () => {
    const shelves = z.strictObject({ shelf: schema });
    const partOf = (input: unknown) => {
      let part: unknown;
      const look: Rule = (reader) => {
        part = reader.part("shelf");
        return [];
      };
      checkInput(shelves, input, [look]);
      return part;
    };
    expect(partOf({ shelf: { width: 80 } })).toEqual({ width: 80, board: 2 });
    for (const shelf of [undefined, {}, { width: 300 }, { width: 80, colour: "red" }])
      expect(partOf({ shelf })).toBeUndefined();
  });

  it("show a default in four figures, a typed number in six, and reckon with both in full", () => {
    const inches = z.strictObject({ board: numberField("board", { above: 0 }, "in").default(9 / 2.54) });
    const isOver =
      (limit: number): Rule =>
      ({ number, fault }) => [number("board") > limit && fault("board", "thinner")];
    const told = (input: unknown, limit: number) => {
      const result = checkInput(inches, input, [isOver(limit)]);
      return result.ok ? [] : result.faults.map(({ message }) => message);
    };
    expect(told({}, 3.5433)).toEqual(["board is 3.543 in; it must be thinner"]);
    expect(told({}, 3.5434)).toEqual([]);
    expect(told({ board: 3.5433071 }, 3.5)).toEqual(["board is 3.54331 in; it must be thinner"]);
  });

  it("never show a checking library's own words", () => {
    for (const input of [undefined, null, 3, [], { width: {} }, { width: Number.NaN }, { width: [1], board: true }])
      for (const message of messages(input))
        expect(message).not.toMatch(/Invalid|expected|received|undefined|NaN|object/);
  });

  it("print one a line, each after its path", () => {
    const result = checkInput(schema, { width: 0, board: 11 }, []);
    expect(result.ok ? "" : faultLines(result.faults)).toBe(
      [
        "  width: shelf width is 0 cm; it must be greater than 0 and at most 200 cm",
        "  board: board is 11 cm; it must be at least 0.5 and less than 10 cm",
      ].join("\n"),
    );
  });

  it("of a text that is no JSON name the text", () => {
    const result = readJson("{", "the shelf file");
    expect(result.ok ? "" : result.faults[0]!.message).toMatch(/^the shelf file is not a complete JSON text/);
  });

  it.each([
    ["tomatoe", "tomato"],
    ["Loam", "loam"],
    ["drain", "drainHoleDiameter"],
    ["xyz", undefined],
    ["foo", undefined],
    ["lome", "loam"],
    ["sed", "seed"],
  ])("take %s for %s", (typed, meant) => {
    expect(nearest(typed, ["loam", "tomato", "drainHoleDiameter", "pot", "seed"])).toBe(meant);
  });
});
