import { describe, expect, it } from "vitest";
import { bedParts } from "../../../model/advice/pot/bedParts.ts";
import { expectClose } from "../../support/close.ts";
import { plan } from "../../support/livingPlan.ts";

describe("the parts of a bed", () => {
  // Inside: a cylinder of 18 cm diameter, 21 cm high: 5343.8 cm³.
  const pot = { shape: "cylinder", diameter: 20, height: 22, wallThickness: 1 };

  it("are its pots with their lids, and the water that fills one and all", () => {
    const parts = bedParts(plan({ pot }), 14);
    expect(parts).toMatchObject({ pots: 14, lids: 14, stoppers: null });
    expectClose(parts.litresPerFill, 0.021 * Math.PI * 81, { tolerance: 1e-9, unit: "L", what: "one pot" });
    expectClose(parts.litresInAll, 14 * parts.litresPerFill, { tolerance: 1e-12, unit: "L", what: "all pots" });
  });

  it("have no lids where the pots stand open, and stoppers where they have a hole", () => {
    // 2.5 cm less and more 15 %, in whole millimetres: 2.1 and 2.9 cm.
    expect(bedParts(plan({ pot: { ...pot, drainHoleDiameter: 2.5 }, lid: false }), 3)).toMatchObject({
      lids: 0,
      stoppers: { hole: 2.5, smallEnd: 2.1, largeEnd: 2.9, count: 3 },
    });
  });
});
