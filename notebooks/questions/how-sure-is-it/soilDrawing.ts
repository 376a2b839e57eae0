/** How the soils were drawn, and how far publications differ: tables and words. */
import { rollups } from "d3-array";
import { bandOf, compareClass, type Member, ORGANIC_MATTER, type SoilFigures } from "../../../model/public/ensemble.ts";
import type { TextureClass } from "../../../model/public/flow.ts";
import type { Plan } from "../../../model/public/plan.ts";
import { format, formatSuction, fromModel, rounded, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import {
  rowNamed,
  type SoilDistributionRow,
  soilDistributions,
  sourceOf,
  textureClasses,
} from "../../../reference-data/load.ts";
import type { Block, Table } from "../../notebook/notebook.ts";
import { tableOf } from "../../notebook/tables.ts";
import { soilsCalled } from "../../words/bandWords.ts";
import { listed, sentenceCase } from "../../words/words.ts";

const PARAMETERS = {
  KsCmPerHour: "passing water: saturated conductivity Ks (cm/h)",
  thetaR: "holding water: residual water content θr",
  thetaS: "holding water: saturated water content θs",
  alpha: "holding water: α (1/cm)",
  n: "holding water: n",
} as const satisfies Partial<Record<keyof SoilDistributionRow, string>>;

type Parameter = keyof typeof PARAMETERS;

/** What follows the bell curve, of a value x between its limits A and B. */
const FORM_WORDS: Record<SoilDistributionRow["n"]["form"], string> = {
  normal: "the value itself",
  "log-normal": "its logarithm",
  "log-ratio": "ln((x − A)/(B − x))",
  "hyperbolic arcsine": "asinh((x − A)/(B − A))",
  "log-normal above 1": "ln(x − 1)",
};

/** Of one class; the plan's, or the one that the middle of its texture lies in. */
export function distributionTable(name: TextureClass): Table {
  const row = rowNamed(soilDistributions(), name);
  const caption = `What soils called ${name} are drawn from: which value follows the bell curve, between which limits A and B, and the curve’s mean and standard deviation`;
  return tableOf("distributions", caption, parameters, [
    ["parameter", (parameter) => PARAMETERS[parameter]],
    ["what follows the bell curve", (parameter) => FORM_WORDS[row[parameter].form]],
    ["least, A", (parameter) => row[parameter].lowest, 3],
    ["greatest, B", (parameter) => row[parameter].highest, 3],
    ["mean of the curve", (parameter) => row[parameter].mean, 3],
    ["standard deviation", (parameter) => row[parameter].sd, 3],
  ]);
}

const parameters = Object.keys(PARAMETERS) as Parameter[];

/** Where the distributions of a class come from, each source once. */
export function sourceWords(name: TextureClass): string[] {
  const table = soilDistributions();
  const row = rowNamed(table, name);
  const sources = rollups(
    parameters,
    (group) => group,
    (parameter) => {
      const { citation, flag, obtained } = sourceOf(table, row, parameter);
      return `${citation} Values: ${flag}${flag === "own choice" ? ` (${obtained.replace(/^chosen: /, "")})` : ""}.`;
    },
  );
  return sources.map(
    ([words, group]) => `For ${listed(group.map((parameter) => SYMBOLS[parameter]))} of ${name}: ${words}`,
  );
}

const SYMBOLS: Record<Parameter, string> = { KsCmPerHour: "Ks", thetaR: "θr", thetaS: "θs", alpha: "α", n: "n" };

export function drawnWords(plan: Plan, members: readonly Member[], seed: number, units: UnitSystem): Block[] {
  const { low, median, high } = bandOf(members.map(({ soil }) => soil.Ks));
  const speed = (Ks: number) => format(Ks, "conductivity", units);
  return [
    `${members.length} ${soilsCalled(plan)} were drawn by chance, in draw ${seed}; the same draw gives the same soils and the same band, here and in the terminal. ${classWords(plan, members)}Soaked, half of them pass more than ${speed(median)}; eight of ten between ${speed(low)} and ${speed(high)}. ${meanWords(plan, median, units)}`,
    "Each parameter is drawn by itself: how they go together has been published, but is not at hand here. In nature the coarser soils of one name pass water fast and let go of it early, both at once. Drawn one by one, such soils are too few, and pairs come up that hardly occur. The band may be too narrow where two effects add up, and too wide where they cancel.",
    "Only the soil differs from one to the next: how it holds water and how it passes water. Pot, wall, filling and the suction at the start are as set above for all of them.",
  ];
}

/** The class's mean is not the middle of its soils. */
function meanWords({ soil }: Plan, median: number, units: UnitSystem): string {
  const { Ks } = soil.parameters;
  const why = Ks > 1.3 * median ? ": a few fast soils pull it up" : "";
  return `The mean of the class, which the other notebooks take, is ${format(Ks, "conductivity", units)}${why}.`;
}

/** A texture near a line of the triangle draws from more classes than one. */
function classWords({ soil: { texture } }: Plan, members: readonly Member[]): string {
  if (!texture) return "";
  const shares = rollups(
    members,
    (group) => group.length,
    ({ className }) => className,
  ).sort(([, a], [, b]) => b - a);
  const words = listed(shares.map(([name, count]) => `${count} times ${name}`));
  return `Sand and clay were drawn around ${rounded(texture.sand, "cm")} % and ${rounded(texture.clay, "cm")} %, with a standard deviation of ${texture.sd} percentage points; the texture so drawn was ${words}, and the soil one of that name. `;
}

/** The same seed for everyone: this table says how publications differ, not how draws do. */
const COMPARISON_SEED = 1;

export function comparisonBlocks(name: TextureClass, units: UnitSystem): Block[] {
  const compared = compareClass(COMPARISON_SEED, name);
  const { drawn, saxtonRawls, weynants, texture, bulkDensity } = compared;
  const both = [saxtonRawls.Ks, weynants.Ks].toSorted((a, b) => a - b) as [number, number];
  const number = (Ks: number) => rounded(fromModel(Ks, "conductivity", units), unitOf("conductivity", units));
  const share = (theta: number) => (100 * theta).toFixed(1);
  const regression = (source: string, figures: SoilFigures<number>) => [
    source,
    number(figures.Ks),
    share(figures.at330),
    share(figures.at15000),
  ];
  const band = ({ low, median, high }: typeof drawn.Ks, words: (value: number) => string) =>
    `${words(median)} (${words(low)} to ${words(high)})`;
  return [
    `Two other publications reckon a soil from its texture. For the middle of ${name} (${texture.sand.toFixed(0)} % sand, ${texture.clay.toFixed(0)} % clay; ${ORGANIC_MATTER} % organic matter and a bulk density of ${bulkDensity.toFixed(2)} g/cm³, our own choice) they give conductivities that differ ${ratioWords(both[1] / both[0])}, and ${insideWords(drawn.Ks, both)}`,
    {
      kind: "table",
      name: "publications",
      caption: `${sentenceCase(name)} by three publications; for drawn soils the middle, and in brackets what eight of ten lie between`,
      columns: [
        { heading: "source" },
        { heading: `conductivity when soaked (${unitOf("conductivity", units)})` },
        { heading: `water held at ${formatSuction(-330)} (% of the soil’s volume)` },
        { heading: `water held at ${formatSuction(-15_000)} (% of the soil’s volume)` },
      ],
      rows: [
        ["drawn as told above", band(drawn.Ks, number), band(drawn.at330, share), band(drawn.at15000, share)],
        regression("Saxton & Rawls (2006)", saxtonRawls),
        regression("Weynants et al. (2009)", weynants),
      ],
    },
    "Saxton & Rawls (2006), Soil Sci. Soc. Am. J. 70:1569-1578, equations: seen. Weynants, Vereecken & Javaux (2009), Vadose Zone J. 8:86-95, coefficients: seen in an open listing; its conductivity is that of the soil between its large pores, so it is the lower one where such pores count.",
  ];
}

const ratioWords = (ratio: number) => (ratio < 1.5 ? "little" : `${rounded(ratio, "cm")}-fold`);

function insideWords({ low, high }: { low: number; high: number }, values: readonly number[]): string {
  const inside = values.filter((value) => value >= low && value <= high).length;
  return `${["none", "one", "both"][inside]} of them ${inside === 1 ? "lies" : "lie"} within the band of the drawn soils.`;
}

export function classMeanNote(name: TextureClass): string {
  const { citation, flag } = sourceOf(textureClasses(), rowNamed(textureClasses(), name), "mean");
  return `The dashed line is the run of the class’s mean (${citation} Values: ${flag}).`;
}
