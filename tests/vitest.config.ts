/** How the tests run: `npm test` all that is short, `npm run test:deep` what is dear too, `npm run test:only -- PATH` a part. */
import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const minutes = 60_000;

/** Mocks of modules stay in a worker that keeps its modules: files that make them get workers of their own. */
const mocked = "tests/**/*.mocked.test.ts";
const inBrowser = "tests/browser/**/*.test.ts";
const deep = "tests/**/*.deep.test.ts";

export default defineConfig(({ mode }) => {
  const isDeep = mode === "deep";
  const isVerbose = process.argv.some((word) => word.endsWith("verbose"));
  const seed = process.env.SEED ?? (isDeep ? String(Math.floor(Math.random() * 2 ** 31)) : "1");
  if (isDeep) console.info(`Deep tests with SEED=${seed}`);
  const shared = {
    // Generous, for a machine may have much else to do.
    testTimeout: (isDeep ? 30 : 5) * minutes,
    hookTimeout: (isDeep ? 30 : 5) * minutes,
    expect: { poll: { timeout: 4 * minutes } },
    env: { SEED: seed, DEEP: isDeep ? "1" : "", VERBOSE: isVerbose ? "1" : "" },
  };
  const part = (
    name: string,
    include: string[],
    own: { isolate: boolean; exclude?: string[]; globalSetup?: string; setupFiles?: string },
  ) => ({
    extends: true as const,
    test: { ...shared, name, include, ...own, exclude: [...(own.exclude ?? []), ...(isDeep ? [] : [deep])] },
  });
  return {
    root: fileURLToPath(new URL("..", import.meta.url)),
    test: {
      maxWorkers: availableParallelism(),
      // One line a file: neither slow tests nor what passing ones print.
      slowTestThreshold: Number.POSITIVE_INFINITY,
      silent: isVerbose ? false : ("passed-only" as const),
      projects: [
        part("plain", ["tests/**/*.test.ts"], {
          isolate: false,
          exclude: [mocked, inBrowser],
          setupFiles: "tests/support/randomCases.ts",
        }),
        part("mocked", [mocked], { isolate: true }),
        part("browser", [inBrowser], { isolate: false, globalSetup: "tests/browser/served.ts" }),
      ],
    },
  };
});
