/** One bar for each thing that differs: its share of the spread, and how firm that is. */
import * as Plot from "@observablehq/plot";
import { type FirmShare, type Importance, MEMBER_GROUPS, type MemberGroup } from "../../../model/public/ensemble.ts";
import { faint, ink, paper } from "../../figures/look.ts";
import { chart, margins } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";
import { sentenceCase } from "../../words/words.ts";
import { groupWords } from "./inputs.ts";

export interface Bar extends FirmShare {
  words: string;
  kind: "leading" | "other" | "rest";
  /** The share is told as a number. */
  isKnown: boolean;
}

const fills = { leading: "#1d7387", other: "#9dc7ad", rest: paper } as const;

const restWords = "Not told apart: what works only together, or up and down";

/** In a fixed order, so that nothing jumps while beds arrive; at 0 as long as nothing is known. */
export function barsOf(importance: Importance<MemberGroup>, leading: readonly MemberGroup[]): Bar[] {
  const nothing = { share: 0, low: 0, high: 0 };
  const known = importance.kind === "shares" ? importance : null;
  const isKnown = importance.kind !== "too few";
  const bars = MEMBER_GROUPS.map((name) => ({
    isKnown,
    words: sentenceCase(groupWords[name].what),
    kind: leading.includes(name) ? ("leading" as const) : ("other" as const),
    ...(known?.shares[name] ?? nothing),
  }));
  const explained = known?.explained ?? { share: 1, low: 1, high: 1 };
  const rest = { share: 1 - explained.share, low: 1 - explained.high, high: 1 - explained.low };
  return [...bars, { isKnown, words: restWords, kind: "rest" as const, ...rest }];
}

export const percent = (share: number): string => `${Math.round(100 * share)} %`;

export function drawShares(bars: Bar[], label: string, stage: Stage): SVGElement {
  const row = { y: "words" } as const;
  const known = bars.filter(({ isKnown }) => isKnown);
  return chart(label, stage, {
    height: 56 * bars.length + 46,
    ...margins(4, 46, 42, 12),
    x: { domain: [0, 1], ticks: [0, 0.2, 0.4, 0.6, 0.8, 1], tickFormat: percent, label: "share of the spread" },
    y: { domain: bars.map(({ words }) => words), axis: null, padding: 0 },
    marks: [
      Plot.gridX([0, 0.2, 0.4, 0.6, 0.8, 1], { stroke: faint, strokeOpacity: 0.3 }),
      Plot.barX(bars, {
        ...row,
        x: "share",
        insetTop: 24,
        insetBottom: 10,
        fill: ({ kind }: Bar) => fills[kind],
        stroke: ({ kind }: Bar) => (kind === "rest" ? faint : "none"),
        strokeDasharray: "3 2",
      }),
      Plot.ruleX([0], { stroke: ink }),
      Plot.ruleY(known, { ...row, x1: "low", x2: "high", stroke: ink, strokeWidth: 1.5, dy: 7, marker: "tick" }),
      Plot.text(bars, { ...row, x: 0, text: "words", textAnchor: "start", dx: 4, dy: -16, fill: ink }),
      Plot.text(known, {
        ...row,
        x: "high",
        text: ({ share }: Bar) => percent(share),
        textAnchor: "start",
        dx: 7,
        dy: 7,
        fill: ink,
        stroke: paper,
      }),
    ],
  });
}
