import { describe, expect, it } from "vitest";
import { z } from "zod";
import { checkInput, faultLines, nearest, type Rule, readJson } from "../../model/input/faults.ts";
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
  ])("take %s for %s", (typed, meant) => {
    expect(nearest(typed, ["loam", "tomato", "drainHoleDiameter"])).toBe(meant);
  });
});
