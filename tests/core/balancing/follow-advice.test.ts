import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  airflowWords,
  type BalanceAdvice,
  balanceAdvice,
  balanceRatio,
  FRESH_READINGS,
} from "../../../src/core/index.js";
import { followAdvice, plainProportion } from "../../../src/tools/simulate/balance-run.js";
import {
  flowsOf,
  matched,
  type Network,
  obeyed,
  readingsOf,
  throttledBranchesOf,
  totalOf,
} from "../../../src/tools/simulate/duct-network.js";
import { chanceOf } from "../../../src/tools/simulate/random.js";
import { NETWORK_KINDS, randomNetwork } from "../../../src/tools/simulate/random-network.js";
import { simulateBalance } from "../../../src/tools/simulate/simulate-balance.js";
import { arbitraryNetwork } from "./arbitrary-network.js";

const limits = { minusPercent: 5, plusPercent: 10 };
const lowRatio = 0.95;
const highRatio = 1.1;
const task = (seed: number, repeatPercent = 0) => ({
  minusPercent: 5,
  plusPercent: 10,
  repeatPercent,
  chance: chanceOf(seed),
});
/** The same networks each time; `FUZZ_RUNS=20000 FUZZ_SEED=2` tries others at length. */
const RANDOM_NETWORKS = {
  numRuns: Number(process.env["FUZZ_RUNS"] ?? 25),
  seed: Number(process.env["FUZZ_SEED"] ?? 20),
  // To make a failing network smaller takes minutes; as it is it can be followed as well.
  endOnFailure: true,
};
/** As many as the advice itself allows where somebody counts them. */
const movesForEachOutlet = 8;

function advised(network: Network): BalanceAdvice {
  const fanMost = { ...network, fanPressure: network.fanPressureMost };
  return balanceAdvice({
    outlets: readingsOf(network),
    throttledBranches: throttledBranchesOf(network),
    fanMaximumFlow: Number.isFinite(network.fanPressureMost) ? totalOf(fanMost) : Number.POSITIVE_INFINITY,
    limits,
    airflowWords,
    order: FRESH_READINGS,
  });
}

/** Reads, does what the advice says, reads again, until the advice has nothing more to turn. */
function followed(start: Network) {
  let network = start;
  const steps: string[] = [];
  const manyMoves = movesForEachOutlet * readingsOf(start).length;
  while (steps.length <= manyMoves) {
    const advice = advised(network);
    if (advice.step.kind === "done" || advice.step.kind === "report shortfall") return { network, steps, advice };
    steps.push("outlet" in advice.step ? advice.step.outlet : advice.step.kind);
    network = obeyed(network, advice.step);
  }
  throw new Error(`no end after ${manyMoves} moves`);
}

/** Gives the network a fan whose most is a share of the design, with every damper open. */
function withWeakFan(network: Network, share: number): Network {
  const designFlow = readingsOf(network).reduce((sum, outlet) => sum + outlet.designFlow, 0);
  const fanPressure = network.fanPressure * ((share * designFlow) / totalOf(network)) ** 2;
  return { ...network, fanPressure, fanPressureMost: fanPressure };
}

const ratiosOf = (network: Network) =>
  readingsOf(network).map((outlet) => balanceRatio(outlet.measuredFlow ?? Number.NaN, outlet.designFlow));

/**
 * Four outlets off one plenum at 25 Pa, fan and trunk p = 60 − k · Q², derived outside this code by a separate
 * solver: readings 140, 165, 96, 72 with all dampers open, design 100, 150, 120, 80.
 */
const worked: Network = {
  fanPressure: 60,
  fanPressureMost: Number.POSITIVE_INFINITY,
  trunk: (60 - 25) / 473 ** 2,
  branches: [
    {
      name: "Supply",
      resistance: 1e-15,
      damper: 1,
      outlets: [
        { name: "1", designFlow: 100, resistance: 25 / 140 ** 2, damper: 1 },
        { name: "2", designFlow: 150, resistance: 25 / 165 ** 2, damper: 1 },
        { name: "3", designFlow: 120, resistance: 25 / 96 ** 2, damper: 1 },
        { name: "4", designFlow: 80, resistance: 25 / 72 ** 2, damper: 1 },
      ],
    },
  ],
};

