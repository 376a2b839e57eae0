import { range } from "d3-array";
import { describe, expect, test } from "vitest";
import { soilDistributionMoments } from "../../model/checks/loadChecks.ts";
import { soilDrawer } from "../../model/ensemble/soilDraws.ts";
import { randomStreams } from "../../model/random/randomStreams.ts";
import { rowNamed, soilDistributions, sourceOf, textureClasses } from "../../reference-data/load.ts";
import { expectClose } from "../support/close.ts";
import { numRuns } from "../support/deep.ts";
import { momentsOf, momentsWithin, standardErrors } from "../support/moments.ts";

const PARAMETERS = ["KsCmPerHour", "thetaR", "alpha", "n"] as const;

/** Draws behind the printed moments, and the standard errors that 72 of them may be off by: one in 8000 by chance. */
const DRAWS = 400_000;
const ERRORS = 4.5;

const table = soilDistributions();
const published = table.rows.filter(({ source }) => source === "carselParrish1988");
const own = table.rows.filter(({ source }) => source === "own");

describe("the distributions recalled from Carsel & Parrish (1988)", () => {
  test("are nine, without clay, whose n would be below 1.05 in most draws; the rest are our own", () => {
    expect(published.map(({ name }) => name)).not.toContain("clay");
    expect(published).toHaveLength(9);
    expect(own.map(({ name }) => name)).toEqual(["silt", "silty clay", "clay"]);
  });

  // reference-data/checks/soil-distributions.json: an independent program's draws.
  test.each(soilDistributionMoments().rows)("of $name have the moments of 400 000 draws within their limits", (row) => {
    for (const parameter of PARAMETERS) {
      const moments = momentsWithin(rowNamed(table, row.name)[parameter]);
      const errors = standardErrors(moments, DRAWS);
      for (const key of ["mean", "sd"] as const) {
        const { value, rounding } = row[parameter][key];
        const tolerance = rounding + ERRORS * errors[key];
        expectClose(moments[key], value, { tolerance, what: `${key} of ${parameter}` });
      }
    }
  });

  test.each(published)(
    "of $name give back the class means: Ks to 0.2 standard deviations, the others to 5 %",
    (row) => {
      const { mean, sd } = rowNamed(textureClasses(), row.name);
      for (const parameter of ["thetaR", "alpha", "n"] as const) {
        const { mean: drawn } = momentsWithin(row[parameter]);
        expectClose(drawn, mean[parameter], { tolerance: 0.05, relative: true, what: `mean of ${parameter}` });
      }
      const Ks = 24 * momentsWithin(row.KsCmPerHour).mean;
      expectClose(Ks, mean.Ks, { tolerance: 0.2 * sd.Ks, unit: "cm/day", what: "mean of Ks" });
    },
  );

  test("are from memory, and what is our own beside them says so", () => {
    const loam = rowNamed(table, "loam");
    expect(sourceOf(table, loam, "n.mean").flag).toBe("memory");
    expect(sourceOf(table, loam, "thetaS.mean").flag).toBe("own choice");
    expect(sourceOf(table, rowNamed(table, "clay"), "n.mean").flag).toBe("own choice");
  });
});

describe("our own distributions", () => {
  // A log-normal's mean is exp(μ + σ²/2), its standard deviation that times √(exp(σ²) − 1).
  test.each(own)(
    "of Ks, alpha and n − 1 in $name have the table's mean and standard deviation before they are cut",
    (row) => {
      const { mean, sd } = rowNamed(textureClasses(), row.name);
      const cases = {
        KsCmPerHour: { mean: mean.Ks / 24, sd: sd.Ks / 24 },
        alpha: { mean: mean.alpha, sd: sd.alpha },
        n: { mean: mean.n - 1, sd: sd.n },
      };
      for (const [parameter, expected] of Object.entries(cases)) {
        const { mean: mu, sd: sigma, form } = row[parameter as keyof typeof cases];
        expect(form).toBe(parameter === "n" ? "log-normal above 1" : "log-normal");
        const middle = Math.exp(mu + sigma ** 2 / 2);
        const relative = { tolerance: 1e-3, relative: true };
        expectClose(middle, expected.mean, { ...relative, what: `mean of ${parameter}` });
        expectClose(middle * Math.sqrt(Math.expm1(sigma ** 2)), expected.sd, {
          ...relative,
          what: `sd of ${parameter}`,
        });
      }
    },
  );

  test.each(table.rows)("of theta_s in $name have the table's mean, and leave room above every theta_r", (row) => {
    const { mean } = rowNamed(textureClasses(), row.name);
    expectClose(momentsWithin(row.thetaS).mean, mean.thetaS, { tolerance: 1e-6, unit: "cm³/cm³", what: "mean" });
    expect(row.thetaS.lowest).toBeGreaterThan(row.thetaR.highest);
  });
});

/** The standard deviation of 20 000 draws of a long-tailed Ks is known to a few per cent. */
const DRAWN = numRuns(5000, 20_000);

test.each(table.rows)("soils drawn of $name have the moments of their distributions, n from 1.05", (row) => {
  const draw = soilDrawer(
    { kind: "class", name: row.name },
    randomStreams(3, ["texture", "conductivity", "retention"]),
  );
  const soils = range(DRAWN).map(() => draw().parameters);
  for (const parameter of ["Ks", "thetaR", "thetaS", "alpha", "n"] as const) {
    const spread = row[parameter === "Ks" ? "KsCmPerHour" : parameter];
    const unit = parameter === "Ks" ? 24 : 1;
    const least = { Ks: 1e-4 / 24, n: 1.05 }[parameter as string];
    const expected = momentsWithin(spread, least);
    const errors = standardErrors(expected, DRAWN);
    const drawn = momentsOf(soils.map((soil) => soil[parameter] / unit));
    for (const key of ["mean", "sd"] as const)
      expectClose(drawn[key], expected[key], { tolerance: ERRORS * errors[key], what: `${key} of ${parameter}` });
  }
});
