import type { Later } from "./cells.ts";

/** As long as a person who moves a slider seldom waits between two of its steps. */
const STILL_MILLISECONDS = 200;

/** Does work once nothing more has been put off under its rank for a moment; tells whether any is left to do. */
export function whenStill(onWaiting: (isWaiting: boolean) => void): Later {
  const timers = new Map<number, ReturnType<typeof setTimeout>>();
  return (rank, work) => {
    clearTimeout(timers.get(rank));
    const timer = setTimeout(() => {
      timers.delete(rank);
      work();
      onWaiting(timers.size > 0);
    }, STILL_MILLISECONDS);
    timers.set(rank, timer);
    onWaiting(true);
  };
}
