import { notebook } from "../../../../notebooks/questions/where-does-each-pot-go/notebook.ts";
import { everyControlInFull } from "./inFull.ts";

everyControlInFull(notebook);
