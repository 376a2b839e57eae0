import { describe, expect, it } from "vitest";
import { soundValue } from "../../model/input/faults.ts";
import { resolvePlan } from "../../model/plan/plan.ts";
import { usualOutline } from "../../model/plan/typed/bedDefaults.ts";
import { expectClose } from "../support/close.ts";

const BED = {
  version: 1,
  units: "metric",
  soil: { kind: "class", name: "clay" },
  pot: { shape: "cylinder", diameter: 30, height: 25 },
  crop: { kind: "listed", name: "lettuce" },
};

const US_BED = { ...BED, units: "us", pot: { shape: "cylinder", diameter: 12, height: 10 } };

const planned = (changes: object = {}, bed: object = BED) => soundValue(resolvePlan({ ...bed, ...changes })).bed;

function messages(changes: object, bed: object = BED) {
  const result = resolvePlan({ ...bed, ...changes });
  return result.ok ? [] : result.faults.map(({ message }) => message);
}

function polygon(...points: [number, number][]) {
  return { shape: "polygon", points: points.map(([x, y]) => ({ x, y })) };
}

const places = (...points: [number, number][]) => points.map(([x, y]) => ({ x, y }));

describe("a bed in a plan", () => {
  it("is a rectangle, a circle or corners, in metres or feet", () => {
    expect(planned({ bed: { shape: "rectangle", length: 3, width: 1.5 } }).outline).toEqual({
      shape: "rectangle",
      length: 300,
      width: 150,
    });
    // 10 ft of 30.48 cm.
    const round = planned({ bed: { shape: "circle", diameter: 10 } }, US_BED).outline;
    expect(round).toEqual({ shape: "circle", diameter: expect.closeTo(304.8, 10) });
    const points = places([0, 0], [300, 0], [0, 200]);
    expect(planned({ bed: polygon([0, 0], [3, 0], [0, 2]) }).outline).toEqual({ shape: "polygon", points });
  });

  it("left out is of the same size in both unit systems, and large enough for a huge pot", () => {
    expect(planned().outline).toEqual({ shape: "rectangle", length: 480, width: 120 });
    expect(planned({}, US_BED).outline).toEqual(planned().outline);
    const huge = { pot: { shape: "cylinder", diameter: 190, height: 100 } };
    const { outline, edgeDistance } = planned(huge);
    expect(outline).toEqual(usualOutline(edgeDistance));
    expect(outline).toMatchObject({ width: 2 * edgeDistance });
  });

  it("keeps pots a third of the spacing from its edge, or so far that a wide pot stands in it", () => {
    expectClose(planned({ spacing: 60 }).edgeDistance, 20, { tolerance: 1e-12, unit: "cm", what: "of 60 cm" });
    expect(planned({ spacing: 40 }).edgeDistance).toBe(15);
    // Two thirds of a spacing of 80 cm would leave no row in a narrow bed.
    const narrow = planned({ spacing: 80, bed: { shape: "rectangle", length: 4, width: 0.4 } });
    expectClose(narrow.edgeDistance, 20, { tolerance: 1e-6, unit: "cm", what: "in a bed 40 cm wide" });
    expect(planned({ spacing: 40, edgeDistance: 16 }).edgeDistance).toBe(16);
    expectClose(planned({ edgeDistance: 10 }, US_BED).edgeDistance, 25.4, {
      tolerance: 1e-12,
      unit: "cm",
      what: "10 in",
    });
  });

  it("takes the places of its pots as typed, or leaves them to the grid", () => {
    expect(planned().potPlaces).toBeNull();
    expect(planned({ potPlaces: null }).potPlaces).toBeNull();
    expect(planned({ potPlaces: places([1, 0.5], [2, 0.75]) }).potPlaces).toEqual(places([100, 50], [200, 75]));
    const [place] = planned({ potPlaces: places([10, 2]) }, US_BED).potPlaces!;
    expectClose(place!.x, 304.8, { tolerance: 1e-9, unit: "cm", what: "10 ft along" });
  });

  it("turns its rows and spaces its plants as typed", () => {
    expect(planned()).toMatchObject({ rowAngle: 0, plantSpacing: 30 });
    expect(planned({ rowAngle: -30, plantSpacing: 12 })).toMatchObject({ rowAngle: -30, plantSpacing: 12 });
  });

  it.each<[object, string]>([
    [{ shape: "rectangle", length: 0, width: 1 }, "bed length is 0 m; it must be from 0.2 to 50 m"],
    [{ shape: "circle", diameter: 51 }, "bed diameter is 51 m; it must be from 0.2 to 50 m"],
    [{ shape: "oval" }, 'bed shape is "oval"; it must be one of rectangle, circle, polygon'],
    [polygon([0, 0], [4, 0]), "outline of the bed is a list; it must be a list of 3 to 100 corners"],
    [
      polygon([0, 0], [4, 2], [2, 1]),
      "outline of the bed is a list; it must be more than a line: all its corners lie in one row, and it holds no ground",
    ],
    [
      polygon([0, 0], [4, 3], [4, 0], [0, 3]),
      "outline of the bed is a list; it must be free of crossings: its side from A to B meets its side from C to D",
    ],
    [
      polygon([0, 0], [3, 0], [3, 2], [1, 2], [1, -1], [0, -1]),
      "outline of the bed is a list; it must be free of crossings: its side from A to B meets its side from D to E",
    ],
    [
      polygon([0, 0], [4, 0], [4, 2], [0, 2], [0, 0]),
      "outline of the bed is a list; it must be of corners that lie apart: A and E are at the same place",
    ],
    [
      polygon([0, 0], [4, 0], [4, 0.25], [0, 0.25]),
      "outline of the bed is a list; it must be wide enough for one pot: no place in it lies 15 cm from every side",
    ],
    [polygon([-30, 0], [30, 0], [30, 2]), "outline of the bed is a list; it must be no more than 50 m long and wide"],
    [
      { shape: "rectangle", length: 4, width: 0.25 },
      "bed width is 0.25 m; it must be enough for one pot, at least 0.3 m, for a pot's middle stands 15 cm or more from the edge",
    ],
    [
      { shape: "circle", diameter: 0.25 },
      "bed diameter is 0.25 m; it must be enough for one pot, at least 0.3 m, for a pot's middle stands 15 cm or more from the edge",
    ],
  ])("is refused as %j", (bed, message) => {
    expect(messages({ bed })).toEqual([message]);
  });

  it("just large enough for one pot is sound", () => {
    expect(messages({ bed: { shape: "rectangle", length: 0.4667, width: 0.4667 } })).toEqual([]);
    expect(messages({ bed: { shape: "circle", diameter: 0.4667 } })).toEqual([]);
    expect(messages({ bed: polygon([0, 0], [0.4667, 0], [0.4667, 0.4667], [0, 0.4667]) })).toEqual([]);
  });

  it("that comes back on itself is told by its last side", () => {
    const spike = polygon([0, 0], [4, 0], [4, 3], [2, 3], [2, 0]);
    expect(messages({ bed: spike })).toEqual([
      "outline of the bed is a list; it must be free of crossings: its side from A to B meets its side from D to E",
      "outline of the bed is a list; it must be free of crossings: its side from A to B meets its side from E to A",
    ]);
  });

  it("too small is told in feet and inches where a person uses them", () => {
    expect(messages({ bed: { shape: "rectangle", length: 12, width: 1 }, edgeDistance: 7 }, US_BED)).toEqual([
      "bed width is 1 ft; it must be enough for one pot, at least 1.167 ft, for a pot's middle stands 7 in or more from the edge",
    ]);
  });

  it("does not let pots stand out of it at its edge", () => {
    expect(messages({ edgeDistance: 14 })).toEqual([
      "distance of the pots from the bed's edge is 14 cm; it must be half the pot's width or more, at least 15 cm: nearer to the edge a pot stands out of the bed",
    ]);
    expect(messages({ edgeDistance: 15 })).toEqual([]);
  });

  // 50 m by 40 m over 3000 pots: a square of 81.65 cm to each.
  it("of a field's size asks for a wider spacing", () => {
    expect(messages({ bed: { shape: "rectangle", length: 50, width: 40 } })).toEqual([
      "pot spacing is 70 cm; it must be wider in so large a bed, at least 81.65 cm, for nearer it takes more than 3000 pots",
    ]);
    expect(messages({ bed: { shape: "rectangle", length: 50, width: 40 }, spacing: 81.65 })).toEqual([]);
  });
});

