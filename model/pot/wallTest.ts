/**
 * Conductivity of a wall, cm/day, from three tests on a pot that has soaked for a day. Lengths cm, areas cm², days.
 * All take the wall as thin beside the pot, so that its inner and outer areas count as equal, and the outside as wet
 * at zero pressure. Darcy's law over the wetted wall gives each form; own derivations.
 */

/**
 * Pot sunk in water to its rim, sealed but for a standpipe of section `standpipeArea` whose water stands `startHead`, later
 * `endHead`, above the water outside: the falling-head permeameter, Kw = a w / (A t) ln(H1 / H2).
 */
export function conductivityFromStandpipe(test: {
  standpipeArea: number;
  wallArea: number;
  wallThickness: number;
  days: number;
  startHead: number;
  endHead: number;
}): number {
  const { standpipeArea, wallArea, wallThickness, days, startHead, endHead } = test;
  return ((standpipeArea * wallThickness) / (wallArea * days)) * Math.log(startHead / endHead);
}

/**
 * Open straight pot with its wall kept wet outside, in which water `startHeight` above the inner base falls to
 * `endHeight`: dy/dt = −(Kw / w) (y² / r + y), side and base, hence Kw = (w / t) ln[y1 (r + y2) / (y2 (r + y1))].
 */
export function conductivityFromOpenPot(test: {
  innerRadius: number;
  wallThickness: number;
  days: number;
  startHeight: number;
  endHeight: number;
}): number {
  const { innerRadius: r, wallThickness, days, startHeight, endHeight } = test;
  return (wallThickness / days) * Math.log((startHeight * (r + endHeight)) / (endHeight * (r + startHeight)));
}

/**
 * Round pot kept full to the top of its `volume` (cm³), taking in `flow` (cm³/day): the water's pressure summed over a
 * sphere's wall is 3 V, so Q = 3 V Kw / w.
 */
export function conductivityFromRoundPot(test: { volume: number; wallThickness: number; flow: number }): number {
  return (test.flow * test.wallThickness) / (3 * test.volume);
}
