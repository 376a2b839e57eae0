/** All that the model asks of the engine it runs in, besides the language itself: a browser and Node both have it. */

declare const performance: { now(): number };

declare function atob(base64: string): string;

declare namespace WebAssembly {
  class Memory {
    constructor(descriptor: { initial: number });
    readonly buffer: ArrayBuffer;
  }
  class Module {
    constructor(bytes: Uint8Array);
  }
  class Instance {
    constructor(module: Module, imports: Record<string, Record<string, unknown>>);
    readonly exports: Record<string, unknown>;
  }
}
