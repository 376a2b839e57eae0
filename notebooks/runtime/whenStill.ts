import type { Later } from "./cells.ts";

/** As long as a person who moves a slider seldom waits between two of its steps. */
const STILL_MILLISECONDS = 200;

/**
 * Does work once nothing more has been put off under its rank for a moment, and leaves the page to others between two of
 * its pieces; says whether any is left to do.
 */
export function whenStill(onWaiting: (isWaiting: boolean) => void): Later {
  const timers = new Map<number, ReturnType<typeof setTimeout>>();

  function goOn(rank: number, work: Iterator<void>) {
    if (work.next().done) timers.delete(rank);
    else timers.set(rank, setTimeout(goOn, 0, rank, work));
    onWaiting(timers.size > 0);
  }
  return (rank, work) => {
    clearTimeout(timers.get(rank));
    timers.set(rank, setTimeout(goOn, STILL_MILLISECONDS, rank, work));
    onWaiting(true);
  };
}
