/** One length and one suction, as they are typed, as the model keeps them, and as people read them. */
import { formatBoth, headOfSuction, suctionKPa, toModel } from "../../model/public/units.ts";

const spacing = toModel(27, "length", "us");
console.log(`27 in is kept as ${spacing} cm, and shown as ${formatBoth(spacing, "length", "us")}.`);

const head = headOfSuction(500);
console.log(
  `A suction of 500 kPa is kept as a pressure head of ${head.toFixed(1)} cm; back again ${suctionKPa(head)} kPa.`,
);
