import { JOB_SUMMARY_COLUMNS, JOB_SUMMARY_SHEET, type JobSummaryKey } from "../template/index.js";

/** What the roll-up takes of an outlet's row. */
export type OutletKey = JobSummaryKey | "measured";

/** A kind of sheet from which outlets are read. */
export interface OutletSource {
  /** What it is called in messages. */
  readonly name: string;
  /** Name of the sheet; a second one in the same workbook has a number behind it. */
  readonly sheet: string;
  /** Header of each column that is read, by what it holds. */
  readonly headers: ReadonlyMap<OutletKey, string>;
  /** Columns without which nothing can be said. */
  readonly required: readonly OutletKey[];
}

/** Headers of the room balance that tell the same as a column of the job summary. */
const ROOM_BALANCE_HEADERS: ReadonlyMap<OutletKey, string> = new Map([
  ["outlet", "Outlet"],
  ["system", "System"],
  ["room", "Room"],
  ["kind", "Kind"],
  ["width", "Width or diameter"],
  ["height", "Height"],
  ["factor", "Factor"],
  ["design", "Design airflow"],
  ["measured", "Airflow"],
  ["plusMinus", "±"],
  ["percent", "Percent of design"],
  ["verdict", "Verdict"],
  ["note", "Note"],
]);

/** Where outlets are looked for, the first that a workbook has. */
export const OUTLET_SOURCES: readonly OutletSource[] = [
  {
    name: "job summary",
    sheet: JOB_SUMMARY_SHEET,
    headers: new Map(JOB_SUMMARY_COLUMNS.map(({ key, header }) => [key, header])),
    required: ["outlet", "design", "before", "after"],
  },
  {
    name: "room balance",
    sheet: "Outlets",
    headers: ROOM_BALANCE_HEADERS,
    required: ["outlet", "design", "measured"],
  },
];
