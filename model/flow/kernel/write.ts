import { writeFile } from "node:fs/promises";
import { compiledKernel, kernelFile } from "./compile.ts";

await writeFile(new URL("./flowWasm.ts", import.meta.url), kernelFile(await compiledKernel()));
