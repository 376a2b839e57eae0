import { expect, test, vi } from "vitest";

/** What an example prints when it is loaded. */
async function printed(load: () => Promise<unknown>): Promise<string> {
  const log = vi.spyOn(console, "log").mockImplementation(() => {});
  try {
    await load();
    return log.mock.calls.flat().join("\n");
  } finally {
    log.mockRestore();
  }
}

test("units: an inch is 2.54 cm, a kilopascal 100/9.80665 cm of water", async () => {
  const text = await printed(() => import("./units.ts"));
  expect(text).toContain(`27 in is kept as ${27 * 2.54} cm`);
  expect(text).toContain(`500 kPa is kept as a pressure head of ${(-50_000 / 9.80665).toFixed(1)} cm`);
});

test("plan: two rows of five pots fit between edges 20 cm away, and pots must not crowd", async () => {
  const text = await printed(() => import("./plan.ts"));
  expect(text).toContain(`${(1 + Math.floor(260 / 60)) * (1 + Math.floor(80 / 60))} pots find a place`);
  expect(text).toContain(`at least ${1.25 * 24} cm`);
});

test("flow: a full cylinder in wet soil loses K π r H (H + r) / w, and in dry loam more, by suction", async () => {
  const text = await printed(() => import("./flow.ts"));
  const [K, r, H, w] = [0.01, 10, 30, 1];
  const litres = (K * Math.PI * r * H * (H + r)) / w / 1000;
  expect(text).toContain(`lose ${litres.toFixed(4)} L a day`);
  expect(text).toContain("finished");
  expect(Number(text.match(/By day 1 the pot has given ([\d.]+) L/)?.[1])).toBeGreaterThan(litres);
});

test("advice: an empty pot has given π r² h, and one of twice the size has lengths ∛2 as great", async () => {
  const text = await printed(() => import("./advice.ts"));
  const [r, h] = [10 - 1, 30 - 1];
  expect(text).toContain(`The pot has given ${((Math.PI * r ** 2 * h) / 1000).toFixed(2)} L and is empty`);
  expect(text).toMatch(/Sow on day \d+, up to \d+ cm/);
  expect(text).toContain(`a radius of ${(10 * Math.cbrt(2)).toFixed(3)} cm`);
});

test("ensemble: a wall that lets more through wets farther, and a band of three lies 4/5 of the way to its ends", async () => {
  const text = await printed(() => import("./ensemble.ts"));
  expect(text).toContain("rank correlation 1.00");
  const numbers = (line: string) => [...line.matchAll(/\d+\.\d+/g)].map(Number);
  const lines = text.split("\n");
  const [low, high, median] = numbers(lines[0]!) as [number, number, number];
  const [least, middle, most] = numbers(lines[2]!).sort((a, b) => a - b) as [number, number, number];
  expect(median).toBe(middle);
  expect(low).toBeCloseTo(middle - 0.8 * (middle - least), 9);
  expect(high).toBeCloseTo(middle + 0.8 * (most - middle), 9);
});
