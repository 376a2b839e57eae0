import {
  capacityOf,
  changedBeds,
  changeProblems,
  changesOf,
  dripHelp,
  needsOf,
  outlookOf,
  rainCapacity,
  reliabilityGrid,
  savedBeside,
  seasonSupply,
  seasonWater,
  unsizedSupply,
  usableOf,
} from "../../../model/public/advice.ts";
import { DAYS_OF_YEAR, entry, MONTHS, type Month, monthName } from "../../../model/public/plan.ts";
import { formatBoth, fromModel, unitOf } from "../../../model/public/units.ts";
import { crops } from "../../../reference-data/load.ts";
import { drawTank } from "../../figures/tankFigure.ts";
import type { ChoiceControl, Settings } from "../../form/controlTypes.ts";
import * as groups from "../../form/planControls.ts";
import { potSize } from "../../form/potSize.ts";
import { type Block, defineNotebook, type Figure } from "../../notebook/notebook.ts";
import { askingBed, suppliedBed, yearsOfWeather } from "../../notebook/seasonCells.ts";
import { type Column, tableOf } from "../../notebook/tables.ts";
import { derive, picked, rested, solution, source } from "../../runtime/cells.ts";
import { plan, units } from "../../runtime/sources.ts";
import { cropName, soilName } from "../../words/planWords.ts";
import { answerSentence, weatherWords } from "../../words/tankWords.ts";
import { litresWords, shareWords } from "../../words/waterWords.ts";
import { cautions, flowEquation, meanSoil } from "../../words/words.ts";
import { changesTable } from "./changesTable.ts";
import { drawDryMonths } from "./dryFigure.ts";
import { drawSizes, LINES } from "./sizesFigure.ts";
import { dripWords, monthTable, releaseTable, savingsTable, wateringTable, yearTable } from "./tables.ts";

const wantedYears = source<string>("wantedYears");
const otherCrop = source<string>("otherCrop");

const outlook = derive({ suppliedBed, yearsOfWeather }, ({ suppliedBed, yearsOfWeather: { isRecorded } }) =>
  outlookOf(suppliedBed, isRecorded),
);

const needs = rested(
  derive({ suppliedBed, wantedYears }, (inputs) => inputs),
  ({ suppliedBed, wantedYears }) => needsOf(suppliedBed, Number(wantedYears)),
);

const answer = derive(
  { outlook, suppliedBed, needs, wantedYears, units },
  ({ outlook, suppliedBed, needs, wantedYears, units }) => {
    const isKnown = needs.of === suppliedBed && needs.share === Number(wantedYears);
    return answerSentence(outlook, isKnown ? needs : null, units);
  },
);

const picture = derive({ outlook, suppliedBed, units }, ({ outlook, suppliedBed: { years }, units }): Figure => {
  const { plan, season } = outlook;
  const capacity = usableOf(plan);
  const full = `${litresWords(capacity, units)}${capacity < capacityOf(plan) ? " above the tubes’ ends" : ""} when full`;
  return {
    kind: "figure",
    name: "tank-through-the-year",
    caption: `Water in the ${plan.spareTanks ? "tanks" : "tank"} (${full}) through the year, in ${weatherWords(outlook)}: the line is reached or passed in half of the years, the dashed one in nine of ten, and the pale band holds eight of ten. Where the lines lie at the bottom within the season of ${cropName(plan)}, the pots go short.`,
    draw: (stage) => drawTank({ years, capacity, season }, `How full the ${full} tank is through the year`, stage),
  };
});

const dryPicture = derive({ outlook }, ({ outlook }): Figure => {
  const { shortMonths, plan } = outlook;
  const shareIn = (month: Month) => shortMonths[month] ?? 0;
  const worst = MONTHS.reduce((worst, month) => (shareIn(month) > shareIn(worst) ? month : worst));
  return {
    kind: "figure",
    name: "chance-of-running-dry",
    caption: `In what share of ${weatherWords(outlook)} the pots of ${cropName(plan)} go short of the tank’s water on a day or more of each month: ${shareIn(worst) === 0 ? "in none, in any month" : `most often in ${monthName(worst)}`}.`,
    draw: (stage) => drawDryMonths(shortMonths, "Share of years in which the pots go short, by month", stage),
  };
});

