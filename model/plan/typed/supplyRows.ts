/** Where a plan's water comes from: planting day, roof, tanks, and water carried to the tank. */
import { MONTHS } from "../../calendar/months.ts";
import { MONTH_LABELS } from "./livingRows.ts";
import { choice, flag, group, length, number, percent, union } from "./row.ts";

/** Tanks that catch what overflows from the one before, and give it back when that one has room. */
const spareTanksRow = union(
  "spare tanks",
  "kind",
  {
    none: {},
    alike: {
      count: number("number of spare tanks", "", [1, 10], {
        isWhole: true,
        step: 1,
        start: 1,
      }),
      volume: number("volume of a spare tank", "volume", [20, 100_000], {
        label: "Volume of each spare tank",
        slider: [20, 30_000],
        step: [50, 25],
        start: 1000,
      }),
      transfer: number("water moved on from a spare tank", "flow", [0, 100_000], {
        default: 200,
        slider: [0, 5000],
        step: [10, 5],
      }),
    },
  },
  {
    default: { kind: "none" },
    bearsOn: ["spareTanks"],
    label: "Spare tanks that catch what overflows",
    style: "radio",
    labels: { none: "none", alike: "one or more" },
  },
);

/** Water carried to the tank by hand when it is low. */
const topUpRow = union(
  "topping up by hand",
  "kind",
  {
    none: {},
    below: {
      share: percent("share of the tank below which it is topped up by hand", {
        label: "Share of the tank below which it is topped up",
        slider: [1, 100],
        step: 1,
        start: 20,
      }),
      amount: number("water added by hand each time", "volume", [1, 10_000], {
        label: "Water added each time",
        slider: [1, 5000],
        step: [10, 5],
        start: 100,
      }),
    },
  },
  {
    default: { kind: "none" },
    bearsOn: ["topUp"],
    label: "Topping up by hand",
    style: "radio",
    labels: { none: "never", below: "when the tank is low" },
  },
);

/** All of it may be left out. cm², mm, L, cm; our own choice, but for the first flush: handbooks let go 0.3 to 0.5 mm of a clean roof. */
export const supplyRows = {
  planting: group(
    "planting",
    {
      month: choice("month of planting", MONTHS, {
        default: "april",
        label: "Month of sowing or planting",
        style: "select",
        labels: MONTH_LABELS,
      }),
      day: number("day of planting", "", [1, 31], {
        isWhole: true,
        default: 15,
        label: "Day of that month",
        step: 1,
      }),
    },
    { bearsOn: ["plantingDay"] },
  ),
  roof: group(
    "roof",
    {
      area: number("roof area", "area", [0, 1e8], {
        default: 50e4,
        label: "Roof area, seen from above",
        slider: [0, 500e4],
        step: [1, 10],
      }),
      runoff: percent("share of the rain that runs off the roof", {
        default: 85,
        step: 1,
      }),
      firstFlush: number("first flush let go", "rain", [0, 20], {
        default: 0.5,
        label: "First flush let go of each rain",
        slider: [0, 10],
        step: [0.1, 0.01],
      }),
    },
    { bearsOn: ["roof"] },
  ),
  tank: group(
    "tank",
    {
      volume: number("tank volume", "volume", [20, 100_000], {
        default: 1000,
        label: "Tank",
        slider: [20, 30_000],
        step: [50, 25],
      }),
      waterHeight: length("height of the water in a full tank", [10, 500], {
        default: 120,
        label: "Height of the water in the full tank",
        slider: [20, 400],
        step: [1, 0.5],
      }),
      outletHeight: length("height of the tank's outlet above the soil", [-500, 2000], {
        default: 60,
        label: "Height of the tank’s outlet above the soil",
        slider: [-400, 1000],
        step: [1, 0.5],
      }),
      lid: flag("lid of the tank", { default: true, label: "Lid on the tank" }),
    },
    { bearsOn: ["tank"] },
  ),
  spareTanks: spareTanksRow,
  topUp: topUpRow,
};
