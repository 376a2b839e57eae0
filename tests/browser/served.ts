/** Once for all browser tests: the pages are built, unless they are as new as their sources, and one Chromium starts. */
import type { TestProject } from "vitest/node";
import { buildNotebooks } from "../../notebooks/commands/build.ts";
import { startBrowserServer } from "./browser.ts";

declare module "vitest" {
  interface ProvidedContext {
    browserEndpoint: string;
  }
}

export default async function serve(project: TestProject) {
  const [browser] = await Promise.all([startBrowserServer(), buildNotebooks()]);
  project.provide("browserEndpoint", browser.wsEndpoint());
  return () => browser.close();
}
