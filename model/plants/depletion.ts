import { MM_PER_M } from "../units/factors.ts";
/**
 * Share p of the available water that a crop uses before it suffers, at a water use of ETc mm/day:
 * p = p_table + 0.04 (5 − ETc), within 0.1 to 0.8; FAO-56, Table 22, footnote (from memory).
 */
export function depletionShare(pTable: number, ETcMm: number): number {
  return Math.max(0.1, Math.min(0.8, pTable + 0.04 * (5 - ETcMm)));
}

/** Water contents in cm³/cm³ at field capacity and at the wilting point, and the depth of the roots, m. */
export interface RootZone {
  fieldCapacity: number;
  wiltingPoint: number;
  rootDepthMetres: number;
}

/** Total available water, TAW = 1000 (θFC − θWP) Zr, mm; FAO-56, eq. 82. */
export function totalAvailableMm({ fieldCapacity, wiltingPoint, rootDepthMetres }: RootZone): number {
  return MM_PER_M * (fieldCapacity - wiltingPoint) * rootDepthMetres;
}

/** Readily available water, used before plants suffer, RAW = p TAW, mm; FAO-56, eq. 83. */
export function readilyAvailableMm(TAWMm: number, p: number): number {
  return p * TAWMm;
}

/**
 * Days until plants begin to suffer that use ETc mm/day, starting from a root zone at field capacity, with no rain, no
 * watering and no pot: RAW/ETc. Infinity where nothing is used.
 */
export function daysUntilStress(zone: RootZone, { pTable, ETcMm }: { pTable: number; ETcMm: number }): number {
  return readilyAvailableMm(totalAvailableMm(zone), depletionShare(pTable, ETcMm)) / ETcMm;
}
