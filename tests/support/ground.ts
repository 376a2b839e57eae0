import { type Ground, layeredGround } from "../../model/flow/ground.ts";
import type { Mesh } from "../../model/flow/mesh.ts";
import type { SoilTable } from "../../model/soil/soilTable.ts";

/** One soil everywhere. */
export function evenGround(mesh: Pick<Mesh, "dCell">, table: SoilTable): Ground {
  return layeredGround(mesh, [{ table, bottom: Number.POSITIVE_INFINITY }]);
}
