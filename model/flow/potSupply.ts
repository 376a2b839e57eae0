import type { Pot, PotShape } from "../pot/pot.ts";
import type { Filling } from "./problem.ts";
import type { LevelLaw } from "./stage.ts";
import type { FlowState } from "./timeStep.ts";

/** How the pot's level follows from what it has released, and when it is filled up again. */
export interface PotSupply {
  /** Absent where a float holds the level, and while the pot is empty. */
  law(state: FlowState): LevelLaw | undefined;
  /** Water left, cm³; absent where a float holds the level. */
  remaining(state: FlowState): number | undefined;
  /** Empties the pot, for the start. */
  begin(state: FlowState): void;
  /** Fills the pot to the rim if this is a time for it; tells whether it did. */
  refill(state: FlowState): boolean;
  /** Sets the level of an empty pot to its floor, and lets a pot that rain has filled above its rim run over. */
  settle(state: FlowState): void;
}

/** A held level stands at the soil surface, or at the rim of a pot sunk below it. */
export function heldLevel({ rimDepth }: PotShape): number {
  return Math.max(0, rimDepth);
}

/** The pot counts as empty within this share of its capacity. */
export const EMPTY_SHARE = 1e-5;

export function potSupply(filling: Filling, pot: Pot): PotSupply {
  return filling.kind === "held" ? heldSupply(filling.levelDepth) : refilledSupply(filling.atDays, pot);
}

function heldSupply(levelDepth: number): PotSupply {
  return {
    law: () => undefined,
    remaining: () => undefined,
    begin(state) {
      state.pot.dw = levelDepth;
      state.pot.isEmpty = false;
    },
    refill: () => false,
    settle: () => undefined,
  };
}

/** The release is counted from the last filling, so that what is left is the capacity less the release. */
function refilledSupply(atDays: readonly number[], pot: Pot): PotSupply {
  const levelAt = (release: number) => pot.levelAt(pot.capacity - release);
  const opening = pot.surfaceAt(pot.fullDepth);
  const law: LevelLaw = {
    levelAt,
    slopeAt: (release) => 1 / pot.surfaceAt(levelAt(release)),
    lossAt: (dw, { spell }) => spell.potEvaporation * pot.surfaceAt(dw) - spell.potRain * opening,
  };
  const isEmpty = (state: FlowState) => state.pot.isEmpty;
  return {
    law: (state) => (isEmpty(state) ? undefined : law),
    remaining: (state) => (isEmpty(state) ? undefined : pot.capacity - state.release),
    begin(state) {
      state.release = pot.capacity;
      state.pot.dw = pot.emptyDepth;
      state.pot.isEmpty = true;
    },
    refill(state) {
      if (!atDays.includes(state.t)) return false;
      state.poured += state.release;
      state.release = 0;
      state.pot.dw = pot.fullDepth;
      state.pot.isEmpty = false;
      return true;
    },
    settle(state) {
      if (isEmpty(state)) state.pot.dw = pot.emptyDepth;
      if (state.release >= 0) return;
      state.potLoss -= state.release;
      state.release = 0;
      state.pot.dw = pot.fullDepth;
    },
  };
}