describe("the worked network of four outlets", () => {
  const rounded = (network: Network) => [...flowsOf(network).values()].map((flow) => Number(flow.toFixed(1)));

  it("goes through the derived table when key and outlet are both read while turning", () => {
    const first = matched(worked, "4", "3");
    const second = matched(first, "2", "3");
    const third = matched(second, "1", "3");
    const last = obeyed(third, { kind: "set fan", targetFlow: 450, watched: "3", watchedFlow: 120 });
    expect([worked, first, second, third, last].map(rounded)).toEqual([
      [140, 165, 96, 72],
      [141.4, 166.6, 97, 64.6],
      [149.5, 128.2, 102.5, 68.4],
      [92.1, 138.1, 110.5, 73.7],
      [100, 150, 120, 80],
    ]);
  });

  it("is advised in that order, each time a little above the key's ratio, which rises meanwhile", () => {
    const { step } = advised(worked);
    expect(step).toMatchObject({ kind: "set outlet", outlet: "4" });
    expect("targetFlow" in step && step.targetFlow / 80).toBeGreaterThan(0.8);
    expect("targetFlow" in step && step.targetFlow / 80).toBeLessThan(0.82);
    const first = matched(worked, "4", "3");
    expect(advised(first).step).toMatchObject({ kind: "set outlet", outlet: "2" });
    expect(advised(matched(first, "2", "3")).step).toMatchObject({ kind: "set outlet", outlet: "1" });
    const all = matched(matched(first, "2", "3"), "1", "3");
    expect(advised(all).step).toMatchObject({ kind: "set fan", targetFlow: expect.closeTo(450, 6) });
  });

  it("is within limits after four moves: three outlets and the fan, with every outlet read at the end", () => {
    const run = followAdvice(worked, task(1));
    expect(run).toMatchObject({ ended: "done", within: 4, moves: 4 });
    expect(run.readings).toBeLessThan(plainProportion(worked, task(1)).readings);
  });

  it("keeps the ratios of its outlets to each other when the fan changes (60 to 40 Pa: all by 0.81650)", () => {
    const before = [...flowsOf(worked).values()];
    const after = [...flowsOf({ ...worked, fanPressure: 40 }).values()];
    for (const [i, flow] of after.entries()) expect(flow / (before[i] ?? Number.NaN)).toBeCloseTo(0.8165, 5);
  });
});

describe("the network of the stale readings (regression: done at 105.6 / 105.7 / 101.8 / 92.7 % with one at 114.3 %)", () => {
  it("is called done only where every outlet is truly within limits", () => {
    // A total that hardly changes: what one outlet leaves the others take.
    const [total, design, start] = [901.5, [184, 297, 231, 124], [155.4, 360.8, 213.4, 171.9]];
    const network: Network = {
      fanPressure: 10_000,
      fanPressureMost: 10_000,
      trunk: 9_990 / total ** 2,
      branches: [0, 1].map((b) => ({
        name: `Branch ${b + 1}`,
        resistance: 1e-15,
        damper: 1,
        outlets: [2 * b, 2 * b + 1].map((o) => ({
          name: `o${o + 1}`,
          designFlow: design[o] ?? Number.NaN,
          resistance: 10 / (start[o] ?? Number.NaN) ** 2,
          damper: 1,
        })),
      })),
    };
    const run = followAdvice(network, { ...task(1), minusPercent: 10 });
    expect(run).toMatchObject({ ended: "done", within: 4 });
  });
});

