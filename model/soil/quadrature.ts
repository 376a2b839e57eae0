/** Gauss–Legendre on [−1, 1], positive half of the nodes (Abramowitz & Stegun 1964, Table 25.4). */
interface Rule {
  nodes: readonly number[];
  weights: readonly number[];
}

const SIXTEEN_POINTS: Rule = {
  nodes: [
    0.0950125098376374, 0.2816035507792589, 0.4580167776572274, 0.6178762444026438, 0.755404408355003,
    0.8656312023878318, 0.9445750230732326, 0.9894009349916499,
  ],
  weights: [
    0.1894506104550685, 0.1826034150449236, 0.1691565193950025, 0.1495959888165767, 0.1246289712555339,
    0.0951585116824928, 0.0622535239386479, 0.0271524594117541,
  ],
};

/**
 * Panel width in y = ln|h|. K as a function of y has its nearest poles at a distance π/n from the real line (n the
 * exponent of |h|), so that 16 points on 0.5 are good to rounding for n up to about 10.
 */
const PANEL = 0.5;

/** The head below which K is taken as constant up to saturation, cm. */
const NEARLY_ZERO = -1e-14;

/**
 * ∫ K dh from `dry` to `wet` (cm, both negative, at most a factor of 2 apart for full accuracy), cm²/day, with
 * y = ln|h|: ∫ K dh = ∫ K(−e^y) e^y dy.
 */
export function integrateK(K: (h: number) => number, dry: number, wet: number): number {
  const y0 = Math.log(-wet);
  const half = (Math.log(-dry) - y0) / 2;
  const weighted = (y: number) => Math.exp(y) * K(-Math.exp(y));
  const { nodes, weights } = SIXTEEN_POINTS;
  let sum = 0;
  for (let i = 0; i < nodes.length; i++) {
    const offset = half * nodes[i]!;
    sum += weights[i]! * (weighted(y0 + half - offset) + weighted(y0 + half + offset));
  }
  return half * sum;
}

/** A conductivity and its slope dK/dh at a head. */
export interface KAtHead {
  h: number;
  K: number;
  dK: number;
}

/** Width in y up to which a quintic is as good as the tables need: its error falls with the sixth power. */
const NARROW = 0.1;

/**
 * The same between two heads where K and its slope are known. Where they are near each other, it is the integral of the
 * quintic in y through both ends' values and slopes and the value at the middle,
 * ∫ f dy = w/30 (7 f₀ + 16 fₘ + 7 f₁) + w²/60 (f₀′ − f₁′).
 */
export function integrateKBetween(K: (h: number) => number, dry: KAtHead, wet: KAtHead): number {
  const width = Math.log(dry.h / wet.h);
  if (width > NARROW) return integrateK(K, dry.h, wet.h);
  const middle = Math.sqrt(dry.h * wet.h);
  const values = 7 * weighted(wet) + 16 * middle * K(-middle) + 7 * weighted(dry);
  return (width / 30) * (values + (width / 2) * (weightedSlope(wet) - weightedSlope(dry)));
}

/** f = −h K, and its slope by y. */
const weighted = ({ h, K }: KAtHead) => -h * K;
const weightedSlope = ({ h, K, dK }: KAtHead) => -h * (K + h * dK);

/** A head drier than any that is asked for, cm: from there on K is a power of |h|. */
const DRIEST = -1e8;

/**
 * ∫ K dh from −∞ to `h` < 0, by panels towards the dry end. There K falls off as |h|^−p, so that the rest beyond a head is
 * K |h|/(p − 1). For p ≤ 1 the integral has no end, and begins at `DRIEST` instead: only its differences count.
 */
function integrateFromDry(K: (h: number) => number, h: number): number {
  const powerAt = (dry: number) => Math.log2(K(dry) / K(2 * dry));
  // Nearer to 1 the rest is nothing but rounding.
  const hasEnd = powerAt(DRIEST) - 1 > 1e-6;
  const rest = (dry: number) => (hasEnd ? (-dry * K(dry)) / (powerAt(Math.min(dry, DRIEST)) - 1) : 0);
  const growth = Math.exp(PANEL);
  let sum = 0;
  for (let wet = h; wet > DRIEST; wet *= growth) {
    const dry = Math.max(wet * growth, DRIEST);
    const panel = integrateK(K, dry, wet);
    sum += panel;
    if (dry === DRIEST || (hasEnd && panel <= 1e-7 * sum)) return sum + rest(dry);
  }
  return h === Number.NEGATIVE_INFINITY ? 0 : rest(h);
}

/** The Kirchhoff potential φ(h), cm²/day, of a conductivity that is constant for h ≥ 0: see `integrateFromDry`. */
export function kirchhoffPotential(K: (h: number) => number): (h: number) => number {
  return (h) => integrateFromDry(K, Math.min(h, NEARLY_ZERO)) + K(0) * Math.max(h - NEARLY_ZERO, 0);
}
