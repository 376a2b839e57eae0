import { z } from "zod";
import { type Checked, checkInput, type Fault, type Rule } from "../input/faults.ts";
import { numberField, quantityField } from "../input/fields.ts";
import { toModel, type UnitSystem } from "../units/units.ts";
import type { DayWeather } from "./dayWeather.ts";

/** A day of a record; `date` reads YYYY-MM-DD. */
export interface DatedDay extends DayWeather {
  date: string;
}

/** What a row of a record must tell, and what it may, all three or none. */
export const NEEDED_HEADINGS = ["date", "high", "low", "rain"] as const;
export const AIR_HEADINGS = ["humidity", "wind", "sun"] as const;

/** °C, mm, m/s, hours: beyond what has been measured anywhere but in a few places on earth, from memory. */
const RANGE = {
  temperature: { min: -50, max: 50 },
  rain: { min: 0, max: 1000 },
  wind: { min: 0, max: 60 },
  sun: { min: 0, max: 24 },
};

type Cells = Readonly<Record<string, string>>;

/** Reads the cells of a day, by heading; an empty cell of its air leaves the day's air unknown. */
export type RowReader = (cells: Cells) => Checked<DatedDay>;

/** `decimal` is the sign that decimals begin with. */
export function rowReader(units: UnitSystem, decimal: "." | ","): RowReader {
  const schema = rowSchema(units);
  return (cells) => {
    const entries = Object.entries(cells).map(([heading, cell]) => [heading, cellValue(cell, decimal)]);
    const checked = checkInput(schema, Object.fromEntries(entries), [highIsHigh(units)]);
    return checked.ok
      ? { ok: true, value: toDay(checked.value, units) }
      : { ok: false, faults: checked.faults.map((fault) => hinted(fault, units)) };
  };
}

type Row = z.infer<ReturnType<typeof rowSchema>>;

function rowSchema(units: UnitSystem) {
  return z.strictObject({
    date: z.iso.date().meta({ title: "date", description: "a day written like 2024-07-15" }),
    high: quantityField("high", "temperature", units, RANGE.temperature),
    low: quantityField("low", "temperature", units, RANGE.temperature),
    rain: quantityField("rain", "rain", units, RANGE.rain),
    humidity: numberField("humidity", { min: 0, max: 100 }, "%").optional(),
    wind: quantityField("wind", "wind", units, RANGE.wind).optional(),
    sun: numberField("sun", RANGE.sun, "hours").optional(),
  });
}

function highIsHigh(units: UnitSystem): Rule {
  const unit = units === "us" ? "°F" : "°C";
  return ({ number, fault }) => [
    number("high") < number("low") && fault("high", `at least the low of that day, ${number("low")} ${unit}`),
  ];
}

const NUMBER = { ".": /^[+-]?(\d+\.?\d*|\.\d+)$/, ",": /^[+-]?(\d+[.,]?\d*|[.,]\d+)$/ };

/** A number where the cell is one, undefined where it is empty, else its text. */
function cellValue(cell: string, decimal: "." | ","): number | string | undefined {
  if (cell === "") return undefined;
  return NUMBER[decimal].test(cell) ? Number(cell.replace(",", ".")) : cell;
}

/** What probably went wrong, behind what is allowed. */
function hinted(fault: Fault, units: UnitSystem): Fault {
  const hint = hintOn(fault, units);
  if (hint === "") return fault;
  return { ...fault, allowed: fault.allowed + hint, message: fault.message + hint };
}

function hintOn({ field, value }: Fault, units: UnitSystem): string {
  const isTemperature = field === "high" || field === "low";
  if (typeof value === "string" && /^[+-]?\d*,\d+$/.test(value)) return " (write decimals with a point)";
  if (typeof value !== "number") return "";
  if (units === "metric" && isTemperature && value > RANGE.temperature.max) return " (is this in °F?)";
  return units === "us" && field === "rain" && value > 0 ? " (is this in mm?)" : "";
}

function toDay({ date, high, low, rain, humidity, wind, sun }: Row, units: UnitSystem): DatedDay {
  const isKnown = humidity !== undefined && wind !== undefined && sun !== undefined;
  return {
    date,
    highC: toModel(high, "temperature", units),
    lowC: toModel(low, "temperature", units),
    rainMm: toModel(rain, "rain", units),
    air: isKnown ? { humidity, wind: toModel(wind, "wind", units), sunHours: sun } : null,
  };
}
