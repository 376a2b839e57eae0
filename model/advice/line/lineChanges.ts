/** What would fill the pots of a line sooner. */
import type { LinedBed } from "../../problems/linedBed.ts";

export interface LineChange {
  name:
    | "wider tubes"
    | "wider row pipes"
    | "wider main"
    | "higher tank"
    | "ball valve"
    | "shorter tubes"
    | "shorter main"
    | "warmer water";
  plan: LinedBed;
}

/** Bores in which tubes and pipes are sold, mm: common practice, no source; makers differ. */
const BORES = [4, 6, 9, 13, 16, 20, 26, 35, 50, 75, 100];
/** Next to the same is no wider. */
const WIDER = 1.1;
const HIGHER = 30;
/** °C. */
const WARMER = 10;
const MOST_CELSIUS = 45;

/** Each changes one thing and leaves the rest; only what can still be done. */
export function lineChanges(plan: LinedBed): LineChange[] {
  const { line, tank } = plan;
  const withLine = (name: LineChange["name"], changes: Partial<LinedBed["line"]>): LineChange => ({
    name,
    plan: { ...plan, line: { ...line, ...changes } },
  });
  const wider = (name: LineChange["name"], which: "tubeBore" | "rowBore" | "mainBore"): LineChange[] => {
    const next = BORES.find((bore) => bore > WIDER * line[which]);
    return next === undefined ? [] : [withLine(name, { [which]: next })];
  };
  const outletHeight = tank.outletHeight + HIGHER;
  return [
    ...wider("wider tubes", "tubeBore"),
    ...wider("wider row pipes", "rowBore"),
    ...wider("wider main", "mainBore"),
    { name: "higher tank", plan: { ...plan, tank: { ...tank, outletHeight } } },
    ...(line.valve === "garden tap" ? [withLine("ball valve", { valve: "ball valve" })] : []),
    withLine("shorter tubes", { tubeLength: line.tubeLength / 2 }),
    withLine("shorter main", { mainLength: line.mainLength / 2 }),
    ...(line.celsius + WARMER <= MOST_CELSIUS ? [withLine("warmer water", { celsius: line.celsius + WARMER })] : []),
  ];
}
