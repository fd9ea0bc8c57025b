import type { Network } from "./duct-network.js";
import type { Chance } from "./random.js";

/** What lies upstream of the branches: it decides how the others follow when one outlet is set. */
export type NetworkKind =
  | "fan and trunk"
  | "constant pressure"
  | "constant total"
  | "one branch of four"
  | "one large outlet";

export const NETWORK_KINDS: readonly NetworkKind[] = [
  "fan and trunk",
  "constant pressure",
  "constant total",
  "one branch of four",
  "one large outlet",
];

/** Pressure that the trunk takes over that which the branches take. */
const TRUNK_SHARE: Readonly<Record<NetworkKind, readonly [number, number]>> = {
  "fan and trunk": [0.1, 3],
  "constant pressure": [0.0005, 0.001],
  "constant total": [1000, 2000],
  "one branch of four": [0.1, 2000],
  "one large outlet": [0.1, 2000],
};

/** Makes a network with all dampers open: outlets with 60 to 180 % of design, and a fan that can be speeded up. */
export function randomNetwork(kind: NetworkKind, { uniform }: Chance): Network {
  const between = (low: number, high: number) => low + (high - low) * uniform();
  const whole = (low: number, high: number) => Math.floor(between(low, high + 1));
  const isOneBranch = kind === "one branch of four" || kind === "one large outlet";
  const branches = Array.from({ length: isOneBranch ? 1 : whole(1, 4) }, (_, b) => ({
    ductShare: between(0.05, 0.6),
    outlets: Array.from({ length: isOneBranch ? 4 : whole(1, 6) }, (__, o) => ({
      designFlow: kind === "one large outlet" && b === 0 && o === 0 ? whole(600, 1200) : whole(30, 300),
      openRatio: between(0.6, 1.8),
    })),
  }));
  const flow = (outlets: readonly { designFlow: number; openRatio: number }[]) =>
    outlets.reduce((sum, { designFlow, openRatio }) => sum + designFlow * openRatio, 0);
  const total = flow(branches.flatMap(({ outlets }) => outlets));
  const [least, most] = TRUNK_SHARE[kind];
  const trunkShare = least * (most / least) ** uniform();
  const pressure = 100;
  return {
    fanPressure: pressure * (1 + trunkShare),
    fanPressureMost: Number.POSITIVE_INFINITY,
    trunk: (pressure * trunkShare) / total ** 2,
    branches: branches.map(({ ductShare, outlets }, b) => ({
      name: `Branch ${b + 1}`,
      resistance: (pressure * ductShare) / flow(outlets) ** 2,
      damper: 1,
      outlets: outlets.map(({ designFlow, openRatio }, o) => ({
        name: `Outlet ${b + 1}.${o + 1}`,
        designFlow,
        resistance: (pressure * (1 - ductShare)) / (designFlow * openRatio) ** 2,
        damper: 1,
      })),
    })),
  };
}
