/** How much narrower and wider than the hole a tapered stopper's ends are, as a share of the hole. */
const TAPER = 0.15;

/**
 * The tapered rubber stopper that closes a drain hole; diameters in cm, in whole millimetres. Its small end is at least
 * 15 % narrower than the hole, so that it starts easily from inside the pot; its large end at least 15 % wider, so that
 * it grips about half way up and the water's weight cannot push it through. Common practice, no source.
 */
export function stopperFor(holeDiameter: number): { smallEnd: number; largeEnd: number } {
  return {
    smallEnd: Math.floor(holeDiameter * (1 - TAPER) * 10) / 10,
    largeEnd: Math.ceil(holeDiameter * (1 + TAPER) * 10) / 10,
  };
}
