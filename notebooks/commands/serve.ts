import { once } from "node:events";
import { readFile } from "node:fs/promises";
import { createServer, type RequestListener, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { distFolder } from "./build.ts";

/**
 * Serves the built notebooks to this machine alone, on the port or, where that is taken, on the next free one. Gives the
 * address of the index page.
 */
export async function serveNotebooks(port: number): Promise<string> {
  const server = await listening(port);
  return `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
}

async function listening(port: number): Promise<Server> {
  const server = createServer(servePage).listen(port, "127.0.0.1");
  try {
    await once(server, "listening");
    return server;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "EADDRINUSE") throw error;
    return listening(port + 1);
  }
}

/** A page's name has neither slash nor leading dot, so nothing outside the folder is ever read. */
const PAGE_PATH = /^\/([a-z-]+\.html)?(?:\?|$)/;

const servePage: RequestListener = async ({ url = "" }, response) => {
  const path = url.match(PAGE_PATH);
  const page = path && (await readFile(join(distFolder, path[1] ?? "index.html")).catch(() => null));
  response.writeHead(page ? 200 : 404, { "content-type": "text/html; charset=utf-8", "cache-control": "no-cache" });
  response.end(page ?? "There is no such page.");
};
