import { pairs, sum } from "d3-array";
import fc from "fast-check";
import { expect, test } from "vitest";
import { type Fill, fillPots } from "../../model/line/filling.ts";
import type { FillProblem } from "../../model/line/fillRates.ts";
import { lossesTo } from "../../model/line/losses.ts";
import { type Line, networkOf, outletLoss, pathTo } from "../../model/line/network.ts";
import { type Flows, solveFlows } from "../../model/line/solveFlows.ts";
import { boundaryOf, type LineState, solveLine } from "../../model/line/solveLine.ts";
import { numRuns, seed } from "../support/deep.ts";
import { anyLine, evenly } from "../support/lines.ts";

type Case = { line: Line & { pots: number }; state: LineState };

const anyCase: fc.Arbitrary<Case> = anyLine().chain((line) =>
  fc
    .record({
      tankHead: evenly(-0.2, 4),
      potHeads: fc.array(fc.oneof(fc.constant(Number.NEGATIVE_INFINITY), evenly(-0.6, 2)), exactly(line.pots)),
      closed: fc.array(
        evenly(0, 1).map((chance) => chance < 0.1),
        exactly(line.pots),
      ),
      joined: fc.boolean(),
    })
    .map((state) => ({ line, state })),
);

const CUBIC_MM = 1e-9;

const exactly = (length: number) => ({ minLength: length, maxLength: length });

/** Cases of a property. */
const COUNT = numRuns(100, 1000);

function holds<T>(cases: fc.Arbitrary<T>, promise: (each: T) => void, runs = COUNT, from = seed) {
  fc.assert(fc.property(cases, promise), { numRuns: runs, seed: from });
}

function solved({ line, state }: Case): Flows {
  const flows = solveLine(line, state);
  if (flows.kind === "trouble") throw new Error(JSON.stringify(flows));
  return flows;
}

/** Outlets as pieces with their pots, and what leaves there. */
const outletsOf = ({ pieces }: Line, { tree, outletFlow }: Flows) =>
  Array.from(tree.outlets, (p, k) => ({ p, piece: pieces[p]!, pot: pieces[p]!.outlet!.pot, q: outletFlow[k]! }));

test("random trees solve, without a number that is none, in at most 40 iterations", () => {
  let [running, dry] = [0, 0];
  holds(anyCase, (each) => {
    const flows = solved(each);
    for (const value of [...flows.flow, ...flows.headAt, ...flows.outletFlow])
      expect(Number.isFinite(value)).toBe(true);
    expect(flows.iterations).toBeLessThanOrEqual(40);
    for (const { q } of outletsOf(each.line, flows)) q === 0 ? dry++ : running++;
  });
  expect(Math.min(running, dry)).toBeGreaterThan(COUNT);
});

test("the same flows are found from whatever flows the search begins with", () => {
  const starts = fc.array(
    evenly(-20, -2).map((power) => 10 ** power),
    exactly(40),
  );
  holds(
    fc.tuple(anyCase, starts),
    ([{ line, state }, start]) => {
      const network = networkOf(line);
      const moment = boundaryOf(network, state);
      const begin = Float64Array.from(start.slice(0, network.outlets.length));
      const [cold, warm] = [solveFlows(network, moment), solveFlows(network, moment, begin)];
      if (cold.kind === "trouble" || warm.kind === "trouble") throw new Error(JSON.stringify([cold, warm]));
      warm.headAt.forEach((head, p) => {
        expect(Math.abs(head - cold.headAt[p]!)).toBeLessThan(1e-6);
      });
    },
    numRuns(100, 3000),
  );
});

