import type { WorkbookEdit } from "../../xlsx/index.js";
import type { HandoffName } from "./calling-names.js";
import type { HandoffCell } from "./handoff-cell.js";

/** How to turn a workbook into its hand-off copy, and what becomes of it. */
export interface Handoff {
  readonly edits: readonly WorkbookEdit[];
  /** Cells whose formula is now a plain one. */
  readonly plain: readonly HandoffCell[];
  /** Cells that keep their value, with a note in the formula. */
  readonly values: readonly HandoffCell[];
  /** Names that stand for a call; those with reasons keep it, and show #NAME? where nothing but the name is asked. */
  readonly names: readonly HandoffName[];
}
