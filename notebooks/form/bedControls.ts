/** Controls of a bed seen from above: its outline, and how its pots and plants stand. */
import { choice, fine, number, when } from "./controlMakers.ts";
import type { Control, Settings } from "./controlTypes.ts";

const size = (field: string, label: string, shape: string) =>
  number(field, label, {
    measure: "distance",
    min: 20,
    max: 4900,
    step: { metric: 0.1, us: 0.25 },
    shownWhen: when("bed.shape", shape),
  });

/** The corners of a bed of any shape have no control: they stand with the plan. */
export const outlineControls: Control[] = [
  choice("bed.shape", "Shape of the bed", {
    style: "radio",
    options: [
      { value: "rectangle", label: "rectangle" },
      { value: "circle", label: "circle" },
      { value: "polygon", label: "any, by its corners" },
    ],
  }),
  size("bed.length", "Bed length", "rectangle"),
  size("bed.width", "Bed width", "rectangle"),
  size("bed.diameter", "Bed diameter", "circle"),
];

export const gridControls: Control[] = [
  number("spacing", "Pot spacing, middle to middle", {
    measure: "length",
    min: 20,
    max: 380,
    step: { metric: 1, us: 0.5 },
  }),
  choice("potGrid", "Pot grid", {
    style: "radio",
    options: [
      { value: "square", label: "in squares" },
      { value: "triangular", label: "in triangles" },
    ],
  }),
];

export const placingControls: Control[] = [
  number("rowAngle", "Angle of the pot rows", { measure: "degrees", min: -90, max: 90, step: fine(1) }),
  choice("edgeHow", "Distance of the pots from the bed’s edge", {
    style: "radio",
    options: [
      { value: "usual", label: "a third of the spacing" },
      { value: "own", label: "one of my own" },
    ],
  }),
  number("edgeDistance", "Middle of the outer pots from the edge", {
    measure: "length",
    min: 2,
    max: 290,
    step: { metric: 1, us: 0.5 },
    shownWhen: when("edgeHow", "own"),
  }),
  choice("placesHow", "Where the pots stand", {
    style: "radio",
    options: [
      { value: "grid", label: "on the grid" },
      { value: "hand", label: "as moved by hand" },
    ],
    shownWhen: ({ potPlaces }) => potPlaces !== "[]",
  }),
  number("plantSpacing", "Plant spacing", { measure: "length", min: 2, max: 150, step: { metric: 1, us: 0.5 } }),
];

/** A bed to start from, in each of its shapes: the plan's defaults. Pots stand on the grid until they are moved. */
export const startingBed: Settings = {
  "bed.shape": "rectangle",
  "bed.length": 480,
  "bed.width": 120,
  "bed.diameter": 300,
  "bed.points": JSON.stringify([
    { x: 0, y: 0 },
    { x: 480, y: 0 },
    { x: 480, y: 120 },
    { x: 0, y: 120 },
  ]),
  spacing: 70,
  potGrid: "square",
  rowAngle: 0,
  edgeHow: "usual",
  edgeDistance: 25,
  plantSpacing: 30,
  placesHow: "grid",
  potPlaces: "[]",
};
