/** Commands as a person meets them: what they say, and how they end. */
import { type ChildProcess, spawn } from "node:child_process";
import { vi } from "vitest";
import type { StatusLine } from "../../notebooks/commands/terminal.ts";

export interface Ended {
  code: number | null;
  out: string;
  err: string;
}

/** A command's function run here, one at a time, with doubles for the terminal it writes to. */
export async function inProcess(command: () => Promise<number>): Promise<Ended> {
  const texts = { out: "", err: "" };
  const into = (name: keyof typeof texts) => (text: unknown) => {
    texts[name] += String(text);
    return true;
  };
  const line = (name: keyof typeof texts) => (text: unknown) => void into(name)(`${text}\n`);
  const doubles = [
    vi.spyOn(process.stdout, "write").mockImplementation(into("out")),
    vi.spyOn(process.stderr, "write").mockImplementation(into("err")),
    vi.spyOn(console, "log").mockImplementation(line("out")),
    vi.spyOn(console, "error").mockImplementation(line("err")),
  ];
  try {
    return { code: await command(), ...texts };
  } finally {
    for (const double of doubles) double.mockRestore();
  }
}

/** A status line that nobody sees. */
export const noStatus: StatusLine = { show() {}, erase() {} };

/** No command may go on for longer, ms. */
const MOST = 300_000;

/** A command run as a process of its own. */
export function launch(command: string, args: string[]): { child: ChildProcess; ended: Promise<Ended> } {
  const child = spawn("npm", ["run", "--silent", command, "--", ...args], { timeout: MOST });
  const texts = { out: "", err: "" };
  child.stdout.on("data", (chunk) => {
    texts.out += chunk;
  });
  child.stderr.on("data", (chunk) => {
    texts.err += chunk;
  });
  const ended = new Promise<Ended>((done) => child.on("close", (code) => done({ code, ...texts })));
  return { child, ended };
}
