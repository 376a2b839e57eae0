/** Entries that must be there; each throws an Error that says what is missing. */

/** The first entry; a RangeError where the list is empty. */
export const first = <T>(list: ArrayLike<T>): T => entry(list, 0);

/** The last entry; a RangeError where the list is empty. */
export const last = <T>(list: ArrayLike<T>): T => entry(list, list.length - 1);

/** The entry at an index from 0; a RangeError where there is none. */
export function entry<T>(list: ArrayLike<T>, index: number): T {
  const value = list[index];
  if (value === undefined) throw new RangeError(`A list of ${list.length} has no entry ${index}.`);
  return value;
}

/** The entry before an index, and the one at it; a RangeError where either is missing. */
export const pairAt = <T>(list: ArrayLike<T>, index: number): [before: T, at: T] => [
  entry(list, index - 1),
  entry(list, index),
];

/** For values that may be absent in general, but not here; `what` names the value. */
export function present<T>(value: T | null | undefined, what: string): T {
  if (value === undefined || value === null) throw new TypeError(`There is no ${what}.`);
  return value;
}
