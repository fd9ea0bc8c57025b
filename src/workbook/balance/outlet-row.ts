import type { BlockAddress } from "../host.js";

/** One outlet of a list, in the units of the job. Null is what the sheet does not say. */
export interface OutletRow {
  /** Sheet and row, such as `Outlets!9`. */
  readonly id: string;
  /** The outlet's tag; with its row where a tag stands twice in the list. */
  readonly name: string;
  readonly sheet: string;
  readonly row: number;
  readonly system: string;
  readonly branch: string;
  readonly room: string;
  /** In small letters; "" where none is stated. */
  readonly kind: string;
  /** In cfm or L/s. */
  readonly design: number | null;
  /** The airflow that counts now: as left where there is one, as found otherwise; cfm or L/s. */
  readonly measured: number | null;
  readonly before: number | null;
  readonly after: number | null;
  /** In ft² or m². */
  readonly freeArea: number | null;
  /** What the sheet says of its factor: whether it is given, assumed, or the area is all free. */
  readonly factor: "given" | "assumed" | "none";
  /** The ± of the airflow (95 %) in percent, as the sheet has it. */
  readonly expandedPercent: number | null;
  /** What a new reading is: velocities at the face, or the airflow itself. */
  readonly entry: "velocities" | "airflow";
  /** The cells that take it, in their order; none where the list has no place for it. */
  readonly entryCells: readonly BlockAddress[];
  /**
   * Empty cells of the list's own for what stands in the entry cells, once it is no longer what counts: the readings as
   * found. As many as entry cells; none where the list has none, or where they are in use.
   */
  readonly asFoundCells: readonly BlockAddress[];
  /** Times a figure in the units of the job gives what an entry cell holds: its column may be in others. */
  readonly entryScale: number;
  /** What stands in the entry cells now, in the units of the job. */
  readonly entered: readonly (number | string | boolean | null)[];
  /** Whether the sheet says that the reading is from before the last change, and its cell for that; null without one. */
  readonly isOld: boolean;
  readonly ageCell: BlockAddress | null;
  /** The cell of the outlet's tag. */
  readonly cell: BlockAddress;
}