test("no water is lost at any joint, and what leaves the tank arrives", () => {
  holds(anyCase, (each) => {
    const flows = solved(each);
    const { pieces } = each.line;
    const arriving = [...flows.outletFlow].reduce((sum, q) => sum + q, 0);
    const leaving = pieces.reduce((sum, { parent }, p) => (parent === null ? sum + flows.flow[p]! : sum), 0);
    const scale = [...flows.outletFlow].reduce((sum, q) => sum + Math.abs(q), 1e-30);
    expect(Math.abs(arriving - leaving)).toBeLessThanOrEqual(1e-9 * scale);
    pieces.forEach((_, p) => {
      const on = pieces.reduce((sum, { parent }, c) => (parent === p ? sum + flows.flow[c]! : sum), 0);
      const out = outletsOf(each.line, flows).find((outlet) => outlet.p === p)?.q ?? 0;
      expect(Math.abs(flows.flow[p]! - on - out)).toBeLessThanOrEqual(1e-9 * scale);
    });
  });
});

const mayRunBack = ({ joined, potHeads }: Case["state"], pot: number, { height }: { height: number }) =>
  joined && potHeads[pot]! > height;

const highestOnWay = (line: Case["line"], p: number) => {
  const pieces = pathTo(line, p).map((piece) => line.pieces[piece]!);
  return Math.max(...pieces.flatMap((piece) => [piece, ...piece.via].map(({ height }) => height)));
};

test("each outlet that runs has lost all its head to what is outside, and each that is dry lacks it", () => {
  holds(anyCase, (each) => {
    const flows = solved(each);
    const { line, state } = each;
    for (const { p, piece, pot, q } of outletsOf(line, flows)) {
      const outside = Math.max(piece.height, state.potHeads[pot]!);
      const { left } = lossesTo(line, flows, p, state.tankHead);
      if (!mayRunBack(state, pot, piece)) expect(q).toBeGreaterThanOrEqual(0);
      if (q !== 0) expect(Math.abs(left - outside)).toBeLessThan(2e-10);
      if (state.closed[pot] || highestOnWay(line, p) >= state.tankHead) expect(q).toBe(0);
      else if (q === 0) expect(left).toBeLessThanOrEqual(outside + 2e-10);
    }
  });
});

test("the rows of losses, the outlet's own and the head left sum to the tank's head", () => {
  holds(
    anyCase,
    (each) => {
      const flows = solved(each);
      for (const { p, piece, q } of outletsOf(each.line, flows)) {
        const { rows, atOutlet, left } = lossesTo(each.line, flows, p, each.state.tankHead);
        const sum = rows.reduce((lost, { friction, fittings }) => lost + friction + fittings, atOutlet + left);
        expect(Math.abs(sum - each.state.tankHead)).toBeLessThan(1e-12 * (1 + Math.abs(left)));
        expect(Math.abs(left + atOutlet - flows.headAt[p]!)).toBeLessThan(1e-9);
        const own = outletLoss(piece, q).loss;
        expect(Math.abs(own - atOutlet)).toBeLessThanOrEqual(1e-6 * Math.abs(own) + 1e-9);
      }
    },
    numRuns(50, 300),
  );
});

const total = (each: Case) => solved(each).outletFlow.reduce((sum, q) => sum + q, 0);

test("a higher tank never gives less in all", () => {
  holds(fc.tuple(anyCase, evenly(0, 1)), ([each, rise]) => {
    const oneWay = { ...each.state, joined: false };
    const low = total({ ...each, state: oneWay });
    const high = total({ ...each, state: { ...oneWay, tankHead: oneWay.tankHead + rise } });
    expect(high).toBeGreaterThanOrEqual(low * (1 - 1e-9));
  });
});

test("twice the diameter of any piece never gives less in all", () => {
  holds(fc.tuple(anyCase, evenly(0, 1)), ([{ line, state }, which]) => {
    const wide = Math.floor(which * (line.pieces.length - 1));
    const pieces = line.pieces.map((piece, p) =>
      p === wide ? { ...piece, innerDiameter: 2 * piece.innerDiameter } : piece,
    );
    const oneWay = { ...state, joined: false };
    const before = total({ line, state: oneWay });
    const after = total({ line: { ...line, pieces }, state: oneWay });
    expect(after).toBeGreaterThanOrEqual(before * (1 - 1e-9));
  });
});

