import { type PreviewServer, preview } from "vite";
import { distFolder } from "./build.ts";

export interface ServedNotebooks {
  /** Address of the index page. */
  url: string;
  close(): Promise<void>;
}

/**
 * Serves the built notebooks to this machine alone. A taken port rejects with an error that names it, unless
 * `nextWhenTaken`: then the next free one is used.
 */
export async function serveNotebooks({
  port,
  nextWhenTaken = false,
}: {
  port: number;
  nextWhenTaken?: boolean;
}): Promise<ServedNotebooks> {
  const server = await start(port, nextWhenTaken);
  const url = server.resolvedUrls?.local[0];
  if (!url) throw new Error(`The notebooks could not be served on port ${port}.`);
  return { url, close: () => server.close() };
}

async function start(port: number, nextWhenTaken: boolean): Promise<PreviewServer> {
  try {
    return await preview({
      configFile: false,
      logLevel: "warn",
      build: { outDir: distFolder },
      preview: { host: "127.0.0.1", port, strictPort: !nextWhenTaken, open: false },
    });
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    throw new Error(/already in use|EADDRINUSE/.test(reason) ? `Port ${port} is taken; choose another one.` : reason, {
      cause: error,
    });
  }
}
