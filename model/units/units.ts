import { CM_PER_M, CM3_PER_LITRE, GRAVITY, HOURS_PER_DAY, MINUTES_PER_DAY } from "./factors.ts";

/**
 * Exact units. US lengths and volumes: NIST Handbook 44, Appendix C (inch = 2.54 cm, gallon = 231 cubic inches, both
 * exact). A pressure stands for the head of a water column of 1000 kg/m³ at standard gravity, 9.80665 m/s² (exact,
 * BIPM SI Brochure): 1 kPa = 100/9.80665 = 10.19716 cm. Water at 25 °C is 0.3 % lighter; that is left out. Temperatures
 * are readings, not differences: `zero` is what a unit reads at 0 °C (exact, NIST SP 811, B.8, from memory), and their size is told in
 * ninths of a kelvin, so that both are whole numbers.
 */
const UNITS = {
  cm: { measures: "length", size: 1 },
  mm: { measures: "length", size: 0.1 },
  m: { measures: "length", size: 100 },
  in: { measures: "length", size: 2.54 },
  ft: { measures: "length", size: 30.48 },
  "cm²": { measures: "area", size: 1 },
  "m²": { measures: "area", size: 10_000 },
  "ft²": { measures: "area", size: 929.0304 },
  cm3: { measures: "volume", size: 1 },
  L: { measures: "volume", size: CM3_PER_LITRE },
  "US gal": { measures: "volume", size: 3785.411784 },
  "cm of water": { measures: "pressure", size: 1 },
  kPa: { measures: "pressure", size: CM_PER_M / GRAVITY },
  "cm/day": { measures: "conductivity", size: 1 },
  "in/day": { measures: "conductivity", size: 2.54 },
  "L/day": { measures: "flow", size: CM3_PER_LITRE },
  "US gal/day": { measures: "flow", size: 3785.411784 },
  "L/min": { measures: "flow", size: MINUTES_PER_DAY * CM3_PER_LITRE },
  "US gal/min": { measures: "flow", size: MINUTES_PER_DAY * 3785.411784 },
  "L/h": { measures: "flow", size: HOURS_PER_DAY * CM3_PER_LITRE },
  "US gal/h": { measures: "flow", size: HOURS_PER_DAY * 3785.411784 },
  "m/s": { measures: "speed", size: 1 },
  mph: { measures: "speed", size: 0.44704 },
  "°C": { measures: "temperature", size: 9, zero: 0 },
  "°F": { measures: "temperature", size: 5, zero: 32 },
} as const satisfies Record<string, { measures: string; size: number; zero?: number }>;

export type Unit = keyof typeof UNITS;

/** The same amount in another unit; a TypeError where the two units do not measure the same thing. */
export function convert(value: number, from: Unit, to: Unit): number {
  const [a, b] = [UNITS[from], UNITS[to]];
  if (a.measures !== b.measures) throw new TypeError(`${from} measures ${a.measures}, ${to} measures ${b.measures}`);
  return from === to ? value : ((value - zeroOf(from)) * a.size) / b.size + zeroOf(to);
}

function zeroOf(unit: Unit): number {
  const known = UNITS[unit];
  return "zero" in known ? known.zero : 0;
}

/** Suction as people read it, positive kPa, of a pressure head in cm (negative when unsaturated). */
export function suctionKPa(h: number): number {
  return -convert(h, "cm of water", "kPa");
}

/** Pressure head, cm, of a suction in kPa. */
export function headOfSuction(kPa: number): number {
  return -convert(kPa, "kPa", "cm of water");
}

export const UNIT_SYSTEMS = ["metric", "us"] as const;

export type UnitSystem = (typeof UNIT_SYSTEMS)[number];

/** Both unit systems, the person's own first. */
export const bothSystems = (own: UnitSystem): [UnitSystem, UnitSystem] =>
  own === "us" ? ["us", "metric"] : ["metric", "us"];

/** The unit the model holds a quantity in, and the one people of each unit system type and read. */
const QUANTITIES = {
  length: { model: "cm", metric: "cm", us: "in" },
  distance: { model: "cm", metric: "m", us: "ft" },
  volume: { model: "L", metric: "L", us: "US gal" },
  flow: { model: "L/day", metric: "L/day", us: "US gal/day" },
  conductivity: { model: "cm/day", metric: "cm/day", us: "in/day" },
  suction: { model: "cm of water", metric: "kPa", us: "kPa" },
  temperature: { model: "°C", metric: "°C", us: "°F" },
  rain: { model: "mm", metric: "mm", us: "in" },
  area: { model: "cm²", metric: "m²", us: "ft²" },
  "hose flow": { model: "L/min", metric: "L/min", us: "US gal/min" },
  "emitter flow": { model: "L/h", metric: "L/h", us: "US gal/h" },
  bore: { model: "mm", metric: "mm", us: "in" },
  wind: { model: "m/s", metric: "m/s", us: "mph" },
} as const satisfies Record<string, Record<"model" | UnitSystem, Unit>>;

export type Quantity = keyof typeof QUANTITIES;

/** The unit in which people of a unit system type and read a quantity. */
export function unitOf(quantity: Quantity, system: UnitSystem): Unit {
  return QUANTITIES[quantity][system];
}

/**
 * From the model's unit (cm, cm², L, L/day, cm/day, °C; rain and bores in mm, a hose's flow in L/min, an emitter's in L/h,
 * wind in m/s, a suction as positive cm of water) to a person's.
 */
export function fromModel(value: number, quantity: Quantity, system: UnitSystem): number {
  return convert(value, QUANTITIES[quantity].model, QUANTITIES[quantity][system]);
}

/** From a person's unit to the model's: the inverse of `fromModel`. */
export function toModel(value: number, quantity: Quantity, system: UnitSystem): number {
  return convert(value, QUANTITIES[quantity][system], QUANTITIES[quantity].model);
}
