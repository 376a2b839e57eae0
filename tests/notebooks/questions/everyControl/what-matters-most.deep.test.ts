import { notebook } from "../../../../notebooks/questions/what-matters-most/notebook.ts";
import { everyControlInFull } from "./inFull.ts";

everyControlInFull(notebook);
