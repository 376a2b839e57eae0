import type { Air } from "../plants/referenceEvapotranspiration.ts";

/** What a day brings. A year is 365 of them from 1 January: 29 February is left out. */
export interface DayWeather {
  highC: number;
  lowC: number;
  rainMm: number;
  /** null where humidity, wind and sunshine are not all known. */
  air: Air | null;
}
