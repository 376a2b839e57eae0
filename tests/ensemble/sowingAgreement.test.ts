import { describe, expect, it } from "vitest";
import { sowingAgreement } from "../../model/ensemble/sowingAgreement.ts";

type Limits = [inner: number, outer: number, isOuterAtLeast?: boolean];

const agreement = (...bands: Limits[]) =>
  sowingAgreement(
    bands.map(([inner, outer, isOuterAtLeast = false]) => ({ sowing: { inner, outer, isOuterAtLeast } })),
  );

const NONE: Limits = [5, 5];

describe("sowing bands agree", () => {
  it("where four of five hold a distance", () => {
    // At 4 to 9 four hold it, at 9 to 10 three; the fifth has no band.
    const { outcome } = agreement([1, 10], [2, 9], [3, 12], [4, 11], NONE);
    expect(outcome).toEqual({ kind: "agreed", stretch: { from: 4, to: 9, share: 0.8, isOuterAtLeast: false } });
  });

  it("nowhere, if less than four of five do: then where most do", () => {
    const { outcome } = agreement([1, 10], [2, 9], [3, 12], NONE);
    expect(outcome).toEqual({ kind: "best", stretch: { from: 3, to: 9, share: 0.75, isOuterAtLeast: false } });
  });

  it("not at all, if no member has a band", () => {
    expect(agreement(NONE, [6, 2])).toEqual({ shares: [], outcome: { kind: "none" } });
    expect(agreement()).toEqual({ shares: [], outcome: { kind: "none" } });
  });

  it("by a share for every distance between two limits", () => {
    const { shares } = agreement([1, 4], [2, 6], [8, 9], NONE);
    expect(shares.map(({ from, to, share }) => [from, to, share])).toEqual([
      [1, 2, 0.25],
      [2, 4, 0.5],
      [4, 6, 0.25],
      [6, 8, 0],
      [8, 9, 0.25],
    ]);
  });

  it("over the whole width where they do, told with the least share in it", () => {
    const { outcome } = agreement([0, 10], [0, 10], [0, 10], [0, 10], [2, 10]);
    expect(outcome).toEqual({ kind: "agreed", stretch: { from: 0, to: 10, share: 0.8, isOuterAtLeast: false } });
  });

  it("in the widest of several places", () => {
    const { outcome } = agreement([0, 2], [0, 2], [6, 9], [6, 9]);
    expect(outcome).toMatchObject({ kind: "best", stretch: { from: 6, to: 9, share: 0.5 } });
  });

  it("as far as the region's side at least, where moist soil goes on to it", () => {
    expect(agreement([1, 90, true], [2, 90, true]).outcome).toMatchObject({
      stretch: { to: 90, isOuterAtLeast: true },
    });
    expect(agreement([1, 90, true], [2, 30]).outcome).toMatchObject({ stretch: { to: 30, isOuterAtLeast: false } });
  });
});
