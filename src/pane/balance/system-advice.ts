import {
  type BalanceAdvice,
  type BalanceOutlet,
  balanceAdvice,
  branchesOf,
  commonRatio,
  type DesignVerdict,
  DomainError,
  designDecision,
  keyOutlet,
  type ReadingOrder,
  workOrder,
} from "../../core/index.js";
import {
  type BalanceGroup,
  expandedPercent,
  type JobDetails,
  type LimitsOfKind,
  type OutletRow,
} from "../../workbook/index.js";
import { airflowText } from "./quantity-text.js";

/** What is known of a system beside its sheet. */
export interface SystemState {
  readonly isThrottled: (outlet: OutletRow) => boolean;
  readonly isBranchThrottled: (branch: string) => boolean;
  /** In the unit of the job; Infinity where nobody knows. */
  readonly fanMost: number;
  /** Null where the job states only one of the two. */
  readonly limits: LimitsOfKind | null;
  readonly order: ReadingOrder;
  readonly job: JobDetails;
}

/** An outlet that was read, with its share of design. */
export interface RatedOutlet {
  readonly row: OutletRow;
  readonly ratio: number;
  /** As measured: low, within or high. */
  readonly verdict: DesignVerdict;
  /** Whether a limit lies within its ±; by a guarded rule it is then undecided. */
  readonly isOpen: boolean;
  readonly isKey: boolean;
}

/** A system as it stands, and what to do next. */
export interface SystemAdvice {
  readonly advice: BalanceAdvice;
  /** In the order of work. */
  readonly rated: readonly RatedOutlet[];
  readonly notMeasured: readonly OutletRow[];
  /** Branches of the system, in the order of the list; one where it does not branch. */
  readonly branches: readonly string[];
  readonly measured: number;
  readonly design: number;
  /** Undefined while nothing was read. */
  readonly ratio: number | undefined;
}

export type SystemView = { readonly value: SystemAdvice } | { readonly problem: string };

function balanceOutlet(row: OutletRow, { isThrottled }: SystemState): BalanceOutlet {
  return {
    name: row.name,
    branch: row.branch,
    designFlow: row.design ?? 0,
    measuredFlow: row.measured ?? undefined,
    damper: isThrottled(row) ? "throttled" : "open",
  };
}

/**
 * Says how a group of outlets stands and what to do next. Ratios need no unit, so that airflows stay in the job's own.
 *
 * @returns The advice; or why there is none, for a person
 */
export function systemAdvice(group: BalanceGroup, state: SystemState): SystemView {
  if (group.outlets.length === 0) {
    return { problem: "No outlet here has a design airflow. Enter what the design asks of each." };
  }
  const { limits } = state;
  if (limits === null) {
    return {
      problem: "The job states only one of its two limits. Enter both on Start, or clear both for the usual ones.",
    };
  }
  const outlets = group.outlets.map((row) => balanceOutlet(row, state));
  const rowOf = new Map(group.outlets.map((row) => [row.name, row]));
  try {
    const branches = branchesOf(outlets);
    const keys = new Set(branches.flatMap(({ outlets: members }) => keyOutlet(members)?.name ?? []));
    const { ratio, measuredFlow, designFlow } = commonRatio(outlets);
    const throttledBranches = branches.map(({ name }) => name).filter(state.isBranchThrottled);
    const advice = balanceAdvice({
      outlets,
      throttledBranches,
      fanMaximumFlow: state.fanMost,
      limits,
      airflowWords: (airflow) => airflowText(airflow, state.job.units),
      order: state.order,
    });
    const rated = workOrder(outlets).flatMap(
      ({ name, ratio: own, measuredFlow: flow, designFlow: wanted }): readonly RatedOutlet[] => {
        const row = rowOf.get(name);
        if (row === undefined) return [];
        const expanded = (expandedPercent(row, state.job) / 100) * Math.abs(flow);
        const decided = designDecision(flow, wanted, expanded, limits.minusPercent, limits.plusPercent);
        return [{ row, ratio: own, verdict: decided.verdict, isOpen: decided.isOpen, isKey: keys.has(name) }];
      },
    );
    return {
      value: {
        advice,
        rated,
        notMeasured: group.outlets.filter(({ measured }) => measured === null),
        branches: branches.map(({ name }) => name),
        measured: measuredFlow,
        design: designFlow,
        ratio,
      },
    };
  } catch (cause) {
    if (!(cause instanceof DomainError)) throw cause;
    return { problem: `No advice can be given: ${cause.message}. Look at the limits on Start and at the sheet.` };
  }
}
