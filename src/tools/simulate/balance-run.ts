import { airflowWords, type BalanceOutlet, balanceAdvice, designVerdict } from "../../core/index.js";
import { flowsOf, type Network, obeyed, readingsOf, throttledBranchesOf, totalOf } from "./duct-network.js";
import type { Chance } from "./random.js";

/** Around design, and how well a technician reads and sets. */
export interface BalanceTask {
  readonly minusPercent: number;
  readonly plusPercent: number;
  /** Relative standard deviation of a reading. */
  readonly repeatPercent: number;
  readonly chance: Chance;
}

/** How a job went, and what is true at its end. */
export interface BalanceRun {
  readonly ended: "done" | "noise floor" | "report shortfall" | "endless";
  readonly readings: number;
  readonly moves: number;
  readonly outlets: number;
  /** How many outlets are truly within limits. */
  readonly within: number;
}

/** Far beyond what any job needs; only stops a circle. */
const MOST_MOVES = 200;

/** Reads a figure as a meter shows it. */
function read(value: number, { repeatPercent, chance }: BalanceTask): number {
  return value * (1 + (repeatPercent / 100) * chance.normal());
}

function runOf(network: Network, ended: BalanceRun["ended"], readings: number, moves: number, task: BalanceTask) {
  const all = readingsOf(network);
  const within = all.filter(({ measuredFlow, designFlow }) => {
    return designVerdict(measuredFlow ?? 0, designFlow, task.minusPercent, task.plusPercent) === "within";
  }).length;
  return { ended, readings, moves, outlets: all.length, within };
}

/** Follows the advice to its end, reading and setting with the scatter of the task. */
export function followAdvice(start: Network, task: BalanceTask): BalanceRun {
  let network = start;
  let [readings, moves, steps] = [0, 0, 0];
  const shown = new Map<string, { readonly flow: number; readonly count: number }>();
  let old = readingsOf(start).map(({ name }) => name);
  let set: string[] = [];
  let round: Record<string, number> = {};
  let each = 1;
  /** What a meter shows of 1, averaged as often as the advice asks. */
  const looked = () => {
    readings += each;
    return Array.from({ length: each }, () => read(1, task)).reduce((sum, one) => sum + one / each, 0);
  };
  const readOutlet = (name: string, isAverage: boolean) => {
    const before = shown.get(name);
    const flow = (flowsOf(network).get(name) ?? Number.NaN) * looked();
    const count = isAverage && before ? before.count : 0;
    shown.set(name, { flow: ((before?.flow ?? 0) * count + flow * each) / (count + each), count: count + each });
    old = old.filter((one) => one !== name);
    if (old.length > 0) return;
    round = Object.fromEntries([...shown].map(([one, { flow: own }]) => [one, own]));
    set = [];
  };
  const all = old;
  for (;;) {
    steps += 1;
    const { step, readingsEach } = balanceAdvice({
      outlets: readingsOf(network).map((outlet) => ({ ...outlet, measuredFlow: shown.get(outlet.name)?.flow })),
      throttledBranches: throttledBranchesOf(network),
      fanMaximumFlow: Number.POSITIVE_INFINITY,
      limits: task,
      airflowWords,
      order: {
        old,
        set,
        round,
        counts: Object.fromEntries([...shown].map(([name, { count }]) => [name, count])),
        changeCount: moves,
        repeatPercent: task.repeatPercent,
      },
    });
    if (step.kind === "done" || step.kind === "noise floor" || step.kind === "report shortfall") {
      return runOf(network, step.kind, readings, moves, task);
    }
    if (moves >= MOST_MOVES || steps > 20 * MOST_MOVES) return runOf(network, "endless", readings, moves, task);
    each = readingsEach;
    if (step.kind === "measure" || step.kind === "read again") {
      for (const name of step.outlets) readOutlet(name, step.kind === "read again" && step.purpose === "average");
      continue;
    }
    moves += 1;
    if (step.kind === "set outlet") {
      network = obeyed(network, { ...step, targetFlow: step.targetFlow / looked() });
      set = [...set.filter((one) => one !== step.outlet), step.outlet];
      old = all.filter((one) => one !== step.outlet);
      // The meter shows the target when the damper is left, except where that cannot be reached.
      const reached = flowsOf(network).get(step.outlet) ?? Number.NaN;
      const isReached = Math.abs(reached / step.targetFlow - 1) < 0.2;
      shown.set(step.outlet, { flow: isReached ? step.targetFlow : reached, count: each });
    } else if (step.kind === "set branch") {
      const watched = flowsOf(network).get(step.watched) ?? Number.NaN;
      const branchFlow = branchTotal(network, step.branch);
      const scale = step.watchedFlow / looked() / watched;
      network = obeyed(network, { ...step, targetFlow: branchFlow * scale });
      old = all.filter((one) => one !== step.watched);
      const reached = flowsOf(network).get(step.watched) ?? Number.NaN;
      const isReached = Math.abs(reached / step.watchedFlow - 1) < 0.2;
      shown.set(step.watched, { flow: isReached ? step.watchedFlow : reached, count: each });
    } else if (step.kind === "set fan") {
      const watched = flowsOf(network).get(step.watched) ?? Number.NaN;
      const targetFlow = (totalOf(network) * step.watchedFlow) / looked() / watched;
      network = obeyed(network, { ...step, targetFlow });
      old = all.filter((one) => one !== step.watched);
      shown.set(step.watched, { flow: step.watchedFlow, count: each });
    } else throw new Error(`no sound network is advised to "${step.kind}"`);
  }
}

