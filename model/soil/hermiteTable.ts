// In reading the table `!` stands in place of a check, which would cost time.

/** Evenly spaced nodes with values and exact slopes of three functions; cubic Hermite between them. */
export interface HermiteTable {
  /**
   * Writes the three functions at x, and their derivatives times `dx` (the change of x with the variable in hand), at
   * index i of the arrays. Left of the first node the first values stand; right of the last the last cubic goes on.
   */
  read(
    x: number,
    dx: number,
    i: number,
    y0: Float64Array,
    dy0: Float64Array,
    y1: Float64Array,
    dy1: Float64Array,
    y2: Float64Array,
    dy2: Float64Array,
  ): void;
}

export interface HermiteNode {
  values: [number, number, number];
  /** Derivatives with respect to x. */
  slopes: [number, number, number];
}

/** Value and slope (by node spacing) of each of three functions. */
const STRIDE = 6;

export function hermiteTable(first: number, spacing: number, nodes: readonly HermiteNode[]): HermiteTable {
  const packed = new Float64Array(STRIDE * nodes.length);
  nodes.forEach(({ values, slopes }, node) => {
    const [y0, y1, y2] = values;
    const [m0, m1, m2] = slopes;
    packed.set([y0, m0 * spacing, y1, m1 * spacing, y2, m2 * spacing], STRIDE * node);
  });
  const lastInterval = nodes.length - 2;

  function cubic(p: number, f: number, i: number, dx: number, y: Float64Array, dy: Float64Array): void {
    const y0 = packed[p]!;
    const m0 = packed[p + 1]!;
    const y1 = packed[p + STRIDE]!;
    const m1 = packed[p + STRIDE + 1]!;
    const c2 = 3 * (y1 - y0) - 2 * m0 - m1;
    const c3 = 2 * (y0 - y1) + m0 + m1;
    y[i] = y0 + f * (m0 + f * (c2 + f * c3));
    dy[i] = (m0 + f * (2 * c2 + 3 * f * c3)) * dx;
  }

  return {
    read(x, dx, i, y0, dy0, y1, dy1, y2, dy2) {
      const place = Math.max((x - first) / spacing, 0);
      const k = Math.min(place | 0, lastInterval);
      const scale = dx / spacing;
      cubic(STRIDE * k, place - k, i, scale, y0, dy0);
      cubic(STRIDE * k + 2, place - k, i, scale, y1, dy1);
      cubic(STRIDE * k + 4, place - k, i, scale, y2, dy2);
    },
  };
}
