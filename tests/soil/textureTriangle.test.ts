import { expect, test } from "vitest";
import { textureClass } from "../../model/soil/textureTriangle.ts";

test("the corners of the triangle are sand, silt and clay", () => {
  expect(textureClass({ sand: 100, silt: 0, clay: 0 })).toBe("sand");
  expect(textureClass({ sand: 0, silt: 100, clay: 0 })).toBe("silt");
  expect(textureClass({ sand: 0, silt: 0, clay: 100 })).toBe("clay");
});

test.each([
  { sand: 30, silt: 0, clay: 25 },
  { sand: 0, silt: 0, clay: 0 },
  { sand: 105, silt: -5, clay: 0 },
  { sand: 45, silt: 28, clay: 27.02 },
  { sand: Number.NaN, silt: 50, clay: 50 },
])("shares that make no soil are refused with their values: $sand, $silt, $clay", ({ sand, silt, clay }) => {
  const refused = `sand ${sand} %, silt ${silt} %, clay ${clay} % must each be 0 to 100 and add up to 100`;
  expect(() => textureClass({ sand, silt, clay })).toThrow(refused);
});

test("shares with a rounding error have a class, on the corner of three rules too", () => {
  expect(textureClass({ sand: 45, silt: 27.995, clay: 26.997 })).toBe("sandy clay loam");
});