/** All that the picture of sizes rests on beside the bed. */
const unsized = picked({ plan }, ({ plan }) => unsizedSupply(plan));

const changes = solution(
  derive({ askingBed, otherCrop }, ({ askingBed, otherCrop }) => {
    const changes = changesOf(askingBed.plan, otherCrop);
    return { of: { bed: askingBed, changes }, problems: changeProblems(changes), isCoarseEnough: true };
  }),
);

const sizes = rested(
  derive({ askingBed, unsized }, (inputs) => inputs),
  ({ askingBed: { plan, asked }, unsized }) => reliabilityGrid({ ...unsized, pot: plan.pot }, asked),
);

const sizesPicture = derive({ sizes, outlook, units }, ({ sizes, outlook, units }): Figure => {
  const { roof, tank } = outlook.plan;
  const figure = { grid: sizes, own: { roofArea: roof.area, litres: tank.litres }, units };
  const label = "Share of years in which the bed is carried, by roof area and tank volume";
  return {
    kind: "figure",
    name: "roof-and-tank",
    caption: `In how many of 100 years a roof and a tank carry the bed: lines for ${LINES.map((line) => 100 * line).join(", ")} of 100, deeper water where more. To the right a larger roof, upward a larger tank; where a line runs upright the roof is what lacks, where it runs level the tank. The star is yours.`,
    draw: (stage) => drawSizes(figure, label, stage),
  };
});

const sizesTable = derive({ sizes, units }, ({ sizes: { roofs, tanks, share }, units }) => {
  const caption = "Years of 100 in which the bed is carried: a row for each tank, a column for each roof";
  const roofColumn = (roof: number, column: number): Column<number> => [
    formatBoth(Number(roof.toPrecision(2)), "area", units),
    (_, row) => 100 * entry(share, row * roofs.length + column),
    0,
  ];
  return tableOf("roof-and-tank", caption, tanks, [
    [`tank (${unitOf("volume", units)})`, (litres) => fromModel(litres, "volume", units), 0],
    ...roofs.map(roofColumn),
  ]);
});

const months = derive({ askingBed, outlook, units }, ({ askingBed, outlook, units }): Block[] => [
  monthTable(askingBed, outlook, units),
  yearTable(outlook, units),
]);

const orderWords = derive(
  {
    order: rested(suppliedBed, function* ({ plan, asked, supply }) {
      const perYear = ({ totals, stored }: typeof supply) => totals.supplied / (stored.length / DAYS_OF_YEAR);
      return { early: perYear(seasonSupply(plan, asked, { useComes: "before spilling" })), late: perYear(supply) };
    }),
    units,
  },
  ({ order: { early, late }, units }) =>
    `Within a day nobody knows whether the pots are filled before it rains or after. Here they are filled from what stood in the tank that morning; the other order gives them ${litresWords(early, units)} a year in place of ${litresWords(late, units)}. In monthly steps the two differ by a third in the example of our tests, which is why the reckoning goes day by day.`,
);

const changed = rested(
  derive({ plan, changes, wantedYears }, (inputs) => inputs),
  ({ plan, changes: { of, runs }, wantedYears }) =>
    changedBeds({ ...of, runs, plan, wantedShare: Number(wantedYears) }),
);

const changesCell = derive({ changed, units }, ({ changed, units }) => changesTable(changed, units));

