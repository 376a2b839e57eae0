import type { Release } from "../../model/advice/season/release.ts";

/** What a pot gives, written down: the same all season, or changing from one age to a later one. */
export const releaseBy = (base: number, ...knots: { age: number; perLitre: number; met?: number }[]): Release => ({
  base,
  knots: knots.map(({ met = 1, ...knot }) => ({ month: "july", met, wanted: 0, given: 0, taken: 0, ...knot })),
});
