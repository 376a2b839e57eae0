import { notebook } from "../../../../notebooks/questions/will-the-tank-last/notebook.ts";
import { everyControlInFull } from "./inFull.ts";

everyControlInFull(notebook);
