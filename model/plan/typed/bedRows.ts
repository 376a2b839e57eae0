/** A bed seen from above: its outline, and where its pots and plants stand. */
import { POT_GRIDS } from "../../bed/potGrid.ts";
import { choice, length, list, number, union } from "./row.ts";

/** Of a bed, cm. */
export const BED_SIZE = { min: 20, max: 5000 };

/** Pots of a plan at most: more are a field, and more than a page can show (our own choice). */
export const MOST_POTS = 3000;

const size = (side: string, start: number) =>
  number(`bed ${side}`, "distance", BED_SIZE, {
    slider: [BED_SIZE.min, 4900],
    step: [0.1, 0.25],
    start,
  });

/** x along the bed from its corner A, y across. */
function place(of: string) {
  const along = (name: string) => number(`${name} ${of}`, "distance", [-BED_SIZE.max, BED_SIZE.max], {});
  return { x: along("x"), y: along("y") };
}

/** Where a form's bed starts, cm. */
const START = { length: 480, width: 120, diameter: 300 };

const outlineRow = union(
  "bed",
  "shape",
  {
    rectangle: { length: size("length", START.length), width: size("width", START.width) },
    circle: { diameter: size("diameter", START.diameter) },
    polygon: {
      points: list("outline of the bed", place("of a corner of the bed"), {
        description: "a list of 3 to 100 corners",
        itemTitle: "place of a corner of the bed",
        length: { min: 3, max: 100 },
        noControl: "Corners are moved on the drawing.",
        start: [
          { x: 0, y: 0 },
          { x: START.length, y: 0 },
          { x: START.length, y: START.width },
          { x: 0, y: START.width },
        ],
      }),
    },
  },
  {
    optional: true,
    bearsOn: ["bed.outline"],
    label: "Shape of the bed",
    style: "radio",
    labels: { rectangle: "rectangle", circle: "circle", polygon: "any, by its corners" },
    start: "rectangle",
  },
);

/** All of it may be left out. */
export const bedRows = {
  bed: outlineRow,
  spacing: length("pot spacing", [20, 400], {
    optional: true,
    bearsOn: ["bed.spacing", "areaPerPot"],
    label: "Pot spacing, middle to middle",
    slider: [20, 380],
    step: [1, 0.5],
    start: 70,
  }),
  potGrid: choice("pot grid", POT_GRIDS, {
    default: "square",
    bearsOn: ["bed.grid", "areaPerPot"],
    style: "radio",
    labels: { square: "in squares", triangular: "in triangles" },
  }),
  rowAngle: number("angle of the pot rows", "degrees", [-90, 90], {
    default: 0,
    bearsOn: ["bed.rowAngle"],
    step: 1,
  }),
  edgeDistance: length("distance of the pots from the bed's edge", [1, 300], {
    optional: true,
    bearsOn: ["bed.edgeDistance"],
    label: "Middle of the outer pots from the edge",
    slider: [2, 290],
    step: [1, 0.5],
    start: 25,
    way: {
      path: "edgeHow",
      label: "Distance of the pots from the bed’s edge",
      leftOut: { value: "usual", label: "a third of the spacing" },
      given: { value: "own", label: "one of my own" },
    },
  }),
  potPlaces: list("places of the pots", place("of a pot"), {
    default: null,
    bearsOn: ["bed.potPlaces"],
    description: `a list of 1 to ${MOST_POTS} places, or null`,
    itemTitle: "place of a pot",
    length: { min: 1, max: MOST_POTS },
    noControl: "Pots are moved on the drawing.",
    start: [],
    way: {
      path: "placesHow",
      label: "Where the pots stand",
      leftOut: { value: "grid", label: "on the grid" },
      given: { value: "hand", label: "as moved by hand" },
    },
  }),
  /** cm; our own choice. */
  plantSpacing: length("plant spacing", [2, 200], {
    default: 30,
    bearsOn: ["bed.plantSpacing"],
    slider: [2, 150],
    step: [1, 0.5],
  }),
};
