import { execFileSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";

const folder = new URL("./", import.meta.url);
const patches = readdirSync(folder).filter((file) => file.endsWith(".patch"));

it.each(patches)("the planted fault %s fits the code as it stands, and names a test file that is there", (patch) => {
  const path = new URL(patch, folder);
  execFileSync("git", ["apply", "--check", path.pathname]);
  const [, file = ""] = readFileSync(path, "utf8").match(/^Test: (.+)$/m) ?? [];
  expect(existsSync(file), file).toBe(true);
});