const watering = derive({ suppliedBed, units }, ({ suppliedBed: { plan, asked }, units }): Block[] => {
  const water = seasonWater(plan, asked.days, asked.pots);
  const { least, most } = savedBeside(water.pots, water.surface);
  const verdict =
    least > 0
      ? `these pots take ${Math.round(100 * least)} to ${Math.round(100 * most)} % less than watering the surface`
      : most < 0
        ? `these pots take more than watering the surface, for what they give beyond the plants’ thirst sinks away`
        : `these pots take between ${Math.round(-100 * least)} % more and ${Math.round(100 * most)} % less than watering the surface, by how well that is done`;
  return [
    `In your ${soilName({ ...plan, units })}, filled as you say, ${verdict}. Plants want ${litresWords(water.wanted, units)} in an average season, of which rain that the bed keeps brings ${litresWords(water.fromRain, units)}; the pots give ${litresWords(water.pots, units)}, whether plants want it or not. Filling later, or fewer pots, brings the two nearer: see what would change it.`,
    wateringTable(water, units),
    "For the other two ways the crop’s water use with commonly watered soil (FAO-56, Kc), less the same rain, is divided by published application efficiencies: 0.5 to 0.8 for watering the surface and 0.7 to 0.95 for drip (Howell 2003, from memory; FAO’s training manual gives 0.6 and 0.9). A hose in a careful hand lies anywhere in that range.",
    savingsTable(),
    "Those reports compare their own pots, soils and furrows; nothing here is fitted to them.",
  ];
});

const drip = derive({ suppliedBed, outlook, units }, ({ suppliedBed: { plan, asked }, outlook, units }) =>
  dripWords(dripHelp(plan, asked.days, { pots: asked.pots, shortDays: outlook.shortDays }), units),
);

const release = derive({ askingBed, units }, ({ askingBed: { release }, units }) => releaseTable(release, units));

const rainWords = derive(
  { askingBed, units },
  ({ askingBed: { plan }, units }) =>
    `Rain on the bed goes into a store of at most ${formatBoth(rainCapacity(plan), "rain", units)}, the water that the full-grown roots’ depth of your ${soilName({ ...plan, units })} holds for plants to use freely (FAO-56, eqs. 82 and 83); more drains away. The air takes from it through the mulch, roots take from it as deep as they reach, and what plants then lack is for the pots. Rain on a lid counts for nothing.`,
);

const wantedControl: ChoiceControl = {
  kind: "choice",
  field: "wantedYears",
  label: "The bed should be carried in",
  style: "radio",
  options: [0.8, 0.9, 0.95].map((share) => ({ value: String(share), label: shareWords(share) })),
  cell: wantedYears,
  initial: "0.9",
};

const otherCropControl: ChoiceControl = {
  kind: "choice",
  field: "otherCrop",
  label: "Another crop to compare with",
  style: "select",
  options: crops().rows.map(({ name }) => ({ value: name, label: name })),
  cell: otherCrop,
  initial: "green bean",
};

/** How high its water stands matters where the air takes from it. */
const bodyControls = groups.tankBody.map((control) =>
  control.field === "tank.waterHeight"
    ? { ...control, shownWhen: (settings: Settings) => settings["tank.lid"] === "no" }
    : control,
);

/** A season goes through all stages of its plants, and no water is given by hand but to the tank. */
const seasonGroundControls = groups.ground.filter(
  ({ field }) => !["plantStage", "spacing", "potGrid"].includes(field) && !field.startsWith("handWatering"),
);

