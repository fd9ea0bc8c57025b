import { requireFinite, requirePositive, requireSome } from "../check/require.js";
import type { Airflow, Ratio } from "../units/quantity.js";
import { balanceRatio } from "./balance-ratio.js";

/** One outlet as the balance sheet holds it. */
export interface BalanceOutlet {
  readonly name: string;
  /** The branch that it hangs on; one name for all where the duct does not branch. */
  readonly branch: string;
  readonly designFlow: Airflow;
  /** Undefined until somebody has read it: never zero instead. */
  readonly measuredFlow: Airflow | undefined;
  /** "open" until somebody has throttled it. */
  readonly damper: "open" | "throttled";
}

/** An outlet that was read, with its share of the design airflow. */
export interface MeasuredOutlet extends BalanceOutlet {
  readonly measuredFlow: Airflow;
  readonly ratio: Ratio;
}

/** Refuses an empty list, a design airflow that is not positive and a measured one that is not finite. */
export function requireOutlets(outlets: readonly BalanceOutlet[]): void {
  requireSome("outlets", outlets);
  for (const { designFlow, measuredFlow } of outlets) {
    requirePositive("designFlow", designFlow);
    if (measuredFlow !== undefined) requireFinite("measuredFlow", measuredFlow);
  }
}

/** Returns the outlets that were read, each with its ratio. */
export function measuredOutlets(outlets: readonly BalanceOutlet[]): readonly MeasuredOutlet[] {
  return outlets.flatMap((outlet) => {
    const { measuredFlow } = outlet;
    return measuredFlow === undefined
      ? []
      : [{ ...outlet, measuredFlow, ratio: balanceRatio(measuredFlow, outlet.designFlow) }];
  });
}
