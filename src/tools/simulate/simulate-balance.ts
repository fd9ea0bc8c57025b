import { median } from "../../core/index.js";
import { type BalanceRun, followAdvice, plainProportion } from "./balance-run.js";
import { chanceOf } from "./random.js";
import { NETWORK_KINDS, type NetworkKind, randomNetwork } from "./random-network.js";

/** What came of many jobs of one kind. */
export interface BalanceFigures {
  readonly kind: NetworkKind;
  readonly method: "advice" | "plain";
  readonly minusPercent: number;
  readonly plusPercent: number;
  readonly repeatPercent: number;
  readonly jobs: number;
  /** Jobs that ended "done", at the noise floor, or not at all, in percent. */
  readonly donePercent: number;
  readonly noiseFloorPercent: number;
  readonly endlessPercent: number;
  /** Outlets truly within limits where "done" was said, and such jobs with every outlet within, in percent. */
  readonly withinAtDonePercent: number;
  readonly wholeJobsPercent: number;
  /** Median over jobs, of each outlet. */
  readonly readingsEach: number;
  readonly movesEach: number;
}

const METHODS = { advice: followAdvice, plain: plainProportion } as const;

/** Balances many random networks of a kind by one method; both methods get the same networks. */
export function simulateBalance(
  kind: NetworkKind,
  method: keyof typeof METHODS,
  limits: { readonly minusPercent: number; readonly plusPercent: number },
  repeatPercent: number,
  jobs: number,
  seed: number,
): BalanceFigures {
  const networks = chanceOf(seed);
  const runs = Array.from({ length: jobs }, (_, job): BalanceRun => {
    const network = randomNetwork(kind, networks);
    return METHODS[method](network, { ...limits, repeatPercent, chance: chanceOf(seed * 1000 + job) });
  });
  const share = (test: (run: BalanceRun) => boolean, of: readonly BalanceRun[] = runs) =>
    of.length === 0 ? Number.NaN : (100 * of.filter(test).length) / of.length;
  const done = runs.filter(({ ended }) => ended === "done");
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  return {
    kind,
    method,
    ...limits,
    repeatPercent,
    jobs,
    donePercent: share(({ ended }) => ended === "done"),
    noiseFloorPercent: share(({ ended }) => ended === "noise floor"),
    endlessPercent: share(({ ended }) => ended === "endless"),
    withinAtDonePercent: (100 * sum(done.map(({ within }) => within))) / sum(done.map(({ outlets }) => outlets)),
    wholeJobsPercent: share(({ within, outlets }) => within === outlets, done),
    readingsEach: median(runs.map(({ readings, outlets }) => readings / outlets)),
    movesEach: median(runs.map(({ moves, outlets }) => moves / outlets)),
  };
}

/** The rows that docs/method.md states: every kind, without and with scatter, by both methods. */
export function balanceRows(jobs: number, seed: number): readonly BalanceFigures[] {
  const even = { minusPercent: 10, plusPercent: 10 };
  const lopsided = { minusPercent: 5, plusPercent: 10 };
  const cases = [
    [even, 0],
    [lopsided, 0],
    [even, 2.5],
    [lopsided, 2.5],
    [even, 5],
  ] as const;
  return NETWORK_KINDS.flatMap((kind) =>
    cases.flatMap(([limits, repeatPercent]) =>
      (["advice", "plain"] as const).map((method) => simulateBalance(kind, method, limits, repeatPercent, jobs, seed)),
    ),
  );
}
