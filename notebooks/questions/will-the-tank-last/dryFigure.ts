/** The chance that the pots go short of the tank's water, month by month. */
import * as Plot from "@observablehq/plot";
import type { Outlook } from "../../../model/public/advice.ts";
import { MONTHS, monthName } from "../../../model/public/plan.ts";
import { ink, terracotta } from "../../figures/look.ts";
import { chart, margins } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";

/** Shares of years by month; null outside the season. */
export function drawDryMonths(shares: Outlook["shortMonths"], label: string, stage: Stage): SVGElement {
  const isNarrow = stage.width < 500;
  const months = MONTHS.flatMap((month) => {
    const share = shares[month];
    return share === null ? [] : [{ month, percent: 100 * share }];
  });
  return chart(label, stage, {
    height: 230,
    ...margins(26, 8, 34, 48),
    x: {
      domain: MONTHS,
      label: null,
      tickFormat: (month) => monthName(month).slice(0, isNarrow ? 1 : 3),
      padding: 0.25,
    },
    y: { domain: [0, 100], label: "years in which pots go short (%)", ticks: 5, grid: true },
    marks: [
      Plot.barY(months, { x: "month", y: "percent", fill: terracotta }),
      Plot.text(months, {
        x: "month",
        y: "percent",
        text: ({ percent }: { percent: number }) => Math.round(percent).toString(),
        dy: -8,
        fill: ink,
      }),
      Plot.ruleY([0], { stroke: ink }),
    ],
  });
}
