/** A line at one moment: which outlets run, and how much. */
import { entry, present } from "../input/lists.ts";
import { type Line, type Network, networkOf, type Outlet } from "./network.ts";
import { type Flows, type NetworkBoundary, solveFlows, type Trouble, type Way } from "./solveFlows.ts";

export interface LineState {
  /** Height of the tank's water level. */
  tankHead: number;
  /** Water level of each pot; −Infinity: empty. */
  potHeads: ArrayLike<number>;
  /** Per pot: its tubes are shut. */
  closed: readonly boolean[];
  /** Pots are joined through their tubes: one whose water covers the tube's end gives water back. Else none does. */
  joined?: boolean;
}

/**
 * Flows that balance to 1e-10 m of head along each path, or what went wrong. Water falls from a tube's end into the pot,
 * or flows against the pot's level where that covers the end. Behind a place as high as the tank's water nothing flows.
 */
export function solveLine(line: Line, state: LineState): Flows | Trouble {
  const network = networkOf(line);
  return solveFlows(network, boundaryOf(network, state));
}

export function boundaryOf(
  network: Network,
  { tankHead, potHeads, closed, joined = false }: LineState,
): NetworkBoundary {
  const ends = endsOf(network);
  const outside = ends.map(({ outlet, height }) => Math.max(height, entry(potHeads, outlet.pot)));
  const ways = ends.map(({ outlet, height, crest }): Way => {
    if (closed[outlet.pot] || crest >= tankHead) return "given";
    return joined && entry(potHeads, outlet.pot) > height ? "both ways" : "out";
  });
  return { tankHead, outside, ways, given: ends.map(() => 0) };
}

/** A place where water leaves the line. */
export interface End {
  outlet: Outlet;
  height: number;
  /** The highest place on the way to it. */
  crest: number;
}

export function endsOf({ pieces, outlets, crests }: Network): End[] {
  return Array.from(outlets, (p) => {
    const { name, outlet, height } = entry(pieces, p);
    return { outlet: present(outlet, `outlet of ${name}`), height, crest: entry(crests, p) };
  });
}
