/** Three questions, answered from the runs at hand. */
import { onDay } from "../../../model/public/advice.ts";
import type { Run } from "../../../model/public/flow.ts";
import type { Plan } from "../../../model/public/plan.ts";
import { format, formatBoth, formatSuction, type UnitSystem } from "../../../model/public/units.ts";
import type { Exercise } from "../../notebook/notebook.ts";
import { sentenceCase } from "../../words/words.ts";
import { type Entrant, givenBy, type Racer, raceTo, sharedLitres, twoFigures } from "./race.ts";

export const week = 7;

const worked = (question: string, answer: string): Exercise => ({ kind: "worked", question, answer });

const atWall = ({ name, soil, wallHead }: Racer, units: UnitSystem): string =>
  `${name} pulls with a suction of ${formatSuction(wallHead)} and passes ${format(soil.K(wallHead), "conductivity", units)}`;

/** Sand against loam in a week. */
export function passingAnswer(sand: Entrant, loam: Entrant, plan: Plan, units: UnitSystem): Exercise {
  const times = twoFigures(sand.parameters.Ks / loam.parameters.Ks);
  const [inSand, inLoam] = [givenBy(sand, week), givenBy(loam, week)];
  const [sandThen, loamThen] = [raceTo(inSand, plan, sand), raceTo(inLoam, plan, loam)];
  const { wallConductivity, wallThickness } = plan.pot;
  const perHead = twoFigures(wallConductivity / wallThickness);
  return worked(
    `Soaked sand passes water ${times} times as fast as soaked loam. Why does the pot in sand not give ${times} times as much?`,
    `In a week the pot gives ${formatBoth(inSand, "volume", units)} in sand and ${formatBoth(inLoam, "volume", units)} in loam: ${twoFigures(inSand / inLoam)} times as much. The wall is in charge: it passes ${perHead} of a centimetre a day for each centimetre of head between its two sides. The pot’s water pushes alike in both; the soil’s suction outside adds to it. At the end of the week, outside the wall, ${atWall(sandThen, units)}, while ${atWall(loamThen, units)}. ${comparison(inSand, inLoam)}`,
  );
}

function comparison(inSand: number, inLoam: number): string {
  if (inSand < 0.98 * inLoam)
    return "Sand passes what the wall lets through already at a small suction, so it adds little pull, and the pot gives less in it.";
  if (inSand > 1.02 * inLoam)
    return "Here the wall lets so much through that loam itself holds the water back, and the pot gives less in it.";
  return "Here both pots give nearly all that is poured in, so the soils hardly differ.";
}

/** Sand against clay, as much water in both as the slower of the two has given in a week. */
export function deeperAnswer(pair: [Entrant, Entrant], plan: Plan, units: UnitSystem): Exercise {
  const litres = sharedLitres(pair, Number.POSITIVE_INFINITY, week);
  const [sand, clay] = [raceTo(litres, plan, pair[0]), raceTo(litres, plan, pair[1])];
  const question = "Two pots have given the same water within a week, one in sand and one in clay: where is it deeper?";
  if (sand.ratio === 0 || clay.ratio === 0)
    return worked(question, "One of the soils starts so wet that no front shows in it; let it start drier to compare.");
  const place = ({ name, depth, radius }: Racer) =>
    `in ${name} ${formatBoth(depth, "length", units)} deep and ${formatBoth(radius, "length", units)} out from the pot’s centre`;
  const deeper = sand.depth > clay.depth ? sand : clay;
  return worked(
    question,
    `In ${deeper.name}, by ${formatBoth(Math.abs(sand.depth - clay.depth), "length", units)}. Each has given ${formatBoth(litres, "volume", units)}; the front stands ${place(sand)}, ${place(clay)}. Behind the wall s is ${twoFigures(sand.behindWall.number)} in sand and ${twoFigures(clay.behindWall.number)} in clay. ${
      deeper === sand
        ? "Where s is the larger, weight draws water down before capillarity has drawn it out."
        : "Clay spreads water further both ways here, since dry sand takes up more water in the same space."
    }`,
  );
}

export interface LeakTrial {
  name: string;
  once: Run;
  twice: Run;
}

/** Pots kept full for a week, with the wall as it is and twice as leaky. */
export function leakAnswer(trials: [LeakTrial, LeakTrial], units: UnitSystem): Exercise {
  const riseOf = ({ once, twice }: LeakTrial) => weekOf(twice) / weekOf(once) - 1;
  const [most, least] = riseOf(trials[1]) > riseOf(trials[0]) ? [trials[1], trials[0]] : trials;
  const shown = trials.map(
    (trial) =>
      `in ${trial.name} from ${formatBoth(weekOf(trial.once), "volume", units)} to ${formatBoth(weekOf(trial.twice), "volume", units)} (${percent(riseOf(trial))} more)`,
  );
  const reason =
    riseOf(most) > 0.9
      ? `${sentenceCase(most.name)} takes nearly all that the wall offers, so it comes close to twice the water.`
      : `Nowhere does it come close to twice the water: the wetter soil outside pulls less, and passes on what it gets no faster than it can.`;
  return worked(
    "What does a wall twice as leaky change in sand and in clay?",
    `With the pot kept full, the water given in a week grows ${shown.join(", ")}. ${reason} Water meets the wall and then the soil: in ${most.name} more of the resistance lies in the wall, in ${least.name} more of it in the soil.`,
  );
}

export const weekOf = (run: Run): number => onDay(run, run.history.seepageLitres, week);

const percent = (share: number): string => `${Math.round(100 * share)} %`;
