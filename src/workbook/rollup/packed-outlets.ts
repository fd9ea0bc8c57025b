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

/** The outlets of a workbook by columns, for keeping them as JSON: a field that is the same for all stands once. */
export interface PackedOutlets {
  readonly count: number;
  readonly columns: readonly (Field | readonly Field[])[];
}

/** Packs the outlets of a workbook. */
export function packOutlets(outlets: readonly OutletRecord[]): PackedOutlets {
  const [first] = outlets;
  if (first === undefined) return { count: 0, columns: [] };
  return {
    count: outlets.length,
    columns: FIELDS.map((field) => {
      const shared = first[field];
      return outlets.every((outlet) => outlet[field] === shared) ? shared : outlets.map((outlet) => outlet[field]);
    }),
  };
}

/** Makes the outlets again. */
export function unpackOutlets({ count, columns }: PackedOutlets): readonly OutletRecord[] {
  const fieldAt = (column: number, row: number): Field => {
    const values = columns[column] ?? null;
    return Array.isArray(values) ? (values[row] as Field) : (values as Field);
  };
  return Array.from(
    { length: count },
    (_, row) =>
      Object.fromEntries(FIELDS.map((field, column) => [field, fieldAt(column, row)])) as unknown as OutletRecord,
  );
}
