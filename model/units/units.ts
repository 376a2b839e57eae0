/**
 * Exact units. US lengths and volumes: NIST Handbook 44, Appendix C (inch = 2.54 cm, gallon = 231 cubic inches, both
 * exact). A pressure stands for the head of a water column of 1000 kg/m³ at standard gravity, 9.80665 m/s² (exact,
 * BIPM SI Brochure): 1 kPa = 100/9.80665 = 10.19716 cm. Water at 25 °C is 0.3 % lighter; that is left out.
 */
const UNITS = {
  cm: { measures: "length", size: 1 },
  mm: { measures: "length", size: 0.1 },
  m: { measures: "length", size: 100 },
  in: { measures: "length", size: 2.54 },
  ft: { measures: "length", size: 30.48 },
  cm3: { measures: "volume", size: 1 },
  L: { measures: "volume", size: 1000 },
  "US gal": { measures: "volume", size: 3785.411784 },
  "cm of water": { measures: "pressure", size: 1 },
  kPa: { measures: "pressure", size: 100 / 9.80665 },
  "cm/day": { measures: "conductivity", size: 1 },
  "in/day": { measures: "conductivity", size: 2.54 },
  "L/day": { measures: "flow", size: 1000 },
  "US gal/day": { measures: "flow", size: 3785.411784 },
} as const;

export type Unit = keyof typeof UNITS;

export const CM3_PER_LITRE = UNITS.L.size;

/** The same amount in another unit; a TypeError where the two units do not measure the same thing. */
export function convert(value: number, from: Unit, to: Unit): number {
  const [a, b] = [UNITS[from], UNITS[to]];
  if (a.measures !== b.measures) throw new TypeError(`${from} measures ${a.measures}, ${to} measures ${b.measures}`);
  return from === to ? value : (value * a.size) / b.size;
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

/** The person's own system first. */
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
} as const satisfies Record<string, Record<"model" | UnitSystem, Unit>>;

export type Quantity = keyof typeof QUANTITIES;

export function unitOf(quantity: Quantity, system: UnitSystem): Unit {
  return QUANTITIES[quantity][system];
}

/** From the model's unit (cm, L, L/day, cm/day; a suction as positive cm of water) to a person's. */
export function fromModel(value: number, quantity: Quantity, system: UnitSystem): number {
  return convert(value, QUANTITIES[quantity].model, QUANTITIES[quantity][system]);
}

/** The inverse of `fromModel`. */
export function toModel(value: number, quantity: Quantity, system: UnitSystem): number {
  return convert(value, QUANTITIES[quantity][system], QUANTITIES[quantity].model);
}
