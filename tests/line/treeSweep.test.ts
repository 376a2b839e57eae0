import { Matrix, solve } from "ml-matrix";
import { expect, test } from "vitest";
import { networkOf, pathTo } from "../../model/line/network.ts";
import { flowChanges } from "../../model/line/treeSweep.ts";
import { expectClose } from "../support/close.ts";
import { comb, tube } from "../support/lines.ts";

test("changes of flow are those of the dense system, also where water leaves on the way (ml-matrix)", () => {
  const line = comb(6);
  const pieces = [...line.pieces, tube({ parent: 11, outlet: { pot: 6, emitter: null } })];
  const { parents, outlets } = networkOf({ ...line, pieces });
  const slopes = Float64Array.from(pieces, (_, p) => 1 + ((p * 7) % 5));
  const outletSlopes = Float64Array.from(outlets, (_, k) => 0.1 + k);
  const free = Uint8Array.from(outlets, (_, k) => Number(k !== 2));
  const wanted = Float64Array.from(outlets, (_, k) => Math.cos(k));
  const changes = flowChanges({ parents, outlets, slopes, outletSlopes, free }, wanted);
  expect(changes[2]).toBe(0);

  const running = Array.from(outlets.keys()).filter((k) => k !== 2);
  const paths = running.map((k) => new Set(pathTo({ pieces, celsius: 20 }, outlets[k]!)));
  const shared = paths.map((path, i) =>
    paths.map((other, j) => {
      const common = [...path].filter((p) => other.has(p)).reduce((sum, p) => sum + slopes[p]!, 0);
      return common + (i === j ? outletSlopes[running[i]!]! : 0);
    }),
  );
  const dense = solve(new Matrix(shared), Matrix.columnVector(running.map((k) => wanted[k]!))).to1DArray();
  running.forEach((k, i) => {
    expectClose(changes[k]!, dense[i]!, { tolerance: 1e-12, what: `change of outlet ${k}` });
  });
});
