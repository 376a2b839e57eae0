import { Matrix, solve } from "ml-matrix";
import { expect, test } from "vitest";
import { swissRegression } from "../../model/checks/loadChecks.ts";
import { averagedShares } from "../../model/ensemble/regressionShares.ts";
import { expectClose } from "../support/close.ts";

const predictors = ["agriculture", "examination", "education", "catholic", "infantMortality"] as const;
const { rows, regression } = swissRegression();
const fertility = rows.map((row) => row.fertility);
const groups = Object.fromEntries(predictors.map((name) => [name, [rows.map((row) => row[name])]]));

// Grömping (2006), J. Stat. Softw. 17(1), measure lmg, from memory: reference-data/checks/swiss-regression.json. A wrong
// digit in the recalled rows would show: R prints the coefficients of these rows as they stand in the file.
test("the recalled rows have the recalled regression, by another solver", () => {
  const design = new Matrix(rows.map((row) => [1, ...predictors.map((name) => row[name])]));
  const [intercept, ...slopes] = solve(design, Matrix.columnVector(fertility)).to1DArray();
  const { value, rounding } = regression.intercept;
  expectClose(intercept!, value, { tolerance: rounding, what: "intercept" });
  predictors.forEach((name, i) => {
    const slope = regression.coefficients[name];
    expectClose(slopes[i]!, slope.value, { tolerance: slope.rounding, what: name });
  });
});

test("R² of the Swiss districts is shared out as published, to every printed digit", () => {
  const found = averagedShares(groups, fertility)!;
  const { value, rounding } = regression.explained;
  expectClose(found.explained, value, { tolerance: rounding, what: "R²" });
  for (const name of predictors) {
    const share = regression.shares[name];
    expectClose(found.shares[name]!, share.value, { tolerance: share.rounding, what: `share of ${name}` });
  }
  expect(Object.keys(found.shares)).toEqual([...predictors]);
});
