import { describe, expect, it } from "vitest";
import { firstToChange } from "../../model/flow/firstToChange.ts";
import { TEXTURE_CLASSES } from "../../model/soil/textureTriangle.ts";
import { classMean, cylinderProblem } from "../support/problems.ts";

const loam = classMean("loam");

describe("what to change where a run failed", () => {
  it("is the value that lies farthest outside what gardens have, too high or too low", () => {
    const pot = cylinderProblem().pot;
    const change = (changes: object) => firstToChange(cylinderProblem(changes), 50);
    expect(change({ soil: { ...loam, n: 1.06, l: -9 } })).toBe("a higher pore exponent l of the soil");
    expect(change({ soil: { ...loam, Ks: 1e5, n: 4 } })).toBe("a lower saturated conductivity Ks of the soil");
    expect(change({ pot: { ...pot, rimDepth: pot.outerDepth - 0.5 } })).toBe(
      "a higher ratio of the pot's height to its width",
    );
    expect(change({ pot: { ...pot, wallConductivity: 10 }, startHead: -20_000 })).toBe("a lower wall conductivity");
  });

  it("is of the soil in which the run failed", () => {
    const layered = cylinderProblem({ topLayer: { soil: { ...loam, alpha: 1 }, depth: 30 }, soil: { ...loam, n: 4 } });
    expect(firstToChange(layered, 29)).toBe("a lower alpha of the bed mix");
    expect(firstToChange(layered, 31)).toBe("a lower n of the soil");
  });

  it("is the start where all else is usual, as in every class of soils", () => {
    for (const name of TEXTURE_CLASSES)
      expect(firstToChange(cylinderProblem({ soil: classMean(name) }), 50), name).toBe("another suction at the start");
  });
});
