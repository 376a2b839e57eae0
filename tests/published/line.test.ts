import { expect, test } from "vitest";
import {
  drainingTank,
  manyOutlets,
  pipeFriction,
  tubeFlow,
  tubeHeadLoss,
  waterViscosity,
} from "../../model/checks/loadLineChecks.ts";
import { fillPots } from "../../model/line/filling.ts";
import { frictionFactor } from "../../model/line/friction.ts";
import { flowUnder, headLoss, type Pipe, sectionArea } from "../../model/line/pipe.ts";
import { kinematicViscosity } from "../../model/line/water.ts";
import { GRAVITY } from "../../model/units/factors.ts";
import { expectClose } from "../support/close.ts";
import { tube } from "../support/lines.ts";

const NU = 1.004e-6;
const LITRES_PER_HOUR = 3.6e6;
/** What Blasius's law and Colebrook's are known to differ by for smooth pipes, up to Re 1e5. */
const BLASIUS_ERROR = 0.02;

const smooth = (diameterMm: number, changes: Partial<Pipe> = {}): Pipe => ({
  length: 1,
  innerDiameter: diameterMm / 1000,
  roughness: 0,
  minorLoss: 0,
  ...changes,
});

const reynolds = (pipe: Pipe, Q: number) => ((Q / sectionArea(pipe)) * pipe.innerDiameter) / NU;

// reference-data/checks/water-viscosity.json.
test.each(waterViscosity().rows)("water of $name is as viscous as tabled", ({ celsius, viscosity }) => {
  const actual = kinematicViscosity(celsius) * 1e6;
  expectClose(actual, viscosity.value, { tolerance: viscosity.rounding, unit: "10⁻⁶ m²/s", what: "ν" });
});

// Colebrook (1939): reference-data/checks/pipe-friction.json.
test.each(pipeFriction().rows)("the friction factor at $name is the tabled one to every digit", (row) => {
  expectClose(frictionFactor(row.Re, row.relativeRoughness), row.f.value, { tolerance: row.f.rounding, what: "f" });
});

test("smooth pipes have the factor of Blasius within its known error from Re 5000 to 100 000", () => {
  for (const Re of [5000, 1e4, 3e4, 1e5])
    expectClose(frictionFactor(Re, 0), 0.3164 * Re ** -0.25, { tolerance: 0.025, relative: true, what: `f at ${Re}` });
});

// Poiseuille, Blasius (1913), Hazen & Williams (1905): reference-data/checks/tube-head-loss.json.
test.each(tubeHeadLoss().rows)("$name loses the head of the tabled law along a metre", (row) => {
  const pipe = smooth(row.diameterMm);
  const Q = row.litresPerHour / LITRES_PER_HOUR;
  expectClose(reynolds(pipe, Q), row.Re.value, { tolerance: row.Re.rounding, what: "Re" });
  const { value, rounding } = row.metresPerMetre;
  const tolerance = row.Re.value < 2000 ? rounding : BLASIUS_ERROR * value;
  expectClose(headLoss(pipe, Q, NU).loss, value, { tolerance, unit: "m/m", what: "head loss" });
});

const hazenWilliams = ({ innerDiameter }: Pipe, Q: number) =>
  (10.67 * Q ** 1.852) / (150 ** 1.852 * innerDiameter ** 4.87);

test("Hazen and Williams's formula gives as tabled, and an eighth of the true loss at 2 L/h through 4 mm", () => {
  const ratios = tubeHeadLoss().rows.map(({ diameterMm, litresPerHour, hazenWilliams: known, name }) => {
    const Q = litresPerHour / LITRES_PER_HOUR;
    const tolerance = known.rounding + 0.01 * known.value;
    expectClose(hazenWilliams(smooth(diameterMm), Q), known.value, { tolerance, what: name });
    return headLoss(smooth(diameterMm), Q, NU).loss / hazenWilliams(smooth(diameterMm), Q);
  });
  expectClose(ratios[0]!, 7.6, { tolerance: 0.3, what: "true loss over Hazen–Williams" });
  expect(Math.min(...ratios)).toBeGreaterThan(1);
});

