import { range } from "d3-array";
import {
  driesOut,
  edgeSeries,
  HAND,
  type RulerMark,
  rulerOrigin,
  type Series,
  type SowingAdvice,
  sowingAdvice,
  sowingDays,
  sowingRuler,
} from "../../../model/public/advice.ts";
import { planEdges, planToProblem, plantedDepth, type Run, soilAt } from "../../../model/public/flow.ts";
import { first, last, type Plan } from "../../../model/public/plan.ts";
import {
  bothSystems,
  format,
  formatBoth,
  formatSuction,
  fromModel,
  type UnitSystem,
  unitOf,
} from "../../../model/public/units.ts";
import { seeds, sourceOf } from "../../../reference-data/load.ts";
import { type Control, isShown } from "../../form/controlTypes.ts";
import * as groups from "../../form/planControls.ts";
import { potSize } from "../../form/potSize.ts";
import { comparedSoils, inEach, inSoil, isCompared } from "../../notebook/comparedSoils.ts";
import { type Block, defineNotebook, type Figure } from "../../notebook/notebook.ts";
import { type Column, tableOf } from "../../notebook/tables.ts";
import { derive, solution } from "../../runtime/cells.ts";
import { runSentence } from "../../runtime/runs.ts";
import { plan, units } from "../../runtime/sources.ts";
import { cropName, dayWords, soilName } from "../../words/planWords.ts";
import { cautions, explained, meanSoil, modelLimits } from "../../words/words.ts";
import { drawRuler, rulerDistances } from "./rulerFigure.ts";
import { answerSentence, barWords, handVerdict } from "./sowingWords.ts";
import { drawTime } from "./timeFigure.ts";

const own = solution(derive({ plan }, ({ plan }) => ({ of: plan, problems: { own: planToProblem(plan) } })));

const compared = solution(
  derive({ plan }, ({ plan }) => ({ of: plan, problems: inEach((name) => planToProblem(inSoil(plan, name))) })),
);

/** One soil under the plan that its run belongs to. */
interface Place {
  name: string;
  plan: Plan;
  run: Run;
  advice: SowingAdvice;
  /** Settings have changed since: its own run is still being worked out. */
  isOutdated: boolean;
}

/** The person's own soil comes first. */
const places = derive({ own, compared }, ({ own, compared }): [Place, ...Place[]] => [
  placeOf(`your ${soilName(own.of)}`, own.of, own.runs.own, false),
  ...comparedSoils
    .filter((name) => !isCompared(own.of) || name !== own.of.soil.className)
    .map((name) => placeOf(name, inSoil(compared.of, name), compared.runs[name], compared.of !== own.of)),
]);

function placeOf(name: string, plan: Plan, run: Run, isOutdated: boolean): Place {
  return { name, plan, run, advice: sowingAdvice(plan, run), isOutdated };
}

const answer = derive({ own, units }, ({ own: { of, runs }, units }) => answerSentence(of, runs.own, units));

const picture = derive({ places, units }, ({ places, units }): Figure => {
  const { plan, run } = places[0];
  const bars = places.map(({ name, plan, run, advice, isOutdated }) => ({
    name,
    words: barWords(advice, units),
    advice,
    marks: sowingRuler(plan, run, rulerDistances(units)),
    isOutdated,
  }));
  const act = plan.sowing.kind === "seed" ? "sow" : "plant";
  const label = `Sowing bands on a ruler from the pot’s wall: ${bars.map(({ name, words }) => `${name}, ${words}`).join("; ")}`;
  return {
    kind: "figure",
    name: "sowing-ruler",
    caption: `Where to ${act} ${cropName(plan)} around the same pot in different soils, ${depthWords(plan, units)}, measured along the ground from the pot’s wall. Days count from the first filling; a dash means never within ${dayWords(lastDayOfRun(run))}. Each bar is for the day that stands over it.`,
    draw: (stage) => drawRuler(bars, `${act} here`, units, label, stage),
  };
});

const depthWords = (plan: Plan, units: UnitSystem) =>
  `${plan.sowing.kind === "seed" ? "seeds" : "root balls"} ${formatBoth(plantedDepth(plan), "length", units)} deep`;