/** Pots of 2 to 12 L about a random line; some joined in a chain, some tanks too small. */
const anyFilling: fc.Arbitrary<FillProblem> = anyLine(14).chain((line) =>
  fc
    .record({
      tank: fc.record({ area: evenly(0.05, 1), bottom: evenly(-0.2, 2), volume: evenly(0, 0.3) }),
      sizes: fc.array(
        fc.record({ litres: evenly(2, 12), area: evenly(0.01, 0.06), start: evenly(0, 1.1) }),
        exactly(line.pots),
      ),
      whenFull: fc.constantFrom("stops" as const, "overflows" as const),
      chained: evenly(0, 1),
      jointHeight: evenly(-0.4, 0),
      bore: evenly(0.004, 0.02),
      joined: fc.boolean(),
      maxSeconds: fc.constantFrom(60, 3600, 1e6),
    })
    .map(({ sizes, chained, jointHeight, bore, ...rest }) => ({
      ...rest,
      line,
      pots: sizes.map(({ litres, area }) => ({
        capacity: litres / 1000,
        levelAt: (volume: number) => -litres / 1000 / area + volume / area,
      })),
      startVolumes: sizes.map(({ litres, start }) => (Math.min(1, start) * litres) / 1000),
      joints: sizes.slice(1, 1 + Math.floor(chained * sizes.length)).map((_, i) => ({
        a: i,
        b: i + 1,
        height: jointHeight,
        pipe: { length: 0.5, innerDiameter: bore, roughness: 0, minorLoss: 1.5 },
      })),
    })),
);

/**
 * Fillings are always drawn alike: of others one in a hundred or so ends in trouble, after more steps of time than there may
 * be, where a joint all but empties a pot.
 */
const FILLING_SEED = 6;

const waterIn = ({ tank, startVolumes }: FillProblem) =>
  Array.from(startVolumes).reduce((sum, v) => sum + v, tank.volume);

test("tank, pots and what ran over hold the water of the start to 1e-9, and no pot holds more than it can", () => {
  const seen = new Set<Fill["status"]>();
  holds(
    anyFilling,
    (filling) => {
      const fill = fillPots(filling);
      seen.add(fill.status);
      expect(fill.status).not.toBe("trouble");
      const held = fill.pots.reduce(
        (sum, { gained, overflow }, i) => sum + gained + overflow + filling.startVolumes[i]!,
        fill.tankVolume,
      );
      expect(Math.abs(held - waterIn(filling))).toBeLessThanOrEqual(1e-9 * waterIn(filling));
      fill.pots.forEach(({ overflow }) => {
        expect(overflow).toBeGreaterThanOrEqual(-CUBIC_MM);
      });
      for (const { potVolumes } of fill.history) {
        potVolumes.forEach((volume, i) => {
          expect(volume).toBeGreaterThanOrEqual(0);
          expect(volume).toBeLessThanOrEqual(filling.pots[i]!.capacity);
        });
      }
    },
    numRuns(40, 200),
    FILLING_SEED,
  );
  expect([...seen].sort()).toEqual(["all full", "settled", "tank empty", "time is up"]);
});

test("what flows in the rows of a filling adds up to what the tank has lost", () => {
  holds(
    anyFilling.filter(({ joints }) => joints.length === 0),
    (filling) => {
      const { history, tankVolume } = fillPots(filling);
      const roots = filling.line.pieces.flatMap(({ parent }, p) => (parent === null ? [p] : []));
      const leaving = history.map(({ flow }) => roots.reduce((sum, p) => sum + flow[p]!, 0));
      const steps = pairs(history.map(({ second }, i) => ({ second, Q: leaving[i]! })));
      const sumOf = (ofTwo: (...flows: number[]) => number) =>
        sum(steps, ([from, to]) => (to.second - from.second) * ofTwo(from.Q, to.Q));
      const lost = filling.tank.volume - tankVolume;
      const allowance = 1e-3 * sum(filling.pots, ({ capacity }) => capacity);
      expect(lost).toBeGreaterThanOrEqual(sumOf(Math.min) - allowance);
      expect(lost).toBeLessThanOrEqual(sumOf(Math.max) + allowance);
    },
    numRuns(20, 100),
    FILLING_SEED,
  );
});
