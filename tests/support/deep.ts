/** What a deep run of the tests (`DEEP=1`) does beyond a short one, and the seed of all that is drawn by chance. */
import { env } from "node:process";

/** The dear tests run too, and properties are tried on many cases. */
export const isDeep = env.DEEP === "1";

/** Start of every random draw; `SEED` names another, so that a failure can be run again. */
export const seed = seedOf(env.SEED ?? "1");

/** How many random cases a property is tried on. */
export const numRuns = (short: number, deep: number): number => (isDeep ? deep : short);

/** Of cases that are much alike, one in so many; all of them in a deep run. */
export const oneIn = <T>(many: number, cases: readonly T[]): T[] => cases.filter((_, i) => isDeep || i % many === 0);

function seedOf(text: string): number {
  const value = Number(text);
  if (!Number.isSafeInteger(value)) throw new Error(`SEED is "${text}"; it must be a whole number`);
  return value;
}
