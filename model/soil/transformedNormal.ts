/**
 * How a parameter x with limits A and B becomes a y that is normal, in words and as Carsel & Parrish (1988, Water
 * Resour. Res. 24:755-769, from memory) name it: y = x (NO), ln x (LN), ln((x − A)/(B − x)) (SB),
 * asinh((x − A)/(B − A)) (SU); the last, ln(x − 1), is our own.
 */
export const TRANSFORMS = ["normal", "log-normal", "log-ratio", "hyperbolic arcsine", "log-normal above 1"] as const;

/** A parameter whose transformed value is normal, cut at limits; a limit may be part of the transform. */
export interface TransformedNormal {
  form: (typeof TRANSFORMS)[number];
  /** Limits of the parameter, A and B. */
  lowest: number;
  highest: number;
  /** Of the transformed value, before the limits cut it. */
  mean: number;
  sd: number;
}

/** x from y, A and B. */
const INVERSE: Record<TransformedNormal["form"], (y: number, A: number, B: number) => number> = {
  normal: (y) => y,
  "log-normal": (y) => Math.exp(y),
  "log-ratio": (y, A, B) => A + (B - A) / (1 + Math.exp(-y)),
  "hyperbolic arcsine": (y, A, B) => A + (B - A) * Math.sinh(y),
  "log-normal above 1": (y) => 1 + Math.exp(y),
};

/** The parameter whose transformed value lies `z` standard deviations from its mean; beyond the limits where those cut. */
export function parameterAt({ form, lowest, highest, mean, sd }: TransformedNormal, z: number): number {
  return INVERSE[form](mean + sd * z, lowest, highest);
}

/** A parameter within its limits, and at least `least`, from standard normal numbers: drawn again until it is. */
export function drawWithin(spread: TransformedNormal, normal: () => number, least = spread.lowest): number {
  const lowest = Math.max(least, spread.lowest);
  for (;;) {
    const x = parameterAt(spread, normal());
    if (x >= lowest && x <= spread.highest) return x;
  }
}