describe("following the advice in random networks", () => {
  it.each(NETWORK_KINDS)("of the kind “%s” ends done with every outlet truly within limits", (kind) => {
    const figures = simulateBalance(kind, "advice", { minusPercent: 5, plusPercent: 10 }, 0, 25, 11);
    expect(figures).toMatchObject({ donePercent: 100, withinAtDonePercent: 100, wholeJobsPercent: 100 });
    expect(figures.movesEach).toBeLessThan(1.5);
  });

  it("with readings that repeat to 2.5 % holds at least 97 % of the outlets within ±10 %, and always ends", () => {
    const even = { minusPercent: 10, plusPercent: 10 };
    const figures = simulateBalance("one branch of four", "advice", even, 2.5, 60, 12);
    expect(figures.endlessPercent).toBe(0);
    expect(figures.withinAtDonePercent).toBeGreaterThanOrEqual(97);
    const plain = simulateBalance("one branch of four", "plain", even, 2.5, 60, 12);
    expect(figures.readingsEach).toBeLessThan(plain.readingsEach);
    expect(figures.movesEach).toBeLessThanOrEqual(plain.movesEach);
  });

  it("starts from the same network for the same seed", () => {
    expect(randomNetwork("fan and trunk", chanceOf(5))).toEqual(randomNetwork("fan and trunk", chanceOf(5)));
  });

  it("leaves a damper fully open on the way to every outlet group: the key's", () => {
    fc.assert(
      fc.property(arbitraryNetwork, (network) => {
        for (const branch of followed(network).network.branches) {
          expect(branch.outlets.some((outlet) => outlet.damper === 1)).toBe(true);
        }
      }),
      RANDOM_NETWORKS,
    );
  });

  it("with a fan too small for the design ends in proportion, names the shortfall, and blames fan or design", () => {
    fc.assert(
      fc.property(arbitraryNetwork, fc.double({ min: 0.4, max: 0.8, noNaN: true }), (network, share) => {
        const { network: end, advice } = followed(withWeakFan(network, share));
        expect(advice.step.kind).toBe("report shortfall");
        expect(advice.low.length).toBeGreaterThan(0);
        for (const low of advice.low) expect(["fan", "design"]).toContain(low.reason);
        const ratios = ratiosOf(end);
        expect(Math.max(...ratios) / Math.min(...ratios)).toBeLessThanOrEqual((highRatio / lowRatio) * (1 + 1e-9));
      }),
      RANDOM_NETWORKS,
    );
  });
});

describe("a large branch beside two small ones (regression: its damper went round in a circle of 16 moves)", () => {
  // Its ratios ran from 0.447 to 0.480 with the large outlets below the middle: the total asked for opened the damper,
  // while the outlet to watch asked for less.
  const network: Network = {
    fanPressure: 123.99542498609213,
    fanPressureMost: Number.POSITIVE_INFINITY,
    trunk: 0.000014491276350881791,
    branches: (
      [
        [0.012205468840548314, [[30, 0.23190390797041796]]],
        [0.015432098765432098, [[30, 0.2932098765432099]]],
        [
          0.000010238410862782289,
          [
            [346, 0.0019136198891385175],
            [196, 0.0023017771403466662],
            [325, 0.0005239958106597778],
            [261, 0.00041976608871878933],
          ],
        ],
      ] as const
    ).map(([resistance, outlets], b) => ({
      name: `Branch ${b + 1}`,
      resistance,
      damper: 1,
      outlets: outlets.map(([designFlow, own], o) => ({
        name: `Outlet ${b + 1}.${o + 1}`,
        designFlow,
        resistance: own,
        damper: 1,
      })),
    })),
  };
  const weak = withWeakFan(network, 0.7464833779206159);

  it("ends with a fan too small for the design, and with one that can be speeded up", () => {
    const short = followed(weak);
    expect(short.advice.step.kind).toBe("report shortfall");
    expect(short.steps.length).toBeLessThanOrEqual(12);
    const enough = followed(network);
    expect(enough.advice.step.kind).toBe("done");
    expect(enough.steps.length).toBeLessThanOrEqual(12);
  });

  it("is told one and the same by its total and by the outlet to watch", () => {
    let now = weak;
    for (let moves = 0; advised(now).step.kind === "set outlet"; moves += 1) {
      expect(moves).toBeLessThan(12);
      now = obeyed(now, advised(now).step);
    }
    const { step } = advised(now);
    if (step.kind !== "set branch") throw new Error(`no branch is set, but ${step.kind}`);
    const shown = flowsOf(obeyed(now, step)).get(step.watched);
    expect(shown).toBeCloseTo(step.watchedFlow, 6);
  });
});

describe("a small outlet beside a very large one", () => {
  const network = (largeFlow: number, trunkShare: number): Network => ({
    fanPressure: 100 * (1 + trunkShare),
    fanPressureMost: Number.POSITIVE_INFINITY,
    trunk: (100 * trunkShare) / (21 + 1.1 * largeFlow) ** 2,
    branches: [
      {
        name: "Supply",
        resistance: 1e-15,
        damper: 1,
        outlets: [
          { name: "small", designFlow: 30, resistance: 100 / 21 ** 2, damper: 1 },
          { name: "large", designFlow: largeFlow, resistance: 100 / (1.1 * largeFlow) ** 2, damper: 1 },
        ],
      },
    ],
  });

  it("is not closed and opened in a circle at a total that is kept (regression: 1200 cfm beside 30 never ended)", () => {
    const { steps, advice, network: end } = followed(network(1200, 1500));
    expect(advice.step.kind).toBe("done");
    expect(steps.length).toBeLessThanOrEqual(8);
    for (const ratio of ratiosOf(end)) expect(Math.abs(ratio - 1)).toBeLessThanOrEqual(0.1);
  });

  it("ends with the words to stop after eight changes an outlet, where one damper moves all the air", () => {
    const run = followAdvice(network(6000, 30), task(1));
    expect(run).toMatchObject({ ended: "noise floor", moves: movesForEachOutlet * 2 + 1 });
  });
});

