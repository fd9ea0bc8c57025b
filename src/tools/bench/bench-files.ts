import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import ExcelJS from "exceljs";
import { strToU8, zipSync } from "fflate";
import { openWorkbookFile, saveWorkbookFile } from "../../hosts/file/index.js";
import { formatAddress, patchWorkbook, readSheet, valueAt, type WorkbookEdit } from "../../workbook/xlsx/index.js";
import type { BenchRow } from "./bench-row.js";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";

const COLUMNS = 12;
const FORMULAS = 6;
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
  const sheet = readSheet(file.workbook, "Rooms");
  const edits = Array.from({ length: CHANGED }, (_, index): WorkbookEdit => {
    const before = Number(valueAt(sheet, index + 2, 1));
    return { kind: "value", sheet: "Rooms", address: formatAddress(index + 2, 1), value: before + 1 };
  });
  await saveWorkbookFile(file, patchWorkbook(file.workbook, edits));
}

async function changeByThem(path: string): Promise<void> {
  const workbook = new ExcelJS.Workbook();
  await workbook.xlsx.readFile(path);
  const sheet = workbook.getWorksheet("Rooms");
  if (sheet === undefined) throw new Error("exceljs found no sheet Rooms.");
  for (let index = 0; index < CHANGED; index += 1) {
    const cell = sheet.getCell(index + 2, 1);
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
      const bytes = makeWorkbook(count);
      await writeFile(path, bytes);
      const ours = await milliseconds(() => changeByUs(path));
      await writeFile(path, bytes);
      const theirs = await milliseconds(() => changeByThem(path));
      const name = `${count.toLocaleString("en-US")} rows of ${COLUMNS} numbers and ${FORMULAS} formulas, against exceljs`;
      rows.push({ name, ours, theirs, unit: "ms", target: null });
    }
    return rows;
  } finally {
    await rm(folder, { recursive: true });
  }
}

function makeWorkbook(rows: number): Uint8Array {
  const xml = [`<worksheet xmlns="${MAIN}"><sheetData>`];
  for (let row = 1; row <= rows; row += 1) {
    xml.push(`<row r="${row}">`);
    for (let column = 1; column <= COLUMNS; column += 1) {
      xml.push(
        `<c r="${formatAddress(row, column)}" s="1"><v>${((row * 7919 + column * 104_729) % 100_000) / 100}</v></c>`,
      );
    }
    for (let index = 1; index <= FORMULAS; index += 1) {
      const address = formatAddress(row, COLUMNS + index);
      xml.push(
        `<c r="${address}" s="1" cm="1"><f t="array" ref="${address}">_xldudf_VANE_AIRFLOW_FACE(A${row},B${row},C${row}:F${row},G${row},COUNT(C${row}:F${row}))</f><v>${row}</v></c>`,
      );
    }
    xml.push("</row>");
  }
  xml.push("</sheetData></worksheet>");
  return zipSync({
    "[Content_Types].xml": strToU8(
      `<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>`,
    ),
    "_rels/.rels": strToU8(
      `<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    ),
    "xl/workbook.xml": strToU8(
      `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets><sheet name="Rooms" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    ),
    "xl/_rels/workbook.xml.rels": strToU8(
      `<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${OFFICE}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
    ),
    "xl/worksheets/sheet1.xml": strToU8(xml.join("")),
  });
}
