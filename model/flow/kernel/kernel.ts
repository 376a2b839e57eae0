/** The elimination kernel with a memory of its own. */
import { ELIMINATION_WASM } from "./eliminationWasm.ts";

interface Kernel {
  memory: WebAssembly.Memory;
  place(rows: number, drop: number, ...places: number[]): void;
  /** 0 when a pivot is zero or not a number. */
  factor(): number;
  solve(): void;
}

/** Numbers of 8 bytes from byte `at` on. */
export interface Numbers {
  at: number;
  count: number;
}

/** Places in a kernel's memory, one array after another. */
export function layout() {
  let end = LOWEST;
  const take = (bytes: number) => {
    const at = end;
    end += Math.ceil(bytes / 8) * 8;
    return at;
  };
  return {
    whole: (values: Int32Array) => ({ at: take(4 * values.length), values }),
    numbers: (count: number): Numbers => ({ at: take(8 * count), count }),
    size: () => end,
  };
}

/** The compiler keeps the bytes below for itself. */
const LOWEST = 1024;

const PAGE = 65_536;

export function startKernel(bytes: number): Kernel {
  const memory = new WebAssembly.Memory({ initial: Math.ceil(bytes / PAGE) });
  // The compiler's way to tell of a failed assertion; this kernel has none.
  const env = { memory, abort() {} };
  const { exports } = new WebAssembly.Instance(compiled, { env });
  return { ...(exports as unknown as Omit<Kernel, "memory">), memory };
}

const compiled = new WebAssembly.Module(Uint8Array.from(atob(ELIMINATION_WASM), (letter) => letter.charCodeAt(0)));
