import { execFileSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { z } from "zod";
import { problemFileSchema } from "../../model/public/flow.ts";
import { planSchema } from "../../model/public/plan.ts";

/** What is exported, by file name: the two files that people write, before defaults are filled in. */
const SCHEMAS = {
  "plan.schema.json": planSchema,
  "problem.schema.json": problemFileSchema,
};

const folder = new URL("../../reference-data/schemas/", import.meta.url).pathname;

mkdirSync(folder, { recursive: true });
for (const [name, schema] of Object.entries(SCHEMAS))
  writeFileSync(`${folder}${name}`, JSON.stringify(z.toJSONSchema(schema, { io: "input" }), null, 2));
execFileSync("npx", ["biome", "format", "--write", folder], { stdio: "inherit" });
