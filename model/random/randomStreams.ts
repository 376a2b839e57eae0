import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

/** Random numbers from 0 up to 1, the same ones for the same seed. */
export type Uniform = () => number;

/**
 * One stream of random numbers for each name, so that what is drawn from one never changes another. A seed is a whole
 * number from 0 to 2³² − 1; the streams are stretches of one generator, 2⁶⁴ numbers apart (`jump`), the first one as
 * well, since seeds that differ little begin alike.
 */
export function randomStreams<Name extends string>(seed: number, names: readonly Name[]): Record<Name, Uniform> {
  const generator = xoroshiro128plus(seed);
  const streams = names.map((name) => {
    generator.jump();
    const own = generator.clone();
    return [name, () => uniformFloat64(own)] as const;
  });
  return Object.fromEntries(streams) as Record<Name, Uniform>;
}
