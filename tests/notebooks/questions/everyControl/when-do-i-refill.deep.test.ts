import { notebook } from "../../../../notebooks/questions/when-do-i-refill/notebook.ts";
import { everyControlInFull } from "./inFull.ts";

everyControlInFull(notebook);
