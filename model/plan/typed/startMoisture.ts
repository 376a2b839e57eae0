/**
 * How moist a bed may be at the start, in plain words, and the suction (kPa) that each stands for. Bone dry: the permanent
 * wilting point, to which plants can dry a soil and no further. Dry: dry to the touch (our own choice). Moist: garden
 * plants drink freely (common practice, no source). Just rained: what a drained soil still holds a day after a soaking
 * rain, the field capacity of lighter soils (common handbook value, from memory).
 */
export const START_MOISTURE = { "bone dry": 1500, dry: 500, moist: 50, "just rained": 10 } as const;

export type StartMoisture = keyof typeof START_MOISTURE;

/** Where neither a word nor a suction is given. */
export const DEFAULT_MOISTURE: StartMoisture = "dry";

export const isStartMoisture = (word: string): word is StartMoisture => Object.hasOwn(START_MOISTURE, word);

/** kPa; the plan's rules see to it that a person gives one of the two at most. */
export function startSuction(word: StartMoisture | undefined, kPa: number | undefined): number {
  return kPa ?? START_MOISTURE[word ?? DEFAULT_MOISTURE];
}
