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
