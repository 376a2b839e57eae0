import { notebook } from "../../../../notebooks/questions/my-bed/notebook.ts";
import { everyControlInFull } from "./inFull.ts";

everyControlInFull(notebook);
