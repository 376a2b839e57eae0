import { group, max, min, range, sort, sum } from "d3-array";
import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { entry, last } from "../input/lists.ts";

/** Columns of numbers by group, all of one length; columns of a group are measured, or known, together. */
export type Groups<Name extends string> = Readonly<Record<Name, readonly (readonly number[])[]>>;

/** R² of the regression on all columns, and what each group adds to it: the shares sum to it. From 0 to 1. */
export interface Shares<Name extends string> {
  explained: number;
  shares: Record<Name, number>;
}

/**
 * R² of the linear regression of `answers` on all columns, shared out among the groups: what a group adds to R² when it
 * joins those before it, averaged over all orders of the groups (Lindeman, Merenda & Gold 1980, Introduction to bivariate
 * and multivariate analysis; Grömping 2006, J. Stat. Softw. 17(1)). A group of constant columns adds nothing, and columns
 * that say the same share alike. Null where the answers do not spread. The work doubles with each further group.
 */
export function averagedShares<Name extends string>(
  groups: Groups<Name>,
  answers: readonly number[],
): Shares<Name> | null {
  const columns = [...columnsOf(groups), answers];
  return sharesIn(
    layoutOf(groups),
    columns,
    answers.map(() => 1),
  );
}

/** Ranks from 0; equal values all get the mean of their ranks. */
export function meanRanks(values: readonly number[]): number[] {
  return ranksIn(
    tiersOf(values),
    values.map(() => 1),
  );
}

/** Shares of the ranks in place of the values, for samples in which each member stands so many times. */
export function rankShares<Name extends string>(
  groups: Groups<Name>,
  answers: readonly number[],
): (counts: readonly number[]) => Shares<Name> | null {
  const layout = layoutOf(groups);
  const tiers = [...columnsOf(groups), answers].map(tiersOf);
  return (counts) =>
    sharesIn(
      layout,
      tiers.map((each) => ranksIn(each, counts)),
      counts,
    );
}

/** From −1 to 1: how far two columns rise together, whatever their curve (Spearman 1904); 0 where one is constant. */
export function rankCorrelation(a: readonly number[], b: readonly number[]): number {
  const counts = a.map(() => 1);
  return correlationsOf([meanRanks(a), meanRanks(b)], counts).get(0, 1);
}

export const namesOf = <Name extends string>(groups: Groups<Name>) => Object.keys(groups) as Name[];
export const columnsOf = <Name extends string>(groups: Groups<Name>) => namesOf(groups).flatMap((name) => groups[name]);
export const spreads = (values: readonly number[]) => max(values) !== min(values);

export const byName = <Name extends string, T>(names: readonly Name[], value: (name: Name, i: number) => T) =>
  Object.fromEntries(names.map((name, i) => [name, value(name, i)])) as Record<Name, T>;

/** How regressions on some of the groups make up the shares; the same for every sample. */
interface Layout<Name extends string> {
  names: Name[];
  /** The columns of each subset of the groups. The bits of a subset's place tell its groups, so that the last holds all. */
  subsets: number[][];
  /** For each group, the subsets that it may join. */
  joins: Record<Name, Join[]>;
}

/** Weights are parts of all orders of the groups; subsets with and without the group, by place. */
interface Join {
  weight: number;
  without: number;
  with: number;
}

function layoutOf<Name extends string>(groups: Groups<Name>): Layout<Name> {
  const names = namesOf(groups);
  const groupOfColumn = names.flatMap((name, i) => groups[name].map(() => i));
  const columnsIn = (subset: number) => groupOfColumn.flatMap((group, column) => (has(subset, group) ? [column] : []));
  return {
    names,
    subsets: range(2 ** names.length).map(columnsIn),
    joins: byName(names, (_, i) => joinsOf(i, names.length)),
  };
}

const has = (subset: number, i: number) => (subset & (1 << i)) !== 0;

/** As many orders have one number of groups before the i-th as another; of subsets of one size none is preferred. */
function joinsOf(i: number, groups: number): Join[] {
  const sizeOf = (subset: number) => range(groups).filter((other) => has(subset, other)).length;
  const before = range(2 ** groups).filter((subset) => !has(subset, i));
  return [...group(before, sizeOf).values()].flatMap((alike) =>
    alike.map((without) => ({ weight: 1 / groups / alike.length, without, with: without | (1 << i) })),
  );
}

/** The last column holds the answers; the members count so many times each. */
function sharesIn<Name extends string>(
  { names, subsets, joins }: Layout<Name>,
  columns: readonly (readonly number[])[],
  counts: readonly number[],
): Shares<Name> | null {
  const correlations = correlationsOf(columns, counts);
  if (correlations.get(columns.length - 1, columns.length - 1) === 0) return null;
  const explained = subsets.map((subset) => explainedBy(correlations, subset));
  const added = (join: Join) => entry(explained, join.with) - entry(explained, join.without);
  const shareOf = (name: Name) => sum(joins[name], (join) => join.weight * added(join));
  return { explained: last(explained), shares: byName(names, shareOf) };
}

function correlationsOf(columns: readonly (readonly number[])[], counts: readonly number[]): Matrix {
  const rows = new Matrix(columns.map((column) => normalized(column, counts)));
  return rows.mmul(rows.transpose());
}

/** So that sums of products are correlations; zeros where the column is constant. */
function normalized(column: readonly number[], counts: readonly number[]): number[] {
  const countOf = (i: number) => entry(counts, i);
  if (!spreads(column.filter((_, i) => countOf(i) > 0))) return column.map(() => 0);
  const middle = sum(column, (value, i) => countOf(i) * value) / sum(counts);
  const length = Math.sqrt(sum(column, (value, i) => countOf(i) * (value - middle) ** 2));
  return column.map((value, i) => (Math.sqrt(countOf(i)) * (value - middle)) / length);
}

/** Eigenvalues below it are rounding: columns that agree to about five digits say the same. */
const ROUNDING = 1e-10;

/**
 * R² of the regression of the last column on some of the others: Σ (v·r)² / λ over the eigenvalues λ and eigenvectors v of
 * their correlations, r being the correlations with the last. Where columns say the same, λ is 0 and v adds nothing.
 */
function explainedBy(correlations: Matrix, columns: number[]): number {
  if (columns.length === 0) return 0;
  const among = correlations.selection(columns, columns);
  const withAnswer = correlations.selection(columns, [correlations.columns - 1]);
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(among, { assumeSymmetric: true });
  const along = eigenvectorMatrix.transpose().mmul(withAnswer);
  return sum(realEigenvalues, (value, k) => (value > ROUNDING ? along.get(k, 0) ** 2 / value : 0));
}

/** Places of equal values together, from the least value on. */
function tiersOf(values: readonly number[]): number[][] {
  return sort(
    group(values.entries(), ([, value]) => value),
    ([value]) => value,
  ).map(([, alike]) => alike.map(([place]) => place));
}

/** Mean ranks where each member stands so many times. */
function ranksIn(tiers: readonly (readonly number[])[], counts: readonly number[]): number[] {
  const ranks = counts.map(() => 0);
  let below = 0;
  for (const tier of tiers) {
    const size = sum(tier, (place) => entry(counts, place));
    for (const place of tier) ranks[place] = below + (size - 1) / 2;
    below += size;
  }
  return ranks;
}