function branchTotal(network: Network, name: string): number {
  const flows = flowsOf(network);
  const outlets = network.branches.find((branch) => branch.name === name)?.outlets ?? [];
  return outlets.reduce((sum, outlet) => sum + (flows.get(outlet.name) ?? 0), 0);
}

/**
 * Balances in plain proportion: in each branch every outlet to its key's ratio as read at that moment, everything read
 * again after each pass; then the branches, then the fan, in the same way. Matched is what fits three times into the
 * limits. Common practice, no source.
 */
export function plainProportion(start: Network, task: BalanceTask): BalanceRun {
  let network = start;
  let [readings, moves] = [0, 0];
  const high = 1 + task.plusPercent / 100;
  const step = Math.cbrt(high / (1 - task.minusPercent / 100));
  const matching = (step - 1) / (step + 1);
  const readAll = (): BalanceOutlet[] => {
    readings += start.branches.reduce((sum, { outlets }) => sum + outlets.length, 0);
    return readingsOf(network).map((one) => ({ ...one, measuredFlow: read(one.measuredFlow ?? 0, task) }));
  };
  const ratioOf = ({ measuredFlow, designFlow }: BalanceOutlet) => (measuredFlow ?? 0) / designFlow;
  const readRatio = (name: string) => {
    const outlet = readingsOf(network).find((one) => one.name === name);
    readings += 1;
    return outlet === undefined ? Number.NaN : read(ratioOf(outlet), task);
  };
  const lowest = <Item>(items: readonly Item[], ratio: (item: Item) => number) =>
    items.reduce((least, one) => (ratio(one) < ratio(least) ? one : least));
  let shown = readAll();
  while (moves < MOST_MOVES) {
    const isWithin = (one: BalanceOutlet) =>
      designVerdict(one.measuredFlow ?? 0, one.designFlow, task.minusPercent, task.plusPercent) === "within";
    if (shown.every(isWithin)) return runOf(network, "done", readings, moves, task);
    const before = moves;
    for (const branch of network.branches) {
      const members = shown.filter((one) => one.branch === branch.name);
      const open = members.filter(({ damper }) => damper === "open");
      const key = lowest(open.length > 0 ? open : members, ratioOf);
      let keyRatio = ratioOf(key);
      for (const outlet of [...members].sort((one, other) => ratioOf(one) - ratioOf(other))) {
        const own = ratioOf(outlet);
        if (outlet.name === key.name || Math.abs(own - ratioOf(key)) <= matching * ratioOf(key)) continue;
        const targetFlow = (keyRatio * outlet.designFlow) / read(1, task);
        network = obeyed(network, { kind: "set outlet", outlet: outlet.name, branch: branch.name, targetFlow });
        moves += 1;
        readings += 1;
        keyRatio = readRatio(key.name);
      }
    }
    if (moves === before) {
      const levels = network.branches.map(({ name, damper }) => {
        const members = shown.filter((one) => one.branch === name);
        const [measured, design] = [members.map((one) => one.measuredFlow ?? 0), members.map((one) => one.designFlow)];
        const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
        return { name, damper, ratio: sum(measured) / sum(design), design: sum(design), first: members[0]?.name ?? "" };
      });
      const open = levels.filter(({ damper }) => damper === 1);
      const key = lowest(open.length > 0 ? open : levels, ({ ratio }) => ratio);
      let keyRatio = key.ratio;
      for (const level of [...levels].sort((one, other) => one.ratio - other.ratio)) {
        if (level === key || Math.abs(level.ratio - key.ratio) <= matching * key.ratio) continue;
        const targetFlow = (keyRatio * level.design) / read(1, task);
        network = obeyed(network, { kind: "set branch", branch: level.name, targetFlow, watched: "", watchedFlow: 0 });
        moves += 1;
        readings += 1;
        const keyBefore = ratioOf(shown.find(({ name }) => name === key.first) as BalanceOutlet);
        keyRatio = (key.ratio * readRatio(key.first)) / keyBefore;
      }
    }
    if (moves === before) {
      const measured = shown.reduce((sum, one) => sum + (one.measuredFlow ?? 0), 0);
      const ratios = shown.map(ratioOf);
      const design = shown.reduce((sum, one) => sum + one.designFlow, 0);
      const middle = Math.sqrt((high * (1 - task.minusPercent / 100)) / (Math.max(...ratios) * Math.min(...ratios)));
      const holds = ratios.every((ratio) => {
        return designVerdict((ratio * design) / measured, 1, task.minusPercent, task.plusPercent) === "within";
      });
      const scale = (holds ? design / measured : middle) * read(1, task);
      network = obeyed(network, { kind: "set fan", targetFlow: totalOf(network) * scale, watched: "", watchedFlow: 0 });
      moves += 1;
      readings += 1;
    }
    shown = readAll();
  }
  return runOf(network, "endless", readings, moves, task);
}
