import type { Texture } from "./textureTriangle.ts";

/** Thicknesses of the three settled layers, in any one unit, not all 0. */
export interface JarLayers {
  sand: number;
  silt: number;
  clay: number;
}

/**
 * Texture from a jar of soil shaken up in water and left to settle, each layer's thickness taken as its share
 * (common practice, no source). A rough guide: the share wanted is by weight, and the layers pack differently, fresh
 * clay the loosest, so that clay comes out too high; clay still afloat makes it too low.
 */
export function textureFromJar({ sand, silt, clay }: JarLayers): Texture {
  const total = sand + silt + clay;
  const share = (layer: number) => (100 * layer) / total;
  return { sand: share(sand), silt: share(silt), clay: share(clay) };
}
