/**
 * Factor on the evaporation of soil under an organic mulch (straw, leaves, bark) that covers a share of it, 0 to 1: about
 * 5 % less for each tenth of the ground covered (FAO-56, ch. 10, from memory). The source gives one figure for all
 * thicknesses; a thick layer saves more.
 */
export function mulchFactor(cover: number): number {
  return 1 - 0.5 * cover;
}
