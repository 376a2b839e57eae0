import { expect, test } from "vitest";
import { sourcesIn } from "./sources.ts";

/** Every room, from the lowest up. A file imports from its own room and from rooms above its line, never from those below. */
const ORDER = [
  "model/units",
  "model/input",
  "model/calendar",
  "model/random",
  "model/soil",
  "model/pot",
  "model/plants",
  "model/bed",
  "model/weather",
  "model/supply",
  "model/line",
  "reference-data",
  "model/flow",
  "model/plan/typed",
  "model/plan",
  "model/problems",
  "model/advice",
  "model/ensemble",
  "model/checks",
  "model/public",
  "notebooks/words",
  "notebooks/runtime",
  "notebooks/solving",
  "notebooks/form",
  "notebooks/notebook",
  "notebooks/figures",
  "notebooks/print",
  "notebooks/page",
  "notebooks/questions/*",
  "notebooks/questions",
  "notebooks/commands",
];

/** What runs in a worker imports no more than it solves with: an engine is slow with code that it has not seen yet. */
const WORKERS = [
  "solving/worker.ts",
  "solving/memberWork.ts",
  "solving/warmUp.ts",
  "commands/start/solveThread.ts",
].map((file) => `notebooks/${file}`);

const product = sourcesIn("model", "notebooks", "reference-data");
const imports = product.flatMap(({ file, imports }) => imports.map((to) => ({ from: file, to: to.file })));

/** Each question has a room of its own, all at one place of the order. */
function roomOf(file: string): { name: string; rank: number } {
  const name = file.match(/^notebooks\/questions\/[^/]+(?=\/)/)?.[0];
  if (name) return { name, rank: ORDER.indexOf("notebooks/questions/*") };
  const rooms = ORDER.filter((room) => file.startsWith(`${room}/`));
  const room = rooms.reduce((a, b) => (b.length > a.length ? b : a), "");
  return { name: room, rank: ORDER.indexOf(room) };
}

const arrow = ({ from, to }: { from: string; to: string }) => `${from} imports ${to}`;

test("every file stands in a room of the order, and every room holds a file", () => {
  expect(product.map(({ file }) => file).filter((file) => roomOf(file).rank < 0)).toEqual([]);
  expect(ORDER.filter((_, rank) => !product.some(({ file }) => roomOf(file).rank === rank))).toEqual([]);
});

test("no import runs against the order of rooms, or from one question to another", () => {
  const against = imports.filter(({ from, to }) => {
    const [own, other] = [roomOf(from), roomOf(to)];
    return own.name !== other.name && other.rank >= own.rank;
  });
  expect(against.map(arrow)).toEqual([]);
});

test("notebooks know the model by its public entries alone, but for what runs in workers", () => {
  const inner = imports.filter(
    ({ from, to }) => from.startsWith("notebooks/") && /^model\/(?!public\/)/.test(to) && !WORKERS.includes(from),
  );
  expect(inner.map(arrow)).toEqual([]);
});
