/** The season page's tables. */

import { type BedWater, capacityOf, carriesCrop, type WholeBed } from "../../../model/public/advice.ts";
import { potLitres } from "../../../model/public/flow.ts";
import { dayOfMonth, laterDay, monthName, monthOfDay, type Plan } from "../../../model/public/plan.ts";
import { formatBoth, fromModel, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import type { Table } from "../../notebook/notebook.ts";
import { tableOf } from "../../notebook/tables.ts";
import { bedWords } from "../../words/bedWords.ts";
import { minutesWords } from "../../words/lineWords.ts";
import { placeWords } from "../../words/placeWords.ts";
import { cropName, soilName } from "../../words/planWords.ts";
import { litresWords, shareWords, yearsWords } from "../../words/waterWords.ts";
import { sentenceCase } from "../../words/words.ts";

/** "every 3 days". */
export function fillingWords({ filling }: Plan): string {
  if (filling.kind === "float") return "held full by floats";
  if (filling.kind === "once") return "once, at planting";
  return filling.days === 1 ? "every day" : `every ${Number(filling.days.toFixed(2))} days`;
}

/** "15 April". */
export const dateWords = (dayOfYear: number): string => `${dayOfMonth(dayOfYear)} ${monthName(monthOfDay(dayOfYear))}`;

export function planTable({ of: gathered, line, needs }: BedWater, units: UnitSystem): Table {
  const { plan, bed, outlook } = gathered;
  const length = (cm: number) => formatBoth(cm, "length", units);
  const end = laterDay(plan.plantingDay, outlook.season.days - 1);
  const capacity = potLitres(plan.pot);
  return {
    kind: "table",
    name: "my-bed",
    caption: "What goes where, and when",
    columns: [{ heading: "what" }, { heading: "how" }],
    rows: [
      ["bed", `${bedWords(plan.bed.outline, units)}, ${soilName(plan)}`],
      ["pots", `${bed.pots.length}, ${formatBoth(capacity, "volume", units)} each to the rim`],
      [
        "pot spacing",
        bed.isByHand
          ? "as placed by hand (see marking out)"
          : `${length(plan.bed.spacing)} from middle to middle, in ${plan.bed.grid === "square" ? "squares" : "triangles"}`,
      ],
      ["outer pots", `${length(plan.bed.edgeDistance)} from the bed’s edge to their middle`],
      [plan.sowing.kind === "seed" ? "sow" : "plant", sowWords(gathered, units)],
      ["season", `${dateWords(plan.plantingDay)} to ${dateWords(end)}, ${outlook.season.days} days`],
      ["fill the pots", fillingWords(plan)],
      [
        "does that carry the crop",
        carriesCrop(gathered)
          ? "yes, in every month of the season"
          : `no: in ${monthName(gathered.hardest.month)} plants get ${Math.round(100 * gathered.hardest.met)} % of what they want`,
      ],
      [
        "valve, for the first filling",
        line ? valveWords(line.filling.valveMinutes) : "too many pots for one line: part the bed",
      ],
      ["tank", `${litresWords(capacityOf(plan), units)} under ${formatBoth(plan.roof.area, "area", units)} of roof`],
      [
        "does the tank last",
        `through ${yearsWords(outlook.carried, outlook.yearCount)} of ${plan.weather.isExample ? "invented" : "your"} weather${needs.tank === null ? "" : `; ${litresWords(needs.tank, units)} would do in ${shareWords(needs.share)}`}`,
      ],
    ],
  };
}

const valveWords = (minutes: number | null) =>
  minutes === null ? "not every pot fills: see “Does the line fill every pot?”" : `open for ${minutesWords(minutes)}`;

function sowWords({ plan, bed }: WholeBed, units: UnitSystem): string {
  if (!bed.band)
    return `no distance from the pots stays moist enough to ${plan.sowing.kind === "seed" ? "sow" : "plant"} in`;
  const count = `${bed.plants.length} ${bed.plants.length === 1 ? "plant" : "plants"}`;
  return `${cropName(plan)}, ${placeWords(bed.band, units)} from the wall of the pots; ${count}, ${formatBoth(plan.bed.plantSpacing, "length", units)} apart`;
}

const openWords = (minutes: number | null) => (minutes === null ? "–" : minutesWords(minutes));

export function seasonTable({ of: { months, plan, bed }, minutes }: BedWater, units: UnitSystem): Table {
  const volume = unitOf("volume", units);
  const isHeld = plan.filling.kind === "float";
  const caption = `An average year, month by month${isHeld ? "; floats fill the pots each day" : ""}`;
  return tableOf("season", caption, months, [
    ["month", ({ month }) => sentenceCase(month)],
    ["fillings", ({ refills }) => refills, 0],
    [`each pot takes (${volume})`, ({ litres }) => fromModel(litres, "volume", units), 1],
    [`the bed takes (${volume})`, ({ litres }) => fromModel(litres * bed.pots.length, "volume", units), 0],
    ["valve open for", (_, k) => openWords(minutes[k] ?? null)],
    ["thirst met by full pots (%)", ({ met }) => 100 * met, 0],
    ["years with pots short (%)", ({ shortShare }) => 100 * shortShare, 0],
  ]);
}
