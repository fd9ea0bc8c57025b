import type { OutletRecord } from "./outlet-record.js";

/** Every field of an outlet, in the order in which it is packed. */
const FIELDS = [
  "sheet",
  "row",
  "status",
  "jobNumber",
  "jobName",
  "date",
  "technician",
  "system",
  "room",
  "outlet",
  "kind",
  "widthIn",
  "heightIn",
  "factorRatio",
  "isFactorAssumed",
  "units",
  "designCfm",
  "beforeCfm",
  "afterCfm",
  "measuredCfm",
  "plusMinusCfm",
  "percent",
  "verdict",
  "note",
  "instrument",
  "instrumentSerial",
  "calibratedOn",
  "customer",
  "site",
  "foundVerdict",
  "calibrationDueOn",
] as const satisfies readonly (keyof OutletRecord)[];

type Field = OutletRecord[keyof OutletRecord];

/** An outlet without the names of its fields, for keeping many of them as JSON. */
export type PackedOutlet = readonly Field[];

/** Takes the names off an outlet. */
export function packOutlet(outlet: OutletRecord): PackedOutlet {
  return FIELDS.map((field) => outlet[field]);
}

/** Puts the names on again. */
export function unpackOutlet(packed: PackedOutlet): OutletRecord {
  return Object.fromEntries(FIELDS.map((field, index) => [field, packed[index] ?? null])) as unknown as OutletRecord;
}
