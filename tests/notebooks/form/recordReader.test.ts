import { expect, it, vi } from "vitest";
import { readDailyCsv, recordReader } from "../../../model/weather/dailyCsv.ts";
import { createForm } from "../../../notebooks/form/form.ts";
import { initialFilled } from "../../../notebooks/form/planForm.ts";
import { startCells } from "../../../notebooks/runtime/liveCells.ts";
import { plan as planSource } from "../../../notebooks/runtime/sources.ts";

const record = (rain: number) =>
  Array.from(
    { length: 365 },
    (_, i) => `${new Date(Date.UTC(2023, 0, 1 + i)).toISOString().slice(0, 10)},20,10,${rain}`,
  );
const textOf = (rain: number) => ["date,high,low,rain", ...record(rain)].join("\n");

it("a form parses a daily record once, however often its sliders move, and again when its text or units change", async () => {
  const read = vi.fn(readDailyCsv);
  const start = initialFilled(undefined);
  const daily = { "weather.kind": "daily", "weather.record": textOf(1), "weather.recordUnits": "metric" };
  const filled = { ...start, settings: { ...start.settings, ...daily } };
  const cells = startCells({ ask() {} });
  const { change } = createForm([], { start: filled, good: filled }, cells, () => {}, recordReader(read));
  for (const spacing of [60, 61, 62, 63]) change({ spacing });
  expect(read).toHaveBeenCalledTimes(1);
  change({ "weather.record": textOf(2) });
  expect(read).toHaveBeenCalledTimes(2);
  change({ "weather.recordUnits": "us", "weather.record": textOf(0) });
  change({ spacing: 64 });
  expect(read).toHaveBeenCalledTimes(3);
  expect((await cells.value(planSource)).weather.years).toHaveLength(1);
  cells.stop();
});
