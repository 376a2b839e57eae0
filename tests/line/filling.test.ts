import { describe, expect, it } from "vitest";
import { fillPots } from "../../model/line/filling.ts";
import type { FilledPot, FillProblem } from "../../model/line/fillRates.ts";
import { heightSearch } from "../../model/line/leastTankHeight.ts";
import { flowUnder, type Pipe } from "../../model/line/pipe.ts";
import { solveLine } from "../../model/line/solveLine.ts";
import { kinematicViscosity } from "../../model/line/water.ts";
import { toEnd } from "../../notebooks/runtime/toEnd.ts";
import { expectClose } from "../support/close.ts";
import { integrate } from "../support/integrate.ts";
import { comb, tube } from "../support/lines.ts";

const nu = kinematicViscosity(20);

/** 5 L, upright, 25 cm deep, its rim at the soil surface. */
const pot: FilledPot = { capacity: 0.005, levelAt: (volume) => -0.25 + volume / 0.02 };

const joint: Pipe = { length: 0.5, innerDiameter: 0.013, roughness: 0, minorLoss: 1.5 };

/** Pots on a comb, a fifth full, under a barrel of 200 L. */
const filling = (pots: number, changes: Partial<FillProblem> = {}): FillProblem => ({
  line: comb(pots),
  tank: { area: 0.3, bottom: 0.3, volume: 0.2 },
  pots: new Array(pots).fill(pot),
  startVolumes: new Array(pots).fill(0.001),
  whenFull: "stops",
  joints: [],
  maxSeconds: 1e6,
  ...changes,
});

const chain = (pots: number, height = -0.2) =>
  Array.from({ length: pots - 1 }, (_, i) => ({ a: i, b: i + 1, height, pipe: joint }));

describe("one pot under a tank that hardly falls", () => {
  const alone = filling(1, {
    line: { pieces: [tube()], celsius: 20 },
    tank: { area: 1e6, bottom: 0, volume: 1e6 },
  });

  it("is full when the formula's flow has filled it", () => {
    const seconds = 0.004 / flowUnder(tube({ minorLoss: 1 }), 1, nu);
    const fill = fillPots(alone);
    expect(fill.status).toBe("all full");
    expectClose(fill.pots[0]!.secondsToFull!, seconds, { tolerance: 1e-6, relative: true, unit: "s", what: "full" });
    expectClose(fill.pots[0]!.gained, 0.004, { tolerance: 1e-15, unit: "m³", what: "gained" });
  });

  it("fills ever more slowly where its tube ends at its base: as an integrator of its own finds it (odex)", () => {
    const line = { pieces: [tube({ height: -0.25, innerDiameter: 0.006 })], celsius: 20 };
    const rate = (_: number, volume: number) =>
      flowUnder(tube({ minorLoss: 1, innerDiameter: 0.006 }), 0.06 - pot.levelAt(volume), nu);
    const fill = fillPots({ ...alone, line, tank: { area: 1e6, bottom: 0, volume: 0.06e6 }, maxSeconds: 100 });
    for (const { second, potVolumes } of fill.history.slice(1)) {
      const known = integrate(rate, 0.001, second, 1e-9);
      expectClose(potVolumes[0]!, known, { tolerance: 2e-5 * pot.capacity, unit: "m³", what: `after ${second} s` });
    }
  });
});

