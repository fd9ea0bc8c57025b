import type { BlockAddress, BlockEdit } from "../host.js";

/** What would be written, for the person to agree to where something stands there already. */
export interface Placement {
  /** Where it goes, in words. */
  readonly where: string;
  readonly edits: readonly BlockEdit[];
  /** What stands there and would be replaced, each in words; empty where nothing is lost. */
  readonly replaces: readonly string[];
  /** The cell whose formula then shows the airflow. */
  readonly resultAt: BlockAddress;
}

/** Why a measurement does not go there, in one sentence that says what to do. */
export interface Refusal {
  readonly refusal: string;
}
