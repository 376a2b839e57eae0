/** The circle of the same area held against the ground that the grid really gives a pot, in three dimensions. */

import { drawMembers, dryGround, type GroundOutcome, type Member } from "../../../model/public/ensemble.ts";
import { entry, first, type Plan, present } from "../../../model/public/plan.ts";
import { formatBoth, formatSuction, suctionKPa, type UnitSystem } from "../../../model/public/units.ts";
import { comparedSoils, meanOf } from "../../notebook/comparedSoils.ts";
import type { Block, Table } from "../../notebook/notebook.ts";
import { tableOf } from "../../notebook/tables.ts";
import { soilName } from "../../words/planWords.ts";

/** The plan's own soil, then the three that every answer is told for, as far as they are others. */
export function checkedMembers(plan: Plan): Member[] {
  const own = first(drawMembers(plan, { count: 1, seed: 1, varied: [] }));
  const others = plan.bedMix ? [] : comparedSoils.filter((name) => name !== plan.soil.className);
  return [own, ...others.map((name, k) => ({ ...own, index: k + 1, className: name, soil: meanOf(name) }))];
}

export interface GroundCheck {
  plan: Plan;
  members: readonly Member[];
  outcomes: readonly GroundOutcome[];
}

export function checkBlocks({ plan, members, outcomes }: GroundCheck, units: UnitSystem): Block[] {
  const solved = outcomes.filter(({ trouble }) => trouble === null);
  const failed = outcomes.filter(({ trouble }) => trouble !== null);
  const own = solved.find(({ index }) => index === 0);
  return [
    ...(own ? [findingWords(plan, own, units)] : []),
    ...(solved.length > 0 ? [checkTable(plan, members, solved, units)] : []),
    ...failed.map(({ index, trouble }) => `${labelOf(plan, members, index)}: could not be worked out (${trouble}).`),
  ];
}

const labelOf = (plan: Plan, members: readonly Member[], index: number) =>
  index === 0 ? soilName(plan) : present(entry(members, index).className, "name of a soil");

/** "between four pots" on a square grid, "between three" on a triangular one. */
const middle = ({ bed }: Plan) => (bed.grid === "square" ? "between four pots" : "between three pots");

function findingWords(plan: Plan, { grid, circle, cells }: GroundOutcome, units: UnitSystem): string {
  const apart = formatBoth(plan.bed.spacing, "length", units);
  const suction = (head: number) => formatSuction(Math.min(head, 0));
  const verdicts = {
    middle: `so a dry patch is left in the middle ${middle(plan)}, though easy water meets between neighbours: plant it last, or set the pots in triangles`,
    none: "so easy water covers all of it",
    between: "so the strip between neighbours is dry as well",
  };
  const verdict = verdicts[dryGround({ grid }, plan.crop.easyWaterHead)];
  return `In your ${soilName(plan)}, pots ${apart} apart, in ${cells} cells of soil: midway ${suction(grid.midwayHead)} in three dimensions, ${suction(circle.midwayHead)} in the circle; in the middle ${middle(plan)}, the ground farthest from any pot, ${suction(grid.farthestHead)} where the side of the circle has ${suction(circle.farthestHead)}, ${verdict}. The circle gives ${percentOff(circle.givenLitres, grid.givenLitres)} ${circle.givenLitres >= grid.givenLitres ? "more" : "less"} water.`;
}

const percentOff = (value: number, known: number) => `${Math.abs(100 * (value / known - 1)).toFixed(1)} %`;

function checkTable(
  plan: Plan,
  members: readonly Member[],
  solved: readonly GroundOutcome[],
  units: UnitSystem,
): Table {
  const kPa = (head: number) => Math.max(suctionKPa(head), 0);
  const over = (circle: number, grid: number) => 100 * (circle / grid - 1);
  const caption = `The ground of a pot among others ${formatBoth(plan.bed.spacing, "length", units)} apart in three dimensions (3-D), and the circle of the same area in its place`;
  return tableOf("three-dimensions", caption, solved, [
    ["soil", ({ index }) => labelOf(plan, members, index)],
    ["midway, 3-D (kPa)", ({ grid }) => kPa(grid.midwayHead), 1],
    ["midway, circle (kPa)", ({ circle }) => kPa(circle.midwayHead), 1],
    [`middle ${middle(plan)}, 3-D (kPa)`, ({ grid }) => kPa(grid.farthestHead), 1],
    ["side of the circle (kPa)", ({ circle }) => kPa(circle.farthestHead), 1],
    ["water given, circle over 3-D (%)", ({ grid, circle }) => over(circle.givenLitres, grid.givenLitres), 2],
    ["drunk, circle over 3-D (%)", ({ grid, circle }) => over(circle.drunkLitres, grid.drunkLitres), 2],
  ]);
}
