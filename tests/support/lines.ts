import fc from "fast-check";
import type { Line, Outlet, Piece } from "../../model/line/network.ts";

/** A smooth tube of 4 mm, 2 m long, level at the soil surface, with no fittings and an open end into pot 0. */
export const tube = (changes: Partial<Piece> = {}): Piece => ({
  name: "tube",
  kind: "tube",
  parent: null,
  length: 2,
  innerDiameter: 0.004,
  roughness: 0,
  minorLoss: 0,
  height: 0,
  via: [],
  outlet: { pot: 0, emitter: null },
  ...changes,
});

/** A main that pots hang on by tubes of their own, one spacing apart; water at 20 °C. */
export function comb(
  pots: number,
  { main = {}, tubes = {} }: { main?: Partial<Piece>; tubes?: Partial<Piece> } = {},
): Line {
  const pieces: Piece[] = [];
  for (let pot = 0; pot < pots; pot++) {
    const parent = pot === 0 ? null : 2 * pot - 2;
    pieces.push(
      tube({ name: `main ${pot}`, kind: "main", parent, length: 0.6, innerDiameter: 0.013, outlet: null, ...main }),
      tube({ name: `tube ${pot}`, parent: 2 * pot, length: 0.5, outlet: { pot, emitter: null }, ...tubes }),
    );
  }
  return { pieces, celsius: 20 };
}

/** Even between its ends, where fast-check's own doubles crowd about 0. */
export const evenly = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((share) => min + ((max - min) * share) / 1_000_000);

const anyEmitter: fc.Arbitrary<Outlet["emitter"]> = fc.option(
  fc.record({ coefficient: evenly(-8, -5).map((power) => 10 ** power), exponent: evenly(0.1, 1) }),
);

const anyPipe = fc.record({
  length: evenly(0, 20),
  innerDiameter: evenly(0.002, 0.05),
  roughness: evenly(0, 0.0001),
  minorLoss: fc.oneof(fc.constant(0), evenly(0, 20)),
  height: evenly(-0.5, 1),
  via: fc.array(
    fc.record({ along: evenly(0, 1), height: fc.oneof({ weight: 60, arbitrary: evenly(-0.5, 1) }, evenly(1, 4)) }),
    { maxLength: 2 },
  ),
});

/** A tree of up to `most` pieces with a pot at each of its ends and some on the way, in water of 1 to 50 °C. */
export const anyLine = (most = 40): fc.Arbitrary<Line & { pots: number }> =>
  fc
    .tuple(
      fc.array(fc.record({ pipe: anyPipe, branch: evenly(0, 1), onTheWay: evenly(0, 1), emitter: anyEmitter }), {
        minLength: 1,
        maxLength: most,
      }),
      evenly(1, 50),
    )
    .map(([drawn, celsius]) => {
      const parents = drawn.map(({ branch }, p) => (p === 0 ? null : Math.min(p - 1, Math.floor(branch * p))));
      let pots = 0;
      const pieces = drawn.map(({ pipe, onTheWay, emitter }, p): Piece => {
        const outlet = !parents.includes(p) || onTheWay > 0.8 ? { pot: pots++, emitter } : null;
        const via = pipe.via
          .map(({ along, height }) => ({ along: along * pipe.length, height }))
          .sort((a, b) => a.along - b.along);
        return { ...pipe, name: `piece ${p}`, kind: "tube", parent: parents[p]!, via, outlet };
      });
      return { pieces, celsius, pots };
    });
