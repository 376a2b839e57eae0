import cephes from "cephes";
import { expect, test } from "vitest";
import { evenEdges } from "../../model/checks/evenEdges.ts";
import { gardner } from "../../model/checks/gardner.ts";
import { givenFlux, givenHead } from "../../model/checks/givenEdges.ts";
import { lineMesh } from "../../model/checks/lineMesh.ts";
import { freeDrainage } from "../../model/flow/boundary.ts";
import { tensorMesh } from "../../model/flow/tensorMesh.ts";
import { soilTable } from "../../model/soil/soilTable.ts";
import { expectClose } from "../support/close.ts";
import { solveSystem } from "../support/solveSystem.ts";

/** Orders of accuracy between errors at sizes that halve. */
const orders = (errors: number[]) => errors.slice(1).map((error, k) => Math.log2(errors[k]! / error));

const alpha = 0.05;
const soil = gardner({ thetaR: 0.05, thetaS: 0.45, alpha, Ks: 10 });
const table = soilTable(soil, { wetEnd: -1e-3, nodes: 2000 });

/**
 * Steady flow of Gardner soil, ∇²φ = α ∂φ/∂d: φ = φ₀ [2 + J₀(k r) f(d)] with k R the first zero of J₁, so that nothing
 * crosses r = R; f = A e^{m₁ d} + B e^{m₂ d}, m = α/2 ± √(α²/4 + k²), f(0) = 1 and f′ = 0 (free drainage) at the bottom.
 */
test("steady flow about an axis with gravity is right to second order in the size of the cells", async () => {
  await cephes.compiled;
  const [R, depth, k] = [40, 60, 3.831705970207512 / 40];
  const root = Math.sqrt(alpha ** 2 / 4 + k * k);
  const [m1, m2] = [alpha / 2 + root, alpha / 2 - root];
  const A = 1 / (1 - (m1 * Math.exp(m1 * depth)) / (m2 * Math.exp(m2 * depth)));
  const f = (d: number) => A * Math.exp(m1 * d) + (1 - A) * Math.exp(m2 * d);
  const relativeK = (r: number, d: number) => 0.2 * (2 + cephes.j0(k * r) * f(d));
  const headAt = (r: number, d: number) => Math.log(relativeK(r, d)) / alpha;
  const errors = [8, 16, 32].map((count) => {
    const mesh = tensorMesh({
      geometry: "axisymmetric",
      rEdges: evenEdges(0, R, count),
      dEdges: evenEdges(0, depth, (count * 3) / 2),
    });
    const { bottom, top } = mesh.sides;
    const heads = Float64Array.from(top.cell, (c) => headAt(mesh.rCell[c]!, 0));
    const { states } = solveSystem({
      mesh,
      table,
      start: headAt,
      boundaries: [freeDrainage(bottom), givenHead(top, heads)],
      stops: [1000],
      firstStep: 1,
      timeError: Number.POSITIVE_INFINITY,
    });
    const K = states[0]!.h.map((h) => soil.K(h) / soil.Ks);
    const square = K.reduce((sum, x, i) => sum + mesh.V[i]! * (x - relativeK(mesh.rCell[i]!, mesh.dCell[i]!)) ** 2, 0);
    return Math.sqrt(square / mesh.V.reduce((sum, V) => sum + V, 0));
  });
  const measured = orders(errors);
  console.info(`errors of K/Ks ${errors}, orders ${measured}`);
  for (const order of measured) expect(order).toBeGreaterThan(1.8);
});

test("the time steps are right to second order in their size, against steps a sixty-fourth as long", () => {
  const mesh = lineMesh("column", evenEdges(0, 100, 50));
  const run = (fixedStep: number) =>
    solveSystem({
      mesh,
      table,
      start: -60,
      boundaries: [freeDrainage(mesh.sides.bottom), givenFlux(mesh.sides.top, 5)],
      stops: [1.6],
      fixedStep,
    }).states[0]!;
  const fine = run(0.1 / 64);
  const errors = [0.1, 0.05, 0.025, 0.0125].map((size) => {
    const { theta } = run(size);
    return Math.sqrt(theta.reduce((sum, x, i) => sum + (x - fine.theta[i]!) ** 2, 0) / theta.length);
  });
  const measured = orders(errors);
  console.info(`errors of θ ${errors}, orders ${measured}`);
  for (const order of measured) expect(order).toBeGreaterThan(1.8);
});

// φ is linear in ln r between cylinders and in 1/r between spheres: the conductances of the faces are exact there.
test.each(["cylinder", "sphere"] as const)("the steady profile about a %s is exact on five cells", (shape) => {
  const mesh = lineMesh(shape, Float64Array.of(10, 11, 13, 17, 25, 40));
  const [hIn, hOut] = [-2, -40];
  const { states } = solveSystem({
    mesh,
    table,
    start: hOut,
    boundaries: [givenHead(mesh.sides.outer, hOut), givenHead(mesh.sides.inner, hIn)],
    stops: [1e4],
    firstStep: 1,
    timeError: Number.POSITIVE_INFINITY,
  });
  const place = shape === "cylinder" ? Math.log : (r: number) => -1 / r;
  mesh.rCell.forEach((r, i) => {
    const share = (place(r) - place(10)) / (place(40) - place(10));
    const exact = soil.phi(hIn) + share * (soil.phi(hOut) - soil.phi(hIn));
    const what = `φ at ${r} cm`;
    expectClose(soil.phi(states[0]!.h[i]!), exact, { tolerance: 1e-8, relative: true, unit: "cm²/day", what });
  });
});
