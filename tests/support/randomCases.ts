/** The random cases of all properties begin at the run's seed, unless a property says otherwise. */
import fc from "fast-check";
import { seed } from "./deep.ts";

fc.configureGlobal({ seed });