const lastDayOfRun = ({ history }: Run) => last(history.day);

const throughTime = derive({ own, units }, ({ own: { of, runs }, units }): Figure => {
  const run = runs.own;
  const advice = sowingAdvice(of, run);
  const label = `Distance that moist and soaked soil reach from the pot’s wall in ${soilName(of)}, against days`;
  const figure = {
    moist: fromWall(of, edgeSeries(of, run, "sprouting")),
    soaked: fromWall(of, edgeSeries(of, run, "soaked")),
    advice,
    handWateringDays: of.sowing.kind === "starter" ? of.sowing.handWateringDays : null,
    refillDays: refillDays(of, lastDayOfRun(run)),
    units,
  };
  return {
    kind: "figure",
    name: "edges-through-time",
    caption: `How far from the pot’s wall soil in your ${soilName(of)} is moist enough, and how far it is soaked, ${depthWords(of, units)}. ${bandCaption(of, run, advice)}`,
    draw: (stage) => drawTime(figure, label, stage),
  };
});

function bandCaption(plan: Plan, run: Run, advice: SowingAdvice): string {
  if (advice.kind === "nowhere") return "No distance lies between the two lines for long enough.";
  if (advice.kind === "everywhere") return "All of it was moist enough before the pot was filled.";
  const why = driesOut(plan, run, advice.band)
    ? "its outer limit is where moist soil draws back to"
    : "its outer limit is how far moist soil has come by then";
  return `The band lies between them from planting until ${plan.sowing.kind === "seed" ? "seedlings are up" : "roots have taken hold"}; ${why}.`;
}

function fromWall(plan: Plan, { day, value }: Series): Series {
  return { day, value: value.map((r) => r - rulerOrigin(plan.pot)) };
}

function refillDays({ filling }: Plan, lastDay: number): number[] {
  return filling.kind === "every" ? range(0, lastDay, filling.days) : filling.kind === "once" ? [0] : [];
}

const rulerTable = derive({ own, units }, ({ own: { of, runs }, units }) => {
  const distance = (system: UnitSystem, digits: number): Column<RulerMark> => [
    `distance (${unitOf("length", system)})`,
    (mark) => fromModel(mark.distance, "length", system),
    digits,
  ];
  const reached = ({ ballReachedDay }: RulerMark) => ballReachedDay ?? "never";
  const ball: Column<RulerMark> = ["near side of the root ball reached (day)", reached, 1];
  const [system, other] = bothSystems(units);
  const caption = `Distances from the pot’s wall in your ${soilName(of)}, ${depthWords(of, units)}`;
  return tableOf("distances", caption, sowingRuler(of, runs.own, rulerDistances(units)), [
    distance(system, 0),
    distance(other, 1),
    ["first moist enough (day)", ({ firstMoistDay }) => firstMoistDay ?? "never", 1],
    ["moist enough for good (day)", ({ lastingMoistDay }) => lastingMoistDay ?? "never", 1],
    ...(of.sowing.kind === "starter" ? [ball] : []),
    ["soaked (days in all)", ({ soakedDays }) => soakedDays, 1],
  ]);
});

const soilTable = derive({ places, units }, ({ places, units }) =>
  tableOf("sowing-bands", "The sowing band in each soil, from the pot’s wall", places, [
    ["soil", ({ name }) => name],
    ...bandColumns("sowing day", units),
  ]),
);

const dayTable = derive({ own, units }, ({ own: { of, runs }, units }) => {
  const days = sowingDays(of, runs.own).filter((day) => day <= 7 || day % 7 === 0);
  const bands = days.map((sowingDay) => ({ advice: sowingAdvice({ ...of, sowingDay }, runs.own) }));
  const caption = `The band in your ${soilName(of)} by the day of ${of.sowing.kind === "seed" ? "sowing" : "planting"}`;
  return tableOf("sowing-days", caption, bands, bandColumns("day", units));
});

