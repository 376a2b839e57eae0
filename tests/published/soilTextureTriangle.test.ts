import { range } from "d3-array";
import { expect, test } from "vitest";
import { textureTriangleChecks } from "../../model/checks/loadChecks.ts";
import { matchingClasses, TEXTURE_CLASSES, textureClass } from "../../model/soil/textureTriangle.ts";
import { expectClose } from "../support/close.ts";

// Soil Survey Manual, USDA Handbook 18: reference-data/checks/texture-triangle.json.
const grid = range(0, 401).flatMap((i) =>
  range(0, 401 - i).map((j) => ({ silt: i / 4, clay: j / 4, sand: (400 - i - j) / 4 })),
);

test("each of the 80 601 points of the quarter-percent grid meets exactly one class's rule", () => {
  expect(grid).toHaveLength(80_601);
  expect(grid.filter((texture) => matchingClasses(texture).length !== 1)).toEqual([]);
});

test("the classes' shares of the grid are the tabled ones", () => {
  const { rows } = textureTriangleChecks();
  expect(rows.map(({ name }) => name).sort()).toEqual([...TEXTURE_CLASSES].sort());
  const classes = grid.map(textureClass);
  for (const { name, sharePercent } of rows) {
    const share = (100 * classes.filter((found) => found === name).length) / grid.length;
    expectClose(share, sharePercent, { tolerance: 0.005, unit: "%", what: name });
  }
});

const edges = textureTriangleChecks().rows.flatMap(({ name, edges }) => edges.map((texture) => ({ name, ...texture })));

test.each(edges)("$sand % sand, $silt % silt, $clay % clay is $name", ({ name, ...texture }) => {
  expect(textureClass(texture)).toBe(name);
});
