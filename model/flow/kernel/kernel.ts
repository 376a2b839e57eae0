/** The compiled loops, and the memory in which they find their arrays. */
import { FLOW_WASM } from "./flowWasm.ts";

/** One number by cell, in the order of `Cell` in `memory.as`; each is explained where it is used. */
export const CELL_FIELDS = [
  "V",
  "u",
  "uFilled",
  "theta",
  "dTheta",
  "h",
  "dH",
  "phi",
  "dPhi",
  "K",
  "dK",
  "inflow",
  "diagonal",
  "dInflowDdw",
  "dReleaseDu",
  "thetaR",
  "thetaS",
  "uSaturated",
  "uCorner",
  "known",
  "residual",
  "step",
  "column",
  "uBefore",
  "uStart",
  "thetaStart",
  "thetaNext",
  "rate",
  "stageRate",
  "inflowNext",
  "inflowStart",
] as const;
export type CellField = (typeof CELL_FIELDS)[number];

/** One number by face, in the order of `Face` in `memory.as`. */
export const FACE_FIELDS = ["T", "drop", "ab", "ba"] as const;
export type FaceField = (typeof FACE_FIELDS)[number];

/** What the module exports; addresses are in bytes. Each function is explained at its source. */
export interface Loops {
  placeMesh(cellCount: number, faceCount: number, ...addresses: number[]): void;
  placeFactors(...addresses: number[]): void;
  factor(weight: number, drop: number): number;
  solve(address: number): void;
  evaluateCells(table: number, from: number, to: number): void;
  addFaces(): void;
  addInterfaces(count: number, faces: number, lists: number): void;
  fillWall(count: number, cells: number, flows: number, faces: number, conductance: number, dw: number): void;
  fillHeld(count: number, cells: number, flows: number, faces: number): void;
  limitFlows(count: number, flows: number, areas: number, flux: number): void;
  fillRoots(count: number, cells: number, flows: number, roots: number, demand: number, ...limits: number[]): void;
  addFlows(count: number, cells: number, flows: number, isFromPot: boolean): void;
  giveBack(count: number, cells: number, flows: number, limits: number, time: number): number;
  measure(weight: number): number;
  newtonStep(): void;
  levelColumn(slope: number): void;
  releaseAlong(change: number): number;
  takeColumn(dS: number): void;
  moveCells(share: number): void;
  guess(rate: number, dt: number): void;
  endFirstStage(weight: number, rest: number): void;
  endSecondStage(weight: number, dt: number): number;
  overshoots(weight: number): number;
  endWithFirst(weight: number): number;
}

/** An array in the kernel's memory, and its address. */
export interface Placed<T> {
  at: number;
  values: T;
}

/** Room for arrays in the memory, one after another. */
export interface Room {
  /** Copies values into the memory, or makes room for a count of any; a RangeError where it does not suffice. */
  numbers(values: number | ArrayLike<number>): Placed<Float64Array>;
  wholes(values: Int32Array): Placed<Int32Array>;
  /** Where the next array goes. */
  readonly end: number;
  /** Gives back all from an address on. */
  cutBack(end: number): void;
}

/** A module of its own with as many bytes of memory. */
export function startKernel(bytes: number): { loops: Loops; room: Room } {
  const memory = new WebAssembly.Memory({ initial: Math.ceil((LOWEST + bytes) / PAGE) });
  // The compiler's way to tell of a failed assertion; this kernel has none.
  const { exports } = new WebAssembly.Instance(compiled, { env: { memory, abort() {} } });
  return { loops: exports as unknown as Loops, room: roomIn(memory.buffer) };
}

function roomIn(buffer: ArrayBuffer): Room {
  let end = LOWEST;
  const take = (bytes: number) => {
    const at = end;
    end += Math.ceil(bytes / 8) * 8;
    return at;
  };
  return {
    numbers(values) {
      const count = typeof values === "number" ? values : values.length;
      const at = take(8 * count);
      const view = new Float64Array(buffer, at, count);
      if (typeof values !== "number") view.set(values);
      return { at, values: view };
    },
    wholes(values) {
      const at = take(4 * values.length);
      const view = new Int32Array(buffer, at, values.length);
      view.set(values);
      return { at, values: view };
    },
    get end() {
      return end;
    },
    cutBack(to) {
      end = to;
    },
  };
}

/** The compiler keeps the bytes below for itself. */
const LOWEST = 1024;
const PAGE = 65_536;

const compiled = new WebAssembly.Module(Uint8Array.from(atob(FLOW_WASM), (letter) => letter.charCodeAt(0)));
