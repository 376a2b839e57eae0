/** Distances from the pot's wall in words. */
import type { SowingBand } from "../../model/public/advice.ts";
import { bothSystems, fromModel, rounded, type UnitSystem, unitOf } from "../../model/public/units.ts";

/** "2 to 6 in (5 to 15 cm)", or "up to 6 in (15 cm)" where the band begins at the wall. */
export function placeWords({ inner, outer }: Pick<SowingBand, "inner" | "outer">, units: UnitSystem): string {
  const [own, other] = bothSystems(units);
  const words = (system: UnitSystem) => {
    const [from, to] = rulerNumbers(inner, outer, system);
    return `${from === "0" ? to : `${from} to ${to}`} ${unitOf("length", system)}`;
  };
  const [from] = rulerNumbers(inner, outer, own);
  return `${from === "0" ? "up to " : ""}${words(own)} (${words(other)})`;
}

/** To whole centimetres or half inches, as read off a ruler; finer where a band is too narrow for that. */
export function rulerNumbers(inner: number, outer: number, system: UnitSystem): [string, string] {
  const unit = unitOf("length", system);
  const marks = system === "us" ? 2 : 1;
  const [from, to] = [inner, outer].map((cm) => fromModel(cm, "length", system)) as [number, number];
  const [near, far] = [Math.round(from * marks) / marks, Math.round(to * marks) / marks];
  return near === far ? [rounded(from, unit), rounded(to, unit)] : [String(near), String(far)];
}
