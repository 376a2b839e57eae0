import { drawBed } from "../../figures/bedFigure.ts";
import { paperBlocks } from "../../figures/bedOnPaper.ts";
import * as groups from "../../form/planControls.ts";
import { potSize } from "../../form/potSize.ts";
import { laidOutBed, layoutRuns } from "../../notebook/laidOutBed.ts";
import { shoppingTable } from "../../notebook/layoutTables.ts";
import { type Block, defineNotebook, type Figure } from "../../notebook/notebook.ts";
import { derive } from "../../runtime/cells.ts";
import { runSentence } from "../../runtime/runs.ts";
import { units } from "../../runtime/sources.ts";
import { answerSentence, fewerWords, plantWords, reachWords, troubleLines } from "../../words/layoutWords.ts";
import { soilName } from "../../words/planWords.ts";
import { cautions, explained } from "../../words/words.ts";
import { bedHandles } from "./bedHandles.ts";

const answer = derive({ bed: laidOutBed, units }, ({ bed, units }) => answerSentence(bed, units));

const picture = derive({ bed: laidOutBed, units }, ({ bed, units }): Figure => {
  const label = `The bed from above with ${bed.pots.length} pots; easy water reaches ${Math.round(100 * bed.wetShare)} % of it`;
  return {
    kind: "figure",
    name: "bed",
    caption: `Your bed from above, to scale. ${reachWords(bed, units)}; ${plantWords(bed, units)}. A and B are pegs to mark out from.`,
    draw: (stage) => drawBed({ name: "bed", bed, units }, label, stage),
    handles: bedHandles(bed, units),
  };
});

const paper = derive({ bed: laidOutBed, units }, ({ bed, units }) => paperBlocks(bed, units));

const shopping = derive({ bed: laidOutBed, units }, ({ bed, units }) => shoppingTable(bed, units));

const troubles = derive({ bed: laidOutBed, units }, ({ bed, units }): Block[] => {
  const lines = troubleLines(bed, units);
  return lines.length > 0
    ? lines
    : ["Every pot keeps the spacing and the distance from the bed’s edge that the plan asks for."];
});

const most = derive(
  { bed: laidOutBed },
  ({ bed: { pots, most } }) =>
    `The grid is shifted so that it holds as many pots as it can, and then set in the middle: ${pots.length} here. On no grid at all could more than ${most} stand so far apart and so far from the edge (by the densest packing of circles, Thue 1910 and Fejes Tóth 1940, from memory).`,
);

const fewer = derive({ bed: laidOutBed, units }, ({ bed, units }): Block[] => fewerWords(bed, units));

const workings = derive({ own: layoutRuns, units }, ({ own: { of, runs, accuracy }, units }): Block[] => [
  `How far easy water reaches is that of one pot of your ${soilName({ ...of, units })} among others at the plan’s spacing, whose plants drink in the chosen month. The band in which to sow is that of “Where do I sow?”, for bare ground; plants are set in rings in it, as near to each other as they may stand. Where pots have been moved apart, their water does not follow: each keeps the reach that it has at the plan’s spacing.`,
  runSentence({ ...of, units }, runs.living, accuracy),
]);

export const notebook = defineNotebook({
  name: "where-does-each-pot-go",
  question: "Where does each pot go?",
  answer,
  picture,
  controls: [
    { heading: "Pots in the bed", underPicture: true, controls: [...groups.grid, ...groups.placing] },
    { heading: "Bed", controls: groups.outline },
    { heading: "Pot and filling", controls: [potSize, ...groups.pot, ...groups.wall, ...groups.filling] },
    { heading: "Soil", controls: [...groups.soil, ...groups.start] },
    {
      heading: "Plants and ground",
      controls: [...groups.between, ...groups.crop, ...groups.growth],
    },
    { heading: "Sowing", controls: groups.sowing },
    { heading: "Weather", controls: groups.weather },
  ],
  sections: [
    { heading: "Does every pot keep its distance?", underPicture: true, content: [troubles, most] },
    { heading: "Marking out", onPaper: true, content: [paper] },
    {
      heading: "What to buy",
      onPaper: true,
      content: [
        shopping,
        "Before you dig: call the service that marks cables and pipes (in the United States 811), some working days ahead; lines that are your own are yours to find. A full pot is heavy: a litre weighs a kilogram.",
      ],
    },
    { heading: "If you have fewer pots", content: [fewer] },
    { heading: "How it was worked out", content: [workings] },
    { heading: "Words", content: explained("easy water", "sowing band", "refill") },
  ],
  limits: [
    "Circles of easy water are those of pots that stand evenly: at the edge of a bed a pot shares with fewer, and the path beside it drinks too.",
    "Plants are drawn by distance alone: whether one shades another, or its roots drink for two, is left out.",
    "Measure your bed before you trust its drawing: hardly any bed is square.",
    "The bed that a page first shows is invented, and so is its weather unless you type your own.",
    ...cautions,
    "Keep a lid on every pot that children and animals cannot lift and that leaves no gap for mosquitoes.",
  ],
});
