/** The gravity line: from the tank's outlet by a main and a pipe along each row (a manifold) to a small tube at each pot. */
import { VALVES, type Valve } from "../../line/fittings.ts";
import { choice, group, length, number, percent, union } from "./row.ts";

/** Of the inside, mm; our own choice. */
const bore = (title: string, label: string, value: number) =>
  number(title, "bore", [1, 100], { default: value, label: `${label} (inside)`, slider: [2, 60], step: [0.5, 0.02] });

const height = <const O extends object>(title: string, label: string, rest: O) =>
  length(title, [-500, 2000], { label, slider: [-400, 1000], step: [1, 0.5], ...rest });

const mainWay = union(
  "way of the main",
  "kind",
  {
    falling: {},
    humped: {
      highest: height("highest point of the main above the soil", "Its highest point above the soil", { start: 80 }),
      lowest: height("lowest point of the main above the soil", "Its lowest point above the soil", { start: 0 }),
    },
  },
  {
    default: { kind: "falling" },
    label: "Way of the main",
    style: "radio",
    labels: { falling: "falls all the way", humped: "goes up and down" },
  },
);

const tubeEnd = union(
  "ends of the small tubes",
  "kind",
  {
    open: {},
    emitter: {
      flowAtOneMetre: number("flow of an emitter under a metre of water", "emitter flow", [0.01, 500], {
        slider: [0.05, 200],
        step: [0.1, 0.05],
        start: 4,
      }),
      exponent: number("exponent of the emitter", "", [0.1, 1], {
        default: 0.5,
        help: "0.5 for a hole, 1 for a long fine tube; makers tell it.",
        step: 0.05,
      }),
    },
  },
  {
    default: { kind: "open" },
    label: "Ends of the small tubes",
    style: "radio",
    labels: { open: "open", emitter: "with emitters" },
  },
);

/** Tubes low in the walls that let the pots of a row settle to one level. */
const jointsRow = union(
  "tubes between pots",
  "kind",
  {
    none: {},
    rows: {
      bore: bore("bore of the tubes between pots", "Bore of the tubes between pots", 13),
      depth: length("depth of the tubes between pots", [0, 100], {
        default: 20,
        step: [1, 0.5],
      }),
    },
  },
  {
    default: { kind: "none" },
    label: "Tubes between the pots of a row",
    style: "radio",
    labels: { none: "none", rows: "low in their walls" },
  },
);

/** All of it may be left out; cm, mm of bore, °C, our own choice. */
export const lineRow = group(
  "gravity line",
  {
    waterTemperature: number("temperature of the water", "temperature", [0.5, 45], {
      default: 20,
      slider: [1, 45],
      step: 1,
    }),
    valve: choice("valve at the tank", Object.keys(VALVES) as Valve[], {
      default: "garden tap",
      style: "select",
    }),
    main: group(
      "main",
      {
        length: number("length of the main", "distance", [10, 30_000], {
          default: 500,
          slider: [10, 10_000],
          step: [0.5, 1],
        }),
        bore: bore("bore of the main", "Bore of the main", 16),
        way: mainWay,
      },
      {},
    ),
    rowPipe: group(
      "pipes along the rows",
      {
        bore: bore("bore of the pipes along the rows", "Bore of the pipes along the rows", 13),
        height: height(
          "height of the pipes along the rows above the soil",
          "Height of the pipes along the rows above the soil",
          { default: 5 },
        ),
      },
      {},
    ),
    tube: group(
      "small tubes",
      {
        bore: bore("bore of the small tubes", "Bore of the small tubes", 4),
        length: length("length of the small tubes", [1, 1000], {
          default: 40,
          label: "Length of each small tube",
          slider: [5, 500],
          step: [1, 0.5],
        }),
        endHeight: height("height of the tubes' ends above the soil", "Height of the tubes’ ends above the soil", {
          optional: true,
          start: 2,
          way: {
            path: "tubeEndHow",
            label: "Where the small tubes end",
            leftOut: { value: "rim", label: "at the pots’ rims" },
            given: { value: "own", label: "at a height of my own" },
          },
        }),
        end: tubeEnd,
      },
      {},
    ),
    fullPots: choice("what a full pot does", ["overflow", "stop"], {
      default: "overflow",
      label: "A full pot",
      style: "radio",
      labels: { overflow: "overflows", stop: "stops its tube (a float)" },
    }),
    joints: jointsRow,
    wantedMinutes: number("minutes within which all pots should be full", "minutes", [1, 1440], {
      default: 60,
      label: "All pots should be full within",
      slider: [1, 600],
      step: 1,
    }),
    slack: percent("length added to each tube as slack", {
      default: 10,
      label: "Length added to each piece as slack",
      slider: [0, 50],
      step: 1,
    }),
  },
  { bearsOn: ["line"] },
);
