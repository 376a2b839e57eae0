/** Controls of the gravity line from the tank to the pots. */
import { choice, fine, number, when } from "./controlMakers.ts";
import type { Control, Settings } from "./controlTypes.ts";

const bore = (field: string, label: string, shownWhen?: Control["shownWhen"]) =>
  number(field, label, {
    measure: "bore",
    min: 2,
    max: 60,
    step: { metric: 0.5, us: 0.02 },
    ...(shownWhen && { shownWhen }),
  });

const height = (field: string, label: string, shownWhen?: Control["shownWhen"]) =>
  number(field, label, {
    measure: "length",
    min: -400,
    max: 1000,
    step: { metric: 1, us: 0.5 },
    ...(shownWhen && { shownWhen }),
  });

export const tubeControls: Control[] = [
  bore("line.tube.bore", "Bore of the small tubes (inside)"),
  number("line.tube.length", "Length of each small tube", {
    measure: "length",
    min: 5,
    max: 500,
    step: { metric: 1, us: 0.5 },
  }),
];

const humped = when("line.main.way.kind", "humped");
const withEmitters = when("line.tube.end.kind", "emitter");
const ownEnd = when("tubeEndHow", "own");

export const mainControls: Control[] = [
  number("line.main.length", "Length of the main", {
    measure: "distance",
    min: 10,
    max: 10_000,
    step: { metric: 0.5, us: 1 },
  }),
  bore("line.main.bore", "Bore of the main (inside)"),
  bore("line.rowPipe.bore", "Bore of the pipes along the rows (inside)"),
  height("line.rowPipe.height", "Height of the pipes along the rows above the soil"),
  choice("line.valve", "Valve at the tank", {
    style: "select",
    options: ["ball valve", "gate valve", "garden tap"].map((value) => ({ value, label: value })),
  }),
  choice("line.main.way.kind", "Way of the main", {
    style: "radio",
    options: [
      { value: "falling", label: "falls all the way" },
      { value: "humped", label: "goes up and down" },
    ],
  }),
  height("line.main.way.highest", "Its highest point above the soil", humped),
  height("line.main.way.lowest", "Its lowest point above the soil", humped),
];

export const endControls: Control[] = [
  choice("tubeEndHow", "Where the small tubes end", {
    style: "radio",
    options: [
      { value: "rim", label: "at the pots’ rims" },
      { value: "own", label: "at a height of my own" },
    ],
  }),
  height("line.tube.endHeight", "Height of the tubes’ ends above the soil", ownEnd),
  choice("line.tube.end.kind", "Ends of the small tubes", {
    style: "radio",
    options: [
      { value: "open", label: "open" },
      { value: "emitter", label: "with emitters" },
    ],
  }),
  number("line.tube.end.flowAtOneMetre", "Flow of an emitter under a metre of water", {
    measure: "emitter flow",
    min: 0.05,
    max: 200,
    step: { metric: 0.1, us: 0.05 },
    shownWhen: withEmitters,
  }),
  number("line.tube.end.exponent", "Exponent of the emitter", {
    measure: "",
    min: 0.1,
    max: 1,
    step: fine(0.05),
    help: () => "0.5 for a hole, 1 for a long fine tube; makers tell it.",
    shownWhen: withEmitters,
  }),
  choice("line.fullPots", "A full pot", {
    style: "radio",
    options: [
      { value: "overflow", label: "overflows" },
      { value: "stop", label: "stops its tube (a float)" },
    ],
  }),
  choice("line.joints.kind", "Tubes between the pots of a row", {
    style: "radio",
    options: [
      { value: "none", label: "none" },
      { value: "rows", label: "low in their walls" },
    ],
  }),
  bore("line.joints.bore", "Bore of the tubes between pots (inside)", when("line.joints.kind", "rows")),
  number("line.joints.depth", "Depth of the tubes between pots", {
    measure: "length",
    min: 0,
    max: 100,
    step: { metric: 1, us: 0.5 },
    shownWhen: when("line.joints.kind", "rows"),
  }),
  number("line.waterTemperature", "Temperature of the water", {
    measure: "temperature",
    min: 1,
    max: 45,
    step: { metric: 1, us: 1 },
  }),
  number("line.wantedMinutes", "All pots should be full within", {
    measure: "minutes",
    min: 1,
    max: 600,
    step: fine(1),
  }),
  number("line.slack", "Length added to each piece as slack", { measure: "%", min: 0, max: 50, step: fine(1) }),
];

/** The plan's defaults, in the model's units; what they leave out is where its slider starts. */
export const startingLine: Settings = {
  "line.waterTemperature": 20,
  "line.valve": "garden tap",
  "line.main.length": 500,
  "line.main.bore": 16,
  "line.main.way.kind": "falling",
  "line.main.way.highest": 80,
  "line.main.way.lowest": 0,
  "line.rowPipe.bore": 13,
  "line.rowPipe.height": 5,
  "line.tube.bore": 4,
  "line.tube.length": 40,
  tubeEndHow: "rim",
  "line.tube.endHeight": 2,
  "line.tube.end.kind": "open",
  "line.tube.end.flowAtOneMetre": 4,
  "line.tube.end.exponent": 0.5,
  "line.fullPots": "overflow",
  "line.joints.kind": "none",
  "line.joints.bore": 13,
  "line.joints.depth": 20,
  "line.wantedMinutes": 60,
  "line.slack": 10,
};
