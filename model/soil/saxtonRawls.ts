import { HOURS_PER_DAY, MM_PER_CM } from "../units/factors.ts";
/** Sand, clay and organic matter by weight, %. */
export interface SaxtonRawlsInput {
  sand: number;
  clay: number;
  organicMatter: number;
}

/** Water contents in cm³/cm³ at 1500 kPa, 33 kPa and saturation; Ks in cm/day. */
export interface SaxtonRawlsSoil {
  wiltingPoint: number;
  fieldCapacity: number;
  saturation: number;
  Ks: number;
}

/**
 * Hydraulic properties from texture (Saxton & Rawls 2006, SSSAJ 70:1569-1578, Table 1; equation
 * numbers from memory).
 */
export function saxtonRawls({ sand, clay, organicMatter }: SaxtonRawlsInput): SaxtonRawlsSoil {
  const S = sand / 100;
  const C = clay / 100;
  const wiltingPoint = waterAt1500kPa(S, C, organicMatter);
  const fieldCapacity = waterAt33kPa(S, C, organicMatter);
  const saturation = fieldCapacity + poresAbove33kPa(S, C, organicMatter) - 0.097 * S + 0.043;
  const lambda = Math.log(fieldCapacity / wiltingPoint) / Math.log(1500 / 33);
  const KsMmPerHour = 1930 * (saturation - fieldCapacity) ** (3 - lambda);
  return { wiltingPoint, fieldCapacity, saturation, Ks: (HOURS_PER_DAY / MM_PER_CM) * KsMmPerHour };
}

/** θ1500, eq. 1. */
function waterAt1500kPa(S: number, C: number, OM: number): number {
  const first = -0.024 * S + 0.487 * C + 0.006 * OM + 0.005 * S * OM - 0.013 * C * OM + 0.068 * S * C + 0.031;
  return 1.14 * first - 0.02;
}

/** θ33, eq. 2. */
function waterAt33kPa(S: number, C: number, OM: number): number {
  const first = -0.251 * S + 0.195 * C + 0.011 * OM + 0.006 * S * OM - 0.027 * C * OM + 0.452 * S * C + 0.299;
  return first + 1.283 * first ** 2 - 0.374 * first - 0.015;
}

/** θ(s−33), eq. 3. */
function poresAbove33kPa(S: number, C: number, OM: number): number {
  const first = 0.278 * S + 0.034 * C + 0.022 * OM - 0.018 * S * OM - 0.027 * C * OM - 0.584 * S * C + 0.078;
  return 1.636 * first - 0.107;
}
