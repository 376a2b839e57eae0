import { type BedWater, bedWater, usableOf, wholeBed } from "../../../model/public/advice.ts";
import type { UnitSystem } from "../../../model/public/units.ts";
import { drawBed } from "../../figures/bedFigure.ts";
import { paperBlocks } from "../../figures/bedOnPaper.ts";
import { drawTank } from "../../figures/tankFigure.ts";
import * as groups from "../../form/planControls.ts";
import { potSize } from "../../form/potSize.ts";
import { laidOutBed } from "../../notebook/laidOutBed.ts";
import { shoppingTable } from "../../notebook/layoutTables.ts";
import { type Block, defineNotebook, type Figure } from "../../notebook/notebook.ts";
import { cutTable, fittingTable, tubeTable } from "../../notebook/partsTables.ts";
import { suppliedBed, yearsOfWeather } from "../../notebook/seasonCells.ts";
import { derive, rested } from "../../runtime/cells.ts";
import { plan, units } from "../../runtime/sources.ts";
import { plantWords, reachWords } from "../../words/layoutWords.ts";
import { lineCautions } from "../../words/lineWords.ts";
import { cropName } from "../../words/planWords.ts";
import { weatherWords } from "../../words/tankWords.ts";
import { cautions, explained } from "../../words/words.ts";
import { answerSentence } from "./bedSentence.ts";
import { planTable, seasonTable } from "./tables.ts";

const gathered = derive(
  { plan, bed: laidOutBed, suppliedBed, yearsOfWeather },
  ({ plan, bed, suppliedBed, yearsOfWeather: { isRecorded } }) => wholeBed(plan, bed, suppliedBed, isRecorded),
);

const watered = rested(gathered, (gathered): Generator<void, BedWater | null> => bedWater(gathered), null);

/** Finer runs of the same plan leave the valve's minutes as they are told. */
const answer = derive({ gathered, watered, units }, ({ gathered, watered, units }) =>
  answerSentence(gathered, watered?.of.plan === gathered.plan ? watered : null, units),
);

/** Blocks of what has been gathered when a slider rests. */
const whenWatered = (blocks: (watered: BedWater, units: UnitSystem) => Block[]) =>
  derive({ watered, units }, ({ watered, units }) => (watered ? blocks(watered, units) : ["Being worked out …"]));

const picture = derive(
  { bed: laidOutBed, units },
  ({ bed, units }): Figure => ({
    kind: "figure",
    name: "my-bed-from-above",
    caption: `Your bed from above, to scale. ${reachWords(bed, units)}; ${plantWords(bed, units)}.`,
    draw: (stage) =>
      drawBed({ name: "my-bed-from-above", bed, units }, `The bed from above with ${bed.pots.length} pots`, stage),
  }),
);

const brief = whenWatered((watered, units) => [planTable(watered, units)]);
const season = whenWatered((watered, units) => [seasonTable(watered, units)]);
const paper = whenWatered(({ of: { bed } }, units) => paperBlocks(bed, units));
const shopping = whenWatered(({ of: { bed } }, units) => [shoppingTable(bed, units)]);

const tankPicture = whenWatered(({ of: { outlook, supplied } }): Block[] => {
  const { plan, season } = outlook;
  const tank = { years: supplied.years, capacity: usableOf(plan), season };
  const figure: Figure = {
    kind: "figure",
    name: "my-tank",
    caption: `How full the tank is through the year in ${weatherWords(outlook)}: the line is reached or passed in half of the years, the dashed one in nine of ten. At the bottom within the season of ${cropName(plan)}, the pots go short.`,
    draw: (stage) => drawTank(tank, "How full the tank is through the year", stage),
  };
  return [figure];
});

const lineParts = whenWatered(({ line: filled }, units) => {
  if (!filled) return ["Too many pots for one line: part the bed, and plan a line for each part."];
  return [tubeTable(filled, units), cutTable(filled, units), fittingTable(filled, units)];
});

const beforeYouStart = [
  "Before you dig, have cables and pipes marked (in the United States dial 811 some working days ahead); lines that are your own are yours to find.",
  "Never join tank, line or floats to the drinking water without the air gap or the device that your local code asks for, and have such work done by licensed hands where it says so. Never drink from pots, tank or line.",
  "A litre weighs a kilogram, a US gallon 8.3 pounds: a full tank needs firm, level ground, and one on a stand a stand made for it.",
  "Lids on tank and pots that children and animals cannot lift; screens or tight lids against mosquitoes.",
  "Roof water on food: some advisers accept it if the first flush is let go and it is given to the soil, not to leaves and not just before harvest; others advise against it on vegetables. Ask yours.",
  "Ask whether your place limits the collecting of rain. Empty line, tank and pots before frost.",
];

export const notebook = defineNotebook({
  name: "my-bed",
  question: "My bed: the whole plan on paper",
  answer,
  picture,
  controls: [
    { heading: "Bed", underPicture: true, controls: groups.outline },
    { heading: "Pots in the bed", controls: [...groups.grid, ...groups.placing] },
    { heading: "Season and filling", controls: [...groups.planting, ...groups.filling] },
    {
      heading: "Tank and line",
      controls: [...groups.roof, ...groups.tank, ...groups.outletHeight, ...groups.tube, ...groups.main],
    },
    { heading: "Soil", controls: [...groups.soil, ...groups.start] },
    { heading: "Pot", controls: [potSize, ...groups.pot, ...groups.wall] },
    {
      heading: "Plants and ground",
      controls: [...groups.between, ...groups.crop, ...groups.growth, ...groups.sowing],
    },
    { heading: "Weather", controls: groups.wholeYear },
  ],
  sections: [
    { heading: "The plan in brief", onPaper: true, content: [brief] },
    {
      heading: "Through the season",
      onPaper: true,
      content: [
        season,
        "Each pot’s share at a filling is what it has given since the last one, in an average year of that month. The valve’s minutes are for a tank as full as it is in half of the years in the middle of the month: it takes longer where the water stands lower, and a dash says that not every pot fills. Look into a pot before you trust the valve’s minutes, and note what you find.",
        tankPicture,
      ],
    },
    { heading: "Marking out", onPaper: true, content: [paper] },
    { heading: "What to buy", onPaper: true, content: [shopping, lineParts] },
    { heading: "Before you start", onPaper: true, content: beforeYouStart },
    {
      heading: "Where each number comes from",
      content: [
        "This page works nothing out that another does not: “Where do I sow?”, “How far apart do the pots go?”, “Where does each pot go?”, “When do I refill?”, “Does the line fill every pot?” and “Will the tank last?” tell how, and how sure each number is. Change anything here or there: all pages share the plan.",
        ...explained("sowing band", "refill", "easy water"),
      ],
    },
  ],
  limits: [
    "Every number is a computed one, for soil, pots and weather as typed: soils of one name and walls that look alike differ severalfold. Dig beside the first pot and look before you buy the rest.",
    "The bed that a page first shows is invented, and so is its weather unless you type your own.",
    ...cautions,
    ...lineCautions,
  ],
});
