import { describe, expect, it } from "vitest";
import { soundValue } from "../../model/input/faults.ts";
import { resolvePlan } from "../../model/plan/plan.ts";
import { BED, faultsOf, US_BED } from "../support/typedBeds.ts";

const lineOf = (line: object, bed: object = BED) => soundValue(resolvePlan({ ...bed, line })).line;

const close = (value: number) => expect.closeTo(value, 9);

describe("the line in a plan", () => {
  const typed = {
    waterTemperature: 15,
    valve: "ball valve",
    main: { length: 12, bore: 19, way: { kind: "humped", highest: 90, lowest: -10 } },
    rowPipe: { bore: 12, height: -4 },
    tube: { bore: 3, length: 55, endHeight: 1, end: { kind: "emitter", flowAtOneMetre: 4, exponent: 0.5 } },
    fullPots: "stop",
    joints: { kind: "rows", bore: 16, depth: 18 },
    wantedMinutes: 30,
    slack: 15,
  };

  it("is as typed, its lengths in cm and its bores in mm", () => {
    expect(lineOf(typed)).toEqual({
      celsius: 15,
      valve: "ball valve",
      mainLength: 1200,
      mainBore: 19,
      mainHump: { highest: 90, lowest: -10 },
      rowBore: 12,
      rowHeight: -4,
      tubeBore: 3,
      tubeLength: 55,
      tubeEndHeight: 1,
      emitter: { litresPerHourAtOneMetre: 4, exponent: 0.5 },
      whenFull: "stop",
      joints: { bore: 16, depth: 18 },
      wantedMinutes: 30,
      slack: 0.15,
    });
  });

  it("typed in feet, inches, gallons and °F is in cm, mm, litres and °C", () => {
    const us = {
      ...typed,
      waterTemperature: 59,
      main: { length: 40, bore: 0.75, way: { kind: "humped", highest: 35, lowest: -4 } },
      rowPipe: { bore: 0.5, height: 2 },
      tube: { bore: 0.125, length: 20, endHeight: 1, end: { kind: "emitter", flowAtOneMetre: 1, exponent: 0.5 } },
      joints: { kind: "rows", bore: 0.75, depth: 7 },
    };
    expect(lineOf(us, US_BED)).toMatchObject({
      celsius: close(15),
      mainLength: close(1219.2),
      mainBore: close(19.05),
      mainHump: { highest: close(88.9), lowest: close(-10.16) },
      rowBore: close(12.7),
      rowHeight: close(5.08),
      tubeBore: close(3.175),
      tubeLength: close(50.8),
      tubeEndHeight: close(2.54),
      emitter: { litresPerHourAtOneMetre: close(3.785411784), exponent: 0.5 },
      joints: { bore: close(19.05), depth: close(17.78) },
    });
  });

  it("has tubes that end at the pots' rims unless told otherwise", () => {
    const pot = { ...BED.pot, rimAboveSoil: 4 };
    expect(lineOf({}, { ...BED, pot }).tubeEndHeight).toBe(4);
    expect(lineOf({ tube: { endHeight: 0 } }, { ...BED, pot }).tubeEndHeight).toBe(0);
  });

  it.each<[object, string, string]>([
    [{ tube: { bore: 0 } }, "line.tube.bore", "bore of the small tubes is 0 mm; it must be from 1 to 100 mm"],
    [{ main: { bore: 0 } }, "line.main.bore", "bore of the main is 0 mm; it must be from 1 to 100 mm"],
    [
      { rowPipe: { bore: -3 } },
      "line.rowPipe.bore",
      "bore of the pipes along the rows is -3 mm; it must be from 1 to 100 mm",
    ],
    [{ main: { length: 0 } }, "line.main.length", "length of the main is 0 m; it must be from 0.1 to 300 m"],
    [
      { waterTemperature: 60 },
      "line.waterTemperature",
      "temperature of the water is 60 °C; it must be from 0.5 to 45 °C",
    ],
    [
      { valve: "tap" },
      "line.valve",
      'valve at the tank is "tap"; it must be one of ball valve, gate valve, garden tap',
    ],
    [
      { tube: { end: { kind: "emitter", flowAtOneMetre: 4, exponent: 2 } } },
      "line.tube.end.exponent",
      "exponent of the emitter is 2; it must be from 0.1 to 1",
    ],
    [
      { tube: { end: { kind: "emitter" } } },
      "line.tube.end.flowAtOneMetre",
      "flow of an emitter under a metre of water is missing; it must be a number from 0.01 to 500 L/h",
    ],
    [{ fullPots: "spill" }, "line.fullPots", 'what a full pot does is "spill"; it must be one of overflow, stop'],
    [
      { joints: { kind: "rows", depth: -1 } },
      "line.joints.depth",
      "depth of the tubes between pots is -1 cm; it must be from 0 to 100 cm",
    ],
    [
      { wantedMinutes: 0 },
      "line.wantedMinutes",
      "minutes within which all pots should be full is 0 minutes; it must be from 1 to 1440 minutes",
    ],
    [
      { main: { way: { kind: "humped", highest: 10, lowest: 30 } } },
      "line.main.way.highest",
      "highest point of the main above the soil is 10 cm; it must be at least the main's lowest point, 30 cm",
    ],
  ])("refuses %j", (line, path, message) => {
    expect(faultsOf({ line })).toEqual([[path, message]]);
  });

  it("in US units tells ranges in US units", () => {
    expect(faultsOf({ line: { main: { bore: 0 }, waterTemperature: 200 } }, US_BED)).toEqual([
      ["line.waterTemperature", "temperature of the water is 200 °F; it must be from 32.9 to 113 °F"],
      ["line.main.bore", "bore of the main is 0 in; it must be from 0.0394 to 3.94 in"],
    ]);
  });
});

describe("a tank that stands too low", () => {
  const low = { outletHeight: -120, waterHeight: 100 };

  it("for any water to run out of the tubes' ends is refused, with what would do", () => {
    expect(faultsOf({ tank: low })).toEqual([
      [
        "tank.outletHeight",
        "height of the tank's outlet above the soil is -120 cm; it must be more than -98 cm: a tank whose water stands no higher than the ends of the small tubes, 2 cm above the soil, gives the pots none",
      ],
    ]);
    expect(faultsOf({ tank: { ...low, outletHeight: -98 } })).toHaveLength(1);
    expect(faultsOf({ tank: { ...low, outletHeight: -97.9 } })).toEqual([]);
  });

  it("goes by the tubes' ends that a plan tells, not by the rims", () => {
    expect(faultsOf({ tank: low, line: { tube: { endHeight: -25 } } })).toEqual([]);
    expect(faultsOf({ line: { tube: { endHeight: 180 } } })[0]).toEqual([
      "tank.outletHeight",
      "height of the tank's outlet above the soil is 60 cm; it must be more than 60 cm: a tank whose water stands no higher than the ends of the small tubes, 180 cm above the soil, gives the pots none",
    ]);
  });

  it("is told in inches where a person uses them", () => {
    expect(
      faultsOf({ tank: { outletHeight: -40, waterHeight: 36 }, line: { tube: { endHeight: 1 } } }, US_BED),
    ).toEqual([
      [
        "tank.outletHeight",
        "height of the tank's outlet above the soil is -40 in; it must be more than -35 in: a tank whose water stands no higher than the ends of the small tubes, 1 in above the soil, gives the pots none",
      ],
    ]);
  });
});
