import { cross, range, sum } from "d3-array";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { farthestGround, groundPerPot, POT_GRIDS } from "../../model/bed/potGrid.ts";
import { FINENESS, gridLines, type SoilBlock } from "../../model/flow/gridRule.ts";
import { gridStore } from "../../model/flow/gridStore.ts";
import { heldLevel } from "../../model/flow/potSupply.ts";
import type { Accuracy } from "../../model/flow/problem.ts";
import { type TensorMesh, tensorMesh } from "../../model/flow/tensorMesh.ts";
import { buildPot, potLitres } from "../../model/pot/buildPot.ts";
import { wallAreaBetween } from "../../model/pot/outerSurface.ts";
import type { PotShape } from "../../model/pot/pot.ts";
import { TEXTURE_CLASSES } from "../../model/soil/textureTriangle.ts";
import { expectClose } from "../support/close.ts";
import { isDeep, numRuns, seed } from "../support/deep.ts";
import { anyProfile, belowSurface } from "../support/oddPots.ts";
import { outerVolume } from "../support/outerVolume.ts";
import { profile } from "../support/pots.ts";
import { classMean, cylinderProblem } from "../support/problems.ts";
import { runToEnd } from "../support/runs.ts";

/** Profiles of one batch; in a deep run four batches make 2,000. */
const PROFILES: Record<Accuracy, number> = {
  live: numRuns(40, 500),
  standard: numRuns(15, 500),
  reference: numRuns(4, 500),
};
const BATCHES = cross(Object.keys(FINENESS) as Accuracy[], range(numRuns(1, 4)));
const RUNS: [Accuracy, number][] = [
  ["live", numRuns(12, 200)],
  ["standard", numRuns(2, 40)],
];

const widest = ({ outline }: { outline: readonly { r: number }[] }) => Math.max(...outline.map(({ r }) => r));

/** A block of soil about a pot as a plan has it. */
function blockAbout(shape: PotShape): SoilBlock {
  return { radius: Math.max(100, 5 * widest(buildPot(shape))), depth: Math.max(0, shape.outerDepth) + 130 };
}

/** Soil and wall are exactly those of the pot in ground of this area; every cell holds soil and is joined to every other. */
function expectSound(mesh: TensorMesh, shape: PotShape, ground: number, depth: number): void {
  const { V, wall, faces } = mesh;
  const { outline } = buildPot(shape);
  const pot = outerVolume(belowSurface(outline));
  expect(Math.abs(ground * depth - pot - sum(V))).toBeLessThan(1e-6 * pot + 1e-12 * ground * depth);
  const whole = wallAreaBetween(outline, shape.rimDepth > 0 ? 0.99 * shape.rimDepth : 0, shape.outerDepth);
  expect(Math.abs(sum(wall.area) / whole - 1)).toBeLessThan(1e-9);
  expect(V.every((volume) => volume > 0)).toBe(true);
  for (const { T } of [faces, wall]) expect(T.every((value) => value > 0 && Number.isFinite(value))).toBe(true);
  expect(parts(mesh)).toBe(1);
}

/** How many groups of cells there are without a face between them. */
function parts({ cellCount, faces }: TensorMesh): number {
  const group = Int32Array.from({ length: cellCount }, (_, cell) => cell);
  const groupOf = (cell: number): number => {
    let root = cell;
    while (group[root] !== root) root = group[root] = group[group[root]!]!;
    return root;
  };
  let count = cellCount;
  for (const [f, a] of faces.a.entries()) {
    const [from, to] = [groupOf(a), groupOf(faces.b[f]!)];
    if (from !== to) count--;
    group[from] = to;
  }
  return count;
}

const meshOf = (shape: PotShape, accuracy: Accuracy) => {
  const pot = buildPot(shape);
  const lines = gridLines(pot, blockAbout(shape), FINENESS[accuracy]);
  return tensorMesh({ geometry: "axisymmetric", outline: pot.outline, ...lines });
};

