import { describe, expect, it } from "vitest";
import { type BedOutline, distanceBetween } from "../../model/bed/outline.ts";
import { plantPlaces } from "../../model/bed/planting.ts";
import { expectClose } from "../support/close.ts";

const bed: BedOutline = { shape: "rectangle", length: 400, width: 400 };
const pot = { x: 200, y: 200 };
const planting = { inner: 5, outer: 15, plantSpacing: 20, potRadius: 10 };

describe("plants about a pot", () => {
  // On a ring of 20 cm radius chords of 20 cm span 60 degrees: six.
  it("stand in a ring amid the band, as many as their spacing lets", () => {
    const plants = plantPlaces(bed, [pot], planting);
    expect(plants).toHaveLength(6);
    for (const plant of plants)
      expectClose(distanceBetween(plant, pot), 20, { tolerance: 1e-9, unit: "cm", what: "from the axis" });
  });

  it("stand in several rings where the band is wider than their spacing", () => {
    const plants = plantPlaces(bed, [pot], { ...planting, outer: 35 });
    const rings = new Set(plants.map((plant) => distanceBetween(plant, pot).toFixed(6)));
    // The band runs from 15 to 45 cm; two rings 20 cm apart amid it.
    expect(rings).toEqual(new Set(["20.000000", "40.000000"]));
  });

  it("are one or two where there is hardly room, and none where there is no band", () => {
    expect(plantPlaces(bed, [pot], { ...planting, plantSpacing: 40 })).toHaveLength(2);
    expect(plantPlaces(bed, [pot], { ...planting, plantSpacing: 41 })).toHaveLength(1);
    expect(plantPlaces(bed, [pot], { ...planting, outer: 4 })).toEqual([]);
  });

  it("stand in the bed only", () => {
    const edge = plantPlaces(bed, [{ x: 200, y: 0 }], planting);
    expect(edge.length).toBeGreaterThanOrEqual(3);
    expect(edge.every(({ y }) => y >= 0)).toBe(true);
  });
});
