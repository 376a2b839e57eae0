import { TEXTURE_CLASSES } from "../../../model/public/flow.ts";
import { optionLine, unbroken, wrap } from "../terminal.ts";
import { DEFAULTS } from "./options.ts";

export function bandHelp(): string {
  const soils = TEXTURE_CLASSES.map(unbroken).join(", ");
  return `npm run band -- [options]

${wrap("Soils of one name differ. This draws many of them from published statistics, works out each around the same pot, and tells between what limits four of five lie: where to sow, how far water reaches, and how long a filling lasts.")}

Your bed; what you leave out is that of an invented bed, or of your plan:
${optionLine("--soil NAME", soils)}
${optionLine("--plan FILE", "a plan saved from a notebook; the option above changes it")}

The soils:
${optionLine("--members N", `how many to draw; ${DEFAULTS.members} unless you choose`)}
${optionLine("--seed N", `the same number draws the same soils; ${DEFAULTS.seed} unless you choose`)}

How to show and keep it:
${optionLine("--units NAME", "metric (cm, L) or us (inches, US gallons); both are shown")}
${optionLine("--out FILE", "write every soil's outcome to a file")}
${optionLine("--shard i/n", "work out only part i of n, for several machines; needs --out")}
${optionLine("--help", "this text")}

Examples:
  npm run band -- --soil "sandy loam" --units metric
  npm run band -- --members 3000 --shard 2/3 --out part2.json
  npm run merge -- part1.json part2.json part3.json

Ctrl-C gives the band so far; pressed again, it ends at once.
Exit codes: 0 done, 1 could not be worked out or was not kept, 2 bad input.
`;
}

export function mergeHelp(): string {
  return `npm run merge -- FILE ... [--out FILE]

${wrap("Joins the parts that npm run band -- --shard i/n --out FILE has written, in any order, and tells the band as if it had never been split. With --out FILE the whole is written to one file.")}

Exit codes: 0 done, 1 could not be worked out, 2 bad input.
`;
}
