/** Controls of a bed's water: planting day, roof and tanks. */
import { MONTHS, monthName } from "../../model/public/plan.ts";
import { choice, fine, number, when } from "./controlMakers.ts";
import type { Control, Settings } from "./controlTypes.ts";

export const plantingControls: Control[] = [
  choice("planting.month", "Month of sowing or planting", {
    style: "select",
    options: MONTHS.map((value) => ({ value, label: monthName(value) })),
  }),
  number("planting.day", "Day of that month", { measure: "", min: 1, max: 31, step: fine(1) }),
];

export const roofControls: Control[] = [
  number("roof.area", "Roof area, seen from above", {
    measure: "area",
    min: 0,
    max: 500e4,
    step: { metric: 1, us: 10 },
  }),
];

export const runoffControls: Control[] = [
  number("roof.runoff", "Share of the rain that runs off the roof", { measure: "%", min: 0, max: 100, step: fine(1) }),
  number("roof.firstFlush", "First flush let go of each rain", {
    measure: "rain",
    min: 0,
    max: 10,
    step: { metric: 0.1, us: 0.01 },
  }),
];

export const tankControls: Control[] = [
  number("tank.volume", "Tank", { measure: "volume", min: 20, max: 30_000, step: { metric: 50, us: 25 } }),
];

export const tankBodyControls: Control[] = [
  number("tank.waterHeight", "Height of the water in the full tank", {
    measure: "length",
    min: 20,
    max: 400,
    step: { metric: 1, us: 0.5 },
  }),
  choice("tank.lid", "Lid on the tank", {
    style: "radio",
    options: [
      { value: "yes", label: "yes", typed: true },
      { value: "no", label: "no", typed: false },
    ],
  }),
  choice("spareTanks.kind", "Spare tanks that catch what overflows", {
    style: "radio",
    options: [
      { value: "none", label: "none" },
      { value: "alike", label: "one or more" },
    ],
  }),
  number("spareTanks.count", "Number of spare tanks", {
    measure: "",
    min: 1,
    max: 10,
    step: fine(1),
    shownWhen: when("spareTanks.kind", "alike"),
  }),
  number("spareTanks.volume", "Volume of each spare tank", {
    measure: "volume",
    min: 20,
    max: 30_000,
    step: { metric: 50, us: 25 },
    shownWhen: when("spareTanks.kind", "alike"),
  }),
  number("spareTanks.transfer", "Water moved on from a spare tank", {
    measure: "flow",
    min: 0,
    max: 5000,
    step: { metric: 10, us: 5 },
    shownWhen: when("spareTanks.kind", "alike"),
  }),
  choice("topUp.kind", "Topping up by hand", {
    style: "radio",
    options: [
      { value: "none", label: "never" },
      { value: "below", label: "when the tank is low" },
    ],
  }),
  number("topUp.share", "Share of the tank below which it is topped up", {
    measure: "%",
    min: 1,
    max: 100,
    step: fine(1),
    shownWhen: when("topUp.kind", "below"),
  }),
  number("topUp.amount", "Water added each time", {
    measure: "volume",
    min: 1,
    max: 5000,
    step: { metric: 10, us: 5 },
    shownWhen: when("topUp.kind", "below"),
  }),
];

export const outletHeightControls: Control[] = [
  number("tank.outletHeight", "Height of the tank’s outlet above the soil", {
    measure: "length",
    min: -400,
    max: 1000,
    step: { metric: 1, us: 0.5 },
  }),
];

/** The plan's defaults, in the model's units; what they leave out is where its slider starts. */
export const startingSupply: Settings = {
  "planting.month": "april",
  "planting.day": 15,
  "roof.area": 50e4,
  "roof.runoff": 85,
  "roof.firstFlush": 0.5,
  "tank.volume": 1000,
  "tank.waterHeight": 120,
  "tank.outletHeight": 60,
  "tank.lid": "yes",
  "spareTanks.kind": "none",
  "spareTanks.count": 1,
  "spareTanks.volume": 1000,
  "spareTanks.transfer": 200,
  "topUp.kind": "none",
  "topUp.share": 20,
  "topUp.amount": 100,
};
