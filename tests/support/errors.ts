import { max } from "d3-array";
import type { buriedCylinder } from "../../model/checks/loadChecks.ts";
import type { Row, Run } from "../../model/flow/run.ts";

/** Largest errors of a run, as shares; `emptying` is absent where the pot does not run empty. */
export interface Errors {
  seepage: number;
  radius: number;
  depth: number;
  emptying?: number;
}

type KnownRow = Pick<Row, "seepageLitres" | "wettedRadius" | "wettedDepth">;

/** What a run is measured against: rows on the same days. */
export interface Known {
  rows: readonly KnownRow[];
  firstEmptyDay: number | null;
}

/** The known answers of one run of the buried cylinder. */
export function knownAnswers(row: ReturnType<typeof buriedCylinder>["rows"][number]): Known {
  const rows = row.seepageLitres.map((seepageLitres, k) => ({
    seepageLitres,
    wettedRadius: row.wettedRadius[k]!,
    wettedDepth: row.wettedDepth[k]!,
  }));
  return { rows, firstEmptyDay: row.firstEmptyDay ?? null };
}

/**
 * Not a number where the run did not come to its end. Radius and depth are compared while the edge goes outward: once
 * the pot is empty it draws back and dissolves, and a share of nothing says nothing.
 */
export function errorsOf(
  { status, rows, firstEmptyDay }: Pick<Run, "status" | "rows" | "firstEmptyDay">,
  known: Known,
): Errors {
  if (status !== "finished") return { seepage: Number.NaN, radius: Number.NaN, depth: Number.NaN };
  const worst = (name: keyof KnownRow) => {
    const farthest = (k: number) => max(known.rows.slice(0, k + 1), (row) => row[name])!;
    return max(rows, (row, k) => {
      const expected = known.rows[k]![name];
      return expected < farthest(k) ? 0 : shareOff(row[name], expected);
    })!;
  };
  return {
    seepage: worst("seepageLitres"),
    radius: worst("wettedRadius"),
    depth: worst("wettedDepth"),
    ...(known.firstEmptyDay !== null && { emptying: shareOff(firstEmptyDay ?? Number.NaN, known.firstEmptyDay) }),
  };
}

const shareOff = (actual: number, expected: number) => (actual === expected ? 0 : Math.abs(actual / expected - 1));

export function isWithin(errors: Errors, allowed: Required<Errors>): boolean {
  return (Object.keys(errors) as (keyof Errors)[]).every((name) => errors[name]! <= allowed[name]);
}
