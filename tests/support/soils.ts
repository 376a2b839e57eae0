import fc from "fast-check";
import { type GardnerParameters, gardner } from "../../model/checks/gardner.ts";
import { type HaverkampParameters, haverkamp } from "../../model/checks/haverkamp.ts";
import type { Soil } from "../../model/soil/soil.ts";
import { type VanGenuchtenParameters, vanGenuchten } from "../../model/soil/vanGenuchten.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const logBetween = (min: number, max: number) => between(Math.log(min), Math.log(max)).map(Math.exp);

const contents = { thetaR: between(0, 0.15), thetaS: between(0.3, 0.6) };
const Ks = logBetween(0.1, 2000);

export const anyVanGenuchten: fc.Arbitrary<VanGenuchtenParameters> = fc.record({
  ...contents,
  alpha: logBetween(0.002, 0.3),
  n: between(1.04, 4),
  Ks,
  l: between(-1, 2),
});

export const anyGardner: fc.Arbitrary<GardnerParameters> = fc.record({
  ...contents,
  alpha: logBetween(0.002, 0.05),
  Ks,
});

export const anyHaverkamp: fc.Arbitrary<HaverkampParameters> = fc.record({
  ...contents,
  retention: fc.oneof(
    fc.record({ form: fc.constant("power" as const), a: logBetween(1e3, 1e7), b: between(1.5, 5) }),
    fc.record({ form: fc.constant("logarithm" as const), a: logBetween(100, 2000), b: between(2, 5) }),
  ),
  Ks,
  A: logBetween(50, 1e7),
  B: between(1.5, 6),
});

/** A soil of any kind with the parameters that made it. */
export const anySoil: fc.Arbitrary<{ parameters: object; soil: Soil }> = fc.oneof(
  anyVanGenuchten.map((parameters) => ({ parameters, soil: vanGenuchten(parameters) })),
  anyGardner.map((parameters) => ({ parameters, soil: gardner(parameters) })),
  anyHaverkamp.map((parameters) => ({ parameters, soil: haverkamp(parameters) })),
);

/** A pressure head from wet to dry, cm, evenly spread in ln|h|. */
export const anyHead: fc.Arbitrary<number> = logBetween(1e-3, 1e4).map((suction) => -suction);
