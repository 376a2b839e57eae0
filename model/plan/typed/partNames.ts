/** The parts of a resolved plan that an answer may depend on, each by its path; `planPart.ts` picks them. */
export const PART_NAMES = [
  ...(["units", "name", "notes"] as const),
  ...(["soil", "bedMix", "startHead"] as const),
  ...(["pot", "drainHoleDiameter", "lid", "filling", "days"] as const),
  ...(["crop", "rootDepth", "sowing", "sowingDay"] as const),
  ...(["weather.isExample", "weather.latitude", "weather.altitudeMetres", "weather.months", "weather.years"] as const),
  ...(["month", "plantsFromWall", "plantStage", "mulchCover", "handWatering", "carrying"] as const),
  ...(["bed.outline", "bed.spacing", "bed.grid", "bed.rowAngle", "bed.edgeDistance", "bed.isEdgeUsual"] as const),
  ...(["bed.potPlaces", "bed.plantSpacing", "areaPerPot"] as const),
  ...(["plantingDay", "roof", "tank", "spareTanks", "topUp", "line"] as const),
] as const;

export type PartName = (typeof PART_NAMES)[number];