describe("the mesh about any profile", () => {
  it.each(BATCHES)("has its soil and its wall, all in one piece (%s, batch %i)", (accuracy, batch) => {
    const start = performance.now();
    fc.assert(
      fc.property(anyProfile, (shape) => {
        const { radius, depth } = blockAbout(shape);
        expectSound(meshOf(shape, accuracy), shape, Math.PI * radius ** 2, depth);
      }),
      { numRuns: PROFILES[accuracy], seed: seed + batch },
    );
    console.info(`${PROFILES[accuracy]} meshes at ${accuracy}: ${((performance.now() - start) / 1000).toFixed(0)} s`);
  });

  it("has them in three dimensions too, however close the pots stand", () => {
    const times = fc.double({ min: 1.25, max: 4, noNaN: true });
    fc.assert(
      fc.property(anyProfile, fc.constantFrom(...POT_GRIDS), times, (shape, grid, apart) => {
        const pot = buildPot(shape);
        const spacing = 2 * widest(pot) * apart;
        const { depth } = blockAbout(shape);
        const block = { depth, radius: farthestGround(grid, spacing), neighbours: { grid, spacing } };
        const { mesh } = gridStore().take(pot, block, FINENESS.live);
        expectSound(mesh, shape, groundPerPot(grid, spacing), depth);
      }),
      { numRuns: numRuns(4, 200) },
    );
  });

  it("keeps the soil above a thin brim apart from the soil below it", () => {
    const points = [
      { r: 5, d: 0 },
      { r: 5, d: 10 },
      { r: 30, d: 10.1 },
      { r: 5, d: 10.2 },
      { r: 5, d: 20 },
    ];
    const { grid, faces } = meshOf(profile(points), "live");
    const columns = grid.rEdges.length - 1;
    const middle = grid.rCentre.findIndex((r) => r > 15);
    const line = grid.dEdges.findIndex((edge) => edge >= 10.1);
    const [above, below] = [line - 1, line].map((row) => grid.cellAt[row * columns + middle]!);
    expect(above).not.toBe(below);
    expect(faces.a.findIndex((a, f) => a === above && faces.b[f] === below)).toBe(-1);
  });

  it("takes up a level ledge that is folded back on itself", () => {
    const radii = [0.22, 0.21, 0.29, 0.15];
    const shape = profile(
      radii.map((r, k) => ({ r, d: k < 3 ? 0.05 : 5.05 })),
      0.1,
    );
    const { V } = meshOf(shape, "live");
    const soil = Math.PI * 100 ** 2 * 135.05 - outerVolume(shape.points);
    expectClose(sum(V), soil, { tolerance: 1e-6, unit: "cm³", what: "soil about a folded ledge" });
  });

  it("keeps the soil above a lid that lies less than half a cell below the surface", () => {
    const points = [
      { r: 10, d: 0.2 },
      { r: 10, d: 20 },
    ];
    const { V } = meshOf(profile(points), "live");
    const soil = Math.PI * (100 ** 2 * 150 - 10 ** 2 * 19.8);
    expectClose(sum(V), soil, { tolerance: 1e-3, unit: "cm³", what: "soil with a lid's cover" });
  });
});

describe("a pot with a waist, a brim, steps or a point", () => {
  it.each(RUNS)("gives its water to the end (%s)", (accuracy, runs) => {
    fc.assert(
      fc.property(anyProfile, fc.constantFrom(...TEXTURE_CLASSES), fc.boolean(), (pot, soil, isHeld) => {
        const filling = isHeld
          ? { kind: "held" as const, levelDepth: heldLevel(pot) }
          : { kind: "refilled" as const, atDays: [0, 2] };
        const region = { ...blockAbout(pot) };
        const problem = cylinderProblem({ soil: classMean(soil), pot, filling, region, days: [1, 4], accuracy });
        const { status, rows } = runToEnd(problem);
        return status === "finished" && rows.at(-1)!.seepageLitres > 0;
      }),
      { numRuns: runs, endOnFailure: true },
    );
  });

  it("that is a needle lands on the moment at which it runs empty", () => {
    const points = [
      { r: 0.92, d: 0 },
      { r: 2.45, d: 2.9 },
      { r: 0, d: 145.11 },
    ];
    const filling = { kind: "refilled" as const, atDays: [0, 2] };
    const region = { radius: 100, depth: 275 };
    const pot = profile(points, 0.2);
    const soil = classMean("sandy loam");
    const { rows } = runToEnd(cylinderProblem({ pot, soil, filling, region, days: [1, 4], accuracy: "live" }));
    const expected = 2 * potLitres(pot);
    expectClose(rows.at(-1)!.seepageLitres, expected, {
      tolerance: 1e-4,
      relative: true,
      unit: "L",
      what: "water given",
    });
  });

  it.each(["live", "standard", ...(isDeep ? (["reference"] as const) : [])] as const)(
    "takes up a waist in which slivers face each other (%s)",
    (accuracy) => {
      for (const [wide, narrow, at] of [
        [15, 4, 8],
        [12, 2, 5],
        [12.5, 3, 10],
      ] as const) {
        const points = [
          { r: wide, d: -2 },
          { r: narrow, d: at - 2 },
          { r: wide, d: 2 * at - 2 },
        ];
        const run = runToEnd(cylinderProblem({ pot: profile(points), days: [1], accuracy }));
        expect(run.rows[0]!.seepageLitres).toBeGreaterThan(0.1);
      }
    },
  );
});
