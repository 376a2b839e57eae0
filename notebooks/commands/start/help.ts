import { TEXTURE_CLASSES } from "../../../model/public/flow.ts";
import { pots } from "../../../reference-data/load.ts";
import { optionLine, unbroken, wrap } from "../terminal.ts";
import { DEFAULT_PORT } from "./options.ts";

export function startHelp(): string {
  const soils = TEXTURE_CLASSES.map(unbroken).join(", ");
  const sizes = pots()
    .rows.map(({ name }) => unbroken(`"${name}"`))
    .join(", ");
  return `npm start -- [options]

${wrap("Works out how far water spreads from a buried clay pot in sand, loam and clay, and in your own soil; where to sow; how long a filling lasts; and whether roof and tank carry the season and the line fills every pot. Then serves the notebooks, where you can look closer, to this computer alone.")}

Your bed; what you leave out is that of an invented bed, or of your plan:
${optionLine("--soil NAME", soils)}
${optionLine("--pot NAME", `a common size, which differs between makers: ${sizes}`)}
${optionLine("--rim-diameter N", "flower pots only; outside, as are all sizes")}
${optionLine("--base-diameter N", "flower pots only")}
${optionLine("--pot-height N", "from base to rim")}
${optionLine("--wall-thickness N", "of the pot")}
${optionLine("--days N", "how many days to look ahead")}
${optionLine("--plan FILE", "a plan saved from a notebook; the options above change it")}

How to show it:
${optionLine("--units NAME", "metric (cm, L) or us (inches, US gallons), for the sizes above as well; the invented bed is in us")}
${optionLine("--print-only", "answer here and serve nothing")}
${optionLine("--port N", `where to serve the notebooks; ${DEFAULT_PORT} unless you choose`)}
${optionLine("--help", "this text")}

Examples:
  npm start -- --soil "sandy loam" --units metric --print-only
  npm start -- --pot "round jar 10 L" --days 30

Ctrl-C ends it. Exit codes: 0 done, 1 could not be worked out, 2 bad input.
`;
}
