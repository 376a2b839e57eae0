import { test } from "vitest";
import { buildPot } from "../../model/pot/buildPot.ts";
import type { Pot } from "../../model/pot/pot.ts";
import { releaseIntoSuction } from "../../model/pot/wallLaw.ts";
import { expectClose } from "../support/close.ts";
import { integrate } from "../support/integrate.ts";
import { cylinder } from "../support/pots.ts";

/** Height of the water above the inner base of a pot filled at day 0 into surroundings at zero pressure. */
function heightAfter(pot: Pot, days: number): number {
  const volume = integrate((_t, V) => -1000 * releaseIntoSuction(pot, pot.levelAt(V), 0), pot.capacity, days, 1e-12);
  return pot.emptyDepth - pot.levelAt(volume);
}

const byDay = (heights: number[]) => [1, 3, 7, 14].map((day, i) => [day, heights[i]!] as const);

// Own derivation, exact: with x the height above the outer base, dx/dt = −(Kw / (w ri²)) (ro x² + ro² x).
const drained = byDay([15.792, 11.42, 6.629, 2.907]);

test.each(drained)(
  "a free pot stands after %d days where the exact solution puts it, to its last digit",
  (day, height) => {
    expectClose(heightAfter(buildPot(cylinder), day), height, { tolerance: 5e-4, unit: "cm", what: `day ${day}` });
  },
);

test.each(drained)("a free pot follows the logistic fall of its water to ten digits over %d days", (day) => {
  const decay = Math.exp((-0.05 * 10 ** 2 * day) / 81);
  const x = (10 * 20 * decay) / (10 + 20 * (1 - decay));
  expectClose(heightAfter(buildPot(cylinder), day) + 1, x, { tolerance: 1e-9, unit: "cm", what: `day ${day}` });
});

// Own derivation, exact: dh/dt = −b (h² / r + h), b = Kw / w, h(t) = b h0 e^(−bt) / (b + (b / r) h0 (1 − e^(−bt))).
test.each(byDay([16.386, 12.637, 8.247, 4.574]))(
  "a free pot with a vanishing wall of the same Kw / w falls as the thin-wall form says in %d days",
  (day, height) => {
    const w = 1e-6;
    const thin = { wallThickness: w, wallConductivity: 0.05 * w, outerRadius: 9 + w, outerDepth: 19 + w };
    expectClose(heightAfter(buildPot({ ...cylinder, ...thin }), day), height, {
      tolerance: 5e-4,
      unit: "cm",
      what: `day ${day}`,
    });
  },
);
