/** Headings by which a table is known for the record of a re-test. */
export const RETEST_HEADINGS = {
  drawn: "Drawn",
  read: "Outlet read",
  agreement: "Agreement",
  /** Before the number of a reading. */
  reading: "W",
} as const;

export const AGREEMENTS = { agrees: "agrees", differs: "differs" } as const;

/** Why a row of the witness counts neither as agreeing nor as differing, and what to do. */
export const NOT_JUDGED = {
  noOutlet: ["no outlet", "enter which outlet was read"],
  unlisted: ["not listed", "enter the tag as the list of outlets has it"],
  repeated: ["repeated tag", "give each outlet a tag of its own"],
  twice: ["entered twice", "keep one row for each outlet"],
  notDrawn: ["not drawn", "set seed and share back, or read the drawn outlets"],
  noNumber: ["text reading", "enter each reading as a number"],
  noAirflow: ["no airflow", "enter the reported airflow as the witness saw it"],
  old: ["old reading", "read the outlet itself again first"],
  changed: ["changed since", "its airflow in the list is no longer the reported one"],
  noSize: ["no size", "enter the size of the outlet"],
} as const satisfies Readonly<Record<string, readonly [word: string, toDo: string]>>;
