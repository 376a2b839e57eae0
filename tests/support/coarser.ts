import type { Fineness } from "../../model/flow/gridRule.ts";

/** The same with cells twice as large everywhere. */
export function coarser({
  atWall,
  out,
  down,
  along,
  amongRoots,
  tallest,
  atSurface,
  sectors,
  ...same
}: Fineness): Fineness {
  const rooted = { atWall: 2 * amongRoots.atWall, out: amongRoots.out ** 2, along: amongRoots.along ** 2 };
  const grown = { out: out ** 2, down: down ** 2, along: along ** 2, amongRoots: rooted };
  const larger = { atWall: 2 * atWall, tallest: 2 * tallest, atSurface: 2 * atSurface };
  return { ...same, ...grown, ...larger, sectors: Math.ceil(sectors / 2) };
}
