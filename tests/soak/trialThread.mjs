/** Starts a thread that tries plans. It is not TypeScript, since tsx takes no part in a thread before it is called. */
import { register } from "tsx/esm/api";

register();
await import("./trialThread.ts");
