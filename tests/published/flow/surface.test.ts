import { describe, expect, it } from "vitest";
import { gardner } from "../../../model/checks/gardner.ts";
import { givenHead } from "../../../model/checks/givenEdges.ts";
import { lineMesh } from "../../../model/checks/lineMesh.ts";
import { freeDrainage } from "../../../model/flow/boundary.ts";
import { gradedEdges } from "../../../model/flow/gridSpacing.ts";
import { CALM, type Spell } from "../../../model/flow/problem.ts";
import { evaporation, rainfall } from "../../../model/flow/surface.ts";
import { soilTable } from "../../../model/soil/soilTable.ts";
import { vanGenuchten } from "../../../model/soil/vanGenuchten.ts";
import { expectClose } from "../../support/close.ts";
import { classMean } from "../../support/problems.ts";
import { solveSystem } from "../../support/solveSystem.ts";

const weather = (changes: Partial<Spell>): Spell[] => [{ ...CALM, ...changes }];

/**
 * Greatest steady rise E from a water table at depth D to a dry surface in a Gardner soil K = Ks e^(αh): K + E falls as
 * e^(−αz) from Ks + E, so that E = Ks / (e^(αD) − 1) where K comes to nothing (Gardner 1958, Soil Sci. 85:228-232, who gives
 * the case of K = a / (|h|^n + b); this one follows from Darcy's law in two lines).
 */
const greatestRise = ({ Ks, alpha }: { Ks: number; alpha: number }, depth: number) => Ks / Math.expm1(alpha * depth);

describe("evaporation above a water table", () => {
  const parameters = { thetaR: 0.06, thetaS: 0.4, alpha: 0.05, Ks: 10 };
  const depth = 60;
  const most = greatestRise(parameters, depth);

  function steadyRate(demand: number): number {
    const table = soilTable(gardner(parameters), { wetEnd: -1e-3, nodes: 2000 });
    const mesh = lineMesh("column", Float64Array.from(gradedEdges(0, depth, "from", 0.02, 1.05, 0.5)));
    const { states } = solveSystem({
      mesh,
      table,
      boundaries: [givenHead(mesh.sides.bottom, 0), evaporation(mesh.sides.top)],
      weather: weather({ evaporation: demand }),
      start: (_, d) => Math.min(d - depth, -1),
      stops: [300],
      timeError: 1e-3,
    });
    return -states[0]!.Q[1]!;
  }

  it.each([1.2, 5, 100])(
    "of a demand %d times what the soil can lift, the soil gives what it can, to 0.1 %",
    (times) => {
      const given = steadyRate(times * most);
      expectClose(given, most, { tolerance: 1e-3, relative: true, unit: "cm/day", what: "evaporation" });
    },
  );

  it.each([0.1, 0.9])("of a demand %d times what the soil can lift, the air takes all", (times) => {
    const given = steadyRate(times * most);
    expectClose(given, times * most, { tolerance: 1e-9, relative: true, unit: "cm/day", what: "evaporation" });
  });
});

describe("rain", () => {
  const edges = Float64Array.from(gradedEdges(0, 50, "from", 0.1, 1.1, 1));
  const column = (name: string, rain: number, start: number, stops: number[]) => {
    const mesh = lineMesh("column", edges);
    const table = soilTable(vanGenuchten(classMean(name)));
    const boundaries = [freeDrainage(mesh.sides.bottom), rainfall(mesh.sides.top)];
    return solveSystem({ mesh, table, boundaries, weather: weather({ rain }), start, stops }).states;
  };

  // Saturated soil under a gradient of 1 conducts Ks: what falls beyond it runs off.
  it.each([1.1, 3])("%d times Ks on a soaked column: Ks goes in, the rest runs off", (times) => {
    const { Ks } = classMean("loam");
    const [state] = column("loam", times * Ks, -0.01, [5]);
    expectClose(state!.Q[1]!, Ks, { tolerance: 1e-3, relative: true, unit: "cm/day", what: "taken up" });
  });

  it("all of a drizzle goes in", () => {
    const [state] = column("clay", 0.1, -1000, [2]);
    expectClose(state!.entered[1]!, 0.2, { tolerance: 1e-9, relative: true, unit: "cm", what: "taken up in two days" });
  });

  // Soil that is offered more than it can take stands at its wettest: no other than with head 0 at the surface.
  it("of a flood as much goes in as under ponded water, which other tests hold against published infiltration", () => {
    const mesh = lineMesh("column", edges);
    const table = soilTable(vanGenuchten(classMean("loam")));
    const ponded = [freeDrainage(mesh.sides.bottom), givenHead(mesh.sides.top, 0)];
    const { states } = solveSystem({ mesh, table, boundaries: ponded, start: -300, stops: [0.01, 0.1] });
    const flooded = column("loam", 1e5, -300, [0.01, 0.1]);
    flooded.forEach((state, k) => {
      const expected = states[k]!.entered[1]!;
      expectClose(state.entered[1]!, expected, { tolerance: 1e-6, relative: true, unit: "cm", what: "taken up" });
    });
  });

  it("a shower on dry loam goes in whole at first, then less and less, and never more than falls", () => {
    const states = column("loam", 60, -1000, [0.005, 0.05, 0.1, 0.2]);
    const rates = states.map(({ Q }) => Q[1]!);
    expect(rates[0]).toBe(60);
    expect(rates.every((rate, k) => rate <= (rates[k - 1] ?? 60))).toBe(true);
    expect(rates[3]).toBeLessThan(50);
  });
});
