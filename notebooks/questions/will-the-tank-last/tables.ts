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
import { daysOfMonth, MONTHS, monthName } from "../../../model/public/plan.ts";
import { fromModel, layerLitres, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import { otherWatering } from "../../../reference-data/load.ts";
import type { Table } from "../../notebook/notebook.ts";
import { sentenceCase } from "../../words/words.ts";

/** Means of all years but the first. */
export function monthTable({ plan, asked }: SeasonBed, outlook: Outlook, units: UnitSystem): Table {
  const volume = unitOf("volume", units);
  const rain = unitOf("rain", units);
  const daily = monthSums(asked);
  const months = outlook.season.months.map(({ month }) => month);
  const litres = (mm: number) => layerLitres(mm, plan.areaPerPot);
  return {
    kind: "table",
    name: "months",
    caption: `What an average year asks for, month by month of the season; ${volume}/day are those of one pot and its ground while plants grow`,
    columns: [
      { heading: "month" },
      { heading: `rain (${rain})`, digits: units === "us" ? 2 : 0 },
      { heading: `reference evapotranspiration (${rain}/day)`, digits: 2 },
      { heading: `plants want (${volume}/day)`, digits: 2 },
      { heading: `of it from rain (${volume}/day)`, digits: 2 },
      { heading: `a full pot gives (${volume}/day)`, digits: 2 },
      { heading: "years with pots short (%)", digits: 0 },
    ],
    rows: months.map((month) => {
      const k = MONTHS.indexOf(month);
      const { grown, rainMm, EToMm, wanted, fromRain, drawn } = daily[k]!;
      const perDay = (sum: number) => (grown > 0 ? sum / grown : 0);
      return [
        monthName(month),
        fromModel(rainMm, "rain", units),
        fromModel(EToMm / daysOfMonth(month), "rain", units),
        fromModel(litres(perDay(wanted)), "volume", units),
        fromModel(litres(perDay(fromRain)), "volume", units),
        fromModel(perDay(drawn), "volume", units),
        100 * (outlook.shortMonths[k] ?? 0),
      ];
    }),
  };
}

export function yearTable(outlook: Outlook, units: UnitSystem): Table {
  const volume = (litres: number) => fromModel(litres, "volume", units);
  return {
    kind: "table",
    name: "year",
    caption: "The tank in an average year",
    columns: [{ heading: "water" }, { heading: `a year (${unitOf("volume", units)})`, digits: 0 }],
    rows: [
      ["runs from the roof into it", volume(outlook.inflow)],
      ["carried to it by hand", volume(outlook.topUp)],
      ["asked of it by the pots", volume(outlook.asked)],
      ["given by it", volume(outlook.supplied)],
      ["lost over the brim, mostly outside the season", volume(outlook.spilled)],
      ["gone into the air", volume(outlook.evaporated)],
      ["that the pots could not give for want of it", volume(outlook.short)],
    ],
  };
}

const percentSpan = ({ least, most }: Span): string => {
  const [a, b] = [Math.round(100 * least), Math.round(100 * most)];
  if (b < 0) return `takes ${-b} to ${-a} % more`;
  return a < 0 ? `from ${-a} % more to ${b} % less` : `${a} to ${b} % less`;
};

export function wateringTable(water: SeasonWater, units: UnitSystem): Table {
  const volume = (litres: number) => fromModel(litres, "volume", units);
  const row = (name: string, { least, most }: Span) => [
    name,
    volume(least),
    volume(most),
    percentSpan(savedBeside(water.pots, { least, most })),
  ];
  return {
    kind: "table",
    name: "ways-of-watering",
    caption: "An average season of this bed, watered in three ways",
    columns: [
      { heading: "way" },
      { heading: `at least (${unitOf("volume", units)})`, digits: 0 },
      { heading: `at most (${unitOf("volume", units)})`, digits: 0 },
      { heading: "the pots take beside it" },
    ],
    rows: [
      ["these pots, filled as you say", volume(water.pots), volume(water.pots), "–"],
      row("watering the surface", water.surface),
      row("drip", water.drip),
    ],
  };
}

/** What others found. */
export function savingsTable(): Table {
  const rows = otherWatering().rows.flatMap((row) =>
    "savedShare" in row ? [[row.name, savedWords(row.savedShare)]] : [],
  );
  return {
    kind: "table",
    name: "reported-savings",
    caption: "How much less water pots were reported to take than watering the surface or by furrow",
    columns: [{ heading: "who" }, { heading: "less water" }],
    rows,
  };
}

function savedWords({ min, max }: { min: number; max: number }): string {
  const [a, b] = [Math.round(100 * min), Math.round(100 * max)];
  return a === 0 ? `up to ${b} %` : `${a} to ${b} %`;
}

export function releaseTable({ knots, base }: Release, units: UnitSystem): Table {
  const volume = unitOf("volume", units);
  const litres = (value: number) => fromModel(value, "volume", units);
  return {
    kind: "table",
    name: "release",
    caption: "One pot by the flow of water, without rain, refilled as you say, in the long run",
    columns: [
      { heading: "month" },
      { heading: "days since planting", digits: 0 },
      { heading: `plants want (${volume}/day)`, digits: 2 },
      { heading: `the pot gives (${volume}/day)`, digits: 2 },
      { heading: `plants take (${volume}/day)`, digits: 2 },
      { heading: "thirst met (%)", digits: 0 },
    ],
    rows: [
      ["nothing thirsty", "–", 0, litres(base), 0, "–"],
      ...knots.map(({ month, age, wanted, given, taken, met }) => [
        sentenceCase(month),
        age,
        litres(wanted),
        litres(given),
        litres(taken),
        Math.round(100 * met),
      ]),
    ],
  };
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