describe("places of pots in a plan", () => {
  it("are refused outside the bed, and in another pot, each by its number", () => {
    expect(messages({ potPlaces: places([1, 0.6], [1.2, 0.6], [5, 0.6], [1, 1.3]) })).toEqual([
      `place of pot 2 is "x 1.2, y 0.6"; it must be at least the pot's width of 30 cm from every other pot; pot 1 is 20 cm away`,
      'place of pot 3 is "x 5, y 0.6"; it must be inside the bed, whose edge is 0.2 m away',
      'place of pot 4 is "x 1, y 1.3"; it must be inside the bed, whose edge is 0.1 m away',
    ]);
  });

  it("nearer to the edge or to each other than the plan's own limits are a person's choice", () => {
    expect(messages({ potPlaces: places([0.1, 0.6], [0.4, 0.6]) })).toEqual([]);
  });

  it("of more pots than fit are refused with the most that may", () => {
    // 0.3 m² with 30/√3 - 15 cm about it are 3527 cm²; 779.4 cm² go to a pot in the densest packing.
    const bed = { shape: "rectangle", length: 0.6, width: 0.5 };
    const potPlaces = places([0.1, 0.1], [0.2, 0.1], [0.3, 0.1], [0.4, 0.1], [0.5, 0.1]);
    expect(messages({ bed, potPlaces })).toEqual([
      "number of pots is 5; it must be at most 4: more pots 30 cm wide do not fit into the bed",
    ]);
  });

  it("that are wrong in great number are told by the first five and how many there are", () => {
    const potPlaces = places(...Array.from({ length: 9 }, (_, i): [number, number] => [1 + i / 100, 0.6]));
    const told = messages({ potPlaces });
    expect(told).toHaveLength(6);
    expect(told.at(-1)).toBe("number of misplaced pots is 8; it must be 0: more are outside, or too near to others");
  });

  it.each<[object, string]>([
    [{ potPlaces: [] }, "places of the pots is an empty list; it must be a list of 1 to 3000 places, or null"],
    [{ potPlaces: [{ x: 1 }] }, "y of a pot is missing; it must be a number from -50 to 50 m"],
    [{ rowAngle: 120 }, "angle of the pot rows is 120 degrees; it must be from -90 to 90 degrees"],
    [{ plantSpacing: 1 }, "plant spacing is 1 cm; it must be from 2 to 200 cm"],
  ])("and rows and plants refuse %j", (changes, message) => {
    expect(messages(changes)).toEqual([message]);
  });

  it("with other faults are told all at once, and nothing typed is lost", () => {
    const typed = { ...BED, bed: polygon([0, 0], [3, 3], [3, 0], [0, 3]), spacing: 5, rowAngle: 91, plantSpacing: 1 };
    const result = resolvePlan(typed);
    expect(result.ok ? [] : result.faults.map(({ path }) => path).sort()).toEqual([
      "bed.points",
      "plantSpacing",
      "rowAngle",
      "spacing",
    ]);
    expect(result.typed).toBe(typed);
  });
});
