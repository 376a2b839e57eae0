import { notebook } from "../../../../notebooks/questions/why-does-soil-matter/notebook.ts";
import { everyControlInFull } from "./inFull.ts";

everyControlInFull(notebook);
