/**
 * Where the kernel's arrays lie. The caller makes them and tells their addresses: integers take 4 bytes, numbers 8. Each
 * field of the cells and of the faces is one array, and the fields follow each other in the order of the lists below,
 * which `kernel.ts` repeats.
 */

export const enum Cell {
  V,
  u,
  uFilled,
  theta,
  dTheta,
  h,
  dH,
  phi,
  dPhi,
  K,
  dK,
  inflow,
  diagonal,
  dInflowDdw,
  dReleaseDu,
  thetaR,
  thetaS,
  uSaturated,
  uCorner,
  known,
  residual,
  step,
  column,
  uBefore,
  uStart,
  thetaStart,
  thetaNext,
  rate,
  stageRate,
  inflowNext,
  inflowStart,
}

export const enum Face {
  T,
  drop,
  ab,
  ba,
}

export let n: i32 = 0;
export let faceCount: i32 = 0;
let cells: usize = 0;
let faces: usize = 0;
/** Cells a and b of each face; address of the soil's table by cell. */
export let faceA: usize = 0;
export let faceB: usize = 0;
export let tables: usize = 0;

export function placeMesh(
  cellCount: i32,
  count: i32,
  atCells: usize,
  atFaces: usize,
  atA: usize,
  atB: usize,
  atTables: usize,
): void {
  n = cellCount;
  faceCount = count;
  cells = atCells;
  faces = atFaces;
  faceA = atA;
  faceB = atB;
  tables = atTables;
}

// @ts-ignore: decorator
@inline
export function ofCells(field: Cell): usize {
  return cells + (<usize>(field * n) << 3);
}

// @ts-ignore: decorator
@inline
export function ofFaces(field: Face): usize {
  return faces + (<usize>(field * faceCount) << 3);
}

// @ts-ignore: decorator
@inline
export function whole(array: usize, k: i32): i32 {
  return load<i32>(array + (<usize>k << 2));
}

// @ts-ignore: decorator
@inline
export function number(array: usize, k: i32): f64 {
  return load<f64>(array + (<usize>k << 3));
}

// @ts-ignore: decorator
@inline
export function set(array: usize, k: i32, value: f64): void {
  store<f64>(array + (<usize>k << 3), value);
}

// @ts-ignore: decorator
@inline
export function add(array: usize, k: i32, value: f64): void {
  set(array, k, number(array, k) + value);
}

// @ts-ignore: decorator
@inline
export function clear(array: usize, count: i32): void {
  memory.fill(array, 0, <usize>count << 3);
}
