/** Days on which an outcome tells the wetted radius. */
export const OUTCOME_DAYS = [0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14];

/** What one member's run says; small plain data that crosses between threads and stands in part files. cm, day. */
export interface Outcome {
  index: number;
  /** Why the run did not reach its end; null when it did. The other values then mean nothing. */
  trouble: string | null;
  /** Easy-water radius from the axis, at root depth, on `OUTCOME_DAYS`. */
  radius: number[];
  /** Same for the easy-water depth on the axis. */
  depth: number[];
  /** Distances from the wall between which the sowing day's band lies; outer less than inner where there is none. */
  sowing: { inner: number; outer: number };
  /** Day on which the first filling is used up; null when it is not by the run's end, or the level is held. */
  emptyDay: number | null;
  /** Water given by the last of `OUTCOME_DAYS`, litres. */
  seepageLitres: number;
}
