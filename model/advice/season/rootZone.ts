import type { PottedGround } from "../../plan/planPart.ts";
import type { RootZone } from "../../plants/depletion.ts";
import { soilAt } from "../../problems/bareProblem.ts";
import { vanGenuchten } from "../../soil/vanGenuchten.ts";
import { CM_PER_M } from "../../units/factors.ts";
import { headOfSuction } from "../../units/units.ts";

/** Suction at which a drained soil is said to be at field capacity; of sands less, for they drain sooner. Handbook values, from memory. */
const FIELD_CAPACITY = { usual: -330, sands: -100 };
const SANDS: readonly (string | null)[] = ["sand", "loamy sand"];
const WILTING_POINT = headOfSuction(1500);

interface Layer {
  className: string | null;
  depth: number;
  thickness: number;
}

/** The bed's ground as deep as roots go, cm, through its mix and the soil below. */
export function rootZone(plan: PottedGround, rootDepth: number): RootZone {
  const mean = (head: (layer: Layer) => number) =>
    layersOf(plan, rootDepth).reduce((sum, layer) => {
      const { theta } = vanGenuchten(soilAt(plan, layer.depth));
      return sum + (theta(head(layer)) * layer.thickness) / rootDepth;
    }, 0);
  return {
    fieldCapacity: mean(({ className }) => (SANDS.includes(className) ? FIELD_CAPACITY.sands : FIELD_CAPACITY.usual)),
    wiltingPoint: mean(() => WILTING_POINT),
    rootDepthMetres: rootDepth / CM_PER_M,
  };
}

/** Whether its field capacity is that of a sand. */
export const hasSand = ({ soil, bedMix }: PottedGround): boolean =>
  [soil.className, bedMix?.className ?? null].some((name) => SANDS.includes(name));

function layersOf({ bedMix, soil }: PottedGround, rootDepth: number): Layer[] {
  const mix = Math.min(bedMix?.depth ?? 0, rootDepth);
  const layers = [
    { className: bedMix?.className ?? null, depth: 0, thickness: mix },
    { className: soil.className, depth: mix, thickness: rootDepth - mix },
  ];
  return layers.filter(({ thickness }) => thickness > 0);
}
