import ExcelJS from "exceljs";
import { describe, expect, it } from "vitest";
import { FUNCTION_SPELLINGS } from "../../../src/cells/index.js";
import { patchAndCalculate } from "../../../src/engine/index.js";
import {
  checkedFile,
  checkWorkbook,
  conversionsOf,
  fileSource,
  findLists,
  handoffOf,
  mappingEdits,
  mappingOf,
  plainAgain,
  proposeColumns,
  readList,
} from "../../../src/workbook/index.js";
import {
  cellAt,
  openWorkbook,
  patchWorkbook,
  readSheet,
  storedFormula,
  type Workbook,
} from "../../../src/xlsx/index.js";

/*
 * Sizes as they are written on a grille, in somebody's own sheet. Invented figures; areas by hand, an inch is 25.4 mm
 * exactly (NIST SP 811, B.8).
 */

type Row = readonly (string | number | Date | null)[];

async function sheetOf(headings: readonly string[], rows: readonly Row[]): Promise<Workbook> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet("Grilles");
  sheet.getRow(1).values = [...headings];
  rows.forEach((cells, index) => {
    sheet.getRow(2 + index).values = cells.map((cell) =>
      typeof cell === "string" && cell.startsWith("=") ? { formula: cell.slice(1), result: 175 } : cell,
    );
  });
  const own = openWorkbook(new Uint8Array(await workbook.xlsx.writeBuffer()), "own.xlsx");
  const lists = proposeColumns(fileSource(own));
  expect(lists.flatMap(({ missing }) => missing)).toEqual([]);
  return openWorkbook(patchWorkbook(own, mappingEdits(own, lists.map(mappingOf))), "own.xlsx");
}

const outletsOf = (workbook: Workbook) =>
  findLists(fileSource(workbook)).value.flatMap((list) => readList(list, "ip").outlets);

const TWO_CELLS = ["Grille", "Width (in)", "Height (in)", "Vel 1 (fpm)", "Vel 2 (fpm)", "Design CFM", "Actual CFM"];
const ONE_CELL = ["Grille", "Size (in)", "Vel 1 (fpm)", "Vel 2 (fpm)", "Design CFM", "Actual CFM"];

describe("A width and a height as written on a grille", () => {
  it("are read as the cell functions read them", async () => {
    const workbook = await sheetOf(TWO_CELLS, [
      ["S1", "12 1/2", 8, 400, 420, 200, "=D2*1"],
      ["S2", '12.5"', "8 in", 400, 420, 200, "=D3*1"],
      ["S3", "1' 2\"", 6, 400, 420, 200, "=D4*1"],
      ["S4", 14, 6, 400, 420, 200, "=D5*1"],
    ]);
    expect(outletsOf(workbook).map(({ width, height }) => [width, height])).toEqual([
      [12.5, 8],
      [12.5, 8],
      [14, 6],
      [14, 6],
    ]);
  });

  it("are told where they are a date, a calculation or a number as text, and are no size then", async () => {
    const workbook = await sheetOf(TWO_CELLS, [
      ["S1", new Date(Date.UTC(2026, 5, 8)), 8, 400, 420, 200, "=D2*1"],
      ["S2", "14-2", 6, 400, 420, 200, "=D3*1"],
      ["S3", "14", 6, 400, 420, 200, "=D4*1"],
      ["S4", 14, 6, 400, 420, 200, "=D5*1"],
      ["S5", 14, 6, 400, 420, 200, "=D6*1"],
    ]);
    expect(outletsOf(workbook).map(({ width }) => width)).toEqual([null, null, null, 14, 14]);
    const found = checkWorkbook(checkedFile(workbook)).findings.map(
      ({ cell, problem, action }) => `${cell} ${problem} ${action}`,
    );
    expect(found).toContainEqual(expect.stringMatching(/B2.*a date, as typing 6\/8 becomes.*6x8/));
    expect(found).toContainEqual(expect.stringMatching(/B3.*“14-2”.*calculation/));
    expect(found).toContainEqual(expect.stringMatching(/B4.*“14”.*stored as text/));
  });
});

describe("A size in one cell", () => {
  const rows: readonly Row[] = [
    ["R1", "14x6", 400, 420, 180, "=14*6/144*0.75*AVERAGE(C2:D2)"],
    ["R2", '12 1/2" x 8"', 400, 420, 180, "=12.5*8/144*0.75*AVERAGE(C3:D3)"],
    ["R3", "10 round", 400, 420, 180, "=PI()*5^2/144*0.75*AVERAGE(C4:D4)"],
  ];

  it("is converted to the function that reads it, with the same airflow", async () => {
    const workbook = await sheetOf(ONE_CELL, rows);
    const { value, left } = conversionsOf(outletsOf(workbook), { sheet: null, rows: null, column: null });
    expect(left).toEqual([]);
    expect(value.map(({ newFormula }) => newFormula)[0]).toBe("=VANE.AIRFLOW.FACE(B2,,C2:D2,0.75,COUNT(C2:D2))");
    const edits = value.map(({ sheet, address, newFormula }) => ({
      ...{ kind: "formula" as const, sheet, address, result: null, form: "dynamic" as const },
      formula: storedFormula(newFormula.slice(1), FUNCTION_SPELLINGS),
    }));
    const after = openWorkbook(patchAndCalculate(workbook, edits).bytes, "own.xlsx");
    const shown = (address: string) => cellAt(readSheet(after, "Grilles"), address)?.value;
    // 84, 100 and 25π in², three quarters free, at an average of 410 fpm.
    for (const [address, areaIn2] of [
      ["F2", 84],
      ["F3", 100],
      ["F4", 25 * Math.PI],
    ] as const) {
      expect(shown(address)).toBeCloseTo((areaIn2 / 144) * 0.75 * 410, 9);
    }
    const { values, plain } = handoffOf(after);
    expect(plain).toEqual([]);
    expect(values.map(({ address, reasons }) => [address, reasons.join(" ")])).toEqual(
      ["F2", "F3", "F4"].map((address) => [address, expect.stringContaining("Enter it as a number")]),
    );
    const [source] = fileSource(after).sheets;
    const back = source === undefined ? undefined : plainAgain(source, "F", (row) => `row ${row}`);
    expect(back?.value).toEqual([]);
    expect(back?.left).toHaveLength(3);
  });

  it("is told where Excel has turned 6/8 into a date", async () => {
    const workbook = await sheetOf(ONE_CELL, [...rows, ["R4", new Date(Date.UTC(2026, 5, 8)), 400, 420, 180, "=C5*1"]]);
    expect(outletsOf(workbook).at(-1)?.findings).toContainEqual(
      expect.objectContaining({ problem: expect.stringContaining("a date") }),
    );
  });
});
