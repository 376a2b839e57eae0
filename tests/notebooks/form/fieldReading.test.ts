import { describe, expect, it } from "vitest";
import type { NumberControl } from "../../../notebooks/form/controlTypes.ts";
import { numberText, rangeText, readNumber, sliderRange } from "../../../notebooks/form/fieldReading.ts";
import { expectClose } from "../../support/close.ts";

const wall: NumberControl = {
  kind: "number",
  field: "wall",
  label: "Wall thickness",
  measure: "length",
  min: 0.3,
  max: 5,
  step: { metric: 0.1, us: 0.05 },
};

describe("a number field", () => {
  it("reads what is typed in the person's unit as centimetres", () => {
    const inches = readNumber(" 0.6 ", wall, "us");
    const centimetres = readNumber("1.2", wall, "metric");
    if (!inches.ok || !centimetres.ok) throw new Error("refused");
    expectClose(inches.value, 1.524, { tolerance: 1e-12, unit: "cm", what: "0.6 in" });
    expectClose(centimetres.value, 1.2, { tolerance: 1e-12, unit: "cm", what: "1.2 cm" });
  });

  it.each([
    ["", "Wall thickness is empty; it must be a number from 0.3 to 5 cm (0.1181 to 1.969 in)."],
    ["thick", 'Wall thickness is "thick"; it must be a number from 0.3 to 5 cm (0.1181 to 1.969 in).'],
    ["-1", 'Wall thickness is "-1"; it must be a number from 0.3 to 5 cm (0.1181 to 1.969 in).'],
    ["1,5", 'Wall thickness is "1,5"; it must be a number from 0.3 to 5 cm (0.1181 to 1.969 in).'],
    ["50", 'Wall thickness is "50"; it must be a number from 0.3 to 5 cm (0.1181 to 1.969 in).'],
    ["Infinity", 'Wall thickness is "Infinity"; it must be a number from 0.3 to 5 cm (0.1181 to 1.969 in).'],
  ])("refuses %j, naming field, value and range", (text, message) => {
    expect(readNumber(text, wall, "metric")).toEqual({ ok: false, message });
  });

  it("takes the limits as it prints them, though they are rounded", () => {
    for (const text of ["0.1181", "1.969"]) expect(readNumber(text, wall, "us")).toMatchObject({ ok: true });
    expect(readNumber("1.97", wall, "us")).toMatchObject({ ok: false });
  });

  it("shows a range once where both systems share the unit", () => {
    expect(rangeText({ ...wall, measure: "days", min: 1, max: 14 }, "us")).toBe("from 1 to 14 days");
  });

  it("shows what was typed again after the way through centimetres", () => {
    for (const text of ["0.35", "1", "1.15", "1.9"]) {
      const read = readNumber(text, wall, "us");
      expect(read.ok && numberText(read.value, wall.measure, "us")).toBe(text);
    }
  });

  it("has a slider whose ends are whole steps inside the allowed range", () => {
    expect(sliderRange(wall, "metric")).toEqual({ min: 0.3, max: 5, step: 0.1 });
    expect(sliderRange(wall, "us")).toEqual({ min: 0.15, max: 1.95, step: 0.05 });
  });
});