function bandColumns(day: string, units: UnitSystem): Column<{ advice: SowingAdvice }>[] {
  const unit = unitOf("length", units);
  const length = (cm: number) => fromModel(cm, "length", units);
  const limits = (advice: SowingAdvice): [from: number | string, to: number | string] => {
    if (advice.kind === "nowhere") return ["none", "none"];
    return advice.kind === "band"
      ? [length(advice.band.inner), length(advice.band.outer)]
      : [length(advice.innerLimit), "any"];
  };
  return [
    [day, ({ advice }) => (advice.kind === "band" ? advice.band : advice).sowingDay, 1],
    [`from (${unit})`, ({ advice }) => limits(advice)[0], 1],
    [`to (${unit})`, ({ advice }) => limits(advice)[1], 1],
    ["note", ({ advice }) => noteOn(advice)],
  ];
}

function noteOn(advice: SowingAdvice): string {
  if (advice.kind === "everywhere") return "moist from the start";
  if (advice.kind === "nowhere") return advice.reason === "dry" ? "too dry" : "too wet";
  return advice.band.isHandWide ? "a hand wide or more" : "narrower than a hand";
}

const markAt = (plan: Plan, run: Run, distance: number) => first(sowingRuler(plan, run, [distance]));

const outside = derive({ own }, ({ own: { of, runs } }): Block[] => {
  const [atWall, atHand] = [markAt(of, runs.own, 0), markAt(of, runs.own, HAND)];
  const isSeed = of.sowing.kind === "seed";
  const soaked =
    atWall.soakedDays > 0.05
      ? `In your ${soilName(of)} the soil at the wall is soaked for ${dayWords(atWall.soakedDays)} of the ${dayWords(lastDayOfRun(runs.own))} looked at.`
      : `In your ${soilName(of)} the soil at the wall is never soaked at that depth, so nothing is lost by ${isSeed ? "sowing" : "planting"} close to it.`;
  const moist =
    atHand.firstMoistDay === null
      ? "A hand’s width from the wall it never gets moist enough."
      : `A hand’s width from the wall it is first moist enough on day ${atHand.firstMoistDay.toFixed(1)}.`;
  return [
    `Too near, soil is wetter than a suction of ${formatSuction(of.crop.tooWetHead)}: water fills the pores that hold air, and seeds rot and young roots suffocate. ${soaked}`,
    `Too far, ${isSeed ? `soil at sowing depth is drier than ${formatSuction(planEdges(of).sprouting.head)}: seeds do not swell, or swell and die when it dries again` : `the root ball sits in soil drier than ${formatSuction(of.crop.easyWaterHead)}, from which ${cropName(of)} no longer drinks freely`}. ${moist}`,
    "Too shallow, soil also dries from above, which this model leaves out; a mulch helps.",
  ];
});

const planting = derive({ own, units }, ({ own: { of, runs }, units }): Block[] => {
  const { sowing } = of;
  if (sowing.kind === "seed")
    return [
      `Seeds need moist soil at their own depth for all of the ${dayWords(sowing.emergenceDays)} until they are up; they have no roots to fetch water. The band must hold for every hour of it, refills included.`,
      "Starters bring a root ball, so the soil must suit them deeper down, and watering by hand carries them through their first days. Choose starters above to see their band.",
    ];
  const radius = formatBoth(sowing.rootBallRadius, "length", units);
  return [
    `A root ball of ${radius} radius is judged at ${formatBoth(plantedDepth(of), "length", units)} depth, by its middle; the distance is measured along the ground.`,
    `Water it by hand for the first ${dayWords(sowing.handWateringDays)}, until its roots reach the soil that the pot keeps wet; from then on, for a week (our own choice), its middle must stay in soil moister than ${formatSuction(of.crop.easyWaterHead)}. ${ballWords(of, runs.own, units)}`,
  ];
});

/** When the pot's water reaches the root balls farthest out. */
function ballWords(plan: Plan, run: Run, units: UnitSystem): string {
  const advice = sowingAdvice(plan, run);
  if (advice.kind !== "band") return "";
  const { outer } = advice.band;
  const { ballReachedDay } = markAt(plan, run, outer);
  if (ballReachedDay === null) return "";
  return `The pot’s water comes to the near side of a root ball set ${formatBoth(outer, "length", units)} out on day ${ballReachedDay.toFixed(1)}.`;
}

