import { expect, test } from "vitest";
import { textureClass } from "../../model/soil/textureTriangle.ts";

test("the corners of the triangle are sand, silt and clay", () => {
  expect(textureClass({ sand: 100, silt: 0, clay: 0 })).toBe("sand");
  expect(textureClass({ sand: 0, silt: 100, clay: 0 })).toBe("silt");
  expect(textureClass({ sand: 0, silt: 0, clay: 100 })).toBe("clay");
});

test("shares that make no soil are refused with their values", () => {
  const refused = "sand 30 %, silt 0 %, clay 25 % must each be 0 to 100 and add up to 100";
  expect(() => textureClass({ sand: 30, silt: 0, clay: 25 })).toThrow(refused);
});
