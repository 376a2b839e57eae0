/** The numbers of the tank's page. */

import {
  type DripHelp,
  monthSums,
  type Outlook,
  type Release,
  type SeasonBed,
  type SeasonWater,
  type Span,
  savedBeside,
} from "../../../model/public/advice.ts";
import { daysOfMonth, monthName } from "../../../model/public/plan.ts";
import { fromModel, layerLitres, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import { otherWatering } from "../../../reference-data/load.ts";
import type { Table } from "../../notebook/notebook.ts";
import { type Column, tableOf } from "../../notebook/tables.ts";
import { sentenceCase } from "../../words/words.ts";

/** Means of all years but the first. */
export function monthTable({ plan, asked }: SeasonBed, outlook: Outlook, units: UnitSystem): Table {
  const volume = unitOf("volume", units);
  const rain = unitOf("rain", units);
  const daily = monthSums(asked);
  const months = outlook.season.months.map(({ month }) => {
    const sums = daily[month];
    const mean = (sum: number) => (sums.grown > 0 ? sum / sums.grown : 0);
    return { month, short: outlook.shortMonths[month] ?? 0, mean, ...sums };
  });
  type SeasonMonth = (typeof months)[number];
  const litres = (mm: number) => layerLitres(mm, plan.areaPerPot);
  const perDay = (heading: string, given: (month: SeasonMonth) => number): Column<SeasonMonth> => [
    `${heading} (${volume}/day)`,
    (month) => fromModel(given(month), "volume", units),
    2,
  ];
  const caption = `What an average year asks for, month by month of the season; ${volume}/day are those of one pot and its ground while plants grow`;
  return tableOf("months", caption, months, [
    ["month", ({ month }) => monthName(month)],
    [`rain (${rain})`, ({ rainMm }) => fromModel(rainMm, "rain", units), units === "us" ? 2 : 0],
    [
      `reference evapotranspiration (${rain}/day)`,
      ({ month, EToMm }) => fromModel(EToMm / daysOfMonth(month), "rain", units),
      2,
    ],
    perDay("plants want", ({ mean, wanted }) => litres(mean(wanted))),
    perDay("of it from rain", ({ mean, fromRain }) => litres(mean(fromRain))),
    perDay("a full pot gives", ({ mean, drawn }) => mean(drawn)),
    ["years with pots short (%)", ({ short }) => 100 * short, 0],
  ]);
}

export function yearTable(outlook: Outlook, units: UnitSystem): Table {
  const ways: [string, number][] = [
    ["runs from the roof into it", outlook.inflow],
    ["carried to it by hand", outlook.topUp],
    ["asked of it by the pots", outlook.asked],
    ["given by it", outlook.supplied],
    ["lost over the brim, mostly outside the season", outlook.spilled],
    ["gone into the air", outlook.evaporated],
    ["that the pots could not give for want of it", outlook.short],
  ];
  return tableOf("year", "The tank in an average year", ways, [
    ["water", ([way]) => way],
    [`a year (${unitOf("volume", units)})`, ([, litres]) => fromModel(litres, "volume", units), 0],
  ]);
}

const percentSpan = ({ least, most }: Span): string => {
  const [a, b] = [Math.round(100 * least), Math.round(100 * most)];
  if (b < 0) return `takes ${-b} to ${-a} % more`;
  return a < 0 ? `from ${-a} % more to ${b} % less` : `${a} to ${b} % less`;
};

export function wateringTable(water: SeasonWater, units: UnitSystem): Table {
  const volume = (litres: number) => fromModel(litres, "volume", units);
  const other = (way: string, span: Span) => ({ way, ...span, beside: percentSpan(savedBeside(water.pots, span)) });
  const ways = [
    { way: "these pots, filled as you say", least: water.pots, most: water.pots, beside: "–" },
    other("watering the surface", water.surface),
    other("drip", water.drip),
  ];
  return tableOf("ways-of-watering", "An average season of this bed, watered in three ways", ways, [
    ["way", ({ way }) => way],
    [`at least (${unitOf("volume", units)})`, ({ least }) => volume(least), 0],
    [`at most (${unitOf("volume", units)})`, ({ most }) => volume(most), 0],
    ["the pots take beside it", ({ beside }) => beside],
  ]);
}

/** What others found. */
export function savingsTable(): Table {
  const reports = otherWatering().rows.filter((row) => "savedShare" in row);
  const caption = "How much less water pots were reported to take than watering the surface or by furrow";
  return tableOf("reported-savings", caption, reports, [
    ["who", ({ name }) => name],
    ["less water", ({ savedShare }) => savedWords(savedShare)],
  ]);
}

function savedWords({ min, max }: { min: number; max: number }): string {
  const [a, b] = [Math.round(100 * min), Math.round(100 * max)];
  return a === 0 ? `up to ${b} %` : `${a} to ${b} %`;
}

export function releaseTable({ knots, base }: Release, units: UnitSystem): Table {
  const volume = unitOf("volume", units);
  const litres = (value: number) => fromModel(value, "volume", units);
  const bare = { month: "nothing thirsty", age: "–", wanted: 0, given: base, taken: 0, percent: "–" };
  const beds = knots.map((knot) => ({ ...knot, month: sentenceCase(knot.month), percent: Math.round(100 * knot.met) }));
  const caption = "One pot by the flow of water, without rain, refilled as you say, in the long run";
  return tableOf(
    "release",
    caption,
    [bare, ...beds],
    [
      ["month", ({ month }) => month],
      ["days since planting", ({ age }) => age, 0],
      [`plants want (${volume}/day)`, ({ wanted }) => litres(wanted), 2],
      [`the pot gives (${volume}/day)`, ({ given }) => litres(given), 2],
      [`plants take (${volume}/day)`, ({ taken }) => litres(taken), 2],
      ["thirst met (%)", ({ percent }) => percent, 0],
    ],
  );
}

export const dripWords = (help: DripHelp, units: UnitSystem): string => {
  const volume = ({ least, most }: Span) =>
    `${Math.round(fromModel(least, "volume", units))} to ${Math.round(fromModel(most, "volume", units))} ${unitOf("volume", units)}`;
  const pots =
    help.potDays < 0.5
      ? "Filled as you say, the pots carry the crop on every day of an average season"
      : `On ${Math.round(help.potDays)} days of an average season filled pots leave the crop short of a tenth or more of what it wants: a drip line beside them would add ${volume(help.forPots)} a year`;
  const tank =
    help.tankDays < 0.5
      ? "and the tank seldom leaves them dry"
      : `and on ${Math.round(help.tankDays)} days they stand empty for want of water in the tank: a drip line fed from the same tank would not help then, one on the mains (with the backflow protection that your code asks for) would`;
  return `${pots}; ${tank}.`;
};
