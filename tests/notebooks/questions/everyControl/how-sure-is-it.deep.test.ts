import { notebook } from "../../../../notebooks/questions/how-sure-is-it/notebook.ts";
import { everyControlInFull } from "./inFull.ts";

everyControlInFull(notebook);
