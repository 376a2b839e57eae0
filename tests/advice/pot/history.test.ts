import { describe, expect, it } from "vitest";
import {
  daysAtLeast,
  firstDayAtLeast,
  lastingFrom,
  rangeBetween,
  seriesOn,
} from "../../../model/advice/pot/history.ts";

/** Falls to 4 by day 2, is lifted to 10 on that day, and falls to 0. */
const SAW = { day: [0, 2, 2, 4], value: [10, 4, 10, 0] };

describe("values against time", () => {
  it("run straight between two steps, and stand still before the first and after the last", () => {
    expect([-1, 0, 1, 3, 4, 9].map((day) => seriesOn(SAW, day))).toEqual([10, 10, 7, 5, 0, 0]);
  });

  it("on the day of a refill are those before it", () => {
    expect(seriesOn(SAW, 2)).toBe(4);
  });

  it("have their least and greatest at an end or at a step between", () => {
    expect(rangeBetween(SAW, 1, 3)).toEqual({ least: 4, greatest: 10 });
    expect(rangeBetween(SAW, 0.5, 1)).toEqual({ least: 7, greatest: 8.5 });
  });

  it("of one time only are that time's", () => {
    expect(seriesOn({ day: [0], value: [3] }, 5)).toBe(3);
  });

  it("reach a limit on a first day, perhaps for good, for some days in all", () => {
    const rises = { day: [0, 2, 4, 6], value: [0, 8, 2, 10] };
    expect([firstDayAtLeast(rises, 4), lastingFrom(rises, 4), daysAtLeast(rises, 4)]).toEqual([
      1,
      4.5,
      1 + 2 * (4 / 6) + 1.5,
    ]);
    expect([firstDayAtLeast(rises, 11), lastingFrom(rises, 11), daysAtLeast(rises, 11)]).toEqual([null, null, 0]);
    expect([firstDayAtLeast(rises, 0), lastingFrom(rises, 0), daysAtLeast(rises, 0)]).toEqual([0, 0, 6]);
    expect(lastingFrom(SAW, 1)).toBeNull();
  });
});
