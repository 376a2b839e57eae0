/** How much room for water a soil has between its driest and its wettest. */
import { type Fault, type Reader, upperLimit } from "../input/faults.ts";

/** Least thetaS − thetaR, cm³/cm³: soil with less holds next to no water for plants (our own choice). */
export const LEAST_PORE_SPACE = 0.05;

/** The check of a soil whose thetaR and thetaS stand at these paths. */
export function poreSpaceFault({ number, fault }: Reader, paths: { thetaR: string; thetaS: string }): Fault | false {
  const most = upperLimit(number(paths.thetaS) - LEAST_PORE_SPACE);
  const allowed = `at most ${most}, thetaS less ${LEAST_PORE_SPACE}: with less room, soil holds next to no water for plants`;
  return number(paths.thetaR) > most && fault(paths.thetaR, allowed);
}
