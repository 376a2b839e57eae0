import { test } from "vitest";
import { evenEdges } from "../../../model/checks/evenEdges.ts";
import { gardner } from "../../../model/checks/gardner.ts";
import { givenHead } from "../../../model/checks/givenEdges.ts";
import { potSupply } from "../../../model/flow/potSupply.ts";
import { tensorMesh } from "../../../model/flow/tensorMesh.ts";
import { potWall } from "../../../model/flow/wall.ts";
import { buildPot } from "../../../model/pot/buildPot.ts";
import { soilTable } from "../../../model/soil/soilTable.ts";
import { expectClose } from "../../support/close.ts";
import { cylinder } from "../../support/pots.ts";
import { solveSystem } from "../../support/solveSystem.ts";

/**
 * Surroundings at zero pressure everywhere: soil that conducts without measure, its gravity taken away. Then the wall
 * alone governs, dx/dt = −(Kw/(w ri²)) (ro x² + ro² x) with x the height above the outer base; own derivation, exact.
 */
test("a pot whose level falls with the soil's equations empties by the wall alone as the exact law says", () => {
  const pot = buildPot(cylinder);
  const table = soilTable(gardner({ thetaR: 0.05, thetaS: 0.45, alpha: 0.05, Ks: 1e7 }));
  const mesh = tensorMesh({
    geometry: "axisymmetric",
    rEdges: evenEdges(0, 30, 6),
    dEdges: evenEdges(0, 40, 8),
    outline: [
      { r: 10, d: 0 },
      { r: 10, d: 20 },
      { r: 0, d: 20 },
    ],
  });
  const still = { ...mesh, faces: { ...mesh.faces, drop: mesh.faces.drop.map(() => 0) } };
  const level = { ...mesh.wall, drop: mesh.wall.drop.map(() => 0) };
  const { outer } = mesh.sides;
  const days = [1, 3, 7, 14];
  const { states } = solveSystem({
    mesh: still,
    table,
    start: 0,
    boundaries: [givenHead({ ...outer, drop: outer.drop.map(() => 0) }, 0), potWall(level, pot)],
    stops: days,
    timeError: 1e-6,
    pot: { dw: pot.fullDepth, isEmpty: false },
    supply: potSupply({ kind: "refilled", atDays: [] }, pot),
  });
  states.forEach(({ pot: { dw } }, k) => {
    const decay = Math.exp((-0.05 * 10 ** 2 * days[k]!) / 81);
    const x = (10 * 20 * decay) / (10 + 20 * (1 - decay));
    expectClose(20 - dw, x, { tolerance: 0.001, unit: "cm", what: `height of the water after ${days[k]} d` });
  });
});
