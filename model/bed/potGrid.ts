/** Even grids of pots: in rows and columns, or each row shifted by half a spacing. */
export const POT_GRIDS = ["square", "triangular"] as const;

export type PotGrid = (typeof POT_GRIDS)[number];

/** Sides of the ground that is nearer to one pot than to any other. */
export const sidesOf = (grid: PotGrid): 4 | 6 => (grid === "square" ? 4 : 6);

/** Area of that ground over the spacing squared. */
const SHARE: Record<PotGrid, number> = { square: 1, triangular: Math.sqrt(3) / 2 };

/** Ground that each pot has to itself, cm², where they stand `spacing` cm apart. */
export const groundPerPot = (grid: PotGrid, spacing: number): number => SHARE[grid] * spacing ** 2;

/** Distance from the pot to a corner of that ground, where it is farthest from any pot, cm. */
export const farthestGround = (grid: PotGrid, spacing: number): number =>
  spacing / 2 / Math.cos(Math.PI / sidesOf(grid));

/** Radius of the circle of that area, cm. */
export const equalCircle = (grid: PotGrid, spacing: number): number => Math.sqrt(groundPerPot(grid, spacing) / Math.PI);

/** Pots stand at least so many times their width apart, or hardly any soil is left between them: our own choice. */
export const LEAST_SPACING = 1.25;
