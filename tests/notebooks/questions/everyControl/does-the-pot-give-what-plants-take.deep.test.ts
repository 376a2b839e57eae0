import { notebook } from "../../../../notebooks/questions/does-the-pot-give-what-plants-take/notebook.ts";
import { everyControlInFull } from "./inFull.ts";

everyControlInFull(notebook);
