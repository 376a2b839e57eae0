import { type Fault, nearest } from "../input/faults.ts";
import { AIR_HEADINGS, NEEDED_HEADINGS } from "./dayRow.ts";

const HEADINGS: readonly string[] = [...NEEDED_HEADINGS, ...AIR_HEADINGS];

export const HEADINGS_WORDS = `a line with the headings ${NEEDED_HEADINGS.join(", ")}, and if known ${AIR_HEADINGS.join(", ")}`;

/** What is wrong with a record's line of headings, in small letters; the columns of blank ones may be blank. */
export function headingFaults(headings: readonly string[], line: number): Fault[] {
  if (!headings.some((heading) => HEADINGS.includes(heading)))
    return [headingFault(line, headings.join(", "), `is no heading; there must be ${HEADINGS_WORDS}`)];
  const missing = NEEDED_HEADINGS.filter((heading) => !headings.includes(heading));
  return [
    ...headings.filter((heading) => heading !== "" && !HEADINGS.includes(heading)).map((one) => unknown(line, one)),
    ...HEADINGS.filter((heading) => headings.filter((one) => one === heading).length > 1).map((heading) =>
      headingFault(line, heading, "stands twice among the headings; it must be there once"),
    ),
    ...missing.map((heading) =>
      headingFault(line, heading, `is missing among the headings; there must be ${HEADINGS_WORDS}`),
    ),
    ...airFaults(headings, line),
  ];
}

function unknown(line: number, heading: string): Fault {
  const meant = nearest(heading, HEADINGS);
  const hint = meant === undefined ? `known are ${HEADINGS.join(", ")}` : `did you mean ${meant}?`;
  return headingFault(line, heading, `is not a known heading; ${hint}`);
}

function airFaults(headings: readonly string[], line: number): Fault[] {
  const given = AIR_HEADINGS.filter((heading) => headings.includes(heading));
  const lacking = AIR_HEADINGS.filter((heading) => !headings.includes(heading));
  if (given.length === 0 || lacking.length === 0) return [];
  const words = `given without ${lacking.join(" and ")}; give ${AIR_HEADINGS.join(", ")} together, or none of them`;
  return [headingFault(line, given.join(" and "), `${given.length === 1 ? "is" : "are"} ${words}`)];
}

function headingFault(line: number, heading: string, trouble: string): Fault {
  const message = `line ${line}: ${JSON.stringify(heading)} ${trouble}`;
  return { path: "", field: "headings", value: heading, allowed: HEADINGS_WORDS, message };
}
