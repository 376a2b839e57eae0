/** A search for a number of a pipe or of a filling did not come to its end; `fillPots` catches this and says so. */
export class NoConvergence extends Error {}
