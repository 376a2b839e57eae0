import { expect, test } from "vitest";
import { textureFromJar } from "../../model/soil/jarTest.ts";
import { textureClass } from "../../model/soil/textureTriangle.ts";

test("layers of 6, 3 and 1 are 60 % sand, 30 % silt and 10 % clay: sandy loam", () => {
  const texture = textureFromJar({ sand: 6, silt: 3, clay: 1 });
  expect(texture).toEqual({ sand: 60, silt: 30, clay: 10 });
  expect(textureClass(texture)).toBe("sandy loam");
});

test("the unit of the layers does not matter", () => {
  const inches = textureFromJar({ sand: 1.5, silt: 2, clay: 0.5 });
  expect(textureFromJar({ sand: 3.81, silt: 5.08, clay: 1.27 })).toEqual(inches);
});

test("a jar of one layer is all of that", () => {
  expect(textureFromJar({ sand: 0, silt: 0, clay: 4 })).toEqual({ sand: 0, silt: 0, clay: 100 });
});
