import { notebook } from "../../../../notebooks/questions/where-do-i-sow/notebook.ts";
import { everyControlInFull } from "./inFull.ts";

everyControlInFull(notebook);
