import type { BlockAddress, BlockEdit } from "../host.js";

/** What would be written, for the person to agree to where something stands there already. */
export interface Placement {
  /** Where it goes, in words. */
  readonly where: string;
  readonly edits: readonly BlockEdit[];
  /** What stands there and would be replaced, each in words; empty where nothing is lost. */
  readonly replaces: readonly string[];
  /** The cell that then shows the airflow; null where the list has none. */
  readonly resultAt: BlockAddress | null;
  /** Times an airflow in the units of the measurement gives what that cell shows: its column may be in others. */
  readonly resultScale: number;
}

/** Why a measurement does not go there, in one sentence that says what to do. */
export interface Refusal {
  readonly refusal: string;
}