// reference-data/checks/tube-flow.json. Between Re 2000 and 4000 no law is sure, to some 20 %.
test.each(tubeFlow().rows)("the head moves as much water as the tabled law says: $name", (row) => {
  const { diameterMm, length, head, minorLoss, litresPerHour } = row;
  const pipe = smooth(diameterMm, { length, minorLoss });
  const Q = flowUnder(pipe, head, NU);
  const isCritical = reynolds(pipe, Q) > 2000 && reynolds(pipe, Q) < 4000;
  const tolerance =
    row.law === "laminar" ? litresPerHour.rounding : (isCritical ? 0.2 : BLASIUS_ERROR) * litresPerHour.value;
  expectClose(Q * LITRES_PER_HOUR, litresPerHour.value, { tolerance, unit: "L/h", what: "flow" });
});

/** Head lost in a pipe that gives the same flow at each of its outlets, over that of a pipe that gives all at its end. */
function manyOutletsShare(pipe: Pipe, total: number, outlets: number): number {
  const loss = (Q: number) => headLoss(pipe, Q, NU).loss;
  let sum = 0;
  for (let k = 1; k <= outlets; k++) sum += loss((k / outlets) * total);
  return sum / (outlets * loss(total));
}

const outletsOf = (m: number) => manyOutlets().rows.filter((row) => row.m === m);

// Christiansen (1942): reference-data/checks/many-outlets.json.
test.each(outletsOf(1))(
  "a laminar pipe of $outlets outlets loses Christiansen's share of the head",
  ({ outlets, F }) => {
    const share = manyOutletsShare(smooth(13), 40 / LITRES_PER_HOUR, outlets);
    expectClose(share, F.value, { tolerance: F.rounding, what: "F" });
  },
);

test.each(outletsOf(1.75).slice(0, 3))(
  "a turbulent pipe of $outlets outlets loses Christiansen's share for m = 1.75 within 2 %",
  ({ outlets, F, sum }) => {
    const pipe = smooth(13);
    const Q = (1e5 / reynolds(pipe, 1)) * 0.5;
    expect(reynolds(pipe, Q / outlets)).toBeGreaterThan(4000);
    expectClose(manyOutletsShare(pipe, Q, outlets), sum.value, { tolerance: 0.02, relative: true, what: "F" });
    expectClose(F.value, sum.value, { tolerance: 0.002, relative: true, what: "Christiansen's F, against the sum" });
  },
);

test("the shares known for m = 1.852 lie a little below those of the pipe, whose losses grow with less than Q²", () => {
  for (const { outlets, F } of outletsOf(1.852).filter(({ outlets }) => outlets <= 12)) {
    const share = manyOutletsShare(smooth(13), 5e4 / reynolds(smooth(13), 1), outlets);
    expect(share / F.value).toBeGreaterThan(1);
    expect(share / F.value).toBeLessThan(1.05);
  }
});

// Torricelli: reference-data/checks/draining-tank.json.
test.each(drainingTank().rows)("$name drain in Torricelli's time", (row) => {
  const hole = row.dischargeCoefficient * (Math.PI / 4) * (row.holeMm / 1000) ** 2;
  const area = (Math.PI / 4) * row.tankDiameter ** 2;
  const emitter = { coefficient: hole * Math.sqrt(2 * GRAVITY), exponent: 0.5 };
  const fill = fillPots({
    line: { pieces: [tube({ length: 0, innerDiameter: 1, outlet: { pot: 0, emitter } })], celsius: 20 },
    tank: { area, bottom: 0, volume: area * row.depth },
    pots: [{ capacity: 1, levelAt: (volume) => volume - 2 }],
    startVolumes: [0],
    whenFull: "stops",
    joints: [],
    maxSeconds: 1e5,
  });
  expect(fill.status).toBe("tank empty");
  expectClose(fill.seconds, row.seconds.value, { tolerance: row.seconds.rounding, unit: "s", what: "time to drain" });
  const off = fill.history.map(({ second, tankHead }) =>
    Math.abs(tankHead - row.depth * (1 - second / row.seconds.value) ** 2),
  );
  expectClose(Math.max(...off), 0, { tolerance: 5e-4, unit: "m", what: "level, at worst" });
});
