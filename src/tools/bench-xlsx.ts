import { mkdtemp, rm, stat, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { strToU8, zipSync } from "fflate";
import { openWorkbookFile, saveWorkbookFile } from "../hosts/file/index.js";
import { formatAddress, formulaCellsOf, patchWorkbook, readSheet, type WorkbookEdit } from "../workbook/xlsx/index.js";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";

/** Times reading, changing and saving workbooks; figures go to the console. Run it on a machine that does nothing else. */
export async function benchXlsx(): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), "vanesheet-bench-"));
  try {
    for (const [rows, columns, formulas] of [
      [200, 12, 6],
      [20_000, 12, 6],
      [100_000, 12, 0],
    ] as const) {
      await benchOne(join(folder, "bench.xlsx"), rows, columns, formulas);
    }
  } finally {
    await rm(folder, { recursive: true });
  }
}

async function benchOne(path: string, rows: number, columns: number, formulas: number): Promise<void> {
  await writeFile(path, makeWorkbook(rows, columns, formulas));
  const megabytes = ((await stat(path)).size / 2 ** 20).toFixed(1);
  console.log(`${rows} rows of ${columns} cells and ${formulas} formulas, ${megabytes} MB`);
  const file = await time("open", () => openWorkbookFile(path));
  const sheet = await time("read the sheet", () => readSheet(file.workbook, "Rooms"));
  const edits: WorkbookEdit[] = [];
  await time("go through its formulas", () => {
    for (const { address } of formulaCellsOf(sheet))
      edits.push({ kind: "result", sheet: "Rooms", address, value: 1.25 });
  });
  for (let row = 2; row <= 11; row += 1) {
    edits.push({ kind: "value", sheet: "Rooms", address: formatAddress(row, 1), value: row / 3 });
  }
  const bytes = await time(`change ${edits.length} cells`, () => patchWorkbook(file.workbook, edits));
  await time("save", () => saveWorkbookFile(file, bytes));
  console.log(`  peak memory so far ${Math.round(process.resourceUsage().maxRSS / 1024)} MB`);
}

async function time<T>(title: string, act: () => T | Promise<T>): Promise<T> {
  const cpu = process.cpuUsage();
  const start = performance.now();
  const result = await act();
  const { user, system } = process.cpuUsage(cpu);
  const wall = Math.round(performance.now() - start);
  console.log(`  ${title}: ${wall} ms (${Math.round((user + system) / 1000)} ms of processor time)`);
  return result;
}

function makeWorkbook(rows: number, columns: number, formulas: number): Uint8Array {
  const xml = [`<worksheet xmlns="${MAIN}"><sheetData>`];
  for (let row = 1; row <= rows; row += 1) {
    xml.push(`<row r="${row}">`);
    for (let column = 1; column <= columns; column += 1) {
      xml.push(
        `<c r="${formatAddress(row, column)}" s="1"><v>${((row * 7919 + column * 104_729) % 100_000) / 100}</v></c>`,
      );
    }
    for (let index = 1; index <= formulas; index += 1) {
      const address = formatAddress(row, columns + index);
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

await benchXlsx();
