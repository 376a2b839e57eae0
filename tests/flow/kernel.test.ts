import { expect, it } from "vitest";
import { compiledKernel } from "../../model/flow/kernel/compile.ts";
import { FLOW_WASM } from "../../model/flow/kernel/flowWasm.ts";

it("the kernel is compiled from its source as it stands", async () => {
  expect(await compiledKernel()).toBe(FLOW_WASM);
}, 60_000);
