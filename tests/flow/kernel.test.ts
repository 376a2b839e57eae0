import { expect, it } from "vitest";
import { compiledKernel } from "../../model/flow/kernel/compile.ts";
import { ELIMINATION_WASM } from "../../model/flow/kernel/eliminationWasm.ts";

it("the elimination kernel is compiled from its source as it stands", async () => {
  expect(await compiledKernel()).toBe(ELIMINATION_WASM);
}, 60_000);
