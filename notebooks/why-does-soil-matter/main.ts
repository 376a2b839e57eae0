import { mountNotebook } from "../lib/page.ts";
import { notebook } from "./notebook.ts";

mountNotebook(notebook);
