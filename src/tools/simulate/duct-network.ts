import type { BalanceOutlet, BalanceStep } from "../../core/index.js";

/**
 * A quadratic duct network: a fan, a trunk, branches side by side, on each of them outlets side by side.
 *
 * Every resistance takes Δp = R · Q². The fan has p = p₀ − k · Q², and k holds its slope and the trunk together. A
 * damper multiplies the resistance it stands in, 1 when open. Source: derived (parallel resistances add as 1/√R).
 */
export interface Network {
  readonly fanPressure: number;
  /** Pressure at the highest speed of the fan. */
  readonly fanPressureMost: number;
  readonly trunk: number;
  readonly branches: readonly NetworkBranch[];
}

export interface NetworkBranch {
  readonly name: string;
  readonly resistance: number;
  readonly damper: number;
  readonly outlets: readonly NetworkOutlet[];
}

export interface NetworkOutlet {
  readonly name: string;
  readonly designFlow: number;
  readonly resistance: number;
  readonly damper: number;
}

const conductance = (resistance: number) => 1 / Math.sqrt(resistance);
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
const outletConductance = (outlet: NetworkOutlet) => conductance(outlet.resistance * outlet.damper);

function branchConductance(branch: NetworkBranch): number {
  const outlets = sum(branch.outlets.map(outletConductance));
  return conductance(branch.resistance * branch.damper + 1 / outlets ** 2);
}

/** Returns the airflow of every outlet by name. */
export function flowsOf(network: Network): ReadonlyMap<string, number> {
  const all = sum(network.branches.map(branchConductance));
  const total = Math.sqrt(network.fanPressure / (network.trunk + 1 / all ** 2));
  return new Map(
    network.branches.flatMap((branch) => {
      const branchFlow = (total * branchConductance(branch)) / all;
      const outlets = sum(branch.outlets.map(outletConductance));
      return branch.outlets.map((outlet) => [outlet.name, (branchFlow * outletConductance(outlet)) / outlets] as const);
    }),
  );
}

export function totalOf(network: Network): number {
  return sum([...flowsOf(network).values()]);
}

/** Reads the network as a technician fills the sheet. */
export function readingsOf(network: Network): readonly BalanceOutlet[] {
  const flows = flowsOf(network);
  return network.branches.flatMap((branch) =>
    branch.outlets.map((outlet) => ({
      name: outlet.name,
      branch: branch.name,
      designFlow: outlet.designFlow,
      measuredFlow: flows.get(outlet.name),
      damper: outlet.damper > 1 ? ("throttled" as const) : ("open" as const),
    })),
  );
}

export function throttledBranchesOf(network: Network): readonly string[] {
  return network.branches.filter((branch) => branch.damper > 1).map((branch) => branch.name);
}

/** Turns one damper, watching a figure that falls as it closes, until the figure is 0 or the damper fully open. */
function turned(withDamper: (damper: number) => Network, excess: (network: Network) => number): Network {
  if (excess(withDamper(1)) <= 0) return withDamper(1);
  let low = 0;
  let high = 60;
  for (let i = 0; i < 36; i += 1) {
    const middle = (low + high) / 2;
    if (excess(withDamper(Math.exp(middle))) > 0) low = middle;
    else high = middle;
  }
  return withDamper(Math.exp(high));
}

function withOutletDamper(network: Network, name: string, damper: number): Network {
  const branches = network.branches.map((branch) => ({
    ...branch,
    outlets: branch.outlets.map((outlet) => (outlet.name === name ? { ...outlet, damper } : outlet)),
  }));
  return { ...network, branches };
}

function withBranchDamper(network: Network, name: string, damper: number): Network {
  const branches = network.branches.map((branch) => (branch.name === name ? { ...branch, damper } : branch));
  return { ...network, branches };
}

/** Throttles an outlet until it and another have the same ratio, both read while turning. */
export function matched(network: Network, name: string, key: string): Network {
  const ratio = (one: Network, outlet: string) => {
    const { designFlow, measuredFlow } = readingsOf(one).find((reading) => reading.name === outlet) as BalanceOutlet;
    return (measuredFlow as number) / designFlow;
  };
  return turned(
    (damper) => withOutletDamper(network, name, damper),
    (one) => ratio(one, name) - ratio(one, key),
  );
}

/** Does what a step of the advice says, as far as the network lets a technician do it. */
export function obeyed(network: Network, step: BalanceStep): Network {
  if (step.kind === "set outlet") {
    return turned(
      (damper) => withOutletDamper(network, step.outlet, damper),
      (one) => (flowsOf(one).get(step.outlet) as number) - step.targetFlow,
    );
  }
  if (step.kind === "set branch") {
    const names = network.branches.find((branch) => branch.name === step.branch)?.outlets.map(({ name }) => name) ?? [];
    return turned(
      (damper) => withBranchDamper(network, step.branch, damper),
      (one) => sum(names.map((name) => flowsOf(one).get(name) as number)) - step.targetFlow,
    );
  }
  if (step.kind === "set fan") {
    const fanPressure = network.fanPressure * (step.targetFlow / totalOf(network)) ** 2;
    return { ...network, fanPressure: Math.min(fanPressure, network.fanPressureMost) };
  }
  throw new Error(`nothing to turn for "${step.kind}"`);
}
