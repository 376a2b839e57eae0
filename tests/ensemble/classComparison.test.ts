import { describe, expect, it } from "vitest";
import { compareClass } from "../../model/ensemble/classComparison.ts";
import { saxtonRawls } from "../../model/soil/saxtonRawls.ts";
import { TEXTURE_CLASSES } from "../../model/soil/textureTriangle.ts";
import { expectClose } from "../support/close.ts";

const compared = TEXTURE_CLASSES.map((name) => compareClass(4, name));
const of = (name: string) => compared.find((row) => row.name === name)!;

describe("the publications side by side", () => {
  it("stand at the middle of the class: sand's is that of the corner (100, 0, 0), (85, 15, 0), (90, 0, 10)", () => {
    const { sand, silt, clay } = of("sand").texture;
    expectClose(sand, 275 / 3, { tolerance: 0.5, unit: "%", what: "sand" });
    expectClose(clay, 10 / 3, { tolerance: 0.5, unit: "%", what: "clay" });
    expectClose(sand + silt + clay, 100, { tolerance: 1e-9, unit: "%", what: "sum" });
  });

  it("share one soil: its bulk density is that of the pores that Saxton & Rawls give it", () => {
    for (const { texture, bulkDensity, saxtonRawls: given } of compared) {
      const { saturation, Ks } = saxtonRawls({ ...texture, organicMatter: 2.5 });
      expectClose(bulkDensity / 2.65 + saturation, 1, { tolerance: 1e-12, what: "grains and pores" });
      expect(given.Ks).toBe(Ks);
      expect(bulkDensity).toBeGreaterThan(1.1);
      expect(bulkDensity).toBeLessThan(1.7);
    }
  });

  it("show drawn soils by the middle and the 80 % band of their distribution", () => {
    // Loam: ln(Ks/(15 − Ks)) is normal, −3.71 ± 1.78, in cm/h; 1.2816 standard deviations to each side hold 80 %.
    const Ks = (z: number) => (24 * 15) / (1 + Math.exp(3.71 - 1.78 * z));
    const { low, median, high } = of("loam").drawn.Ks;
    // Standard error of a percentile of 2000 draws, in standard deviations: 0.028 at the middle, 0.038 at its sides.
    const errors = 4 * 1.78;
    expectClose(Math.log(median / Ks(0)), 0, { tolerance: errors * 0.028, what: "ln of the middle" });
    expectClose(Math.log(low / Ks(-1.2816)), 0, { tolerance: errors * 0.038, what: "ln of the lower side" });
    expectClose(Math.log(high / Ks(1.2816)), 0, { tolerance: errors * 0.038, what: "ln of the upper side" });
  });

  it("hold less water at 15 000 cm than at 330 cm, by every publication", () => {
    for (const { drawn, saxtonRawls: second, weynants: third } of compared) {
      expect(drawn.at15000.median).toBeLessThan(drawn.at330.median);
      for (const { at330, at15000 } of [second, third]) expect(at15000).toBeLessThan(at330);
    }
  });

  it("differ: in loam the second source's conductivity is above the middle of the drawn soils, within their band", () => {
    // Saxton & Rawls (2006), loam of 40 % sand and 20 % clay: 15.48 mm/h, 37 cm/day; ours is at 42 and 18.
    const { drawn, saxtonRawls: second } = of("loam");
    expectClose(second.Ks, 37.2, { tolerance: 0.3, relative: true, unit: "cm/day", what: "Ks of loam" });
    expect(second.Ks).toBeGreaterThan(drawn.Ks.median);
    expect(second.Ks).toBeLessThan(drawn.Ks.high);
  });
});
