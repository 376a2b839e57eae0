/** Volume of a frustum with end radii a and b: π y (a² + a b + b²) / 3. */
export function frustumVolume(a: number, b: number, height: number): number {
  return (Math.PI * height * (a * a + a * b + b * b)) / 3;
}
