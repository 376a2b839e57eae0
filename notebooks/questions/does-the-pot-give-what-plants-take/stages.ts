/** The beds that are compared: the same pot with nothing planted, with young plants, with full-grown ones. */

import type { PotWaterUse } from "../../../model/public/advice.ts";
import type { Run } from "../../../model/public/flow.ts";
import type { Plan } from "../../../model/public/plan.ts";
import type { Series } from "../../figures/look.ts";

export interface Bed {
  name: string;
  look: Omit<Series, "symbol">;
  plan: Plan;
  run: Run;
  use: PotWaterUse;
  /** Settings have changed since: its own run is still being worked out. */
  isOutdated: boolean;
}

export interface Beds {
  bare: Bed;
  young: Bed;
  grown: Bed;
}

/** The two that the answer compares. */
export type BedPair = Pick<Beds, "bare" | "grown">;

/** "tomato plants"; "plants" where the crop has no name. */
export const plantsOf = ({ crop }: Plan): string => (crop.name ? `${crop.name} plants` : "plants");

/** Told apart by colour-blind eyes, and by dashes in a black and white print. */
export const stageLooks = {
  bare: { colour: "#b35900", dash: "2 3" },
  young: { colour: "#6a4c93", dash: "7 3" },
  grown: { colour: "#00735c", dash: "" },
} as const;
