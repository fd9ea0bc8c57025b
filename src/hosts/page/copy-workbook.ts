import type { Model } from "@odoo/o-spreadsheet";
import { watchChanges } from "../../engine/index.js";
import type { BlockAddress, WorkbookHost } from "../../workbook/index.js";
import { cellFormula, cellValue, placesOf } from "./cells-of.js";
import { type PackedRows, packedRows, type Rows, type WorkbookCopy } from "./file/check-copy.js";
import { inSlices } from "./in-slices.js";

const ROWS_A_STEP = 50;

function* rowsOf(model: Model, address: BlockAddress): Generator<undefined, PackedRows> {
  const packed: string[] = [];
  const places = placesOf(model, address);
  for (let first = 0; first < places.length; first += ROWS_A_STEP) {
    const some = places.slice(first, first + ROWS_A_STEP);
    const rows: Rows = {
      values: some.map((row) => row.map((place) => cellValue(model, place))),
      formulas: some.map((row) => row.map((place) => cellFormula(model, place))),
    };
    packed.push(packedRows(rows));
    yield;
  }
  return packed;
}

/**
 * Takes a copy of the workbook in the grid, and lets the page answer meanwhile. What is entered meanwhile lets it begin
 * anew: a copy is of one moment.
 */
export async function copyWorkbook(
  model: Model,
  host: Pick<WorkbookHost, "sheets" | "names" | "tables" | "layouts">,
): Promise<WorkbookCopy> {
  let isChanged = false;
  const stop = watchChanges(model, () => {
    isChanged = true;
  });
  try {
    for (;;) {
      isChanged = false;
      const sheets = await host.sheets();
      const rows: Record<string, PackedRows> = {};
      for (const { name, usedRange } of sheets) {
        if (usedRange !== null && !isChanged)
          rows[name] = await inSlices(rowsOf(model, { sheet: name, range: usedRange }));
      }
      const tables = (await host.tables?.()) ?? [];
      const layouts = (await host.layouts?.(sheets)) ?? [];
      const names = [...(await host.names())];
      if (!isChanged) return { sheets, rows, tables, layouts, names };
    }
  } finally {
    stop();
  }
}
