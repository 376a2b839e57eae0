/** Units: exact conversions, and quantities in words. */

export {
  CM_PER_M,
  CM3_PER_LITRE,
  HOURS_PER_DAY,
  layerLitres,
  MG_PER_G,
  MINUTES_PER_HOUR,
  MM_PER_CM,
  SECONDS_PER_MINUTE,
} from "../units/factors.ts";
export { format, formatBoth, formatSuction, rounded } from "../units/format.ts";
export { fromPerson, type Measure, toPerson, unitName } from "../units/measures.ts";
export {
  bothSystems,
  convert,
  fromModel,
  headOfSuction,
  type Quantity,
  suctionKPa,
  toModel,
  UNIT_SYSTEMS,
  type UnitSystem,
  unitOf,
} from "../units/units.ts";