describe("a branch of five outlets beside one of a single small one at a total that is kept", () => {
  it("is opened to where both meet and no further (regression: open, closed too far, open, without end)", () => {
    const nodePressure = 100;
    const fromOpen = (designFlow: number, openRatio: number, name: string) => ({
      name,
      designFlow,
      resistance: (0.5 * nodePressure) / (designFlow * openRatio) ** 2,
      damper: 1,
    });
    const large = [
      fromOpen(189, 1.17, "a"),
      fromOpen(156, 1.17, "b"),
      fromOpen(32, 1.17, "c"),
      fromOpen(159, 1.17, "d"),
      fromOpen(145, 1.15, "e"),
    ];
    const flow = (outlets: readonly { readonly designFlow: number }[]) =>
      outlets.reduce((sum, { designFlow }) => sum + designFlow, 0);
    const network: Network = {
      fanPressure: nodePressure * 1131,
      fanPressureMost: Number.POSITIVE_INFINITY,
      trunk: (nodePressure * 1130) / (1.17 * flow(large) + 34) ** 2,
      branches: [
        { name: "Large", resistance: (0.5 * nodePressure) / (1.17 * flow(large)) ** 2, damper: 1, outlets: large },
        { name: "Small", resistance: (0.5 * nodePressure) / 34 ** 2, damper: 1, outlets: [fromOpen(34, 1, "f")] },
      ],
    };
    const { steps, advice } = followed(network);
    expect(advice.step.kind).toBe("done");
    // Once closed, once opened, and the fan.
    expect(steps.length).toBeLessThanOrEqual(4);
  });
});

describe("an outlet of more than half its branch", () => {
  it("does not swing between open and too far closed (regression: the advice never ended)", () => {
    // A trunk that takes nearly all the pressure keeps the total: what the large outlet leaves, the small one takes.
    const lopsided: Network = {
      fanPressure: 1000,
      fanPressureMost: 1000,
      trunk: 990 / 450 ** 2,
      branches: [
        {
          name: "Supply",
          resistance: 1e-15,
          damper: 1,
          outlets: [
            { name: "large", designFlow: 300, resistance: 10 / 360 ** 2, damper: 1 },
            { name: "small", designFlow: 100, resistance: 10 / 90 ** 2, damper: 1 },
          ],
        },
      ],
    };
    const { network, steps, advice } = followed(lopsided);
    expect(advice.step.kind).toBe("done");
    expect(steps.length).toBeLessThanOrEqual(10);
    const [large = Number.NaN, small = Number.NaN] = ratiosOf(network);
    expect(large / small).toBeCloseTo(1, 1);
  });
});

describe("a blocked duct in an otherwise sound network", () => {
  const withResistance = (network: Network, name: string, factor: number): Network => ({
    ...network,
    branches: network.branches.map((branch) => ({
      ...branch,
      outlets: branch.outlets.map((outlet) =>
        outlet.name === name ? { ...outlet, resistance: outlet.resistance * factor } : outlet,
      ),
    })),
  });
  const blocked = withResistance(worked, "2", 50);

  it("is named before anybody throttles the others down to it", () => {
    const advice = advised(blocked);
    expect(advice.low.find((low) => low.outlet.name === "2")?.reason).toBe("duct");
    expect(advice.words).toMatch(/^2 has 1\d %: the others of its branch get \d+ %: look for a closed damper/);
  });

  it("once mended still ends inside the band, though an outlet had been throttled to the blocked one before", () => {
    const tooFar = obeyed(blocked, advised(blocked).step);
    const mended = withResistance(tooFar, "2", 1 / 50);
    const { network, advice } = followed(mended);
    expect(advice.step.kind).toBe("done");
    expect(advice.low).toEqual([]);
    for (const ratio of ratiosOf(network)) expect(ratio).toBeCloseTo(1, 1);
  });
});
