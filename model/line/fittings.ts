/**
 * Loss coefficients K of fittings, of the velocity head in the bore they stand in: the sharp entrance of a tank as handbooks
 * have it, all others textbook values for turbulent flow, from memory. Slow flow loses more in a fitting than they say, though little
 * beside what the tube itself takes.
 */
export const LOSS = { entrance: 0.5, exit: 1, teeStraight: 0.6, teeBranch: 1.8, elbow: 0.9 } as const;

/** K of a valve, fully open. */
export const VALVES = { "ball valve": 0.1, "gate valve": 0.2, "garden tap": 10 } as const;

export type Valve = keyof typeof VALVES;

/** Height of the bumps on the inside of drawn plastic tubes, m (textbook value, from memory). */
export const PLASTIC_ROUGHNESS = 1.5e-6;
