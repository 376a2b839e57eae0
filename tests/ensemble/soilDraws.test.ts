import { mean, range, variance } from "d3-array";
import { expect, test } from "vitest";
import { type SoilSpread, soilDrawer } from "../../model/ensemble/soilDraws.ts";
import { randomStreams } from "../../model/random/randomStreams.ts";
import type { TextureClass } from "../../model/soil/textureTriangle.ts";
import { expectClose } from "../support/close.ts";

const COUNT = 4000;

function classesDrawn(spread: SoilSpread): TextureClass[] {
  const draw = soilDrawer(spread, randomStreams(11, ["texture", "conductivity", "retention"]));
  return range(COUNT).map(() => draw().className);
}

const shareOf = (name: TextureClass, drawn: TextureClass[]) => drawn.filter((one) => one === name).length / COUNT;

/** Five standard errors of a share. */
const sampling = (share: number) => 5 * Math.sqrt((share * (1 - share)) / COUNT);

test("soils of a class are of that class", () => {
  expect(new Set(classesDrawn({ kind: "class", name: "silt" }))).toEqual(new Set(["silt"]));
});

test("a texture known exactly gives its class alone", () => {
  const texture = { sand: 40, silt: 40, clay: 20 };
  expect(new Set(classesDrawn({ kind: "texture", texture, sd: 0 }))).toEqual(new Set(["loam"]));
});

test("a texture on the line between loam and clay loam gives half of each", () => {
  // Clay of 27 % and more is clay loam; the triangle's other lines are five standard deviations away.
  const drawn = classesDrawn({ kind: "texture", texture: { sand: 35, silt: 38, clay: 27 }, sd: 1.4 });
  expectClose(shareOf("loam", drawn), 0.5, { tolerance: sampling(0.5), what: "share of loam" });
  expect(new Set(drawn)).toEqual(new Set(["loam", "clay loam"]));
});

test("a texture's clay is uncertain by the standard deviation in percentage points", () => {
  // 1 standard deviation below the line lie 84.13 % of the draws on the loam side (table of the normal distribution).
  const drawn = classesDrawn({ kind: "texture", texture: { sand: 36, silt: 40, clay: 24 }, sd: 3 });
  expectClose(shareOf("loam", drawn), 0.8413, { tolerance: sampling(0.8413), what: "share of loam" });
});

test("a texture at the triangle's corner still gives textures inside it", () => {
  const drawn = classesDrawn({ kind: "texture", texture: { sand: 100, silt: 0, clay: 0 }, sd: 5 });
  expect(drawn.every((name) => ["sand", "loamy sand", "sandy loam"].includes(name))).toBe(true);
  expect(shareOf("sand", drawn)).toBeGreaterThan(0.5);
});

test("a soil passes water by one stream and holds it by another, and nothing ties the two", () => {
  const streams = randomStreams(2, ["texture", "conductivity", "retention", "other"]);
  const { texture, retention, other } = randomStreams(2, ["texture", "conductivity", "retention", "other"]);
  const draw = soilDrawer({ kind: "class", name: "loam" }, streams);
  const drawOther = soilDrawer({ kind: "class", name: "loam" }, { texture, retention, conductivity: other });
  const soils = range(COUNT).map(() => draw().parameters);
  const others = range(COUNT).map(() => drawOther().parameters);
  expect(others.map(({ alpha }) => alpha)).toEqual(soils.map(({ alpha }) => alpha));
  expect(others.map(({ Ks }) => Ks)).not.toEqual(soils.map(({ Ks }) => Ks));
  // Of N independent pairs the correlation has a standard error of 1/√N.
  const correlation = correlationOf(
    soils.map(({ Ks }) => Math.log(Ks)),
    soils.map(({ thetaR }) => thetaR),
  );
  expectClose(correlation, 0, { tolerance: 4 / Math.sqrt(COUNT), what: "correlation of ln Ks and theta_r" });
});

function correlationOf(x: number[], y: number[]): number {
  const [mx, my] = [mean(x)!, mean(y)!];
  return mean(x, (value, k) => (value - mx) * (y[k]! - my))! / Math.sqrt(variance(x)! * variance(y)!);
}

test("a soil has the exponent of Mualem's conductivity that its class has", () => {
  const draw = soilDrawer({ kind: "class", name: "clay" }, randomStreams(1, ["texture", "conductivity", "retention"]));
  expect(draw().parameters.l).toBe(0.5);
});
