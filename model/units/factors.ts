/** Exact factors between units; the one home of them. `X_PER_Y`: times it, an amount in Y is in X. */

export const MM_PER_CM = 10;
export const MM_PER_M = 1000;
export const CM_PER_M = 100;
export const M_PER_CM = 1 / CM_PER_M;
export const M_PER_MM = 1 / MM_PER_M;
export const CM2_PER_M2 = 10_000;
export const CM3_PER_LITRE = 1000;
export const LITRES_PER_M3 = 1000;
export const MG_PER_G = 1000;
export const SECONDS_PER_MINUTE = 60;
export const SECONDS_PER_HOUR = 3600;
export const SECONDS_PER_DAY = 86_400;
export const MINUTES_PER_HOUR = 60;
export const MINUTES_PER_DAY = 1440;
export const HOURS_PER_DAY = 24;

/** Standard gravity, m/s² (exact, BIPM SI Brochure). */
export const GRAVITY = 9.80665;

/** Litres in a layer of water of some mm over an area of some cm². */
export const layerLitres = (mm: number, area: number): number => (area * mm) / MM_PER_CM / CM3_PER_LITRE;
