import { greatest } from "d3-array";
import { outlineOf } from "../pot/potOutline.ts";
import type { VanGenuchtenParameters } from "../soil/vanGenuchten.ts";
import type { Problem } from "./problem.ts";

/** A value of a problem, and between what limits such values commonly lie. */
interface Usual {
  name: string;
  value: number;
  from: number;
  to: number;
}

/**
 * What to change where a run failed at a depth, cm: a lower or a higher value of what lies farthest, by its logarithm,
 * outside what gardens have (our own choice, from the classes of soils and the measured walls); where all is usual, the start.
 */
export function firstToChange({ soil, topLayer, pot, startHead }: Problem, depth: number): string {
  const isInMix = topLayer !== null && depth < topLayer.depth;
  const own = isInMix ? soilValues(topLayer.soil, "the bed mix") : soilValues(soil, "the soil");
  const width = 2 * Math.max(...outlineOf(pot).map(({ r }) => r));
  const values: Usual[] = [
    ...own,
    {
      name: "ratio of the pot's height to its width",
      value: (pot.outerDepth - pot.rimDepth) / width,
      from: 0.3,
      to: 5,
    },
    { name: "wall conductivity", value: pot.wallConductivity, from: 0.005, to: 1 },
    { name: "suction at the start", value: -startHead, from: 100, to: 15_000 },
  ];
  const farthest = greatest(values, excess);
  if (farthest === undefined || excess(farthest) <= 0) return "another suction at the start";
  return `a ${farthest.value > farthest.to ? "lower" : "higher"} ${farthest.name}`;
}

function soilValues({ thetaR, thetaS, alpha, n, Ks, l }: VanGenuchtenParameters, of: string): Usual[] {
  return [
    { name: `n of ${of}`, value: n, from: 1.08, to: 2.8 },
    { name: `alpha of ${of}`, value: alpha, from: 0.003, to: 0.15 },
    { name: `saturated conductivity Ks of ${of}`, value: Ks, from: 0.4, to: 1000 },
    { name: `saturated water content thetaS of ${of}`, value: thetaS - thetaR, from: 0.2, to: 0.6 },
    // K changes by Se^l: l has no logarithm, and stands as the exponent that it is.
    { name: `pore exponent l of ${of}`, value: Math.exp(l), from: Math.exp(-2), to: Math.exp(2) },
  ];
}

/** How far, in logarithms, a value lies outside its limits; not above 0 within them. */
const excess = ({ value, from, to }: Usual): number => Math.max(Math.log(from / value), Math.log(value / to));
