/** A Chromium for the tests: the one named by CHROMIUM_PATH, else the one that comes with the packages. */
import { mkdir, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, type BrowserServer, chromium, type LaunchOptions } from "playwright-core";

/** The package's own flags switch web security off, which would hide faults of pages opened from a file. */
const flags = ["--no-sandbox", "--font-render-hinting=none"];

export const startBrowser = async (): Promise<Browser> => chromium.launch(await launchOptions());

/** One that several processes connect to. */
export const startBrowserServer = async (): Promise<BrowserServer> => chromium.launchServer(await launchOptions());

async function launchOptions(): Promise<LaunchOptions> {
  const own = process.env.CHROMIUM_PATH;
  const { executablePath, env } = own ? { executablePath: own, env: {} } : await packagedChromium();
  return { executablePath, env: { ...process.env, ...env }, args: flags };
}

/**
 * The package unpacks the shared libraries that Chromium needs only where it believes it runs as a cloud function, and
 * reuses whatever `chromium` it finds in the temporary folder: so it gets a folder of its own, by version.
 */
async function packagedChromium() {
  const folder = join(tmpdir(), "porous-pot-planner-chromium-147.0.0");
  await mkdir(folder, { recursive: true });
  const executablePath = await withEnvironment(
    { AWS_EXECUTION_ENV: "AWS_Lambda_nodejs20.x", TMPDIR: folder },
    async () => (await import("@sparticuz/chromium")).default.executablePath(),
  ).catch((error: unknown) => {
    throw new Error("No Chromium could be unpacked here; name one with CHROMIUM_PATH.", { cause: error });
  });
  const env = { LD_LIBRARY_PATH: join(folder, "al2023", "lib"), FONTCONFIG_FILE: await fontList(folder) };
  return { executablePath, env };
}

/** The package's own list looks for its fonts in /tmp/fonts; without any font Chromium breaks down at some controls. */
async function fontList(folder: string): Promise<string> {
  const path = join(folder, "fonts.conf");
  const folders = [join(folder, "fonts"), "/usr/share/fonts"].map((each) => `<dir>${each}</dir>`).join("");
  await writeFile(path, `<fontconfig>${folders}<cachedir>${join(folder, "font-cache")}</cachedir></fontconfig>\n`);
  return path;
}

async function withEnvironment<T>(values: Record<string, string>, work: () => Promise<T>): Promise<T> {
  const before = Object.keys(values).map((name) => [name, process.env[name]] as const);
  Object.assign(process.env, values);
  try {
    return await work();
  } finally {
    for (const [name, value] of before) {
      if (value === undefined) delete process.env[name];
      else process.env[name] = value;
    }
  }
}
