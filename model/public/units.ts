/** Units: exact conversions, and quantities in words. */

export { format, formatBoth, formatSuction, rounded } from "../units/format.ts";
export { fromPerson, type Measure, toPerson, unitName } from "../units/measures.ts";
export {
  bothSystems,
  CM3_PER_LITRE,
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
