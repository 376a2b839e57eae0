/** `npm run merge`. */
import { merge } from "./mergeCommand.ts";

process.exitCode = await merge(process.argv.slice(2));