export const notebook = defineNotebook({
  name: "will-the-tank-last",
  question: "Will the tank last?",
  answer,
  picture,
  basis: "Worked out at the quick setting, within 1.5 % of the finer one.",
  controls: [
    { heading: "Roof and tank", underPicture: true, controls: [...groups.roof, ...groups.tank, wantedControl] },
    { heading: "Roof and tank, more closely", controls: [...groups.runoff, ...bodyControls] },
    { heading: "Season", controls: [...groups.planting, ...groups.filling, otherCropControl] },
    { heading: "Crop", controls: [...groups.crop.filter(({ field }) => field !== "rootDepth"), ...groups.growth] },
    { heading: "Bed", controls: [...groups.outline, ...groups.grid, ...seasonGroundControls] },
    { heading: "Weather", controls: groups.wholeYear.filter(({ field }) => field !== "month") },
    { heading: "Soil", controls: [...groups.soil, ...groups.bedMix] },
    { heading: "Pot", controls: [potSize, ...groups.pot, ...groups.wall] },
  ],
  sections: [
    { heading: "When it runs dry", underPicture: true, content: [dryPicture] },
    {
      heading: "How large a roof, how large a tank",
      content: [
        sizesPicture,
        "A tank carries the winter’s rain into the dry months: in a climate with dry summers the tank decides, and a larger roof only fills it sooner. Under a lid, doubling either never makes things worse; a wider tank that stands open loses more to the air.",
      ],
    },
    { heading: "Month by month", content: [months] },
    {
      heading: "What would change it",
      content: [
        changesCell,
        "Each row changes one thing and leaves the rest. A pot in soil that draws little more when plants are thirsty (see how it was worked out) gives much the same with mulch and without: most of it spreads or sinks. Where the least thirst met falls below 90 %, the plants suffer even while the tank lasts.",
      ],
    },
    { heading: "Pots, surface watering and drip", content: [watering] },
    { heading: "Drip as a help", content: [drip] },
    {
      heading: "How it was worked out",
      content: [
        "For four months of the season, or all where there are fewer, one pot and its ground, with plants of each month’s age under its mean demand and no rain, are followed for three weeks of your refills, of which the last twelve days or so count. One run more has nothing thirsty in it. From these runs a filled pot gives so much a day by itself, and so much more for each litre that plants lack.",
        release,
        flowEquation,
        rainWords,
        "The demand is the reference evapotranspiration of FAO-56, by Penman–Monteith where your months or your record know humidity, wind and sunshine, else by Hargreaves from temperatures alone, times the basal crop coefficient of the plants’ age.",
        "Weather by chance: wet and dry days follow each other by a two-state chain (Richardson 1981), whose chances follow from the month’s days with rain, and the rain of a wet day has a gamma distribution (Geng, Penning de Vries & Supit 1986); all three from memory. The draw is the same for everyone. Five years or more of a record of your own are used as they are.",
        "The roof gives its area times the rain, less the first flush after each dry day, times the share that runs off. A tank that is full overflows into the next, or is lost. The pots are filled on their days from what the tank holds, each getting its part.",
        orderWords,
        sizesTable,
      ],
    },
  ],
  limits: [
    "Real years differ more from each other than years drawn by chance: droughts that last for seasons do not come out of month means. Where dry years come in runs, plan for a larger share of years, or bring a record.",
    "How a pot’s giving follows the day’s thirst is taken as a straight line between no thirst and the month’s mean; on a hot day it gives a little less than that.",
    "Soil that rain has wetted draws less from a pot even where nothing is thirsty; that saving is left out.",
    "What runs over the rims of pots that are full first, while the last ones fill, is left out; “Does the line fill every pot?” tells how much it is, and floats save it. Tank water below the tubes’ ends is not counted, for it never runs to a pot.",
    "The share that runs off a roof is a handbook’s: 0.8 to 0.95 for metal and tile, less for others.",
    "Some parts of the world forbid or limit the collecting of rain: ask locally.",
    "The bed that a page first shows is invented, and so is its weather unless you type your own.",
    meanSoil,
    "A litre weighs a kilogram, a US gallon 8.3 pounds: a full tank needs firm, level ground and must not be able to tip. Work on stands and foundations belongs in licensed hands where your code asks for it.",
    "Tanks need a lid that children and animals cannot lift, and screens against mosquitoes on every opening; many insects need only days.",
    "Roof water on food: some advisers accept it if the first flush is let go and it is given to the soil, not to leaves and not just before harvest; others advise against it on vegetables. Roofs with zinc strips, moss killers, treated wood or asphalt are best kept for beds without food.",
    "Topping up from a hose: keep its end above the tank’s brim, or use the device that your local code asks for, so that tank water can never be drawn into drinking water. Never drink from tank, pots or line.",
    "Frost bursts full tanks, taps and lines: empty them before it comes.",
    ...cautions,
  ],
});
