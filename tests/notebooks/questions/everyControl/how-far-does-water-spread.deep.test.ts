import { notebook } from "../../../../notebooks/questions/how-far-does-water-spread/notebook.ts";
import { everyControlInFull } from "./inFull.ts";

everyControlInFull(notebook);
