import { writeFile } from "node:fs/promises";
import { mergeParts, type NamedPart, readPart, serializePart } from "../../../model/public/ensemble.ts";
import { type Checked, type Fault, resolvePlan, soundValue } from "../../../model/public/plan.ts";
import { type OptionTypes, readOptions, readTextFile, writableFaults } from "../commandOptions.ts";
import { EXIT, exitCode, refuse, say } from "./command.ts";
import { mergeHelp } from "./help.ts";
import { bandReport } from "./report.ts";

const OPTIONS = { out: { type: "string" }, help: { type: "boolean" } } as const satisfies OptionTypes;

/** Joins part files and tells their band on standard output; gives the exit code. */
export async function merge(args: string[]): Promise<number> {
  if (args.includes("--help")) return say(mergeHelp(), EXIT.done);
  const {
    given,
    words: paths,
    faults: optionFaults,
  } = readOptions(args, OPTIONS, { help: "npm run merge -- --help", takesWords: true });
  const parts = await Promise.all(paths.map(readNamed));
  const whole = mergeParts(parts.flatMap((part) => (part.ok ? [part.value] : [])));
  const fileFaults = parts.flatMap(faultsOf);
  const faults = [
    ...optionFaults,
    ...(await writableFaults(given.out, "--out")),
    ...fileFaults,
    ...(fileFaults.length > 0 ? [] : faultsOf(whole)),
  ];
  if (!whole.ok || faults.length > 0) return refuse(faults);
  const { plan, drawing, sowingDay, outcomes } = whole.value;
  say(
    bandReport({
      plan: soundValue(resolvePlan(plan)),
      seed: drawing.seed,
      sowingDay,
      outcomes,
      total: outcomes.length,
    }),
    EXIT.done,
  );
  if (given.out === undefined) return exitCode(outcomes);
  await writeFile(given.out, serializePart(whole.value));
  return say(`\nWritten to ${given.out}.\n`, exitCode(outcomes));
}

const faultsOf = (checked: Checked<unknown>): Fault[] => (checked.ok ? [] : checked.faults);

/** Faults stand under the file's name. */
async function readNamed(name: string): Promise<Checked<NamedPart>> {
  const text = await readTextFile(name, "", "part file");
  if (!text.ok) return text;
  const part = readPart(text.value);
  if (part.ok) return { ok: true, value: { name, part: part.value } };
  return {
    ok: false,
    faults: part.faults.map((each) => ({ ...each, path: [name, each.path].filter(Boolean).join(": ") })),
  };
}
