/** Friction of water in round pipes: Darcy–Weisbach's factor f, of Reynolds number and relative roughness alone. */
import { NoConvergence } from "./noConvergence.ts";

/** Up to here the flow is laminar; from there on turbulent. Between them nobody knows for sure. */
export const LAMINAR_UP_TO = 2000;
export const TURBULENT_FROM = 4000;

const MOST_ITERATIONS = 20;

/** A factor and its slope df/dRe. */
interface Friction {
  f: number;
  slope: number;
}

/** Darcy's friction factor; `relativeRoughness` is roughness over inner diameter, 0 for a smooth pipe. */
export function frictionFactor(Re: number, relativeRoughness: number): number {
  return frictionAt(Re, relativeRoughness).f;
}

/**
 * f Re² and its slope: what the head loss goes with at a given pipe and water. 64 Re in laminar flow, so that it has a
 * value at rest. It rises with Re everywhere, as the friction factor alone does not.
 */
export function frictionNumber(Re: number, relativeRoughness: number): { value: number; slope: number } {
  if (Re <= LAMINAR_UP_TO) return { value: 64 * Re, slope: 64 };
  const { f, slope } = frictionAt(Re, relativeRoughness);
  return { value: f * Re ** 2, slope: (2 * f + slope * Re) * Re };
}

/**
 * Laminar: 64/Re (Hagen and Poiseuille). From 4000 on: Colebrook & White. Between them a straight line in Re from the
 * one's end to the other's beginning: our own choice, continuous and rising; real pipes lie within some 20 % of it.
 */
function frictionAt(Re: number, relativeRoughness: number): Friction {
  if (Re <= LAMINAR_UP_TO) return { f: 64 / Re, slope: -64 / Re ** 2 };
  if (Re >= TURBULENT_FROM) return colebrook(Re, relativeRoughness);
  const laminar = 64 / LAMINAR_UP_TO;
  const slope = (colebrook(TURBULENT_FROM, relativeRoughness).f - laminar) / (TURBULENT_FROM - LAMINAR_UP_TO);
  return { f: laminar + slope * (Re - LAMINAR_UP_TO), slope };
}

/**
 * Colebrook (1939), J. Inst. Civ. Eng. 11:133, from memory: 1/√f = −2 log₁₀(k/3.7 + 2.51/(Re √f)), solved for x = 1/√f
 * by Newton's method. Each iteration squares the error, so that after a change of 1e-7 nothing but rounding is left.
 * Throws `NoConvergence` where none is so small.
 */
function colebrook(Re: number, relativeRoughness: number): Friction {
  const rough = relativeRoughness / 3.7;
  const viscous = 2.51 / Re;
  let x = -2 * Math.log10(rough + 5.74 / Re ** 0.9);
  let bend = 0;
  for (let change = 1, k = 0; !(Math.abs(change) <= 1e-7 * x); k++) {
    if (k === MOST_ITERATIONS)
      throw new NoConvergence(`no friction factor at Re ${Re} and a relative roughness of ${relativeRoughness}`);
    bend = 2 / (Math.LN10 * (rough + viscous * x));
    change = (x + 2 * Math.log10(rough + viscous * x)) / (1 + bend * viscous);
    x -= change;
  }
  const dxdRe = (bend * viscous * x) / (Re * (1 + bend * viscous));
  return { f: 1 / x ** 2, slope: (-2 * dxdRe) / x ** 3 };
}