describe("pots on a line", () => {
  it("stop when they are full, the nearest first, and the tank keeps the rest", () => {
    const fill = fillPots(filling(20));
    expect(fill.status).toBe("all full");
    const times = fill.pots.map(({ secondsToFull }) => secondsToFull!);
    expect([...times].sort((a, b) => a - b)).toEqual(times);
    for (const { gained, overflow } of fill.pots) {
      expectClose(gained, 0.004, { tolerance: 1e-15, unit: "m³", what: "gained" });
      expectClose(overflow, 0, { tolerance: 1e-15, unit: "m³", what: "overflow" });
    }
    expectClose(fill.tankVolume, 0.12, { tolerance: 1e-12, unit: "m³", what: "left in the tank" });
  });

  it("run over when set so, which takes longer and loses water", () => {
    const [stops, overflows] = [fillPots(filling(20)), fillPots(filling(20, { whenFull: "overflows" }))];
    expect(overflows.status).toBe("all full");
    expect(overflows.seconds).toBeGreaterThan(1.1 * stops.seconds);
    expect(overflows.pots[0]!.overflow).toBeGreaterThan(0.001);
    expect(overflows.pots[19]!.overflow).toBeLessThan(1e-9);
    const lost = overflows.pots.reduce((sum, { overflow }) => sum + overflow, 0);
    expectClose(overflows.tankVolume + lost, 0.12, { tolerance: 1e-12, unit: "m³", what: "tank and lost" });
  });

  it("flow at each moment as the line's solver says", () => {
    const fill = fillPots(filling(5));
    for (const { tankHead, potVolumes, flow } of fill.history.slice(0, -1)) {
      const closed = Array.from(potVolumes, (volume) => volume >= pot.capacity);
      const state = { tankHead, potHeads: potVolumes.map(pot.levelAt), closed };
      const flows = solveLine(filling(5).line, state);
      if (flows.kind === "trouble") throw new Error(flows.where);
      expectClose(flow[0]!, flows.flow[0]!, { tolerance: 1e-7, relative: true, unit: "m³/s", what: "leaves the tank" });
    }
  });

  it("draw the tank's level down from where it stood by what they get", () => {
    const { history } = fillPots(filling(5));
    for (const { tankHead, potVolumes } of history) {
      const got = potVolumes.reduce((sum, volume) => sum + volume - 0.001, 0);
      expectClose(tankHead, 0.3 + (0.2 - got) / 0.3, { tolerance: 1e-12, unit: "m", what: "tank's level" });
    }
  });

  it("get all that the tank has where that is less than they take", () => {
    const fill = fillPots(filling(5, { tank: { area: 0.3, bottom: 0.3, volume: 0.01 } }));
    expect(fill.status).toBe("tank empty");
    const got = fill.pots.reduce((sum, { gained }) => sum + gained, 0);
    expectClose(got, 0.01, { tolerance: 1e-9, unit: "m³", what: "got" });
    expect(fill.pots[4]!.secondsToFull).toBeNull();
  });

  it("are told at the time that was given, when that is up", () => {
    const fill = fillPots(filling(5, { maxSeconds: 30 }));
    expect([fill.status, fill.seconds]).toEqual(["time is up", 30]);
    expect(fill.pots.map(({ secondsToFull }) => secondsToFull)).toEqual([null, null, null, null, null]);
  });

  it("settle where the tank's level and theirs meet, and are not waited for until the time is up", () => {
    const line = comb(3, { main: { height: -0.24 }, tubes: { height: -0.24 } });
    const fill = fillPots(filling(3, { line, tank: { area: 0.02, bottom: -0.2, volume: 0.003 } }));
    expect(fill.status).toBe("settled");
    expect(fill.seconds).toBeLessThan(1e5);
    const { tankHead, potVolumes } = fill.history.at(-1)!;
    for (const volume of potVolumes)
      expectClose(pot.levelAt(volume), tankHead, { tolerance: 1e-3, unit: "m", what: "level" });
  });

  it("start full, or without water in reach, and nothing flows", () => {
    const full = fillPots(filling(3, { startVolumes: [0.005, 0.005, 0.005] }));
    expect([full.status, full.seconds, full.tankVolume]).toEqual(["all full", 0, 0.2]);
    const low = fillPots(filling(3, { tank: { area: 0.3, bottom: -1, volume: 0.2 } }));
    expect([low.status, low.seconds, low.tankVolume]).toEqual(["settled", 0, 0.2]);
  });

  it("stop getting water when the tank's level comes down to a high place of their line", () => {
    const { pieces } = comb(3);
    const crest = pieces.map((piece, p) => (p === 5 ? { ...piece, via: [{ along: 0.1, height: 0.93 }] } : piece));
    const fill = fillPots(filling(3, { line: { pieces: crest, celsius: 20 } }));
    const { secondsToAir, secondsToFull, gained } = fill.pots[2]!;
    expect(secondsToFull).toBeNull();
    expect(gained).toBeLessThan(0.004);
    const row = fill.history.find(({ second }) => second === secondsToAir)!;
    expectClose(row.tankHead, 0.93, { tolerance: 1e-9, unit: "m", what: "level when air came" });
    expect(fill.pots[0]!.secondsToAir).toBeNull();
  });
});

