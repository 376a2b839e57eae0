import { pottedGround } from "../../model/public/plan.ts";
import { picked } from "../runtime/cells.ts";
import { plan } from "../runtime/sources.ts";

/** All that the flow of water rests on: it stands while the bed's edge is drawn, pots are moved, or roof, tank and line change. */
export const ground = picked({ plan }, ({ plan }) => pottedGround(plan));
