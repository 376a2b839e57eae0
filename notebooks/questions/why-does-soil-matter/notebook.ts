import { descending, range } from "d3-array";
import { planToProblem, type Run, type VanGenuchtenParameters } from "../../../model/public/flow.ts";
import type { Plan } from "../../../model/public/plan.ts";
import { formatBoth, fromModel, suctionKPa, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import { rowNamed, sourceOf, textureClasses } from "../../../reference-data/load.ts";
import type { ChoiceControl, NumberControl } from "../../form/controlTypes.ts";
import * as groups from "../../form/planControls.ts";
import { potSize } from "../../form/potSize.ts";
import { type ComparedSoil, evenGround, inEach, isCompared, meanOf } from "../../notebook/comparedSoils.ts";
import { defineNotebook, type Exercise, type Figure } from "../../notebook/notebook.ts";
import { type Column, tableOf } from "../../notebook/tables.ts";
import { derive, solution, source } from "../../runtime/cells.ts";
import { runSentence } from "../../runtime/runs.ts";
import { plan, units } from "../../runtime/sources.ts";
import { dayWords, soilName } from "../../words/planWords.ts";
import { cautions, explained, flowEquation, listed, modelLimits } from "../../words/words.ts";
import { drawCurvePair } from "./curvesFigure.ts";
import { drawNumbers, publishedRatios } from "./numberFigure.ts";
import { type Entrant, entrant, frontOptions, type Racer, raceTo, sharedLitres, twoFigures } from "./race.ts";
import { drawRace } from "./raceFigure.ts";
import { deeperAnswer, type LeakTrial, leakAnswer, passingAnswer, week, weekOf } from "./workedAnswers.ts";

const lastDay = 14;

/** Closer at first, when the front moves fast: it then goes about equally far from one to the next. */
const frameCount = 48;
const frameDays = range(1, frameCount + 1).map((k) => lastDay * (k / frameCount) ** 2);

/** Wide enough for the most water in sand; fixed, so that nothing jumps. */
const drawnWindow = { radius: 52, depth: 92, above: 20 };

const litres = source<number>("litres");
const pair = source<string>("pair");

const litresControl: NumberControl = {
  kind: "number",
  field: "litres",
  label: "Water given by each pot",
  measure: "volume",
  min: 0.25,
  max: 12,
  step: { metric: 0.25, us: 0.1 },
  plays: true,
  cell: litres,
  initial: 4,
};

const pairControl: ChoiceControl = {
  kind: "choice",
  field: "pair",
  label: "Side by side",
  style: "select",
  options: [
    { value: "sand:clay", label: "sand and clay" },
    { value: "sand:loam", label: "sand and loam" },
    { value: "sand:own", label: "sand and your soil" },
    { value: "own:clay", label: "your soil and clay" },
  ],
  cell: pair,
  initial: "sand:clay",
};

/** The race is between even grounds, so that each shape tells of one soil. */
const evenBed = derive({ plan }, ({ plan }) => evenGround(plan));

const solved = solution(
  derive({ plan: evenBed }, ({ plan }) => ({
    of: plan,
    problems: {
      own: raceProblem(plan, plan.soil.parameters),
      ...inEach((name) => raceProblem(plan, meanOf(name))),
    },
  })),
);

const raceProblem = (plan: Plan, soil: VanGenuchtenParameters) =>
  planToProblem(plan, { ...frontOptions(plan, soil), days: frameDays });

const leaky = solution(
  derive({ plan: evenBed }, ({ plan }) => {
    const leak = (name: "sand" | "clay", times: number) => leakProblem(plan, name, times);
    const problems = { sand1: leak("sand", 1), sand2: leak("sand", 2), clay1: leak("clay", 1), clay2: leak("clay", 2) };
    return { of: plan, problems };
  }),
);

function leakProblem(plan: Plan, name: "sand" | "clay", times: number) {
  const pot = { ...plan.pot, wallConductivity: times * plan.pot.wallConductivity };
  return planToProblem(
    { ...plan, pot, filling: { kind: "float" } },
    { ...frontOptions(plan, meanOf(name)), days: [week] },
  );
}

interface Field {
  of: Plan;
  entrants: Record<ComparedSoil | "own", Entrant>;
}

const field = derive({ solved }, ({ solved: { of, runs } }): Field => {
  const named = (name: ComparedSoil) => entrant(name, name, meanOf(name), runs[name]);
  return {
    of,
    entrants: {
      sand: named("sand"),
      loam: named("loam"),
      clay: named("clay"),
      own: entrant(`your ${soilName(of)}`, "own", of.soil.parameters, runs.own),
    },
  };
});

interface Race {
  of: Plan;
  /** What each pot has given, litres. */
  given: number;
  asked: number;
  racers: Record<keyof Field["entrants"], Racer>;
}

const race = derive({ field, litres }, ({ field: { of, entrants }, litres }): Race => {
  const given = sharedLitres(Object.values(entrants), litres, lastDay);
  const { sand, loam, clay, own } = entrants;
  const at = (each: Entrant) => raceTo(given, of, each);
  return { of, given, asked: litres, racers: { sand: at(sand), loam: at(loam), clay: at(clay), own: at(own) } };
});

function pairOf({ racers }: Race, pair: string): [Racer, Racer] {
  const [left, right] = pair.split(":") as [keyof Race["racers"], keyof Race["racers"]];
  return [racers[left], racers[right]];
}

/** Sand, loam, clay, and the person's own soil where it is none of these. */
const distinct = ({ of, racers: { own, ...three } }: Race): Racer[] =>
  isCompared(of) ? Object.values(three) : [...Object.values(three), own];

const answer = derive({ race, pair, units }, ({ race, pair, units }) =>
  answerSentence(race, pairOf(race, pair), units),
);

function answerSentence(race: Race, [left, right]: [Racer, Racer], units: UnitSystem): string {
  const flat = [left, right].find(({ ratio }) => ratio === 0);
  if (flat)
    return `In ${flat.name} no front shows: it starts nearly soaked, or the pot has given too little; let the soil start drier to compare.`;
  const rest = [left, right].includes(race.racers.own) ? [] : [race.racers.own];
  const shapes = [left, right, ...rest].map(({ name, ratio }) => `${ratio.toFixed(2)} (${name})`);
  return `From the same pot and the same ${formatBoth(race.given, "volume", units)}, water goes ${formatBoth(left.depth, "length", units)} deep in ${left.name} and ${formatBoth(right.depth, "length", units)} in ${right.name}, and the wet soil’s width over its depth is ${listed(shapes)}: wider where fine pores pull it sideways, deeper where weight wins.`;
}

const picture = derive({ race, pair, units }, ({ race, pair, units }): Figure => {
  const [left, right] = pairOf(race, pair);
  const label = `Cross-section through the pot: ${left.name} on the left, ${right.name} on the right, the same water given`;
  const reached = ({ name, day }: Racer) => `${dayWords(day)} in ${name}`;
  const short =
    race.given < race.asked
      ? ` More cannot be compared: in ${dayWords(lastDay)} the pot gives no more in one of the soils.`
      : "";
  return {
    kind: "figure",
    name: "race",
    caption: `The same pot in ${left.name} (left of its axis) and in ${right.name} (right), each when it has given ${formatBoth(race.given, "volume", units)}: after ${reached(left)}, ${reached(right)}. The line is the wetting front: compare how wide and how deep it goes.${short}`,
    draw: (stage) => drawRace({ left, right, pot: race.of.pot, window: drawnWindow, units }, label, stage),
  };
});

const curves = derive({ race, units }, ({ race, units }): Figure => {
  const soils = distinct(race);
  const [sand, clay] = [race.racers.sand, race.racers.clay];
  return {
    kind: "figure",
    name: "soil-curves",
    caption: `Holding water: at a suction of 10 kPa sand has let go of all but ${percentAt(sand)} of water by volume, clay still holds ${percentAt(clay)}. Passing water: soaked, sand passes ${timesFaster(sand, clay, 0)} times as much as clay; at 10 kPa clay passes ${timesFaster(clay, sand, moistHead)} times as much as sand.`,
    draw: (stage) => drawCurvePair(soils, units, stage),
  };
});

/** About 10 kPa. */
const moistHead = -102;
const percentAt = ({ soil }: Racer) => `${Math.round(100 * soil.theta(moistHead))} %`;
const timesFaster = (fast: Racer, slow: Racer, h: number) => twoFigures(fast.soil.K(h) / slow.soil.K(h));

const soilColumn: Column<{ name: string }> = ["soil", ({ name }) => name];

const holdingTable = derive({ race }, ({ race }) =>
  tableOf("holding-water", "Holding water", distinct(race), [
    soilColumn,
    ["driest θr (cm³/cm³)", ({ parameters }) => parameters.thetaR, 3],
    ["soaked θs (cm³/cm³)", ({ parameters }) => parameters.thetaS, 3],
    ["α (1/cm)", ({ parameters }) => parameters.alpha, 3],
    ["n", ({ parameters }) => parameters.n, 2],
  ]),
);

const passingTable = derive({ race, units }, ({ race, units }) => {
  const soaked = `soaked Ks (${unitOf("conductivity", units)})`;
  return tableOf("passing-water", "Passing water", distinct(race), [
    soilColumn,
    [soaked, ({ parameters }) => fromModel(parameters.Ks, "conductivity", units), 2],
    ["l", ({ parameters }) => parameters.l, 1],
  ]);
});

const sources = derive({ race }, ({ race: { of } }): string => {
  const { citation, flag } = sourceOf(textureClasses(), rowNamed(textureClasses(), "sand"), "mean");
  const yours = of.soil.className === null ? " Yours: your own parameters." : "";
  return `Means of all soils of a name: ${citation} Values: ${flag}.${yours}`;
});

const numberFigure = derive({ race, units }, ({ race, units }): Figure => {
  const racers = distinct(race);
  const told = racers
    .filter(({ ratio }) => ratio > 0)
    .map(({ name, behindWall, ratio }) => `${name} ${twoFigures(behindWall.number)} and ${ratio.toFixed(2)}`);
  return {
    kind: "figure",
    name: "number-and-shape",
    caption: `After ${formatBoth(race.given, "volume", units)} from each pot. Filled marks: s at the suction outside this wall, and the run’s width over depth (${told.join("; ")}). Hollow marks: s if the soil were soaked at the wall. The band is what was measured around porous emitters, ${publishedRatios.least} to ${publishedRatios.greatest}.`,
    draw: (stage) => drawNumbers(racers, stage),
  };
});

const numberTable = derive({ race, units }, ({ race, units }) => {
  const length = unitOf("length", units);
  return tableOf("number-and-shape", "The number and the shape", distinct(race), [
    soilColumn,
    [`λc, soaked (${length})`, ({ soaked }) => fromModel(soaked.length, "length", units), 1],
    ["s, soaked", ({ soaked }) => soaked.number, 2],
    ["suction outside the wall (kPa)", ({ wallHead }) => suctionKPa(wallHead), 1],
    [`λc there (${length})`, ({ behindWall }) => fromModel(behindWall.length, "length", units), 1],
    ["s there", ({ behindWall }) => behindWall.number, 2],
    ["width / depth, run", ({ ratio }) => (ratio > 0 ? ratio : "no front"), 2],
  ]);
});

const agreement = derive({ race }, ({ race }): string => {
  const racers = distinct(race).filter(({ ratio }) => ratio > 0);
  if (racers.length < 2) return "With fewer than two fronts there is no order to compare.";
  const ordered = (value: (racer: Racer) => number) =>
    racers.toSorted((a, b) => descending(value(a), value(b))).map(({ name }) => name);
  const byRun = ordered(({ ratio }) => -ratio).join(", ");
  const verdict = (names: string) => (names === byRun ? "the order of the runs" : `not that of the runs`);
  const behind = ordered(({ behindWall }) => behindWall.number).join(", ");
  const soaked = ordered(({ soaked }) => soaked.number).join(", ");
  return `From the longest to the roundest, the runs give: ${byRun}. By s outside the wall: ${behind}, ${verdict(behind)}. By s of soaked soil: ${soaked}, ${verdict(soaked)}. The number was made for a cavity that holds its soil soaked. Here the wall stands in series with the soil and lets so little through that the soil outside is not soaked; a clay is quick only when soaked, and λc of the soaked soil counts those few wet pores most. Nor does s know of time: the first litres wet the soil around the pot whatever its kind, so all shapes begin with the pot’s own and part as more is given.`;
});

const workedBlocks = derive(
  { field, leaky, units },
  ({ field: { of, entrants }, leaky: { runs }, units }): Exercise[] => {
    const { sand, loam, clay } = entrants;
    const trials: [LeakTrial, LeakTrial] = [
      { name: "sand", once: runs.sand1, twice: runs.sand2 },
      { name: "clay", once: runs.clay1, twice: runs.clay2 },
    ];
    return [passingAnswer(sand, loam, of, units), deeperAnswer([sand, clay], of, units), leakAnswer(trials, units)];
  },
);

const workedTable = derive({ field, leaky, units }, ({ field: { entrants }, leaky: { runs }, units }) => {
  const given = (run: Run) => fromModel(weekOf(run), "volume", units);
  const soils = [
    { name: "sand", filled: entrants.sand.run, full: runs.sand1, leaky: runs.sand2 },
    { name: "clay", filled: entrants.clay.run, full: runs.clay1, leaky: runs.clay2 },
  ];
  return tableOf("given-in-a-week", `Water given in a week (${unitOf("volume", units)})`, soils, [
    soilColumn,
    ["as you fill it", ({ filled }) => given(filled)],
    ["kept full", ({ full }) => given(full)],
    ["kept full, wall twice as leaky", ({ leaky }) => given(leaky)],
  ]);
});

const workings = derive({ solved }, ({ solved: { of, runs, accuracy } }) => runSentence(of, runs.own, accuracy));

export const notebook = defineNotebook({
  name: "why-does-soil-matter",
  question: "Why does soil matter?",
  answer,
  picture,
  controls: [
    { heading: "The race", underPicture: true, controls: [litresControl, pairControl] },
    { heading: "Your soil", controls: [...groups.soil, ...groups.start] },
    { heading: "Pot", controls: [potSize, ...groups.pot] },
    { heading: "Wall and filling", controls: [...groups.wall, ...groups.filling] },
  ],
  sections: [
    {
      heading: "Two things that a soil does",
      content: [
        "Two pulls move water in soil. Fine pores draw it towards drier soil on every side, up as well as down: that is capillarity. Its own weight draws it down only. Which one wins depends on two habits of the soil: how it holds water, and how it passes it on, both as it dries.",
        curves,
        holdingTable,
        passingTable,
        sources,
      ],
    },
    {
      heading: "Round or long: one number",
      content: [
        "How far capillarity carries water before weight takes over is the macroscopic capillary length λc: the soil’s capillary flow between wet and dry, over the flow that weight alone drives, λc = ∫ K dh / (K wet − K dry) (White & Sully 1987, Water Resour. Res. 23:1514-1522, from memory). In a soil after Gardner (1958), K = Ks exp(α h), it is 1/α. Around a cavity of radius r₀ the shape of the wet soil hangs on s = α r₀ / 2 = r₀ / (2 λc) (Philip 1968, Water Resour. Res. 4:1039-1047; Raats 1972, Soil Sci. Soc. Am. J. 36:399-401; Philip 1984, Soil Sci. Soc. Am. J. 48:724-729; from memory). Small s: capillarity wins and the wet soil is round. Large s: weight wins and it is long. Here r₀ is the pot’s radius half way down.",
        numberFigure,
        numberTable,
        agreement,
        "The measured band: width over depth of the front around a porous ceramic emitter in 12 textures (Water 2019, 11(1), 22, abstract). Emitters are smaller than pots, and how they measured width and depth may differ from ours: the full width at half the pot’s depth, and the depth below the soil surface.",
      ],
    },
    { heading: "Three questions to try", content: [workedBlocks, workedTable] },
    {
      heading: "How it was worked out",
      content: [
        "Each pot is filled in the same way, as set above, and its run is read at the moment at which it has given the chosen volume. So the water is equal and the time is not. Between two kept pictures of the soil, moisture is taken in proportion to the water given, so that the picture holds just that water.",
        flowEquation,
        workings,
      ],
    },
    { heading: "Words", content: explained("suction", "soil moisture", "wetting front") },
  ],
  limits: [
    ...modelLimits,
    "A bed mix is left out here: your soil stands for the native soil alone.",
    "Near soaking, the curves of a mean clay are the least certain of all: real clay has cracks and crumbs that pass water fast.",
    ...cautions,
  ],
});
