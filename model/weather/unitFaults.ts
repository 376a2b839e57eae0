import { max, rollups, sum } from "d3-array";
import { type Fault, fault, figures } from "../input/faults.ts";
import { fromModel, type UnitSystem, unitOf } from "../units/units.ts";
import type { DatedDay } from "./dayRow.ts";

/** °C that the hottest of a year's days reaches wherever things are grown: our own choice. */
const LEAST_HOTTEST = 10;
/** mm a year: the wettest place known has a little less, from memory. */
const MOST_OF_A_YEAR = 12_000;

/** That a year's days, each possible by itself, are so cold or so wet together that a unit must be wrong. */
export function unitFaults(days: readonly DatedDay[], units: UnitSystem): Fault[] {
  return [...coldFaults(days, units), ...wetFaults(days, units)];
}

/** In °F alone: in °C, a year of °F has highs beyond what a day may have. */
function coldFaults(days: readonly DatedDay[], units: UnitSystem): Fault[] {
  const hottest = max(days, ({ highC }) => highC) ?? LEAST_HOTTEST;
  if (units === "metric" || hottest >= LEAST_HOTTEST) return [];
  const [is, least] = [hottest, LEAST_HOTTEST].map((celsius) => figures(fromModel(celsius, "temperature", units)));
  const unit = unitOf("temperature", units);
  return [fault("", "the highest high", is, `at least ${least} ${unit} (are these °C?)`, unit)];
}

function wetFaults(days: readonly DatedDay[], units: UnitSystem): Fault[] {
  const unit = unitOf("rain", units);
  const hint = units === "us" ? " (are these mm?)" : "";
  const most = `at most ${Math.round(fromModel(MOST_OF_A_YEAR, "rain", units))} ${unit} per year${hint}`;
  const years = rollups(
    days,
    (own) => sum(own, ({ rainMm }) => rainMm),
    ({ date }) => date.slice(0, 4),
  );
  return years
    .filter(([, rainMm]) => rainMm > MOST_OF_A_YEAR)
    .map(([year, rainMm]) => fault("", `all rain of ${year}`, figures(fromModel(rainMm, "rain", units)), most, unit));
}
