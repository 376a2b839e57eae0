/** How much narrower and wider than the hole a tapered stopper's ends are, as a share of the hole. */
const TAPER = 0.15;

/**
 * The tapered rubber stopper that closes a drain hole, diameters in cm, whole millimetres. Its small end is at least 15 % narrower than the
 * hole, so that it starts easily from inside the pot; its large end at least 15 % wider, so that the water's weight only
 * presses it tighter and it cannot slip through: it then grips about half way up. Common practice, no source.
 */
export function stopperFor(holeDiameter: number): { smallEnd: number; largeEnd: number } {
  return {
    smallEnd: Math.floor(holeDiameter * (1 - TAPER) * 10) / 10,
    largeEnd: Math.ceil(holeDiameter * (1 + TAPER) * 10) / 10,
  };
}
