import type { BalanceOutlet } from "../../../src/core/index.js";

/** An outlet of a branch with its damper open, unless more is said. */
export const outlet = (
  name: string,
  designFlow: number,
  measuredFlow: number | undefined,
  more: Partial<BalanceOutlet> = {},
): BalanceOutlet => ({ name, branch: "Supply", designFlow, measuredFlow, damper: "open", ...more });