const practice = derive({ places, units }, ({ places, units }): Block[] => [
  `Common practice, no source: sow within about a hand’s width of the wall, here taken as ${formatBoth(HAND, "length", units)}.`,
  ...places.filter(({ isOutdated }) => !isOutdated).map(({ name, advice }) => handVerdict(name, advice, units)),
  "Where the model reaches farther, it looks at bare, covered soil: sun and growing roots take water that it does not know of. The rule is the safer one there. Where it keeps off the wall, fine pores near a well-filled pot hold little air; a rule made for one soil cannot know that.",
]);

const workings = derive({ own, units }, ({ own: { of, runs, accuracy }, units }): Block[] => {
  const { Ks } = soilAt(of, plantedDepth(of));
  const edges = planEdges(of);
  const moist =
    of.sowing.kind === "seed"
      ? `Moist enough is a suction up to ${formatSuction(edges.sprouting.head)} at sowing depth${seedSource(of)}.`
      : `Moist enough is easy water for ${cropName(of)}, a suction up to ${formatSuction(edges.sprouting.head)}, at the depth of the root ball.`;
  return [
    `${moist} Soaked is a suction below ${formatSuction(edges.soaked.head)}. The soil starts at ${formatSuction(of.startHead)} and passes ${format(Ks, "conductivity", units)} when soaked.`,
    runSentence(of, runs.own, accuracy),
  ];
});

/** Only where the crop's own suction from the table is in use. */
function seedSource({ crop, sowing }: Plan): string {
  const row = seeds().rows.find(({ name }) => name === crop.name);
  if (!row || sowing.kind !== "seed" || Math.abs(sowing.sproutingHead + row.sproutingSuction) > 20) return "";
  const { citation, flag } = sourceOf(seeds(), row, "sproutingSuction");
  return ` (${citation} Value: ${flag})`;
}

/** Easy water decides for starters alone, and most roots lie deeper than anything is planted. */
const plantedCropControls: Control[] = groups.crop
  .filter(({ field }) => field !== "rootDepth")
  .map((control) =>
    control.field === "crop.easyWaterSuctionKPa"
      ? { ...control, shownWhen: (settings) => isShown(control, settings) && settings["sowing.kind"] === "starter" }
      : control,
  );

export const notebook = defineNotebook({
  name: "where-do-i-sow",
  question: "Where do I sow?",
  answer,
  picture,
  controls: [
    { heading: "When", underPicture: true, controls: groups.sowingDay },
    { heading: "Planting", controls: [...groups.sowing, ...groups.horizon] },
    { heading: "Crop", controls: plantedCropControls },
    { heading: "Soil", controls: [...groups.soil, ...groups.bedMix, ...groups.start] },
    { heading: "Filling", controls: groups.filling },
    { heading: "Pot", controls: [potSize, ...groups.pot, ...groups.wall] },
  ],
  sections: [
    { heading: "Between too wet and too dry, day by day", underPicture: true, content: [throughTime] },
    { heading: "Distance by distance", content: [rulerTable] },
    { heading: "What goes wrong outside the band", content: [outside] },
    { heading: "Another day, another soil", content: [dayTable, soilTable, meanSoil] },
    { heading: "Seeds and starters", content: [planting] },
    { heading: "What gardeners do", content: [practice] },
    {
      heading: "How it was worked out",
      content: [
        "The flow of water from the pot is worked out as in “How far does water spread?”. At every step in time it is noted how far from the wall, at planting depth, soil is moist enough and how far it is soaked.",
        "For each possible sowing day, every half day, the band runs from the farthest that soaked soil reaches to the nearest that moist soil draws back to, until seedlings are up or starters have stood a week without watering by hand. Unless you choose a day, the answer is the first day with a band a hand wide; where none is, the day with the widest band.",
        workings,
      ],
    },
    { heading: "Words", content: explained("sowing band", "easy water", "suction", "soil moisture", "refill") },
  ],
  limits: [
    "The top of the soil dries in sun and wind, which is left out: shallow seeds need a mulch or a sprinkle until they are up.",
    ...modelLimits,
    ...cautions,
  ],
});
