declare module "@observablehq/runtime" {
  export interface Observer {
    pending?(): void;
    fulfilled?(value: unknown, name?: string): void;
    rejected?(error: unknown, name?: string): void;
  }

  export interface Variable {
    define(name: string | null, inputs: readonly string[], definition: unknown): Variable;
    delete(): void;
  }

  export interface Module {
    variable(observer?: Observer | true): Variable;
    value(name: string): Promise<unknown>;
  }

  /** What went wrong in a cell; carries its message alone. */
  export class RuntimeError extends Error {}

  export class Runtime {
    constructor(builtins?: Record<string, unknown>);
    module(): Module;
    dispose(): void;
    /** Private: waits a frame, then `_computeNow`. */
    protected _computeSoon(): Promise<void>;
    /** Private: computes what has changed. */
    protected _computeNow(): Promise<void>;
  }
}
