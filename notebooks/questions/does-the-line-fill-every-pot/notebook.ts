import {
  type FilledLine,
  filledLine,
  heightlessBed,
  type KnownLeast,
  knownLeast,
  LAMINAR_UP_TO,
  linedBed,
  TURBULENT_FROM,
  triedChanges,
  watchedOutcome,
  watchedProblem,
} from "../../../model/public/advice.ts";
import { potLitres } from "../../../model/public/flow.ts";
import type { UnitSystem } from "../../../model/public/units.ts";
import * as groups from "../../form/planControls.ts";
import { potSize } from "../../form/potSize.ts";
import { ground } from "../../notebook/ground.ts";
import { type Block, defineNotebook, type Figure } from "../../notebook/notebook.ts";
import { cutTable, fittingTable, tubeTable } from "../../notebook/partsTables.ts";
import { derive, picked, rested, solution } from "../../runtime/cells.ts";
import { plan, units } from "../../runtime/sources.ts";
import { answerSentence, evennessWords, lineCautions, overflowWords, valveWords } from "../../words/lineWords.ts";
import { cautions } from "../../words/words.ts";
import { drawFill } from "./fillFigure.ts";
import { lineLimits, method, paperCaution } from "./howWorkedOut.ts";
import { drawLine } from "./lineFigure.ts";
import { lineRefill, refillBlocks } from "./refillBlocks.ts";
import { changesTable, potTable } from "./tables.ts";
import { lossBlocks, profileBlocks } from "./wayBlocks.ts";

const line = picked({ plan }, ({ plan }) => linedBed(plan));
const filled = derive({ line }, ({ line }) => filledLine(line));

const heightless = picked({ plan }, ({ plan }) => heightlessBed(plan));
const least = rested(heightless, (of): Generator<void, KnownLeast | null> => knownLeast(of), null);
const changes = rested(line, triedChanges);

const answer = derive({ filled, least, heightless, units }, ({ filled, least, heightless, units }) =>
  answerSentence(filled, least?.of === heightless ? least.least : null, units),
);

const picture = derive({ filled, units }, ({ filled, units }) => lineDrawing("line", filled, units));
const onPaper = derive({ filled, units }, ({ filled, units }) => lineDrawing("line-on-paper", filled, units));

function lineDrawing(name: string, filled: FilledLine, units: UnitSystem): Figure {
  const { plan, pots, filling } = filled;
  const joints = plan.line.joints ? " Pale bands are the tubes between pots." : "";
  const label = `The line from the tank to ${pots.length} pots; the slowest is pot ${filling.slowest + 1}`;
  return {
    kind: "figure",
    name,
    caption: `The line over the bed, seen from above and to scale, but for the tank and what is left out of the main at //. Pipes are drawn the wider the more water runs in them at first, and the bold number at each pot tells the minutes until it is full: the later, the darker.${joints} ${valveWords(filled)}`,
    draw: (stage) => drawLine(filled, units, label, stage),
  };
}

const fillPicture = derive({ filled }, ({ filled }): Figure => {
  const capacity = potLitres(filled.plan.pot);
  const label = "How full three of the pots and the tank are, against minutes since the valve was opened";
  return {
    kind: "figure",
    name: "filling",
    caption:
      "How full the first, a middle and the last pot are, and the tank, from the opening of the valve until the last pot is full or nothing more can be gained. The nearer the three lines lie, the evener the line gives.",
    draw: (stage) => drawFill(filled, capacity, label, stage),
  };
});

const potNumbers = derive({ filled, units }, ({ filled, units }): Block[] => [
  potTable(filled, units),
  evennessWords(filled),
  overflowWords(filled, units),
]);

const losses = derive({ filled, units }, ({ filled, units }): Block[] => lossBlocks(filled, units));
const profile = derive({ filled, units }, ({ filled, units }): Block[] => profileBlocks(filled, units));

const help = derive({ changes, units }, ({ changes, units }) => changesTable(changes, units));

const refillRun = solution(
  derive({ ground }, ({ ground }) => ({ of: ground, problems: { own: watchedProblem(ground) }, isCoarseEnough: true })),
);
const refills = rested(
  derive({ line, refillRun }, (inputs) => inputs),
  ({ line, refillRun: { of, runs } }) => lineRefill(line, of, watchedOutcome(of, runs.own).litres),
);
const refill = derive({ refills, units }, ({ refills, units }): Block[] => refillBlocks(refills, units));

const parts = derive({ filled, units }, ({ filled, units }): Block[] => [
  tubeTable(filled, units),
  cutTable(filled, units),
  fittingTable(filled, units),
]);

const waterBody = groups.tankBody.filter(({ field }) => field === "tank.waterHeight");
const potPlacing = groups.placing.filter(({ field }) => field !== "plantSpacing");

export const notebook = defineNotebook({
  name: "does-the-line-fill-every-pot",
  question: "Does the line fill every pot?",
  answer,
  picture,
  controls: [
    { heading: "Tank and small tubes", underPicture: true, controls: [...groups.outletHeight, ...groups.tube] },
    { heading: "Tank", controls: [...groups.tank, ...waterBody] },
    { heading: "Main and rows", controls: groups.main },
    { heading: "Ends of the tubes", controls: groups.end },
    { heading: "Bed", controls: [...groups.outline, ...groups.grid, ...potPlacing] },
    { heading: "Pot and filling", controls: [potSize, ...groups.pot, ...groups.wall, ...groups.filling] },
    { heading: "Soil", controls: [...groups.soil, ...groups.start] },
  ],
  sections: [
    { heading: "How the pots fill", underPicture: true, content: [fillPicture, potNumbers] },
    { heading: "Where the head is lost", content: [losses] },
    { heading: "Heights along the way", content: [profile] },
    {
      heading: "What would help",
      content: [
        help,
        "Each row changes one thing and leaves the rest. Wider small tubes fill the first pots sooner and may fill the last ones later, for then the pipes before them lose more; wider pipes and an open valve serve all pots alike.",
      ],
    },
    { heading: "What a refill takes", content: [refill] },
    {
      heading: "Parts and cuts",
      onPaper: true,
      content: [
        onPaper,
        parts,
        "Measure along the ground before you cut. Lay all the pipes out, and cut the small tubes last. Names of pipe sizes are not their bores: ask for the inside diameter.",
        paperCaution,
      ],
    },
    { heading: "How it was worked out", content: method(LAMINAR_UP_TO, TURBULENT_FROM) },
  ],
  limits: [...lineLimits, ...cautions, ...lineCautions],
});
