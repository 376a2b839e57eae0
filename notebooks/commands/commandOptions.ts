/** What commands share in reading what was typed after them. */
import { constants } from "node:fs";
import { access, readFile } from "node:fs/promises";
import { dirname } from "node:path";
import { type ParseArgsConfig, parseArgs } from "node:util";
import { type Checked, type Fault, fault, nearest } from "../../model/public/plan.ts";

export type OptionTypes = Readonly<NonNullable<ParseArgsConfig["options"]>>;

/** As typed, by option; an option without a value is "". */
export type GivenOptions<O extends OptionTypes> = { readonly [name in keyof O]?: string };

export interface Typed<O extends OptionTypes> {
  given: GivenOptions<O>;
  /** What is not an option. */
  words: string[];
  faults: Fault[];
}

/** `help` is what lists the options: "npm start -- --help". Stray words are faults unless `takesWords`. */
export function readOptions<O extends OptionTypes>(
  args: string[],
  options: O,
  { help, takesWords = false }: { help: string; takesWords?: boolean },
): Typed<O> {
  const { tokens } = parseArgs({ args, options, strict: false, tokens: true });
  const unknown = (word: string) => unknownOption(word, options, help);
  const faults = tokens.flatMap((token) => {
    if (token.kind === "positional") return takesWords ? [] : [unknown(token.value)];
    if (token.kind !== "option") return [];
    const { name, rawName, value } = token;
    const option = Object.hasOwn(options, name) && options[name];
    if (!option) return [unknown(rawName)];
    return option.type === "string" && !value ? [fault(rawName, name, undefined, "followed by a value")] : [];
  });
  const given = tokens.filter((token) => token.kind === "option").map(({ name, value }) => [name, value ?? ""]);
  const words = tokens.flatMap((token) => (token.kind === "positional" ? [token.value] : []));
  return { given: Object.fromEntries(given) as GivenOptions<O>, words, faults };
}

function unknownOption(word: string, options: OptionTypes, help: string): Fault {
  const allowed = Object.keys(options).map((name) => `--${name}`);
  const meant = nearest(word, allowed);
  const hint = meant === undefined ? `${help} lists what is` : `did you mean ${meant}?`;
  const message = `${word} is not an option; ${hint}`;
  return { path: "", field: "option", value: word, allowed: allowed.join(", "), message };
}

export async function readTextFile(path: string, option: string, field: string): Promise<Checked<string>> {
  try {
    return { ok: true, value: await readFile(path, "utf8") };
  } catch {
    return { ok: false, faults: [fault(option, field, path, "a file that can be read")] };
  }
}

/** Whether a file can be written, as far as can be told beforehand; nobody should wait for an answer that is then lost. */
export async function writableFaults(path: string | undefined, option: string): Promise<Fault[]> {
  if (!path) return [];
  try {
    await access(dirname(path), constants.W_OK);
    return [];
  } catch {
    return [fault(option, "file", path, "in a folder that can be written to")];
  }
}
