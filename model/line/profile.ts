/** Heights and pressure along the way from the tank to one pot. */
import { max } from "d3-array";
import { entry, first, last, present } from "../input/lists.ts";
import { type Line, pathTo } from "./network.ts";
import { velocityHead } from "./pipe.ts";
import type { Flows } from "./solveFlows.ts";

export interface ProfilePoint {
  /** Length of pipe from the tank's outlet. */
  along: number;
  height: number;
  /** Pressure head, m; below 0 the pipe draws air at its joints, and water may stop. */
  pressureHead: number;
  /** The piece that ends there or runs through. */
  piece: string;
}

/** A low or high place between the two ends; `depth` is how far the line rises, or falls, from it on both sides at least. */
export interface Extreme extends ProfilePoint {
  depth: number;
}

export interface Profile {
  points: ProfilePoint[];
  /** Low places: water stays in them, and with it dirt and ice. */
  sags: Extreme[];
  /** High places: air stays in them. */
  highPoints: Extreme[];
  /** Points where the pressure head is below 0. */
  underSuction: ProfilePoint[];
}

export interface ProfileStart {
  tankHead: number;
  /** Height of the tank's outlet, where the line starts. */
  outletHeight: number;
}

/** A pressure head this little below 0 is rounding, m. */
const ROUNDING = 1e-9;

/** The way to the far end of `piece`; friction is spread along a piece, its fittings stand at its far end. */
export function profileTo(line: Line, flows: Flows, piece: number, { tankHead, outletHeight }: ProfileStart): Profile {
  const path = pathTo(line, piece);
  const start = {
    along: 0,
    height: outletHeight,
    pressureHead: tankHead - outletHeight,
    piece: entry(line.pieces, first(path)).name,
  };
  const points: ProfilePoint[] = [start];
  for (const p of path) points.push(...pointsOf(line, flows, p, tankHead, last(points).along));
  const turned = points.map((point) => ({ ...point, height: -point.height }));
  const upright = ({ height, ...rest }: Extreme): Extreme => ({ ...rest, height: -height });
  return {
    points,
    sags: lowPlaces(points),
    highPoints: lowPlaces(turned).map(upright),
    underSuction: points.filter(({ pressureHead }) => pressureHead < -ROUNDING),
  };
}

function pointsOf({ pieces }: Line, { flow, headAt }: Flows, p: number, tankHead: number, start: number) {
  const [piece, Q, after] = [entry(pieces, p), entry(flow, p), entry(headAt, p)];
  const moving = velocityHead(piece, Q);
  const before = piece.parent === null ? tankHead : entry(headAt, piece.parent);
  const friction = before - after - piece.minorLoss * moving * Math.sign(Q);
  const point = (along: number, height: number, head: number): ProfilePoint => ({
    along: start + along,
    height,
    pressureHead: head - moving - height,
    piece: piece.name,
  });
  const onTheWay = piece.via.map(({ along, height }) =>
    point(along, height, before - (friction * along) / piece.length),
  );
  return [...onTheWay, point(piece.length, piece.height, after)];
}

/** Places lower than all between them and a rise on either side; of a level stretch the first. */
function lowPlaces(points: readonly ProfilePoint[]): Extreme[] {
  const bends = points.filter((point, i) => point.height !== points[i - 1]?.height);
  return bends.flatMap((point, i) => {
    const [before, after] = [bends[i - 1], bends[i + 1]];
    if (!before || !after || before.height < point.height || after.height < point.height) return [];
    return [{ ...point, depth: Math.min(riseFrom(bends.slice(0, i + 1).reverse()), riseFrom(bends.slice(i))) }];
  });
}

/** How far the way rises from its first point before it comes lower than that again. */
function riseFrom(way: readonly ProfilePoint[]): number {
  const { height } = first(way);
  const below = way.findIndex((point) => point.height < height);
  const before = way.slice(0, below < 0 ? way.length : below);
  return (
    present(
      max(before, (point) => point.height),
      "place",
    ) - height
  );
}
