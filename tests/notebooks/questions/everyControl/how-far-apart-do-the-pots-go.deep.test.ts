import { notebook } from "../../../../notebooks/questions/how-far-apart-do-the-pots-go/notebook.ts";
import { everyControlInFull } from "./inFull.ts";

everyControlInFull(notebook);
