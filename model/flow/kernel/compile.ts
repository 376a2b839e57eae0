/** Compiles the kernel: `npm run kernel` writes `flowWasm.ts`, and a test finds out when that is out of date. */
import { readFile } from "node:fs/promises";
import asc from "assemblyscript/asc";

/** The compiler knows no other ending than .ts. */
const ENTRY = "flow.ts";

const OPTIONS = ["--optimizeLevel", "3", "--shrinkLevel", "0", "--runtime", "stub", "--noAssert", "--importMemory"];

/** The module's bytes as base64. Throws with the compiler's words where it does not compile. */
export async function compiledKernel(): Promise<string> {
  let bytes: Uint8Array | undefined;
  const { error, stderr } = await asc.main([ENTRY, "--outFile", "flow.wasm", ...OPTIONS], {
    readFile: (name) => readFile(new URL(name.replace(/\.ts$/, ".as"), import.meta.url), "utf8").catch(() => null),
    writeFile(name, contents) {
      if (name === "flow.wasm") bytes = contents as Uint8Array;
    },
    listFiles: () => [],
  });
  if (error || !bytes) throw new Error(`The kernel does not compile.\n${stderr.toString()}`);
  return Buffer.from(bytes).toString("base64");
}

export const kernelFile = (base64: string): string =>
  `/** Compiled from flow.as by \`npm run kernel\`. */\nexport const FLOW_WASM =\n  "${base64}";\n`;
