import type { ArchiveCodec } from "../../xlsx/index.js";
import type { WorkbookPlan } from "../template/sheet-plan.js";
import type { CalculatedValues } from "./calculated-values.js";
import { packedPieces } from "./packed-pieces.js";
import { withRows } from "./plan-rows.js";
import { writtenParts } from "./written-parts.js";

/**
 * Writes a workbook of results as an .xlsx file. It holds no cell function of the add-in and does not ask for it. The
 * rows of its tables are made and packed one after the other, so that never all of them are there.
 *
 * @param values - The result of every formula but those of rows, by sheet and address
 */
export async function writeReport(
  plan: WorkbookPlan,
  values: CalculatedValues,
  codec: ArchiveCodec,
): Promise<Uint8Array> {
  const parts = await writtenParts(plan, {}, values);
  const rowsOf = new Map(plan.sheets.map(({ rows }, index) => [`xl/worksheets/sheet${index + 1}.xml`, rows]));
  return packedPieces(
    Object.entries(parts).map(([name, text]) => {
      const rows = rowsOf.get(name) ?? null;
      return { name, pieces: rows === null ? [text] : withRows(text, rows) };
    }),
    codec,
  );
}