describe("joined pots", () => {
  const apart = { tank: { area: 0.3, bottom: 0.3, volume: 0 }, startVolumes: [0.004, 0.0005, 0.003, 0.001] };

  it("settle to one level without a tank, and are not waited for until nothing at all flows", () => {
    const fill = fillPots(filling(4, { ...apart, joints: chain(4) }));
    expect(fill.status).toBe("tank empty");
    expect(fill.seconds).toBeLessThan(1000);
    for (const volume of fill.history.at(-1)!.potVolumes)
      expectClose(pot.levelAt(volume), pot.levelAt(0.0085 / 4), { tolerance: 1e-3, unit: "m", what: "level" });
  });

  it("keep what stands below the joint", () => {
    const fill = fillPots(filling(4, { ...apart, joints: chain(4, -0.1) }));
    const [first, , third] = fill.history.at(-1)!.potVolumes;
    for (const volume of [first!, third!])
      expectClose(pot.levelAt(volume), -0.1, { tolerance: 1e-3, unit: "m", what: "level" });
  });

  it("are in trouble, and no number is made up, where a joint loses no head, so that its flow is not found", () => {
    const open = chain(4).map((each) => ({ ...each, pipe: { ...joint, length: 0, minorLoss: 0 } }));
    expect(fillPots(filling(4, { ...apart, joints: open })).status).toBe("trouble");
  });

  it("are filled through the first alone, which holds its level and passes on what it gets", () => {
    const line = { pieces: [tube({ innerDiameter: 0.01, height: 0 })], celsius: 20 };
    const fill = fillPots(filling(4, { line, joints: chain(4) }));
    expect(fill.status).toBe("all full");
    const times = fill.pots.map(({ secondsToFull }) => secondsToFull!);
    expect([...times].sort((a, b) => a - b)).toEqual(times);
    for (const { overflow } of fill.pots) expectClose(overflow, 0, { tolerance: 1e-9, unit: "m³", what: "overflow" });
  });

  it("even out through their tubes, where these end under water and are set to let it back", () => {
    const deep = comb(4, { main: { height: -0.245 }, tubes: { height: -0.245 } });
    const low = { line: deep, startVolumes: apart.startVolumes, tank: { area: 0.02, bottom: -0.24, volume: 0.002 } };
    const spread = (joined: boolean) => {
      const { potVolumes } = fillPots(filling(4, { ...low, joined })).history.at(-1)!;
      return Math.max(...potVolumes) - Math.min(...potVolumes);
    };
    expect(spread(true)).toBeLessThan(1e-4);
    expect(spread(false)).toBeGreaterThan(1e-3);
  });
});

describe("the least height of the tank", () => {
  it("fills the last pot just in time, and a little lower does not", () => {
    const within = { seconds: 200, least: 0, most: 3 };
    const { height, fill } = toEnd(heightSearch(filling(10), within));
    expect(fill.seconds).toBeLessThanOrEqual(200);
    const lower = filling(10, { tank: { area: 0.3, bottom: height! - 0.002, volume: 0.2 }, maxSeconds: 200 });
    expect(fillPots(lower).status).toBe("time is up");
  });

  it("is the least that was asked for where that does, and none where the most does not, with what happens there", () => {
    expect(toEnd(heightSearch(filling(3), { seconds: 1e5, least: 0.1, most: 2 })).height).toBe(0.1);
    const tooMany = toEnd(heightSearch(filling(60), { seconds: 1e5, least: 0.1, most: 2 }));
    expect([tooMany.height, tooMany.fill.status]).toEqual([null, "tank empty"]);
  });
});
