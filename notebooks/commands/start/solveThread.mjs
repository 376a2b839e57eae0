/** Starts a thread that solves flow problems. It is not TypeScript, since tsx takes no part in a thread before it is called. */
import { register } from "tsx/esm/api";

register();
await import("./solveThread.ts");
