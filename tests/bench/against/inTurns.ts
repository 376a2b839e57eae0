/** Two sides take turns run by run, so that a busy machine slows both. */
import { median, min, quantile } from "d3-array";

export interface Pair<T> {
  ours: T;
  theirs: T;
}

/** What each side gave, round by round. The side that goes first changes, since each run leaves the next its litter. */
export async function inTurns<T>(rounds: number, work: Pair<() => T | Promise<T>>): Promise<Pair<T>[]> {
  const given: Pair<T>[] = [];
  for (let round = 0; round < rounds; round++) {
    const early = round % 2 === 1 ? await work.theirs() : undefined;
    const ours = await work.ours();
    given.push({ ours, theirs: early ?? (await work.theirs()) });
  }
  return given;
}

/** Milliseconds of both sides, and ours over theirs. */
export interface Times {
  least: Pair<number>;
  median: Pair<number>;
  ratio: {
    /** Of the least times: what a busy machine disturbs least. */
    least: number;
    /** Median of the rounds' own ratios, and the range that holds their middle half. */
    median: number;
    middle: [number, number];
  };
}

/** Milliseconds that the processors spend on this process meanwhile: a busy machine makes them wait, but work hardly more. */
export function cpuClock(): () => number {
  const begun = process.cpuUsage();
  return () => {
    const { user, system } = process.cpuUsage(begun);
    return (user + system) / 1000;
  };
}

export function timesOf(rounds: readonly Pair<number>[]): Times {
  const each = (pick: (side: number[]) => number | undefined): Pair<number> => ({
    ours: pick(rounds.map(({ ours }) => ours))!,
    theirs: pick(rounds.map(({ theirs }) => theirs))!,
  });
  const ratios = rounds.map(over);
  return {
    least: each(min),
    median: each(median),
    ratio: {
      least: over(each(min)),
      median: median(ratios)!,
      middle: middleHalf(ratios),
    },
  };
}

export const over = ({ ours, theirs }: Pair<number>): number => ours / theirs;

export const middleHalf = (values: number[]): [number, number] => [quantile(values, 0.25)!, quantile(values, 0.75)!];
