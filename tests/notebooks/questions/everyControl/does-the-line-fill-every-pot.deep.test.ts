import { notebook } from "../../../../notebooks/questions/does-the-line-fill-every-pot/notebook.ts";
import { everyControlInFull } from "./inFull.ts";

everyControlInFull(notebook);
