/** Starts a thread that solves flow problems. It is not TypeScript, since tsx takes no part in a thread before it is called. */
import { createRequire } from "node:module";
import { register } from "tsx/cjs/api";

register();
createRequire(import.meta.url)("./solveThread.ts");
