/**
 * One pipe. All of `model/line/` is in SI units, without suffix: m, m², m³, s, m³/s; heads in m of water. Heights are in
 * m above the soil surface, up positive (the rest of the model has cm, day, and depths down positive; the plan converts).
 * A head is the total head: height, pressure head and velocity head v²/2g together.
 */
import { GRAVITY } from "../units/factors.ts";
import { frictionNumber } from "./friction.ts";
import { NoConvergence } from "./noConvergence.ts";

export interface Pipe {
  length: number;
  innerDiameter: number;
  /** Height of the unevenness of its wall, m. */
  roughness: number;
  /** Sum of K of its fittings, each of which loses K v²/2g. */
  minorLoss: number;
}

/** A loss of head, m, and how it grows with the flow, s/m². */
export interface Loss {
  loss: number;
  slope: number;
}

export const sectionArea = ({ innerDiameter }: Pick<Pipe, "innerDiameter">) => (Math.PI / 4) * innerDiameter ** 2;

/** v²/2g of a flow through a pipe, m. */
export const velocityHead = (pipe: Pick<Pipe, "innerDiameter">, Q: number) =>
  (Q / sectionArea(pipe)) ** 2 / (2 * GRAVITY);

/** Head lost along a pipe and in its fittings, m, odd in the flow Q, m³/s; `nu` is the water's kinematic viscosity. */
export function headLoss(pipe: Pipe, Q: number, nu: number): Loss {
  const along = frictionLoss(pipe, Q, nu);
  const fittings = velocityLoss(pipe, pipe.minorLoss, Q);
  return { loss: along.loss + fittings.loss, slope: along.slope + fittings.slope };
}

/** Darcy–Weisbach, f L/D v²/2g = L ν²/(2 g D³) · f Re². */
export function frictionLoss({ length, innerDiameter, roughness }: Pipe, Q: number, nu: number): Loss {
  const RePerFlow = innerDiameter / (nu * sectionArea({ innerDiameter }));
  const { value, slope } = frictionNumber(Math.abs(Q) * RePerFlow, roughness / innerDiameter);
  const scale = (length * nu ** 2) / (2 * GRAVITY * innerDiameter ** 3);
  return { loss: Math.sign(Q) * scale * value, slope: scale * slope * RePerFlow };
}

/** `K` velocity heads, odd in Q. */
export function velocityLoss(pipe: Pick<Pipe, "innerDiameter">, K: number, Q: number): Loss {
  const perSquare = K / (2 * GRAVITY * sectionArea(pipe) ** 2);
  return { loss: perSquare * Q * Math.abs(Q), slope: 2 * perSquare * Math.abs(Q) };
}

/**
 * The flow, m³/s, that loses just `head`, m, odd in it, to rounding: Newton's method, kept inside a bracket that
 * bisection narrows. Laminar flow without fittings is the most that a head can move. Throws `NoConvergence` where no
 * flow fits, as in a pipe that loses nothing.
 */
export function flowUnder(pipe: Pipe, head: number, nu: number): number {
  const wanted = Math.abs(head);
  const { slope } = headLoss(pipe, 0, nu);
  let [low, high] = [0, slope > 0 ? wanted / slope : Math.sqrt(wanted / headLoss(pipe, 1, nu).loss)];
  let Q = high;
  for (let k = 0; k < MOST_ITERATIONS; k++) {
    const at = headLoss(pipe, Q, nu);
    if (at.loss < wanted) low = Q;
    else high = Q;
    const next = Q - (at.loss - wanted) / at.slope;
    const inside = next > low && next < high ? next : (low + high) / 2;
    if (Math.abs(inside - Q) <= 1e-15 * Q || at.loss === wanted) return Math.sign(head) * Q;
    Q = inside;
  }
  throw new NoConvergence(`no flow through a pipe of ${pipe.length} m that loses ${head} m of head`);
}

const MOST_ITERATIONS = 200;
