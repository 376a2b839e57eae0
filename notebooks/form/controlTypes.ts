import type { Settings } from "../../model/public/plan.ts";
import type { Measure, UnitSystem } from "../../model/public/units.ts";
import type { Source } from "../runtime/cells.ts";

export type { Settings };

export type Control = NumberControl | ChoiceControl | TextControl;

interface ControlCommon {
  /** Path in the plan (`inputControls.ts`), or the name of a value of this notebook alone (then with a `cell`). */
  field: string;
  label: string;
  /** A line under the control. */
  help?(units: UnitSystem): string;
  /** Left out: always shown. */
  shownWhen?(settings: Settings): boolean;
}

/** A slider and a box to type in, both in the person's unit. */
export interface NumberControl extends ControlCommon {
  kind: "number";
  measure: Measure;
  min: number;
  max: number;
  /** Steps of the slider in the person's unit, metric and US. */
  step: { metric: number; us: number };
  /** With a button that moves the slider on by itself. */
  plays?: boolean;
  cell?: Source<number>;
  initial?: number;
}

export interface ChoiceControl extends ControlCommon {
  kind: "choice";
  style: "select" | "radio";
  options: readonly Option[];
  /** Other fields that choosing a value fills. */
  fills?(value: string): Settings;
  /** The value shown where it follows from other fields. */
  chosen?(settings: Settings): string;
  cell?: Source<string>;
  initial?: string;
}

/** A text of several lines, typed, pasted or read from a file; what it may say is for the plan's rules. */
export interface TextControl extends ControlCommon {
  kind: "text";
  cell?: undefined;
  initial?: undefined;
}

export interface Option {
  value: string;
  label: string;
}

export const isShown = (control: Control, settings: Settings): boolean => control.shownWhen?.(settings) ?? true;

export interface ControlGroup {
  heading: string;
  /** Stands right under the picture. */
  underPicture?: boolean;
  controls: Control[];
}
