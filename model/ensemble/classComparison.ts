import { mean, range } from "d3-array";
import { present } from "../input/lists.ts";
import { randomStreams } from "../random/randomStreams.ts";
import { saxtonRawls } from "../soil/saxtonRawls.ts";
import { matchingClasses, type Texture, type TextureClass } from "../soil/textureTriangle.ts";
import { type VanGenuchtenParameters, vanGenuchten } from "../soil/vanGenuchten.ts";
import { weynants } from "../soil/weynants.ts";
import { type Band, bandOf } from "./bands.ts";
import { soilDrawer } from "./soilDraws.ts";

/** Saturated conductivity, cm/day, and water contents at 330 and 15 000 cm of suction. */
export interface SoilFigures<Figure> {
  Ks: Figure;
  at330: Figure;
  at15000: Figure;
}

/** One class as three publications have it. */
export interface ClassComparison {
  name: TextureClass;
  /** The middle of the class in the triangle, %; what the two others are given, with the bulk density, g/cm³. */
  texture: Texture;
  bulkDensity: number;
  drawn: SoilFigures<Band>;
  saxtonRawls: SoilFigures<number>;
  weynants: SoilFigures<number>;
}

/** By weight, %: that of the class examples of Saxton & Rawls (2006). */
export const ORGANIC_MATTER = 2.5;

/** Organic matter over its carbon (common practice, no source). */
const MATTER_PER_CARBON = 1.724;

/** Of mineral grains, g/cm³ (common practice, no source). */
const GRAIN_DENSITY = 2.65;

/** Soils drawn for each class: the place of a percentile is then good to 1 %. */
const DRAWN = 2000;

/**
 * How far publications differ on a class: soils as they are drawn here (median and 80 % band) beside the regressions
 * of Saxton & Rawls (2006) and Weynants et al. (2009) for the middle of the class, with 2.5 % of organic matter and the
 * bulk density that the pores of Saxton & Rawls leave.
 */
export function compareClass(seed: number, name: TextureClass): ClassComparison {
  const texture = middleOf(name);
  const saxton = saxtonRawls({ ...texture, organicMatter: ORGANIC_MATTER });
  const bulkDensity = GRAIN_DENSITY * (1 - saxton.saturation);
  const organicCarbon = ORGANIC_MATTER / MATTER_PER_CARBON;
  const draw = soilDrawer({ kind: "class", name }, randomStreams(seed, ["texture", "conductivity", "retention"]));
  return {
    name,
    texture,
    bulkDensity,
    drawn: bandsOfFigures(range(DRAWN).map(() => figuresOf(draw().parameters))),
    saxtonRawls: { Ks: saxton.Ks, at330: saxton.fieldCapacity, at15000: saxton.wiltingPoint },
    weynants: figuresOf(weynants({ ...texture, organicCarbon, bulkDensity })),
  };
}

/** The mean of the class's points on a grid of whole per cents. */
function middleOf(name: TextureClass): Texture {
  const grid = range(101).flatMap((sand) => range(101 - sand).map((clay) => ({ sand, silt: 100 - sand - clay, clay })));
  const inside = grid.filter((texture) => matchingClasses(texture).includes(name));
  const meanOf = (part: keyof Texture) =>
    present(
      mean(inside, (texture) => texture[part]),
      `${part} of ${name}`,
    );
  const [sand, clay] = [meanOf("sand"), meanOf("clay")];
  return { sand, silt: 100 - sand - clay, clay };
}

function figuresOf(parameters: VanGenuchtenParameters): SoilFigures<number> {
  const { theta } = vanGenuchten(parameters);
  return { Ks: parameters.Ks, at330: theta(-330), at15000: theta(-15_000) };
}

function bandsOfFigures(soils: readonly SoilFigures<number>[]): SoilFigures<Band> {
  const band = (name: keyof SoilFigures<number>) => bandOf(soils.map((soil) => soil[name]));
  return { Ks: band("Ks"), at330: band("at330"), at15000: band("at15000") };
}
