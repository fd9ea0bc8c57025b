import fc from "fast-check";
import type { Network } from "../../../src/tools/simulate/duct-network.js";

const outlet = fc.record({
  designFlow: fc.integer({ min: 30, max: 500 }),
  /** Ratio that the outlet would have with every damper open: from starved to far too much. */
  openRatio: fc.double({ min: 0.6, max: 1.8, noNaN: true }),
});

const branch = fc.record({
  /** Part of the pressure behind the trunk that the branch duct takes before its outlets. */
  ductShare: fc.double({ min: 0.05, max: 0.6, noNaN: true }),
  outlets: fc.array(outlet, { minLength: 1, maxLength: 6 }),
});

/** Random networks with all dampers open and a fan that can be speeded up as far as it takes. */
export const arbitraryNetwork: fc.Arbitrary<Network> = fc
  .record({
    trunkShare: fc.double({ min: 0.1, max: 3, noNaN: true }),
    branches: fc.array(branch, { minLength: 1, maxLength: 4 }),
  })
  .map(({ trunkShare, branches }) => {
    const nodePressure = 100;
    const flow = (outlets: readonly { designFlow: number; openRatio: number }[]) =>
      outlets.reduce((sum, { designFlow, openRatio }) => sum + designFlow * openRatio, 0);
    const total = flow(branches.flatMap(({ outlets }) => outlets));
    return {
      fanPressure: nodePressure * (1 + trunkShare),
      fanPressureMost: Number.POSITIVE_INFINITY,
      trunk: (nodePressure * trunkShare) / total ** 2,
      branches: branches.map(({ ductShare, outlets }, b) => ({
        name: `Branch ${b + 1}`,
        resistance: (nodePressure * ductShare) / flow(outlets) ** 2,
        damper: 1,
        outlets: outlets.map(({ designFlow, openRatio }, o) => ({
          name: `Outlet ${b + 1}.${o + 1}`,
          designFlow,
          resistance: (nodePressure * (1 - ductShare)) / (designFlow * openRatio) ** 2,
          damper: 1,
        })),
      })),
    };
  });
