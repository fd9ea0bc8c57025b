import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import ExcelJS from "exceljs";
import { openWorkbookFile, saveWorkbookFile } from "../../hosts/file/index.js";
import { formatAddress, patchWorkbook, readSheet, valueAt, type WorkbookEdit } from "../../xlsx/index.js";
import type { BenchRow } from "./bench-row.js";
import { outletsWorkbook, ROW_FORMULAS } from "./outlets-workbook.js";

const SHEET = "Outlets";
/** Of the first reading. */
const COLUMN = 5;
const CHANGED = 10;
const REPEATS = 3;

async function milliseconds(act: () => Promise<void>): Promise<number> {
  let best = Number.POSITIVE_INFINITY;
  for (let repeat = 0; repeat < REPEATS; repeat += 1) {
    const start = performance.now();
    await act();
    best = Math.min(best, performance.now() - start);
  }
  return best;
}

/** Opens a workbook, changes ten readings, and saves it. */
async function changeByUs(path: string): Promise<void> {
  const file = await openWorkbookFile(path);
  const sheet = readSheet(file.workbook, SHEET);
  const edits = Array.from({ length: CHANGED }, (_, index): WorkbookEdit => {
    const before = Number(valueAt(sheet, index + 2, COLUMN));
    return { kind: "value", sheet: SHEET, address: formatAddress(index + 2, COLUMN), value: before + 1 };
  });
  await saveWorkbookFile(file, patchWorkbook(file.workbook, edits));
}

async function changeByThem(path: string): Promise<void> {
  const workbook = new ExcelJS.Workbook();
  await workbook.xlsx.readFile(path);
  const sheet = workbook.getWorksheet(SHEET);
  if (sheet === undefined) throw new Error(`exceljs found no sheet ${SHEET}.`);
  for (let index = 0; index < CHANGED; index += 1) {
    const cell = sheet.getCell(index + 2, COLUMN);
    cell.value = Number(cell.value) + 1;
  }
  await workbook.xlsx.writeFile(path);
}

/** Compares opening a workbook, changing ten readings and saving it with the same by a general reader and writer. */
export async function benchFiles(): Promise<readonly BenchRow[]> {
  const folder = await mkdtemp(join(tmpdir(), "vanesheet-bench-"));
  try {
    const path = join(folder, "bench.xlsx");
    const rows: BenchRow[] = [];
    for (const count of [200, 20_000]) {
      const bytes = outletsWorkbook(count);
      await writeFile(path, bytes);
      const ours = await milliseconds(() => changeByUs(path));
      await writeFile(path, bytes);
      const theirs = await milliseconds(() => changeByThem(path));
      const name = `${count.toLocaleString("en-US")} outlets, ${ROW_FORMULAS.length} formulas a row, against exceljs`;
      rows.push({ name, ours, theirs, unit: "ms", target: null });
    }
    return rows;
  } finally {
    await rm(folder, { recursive: true });
  }
}
