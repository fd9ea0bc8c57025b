import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import ExcelJS from "exceljs";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { FUNCTION_SPELLINGS } from "../../../src/cells/index.js";
import { calculateXlsx } from "../../../src/engine/index.js";
import { type FileHost, fileHost, openWorkbookFile } from "../../../src/hosts/file/index.js";
import { HostError } from "../../../src/workbook/index.js";
import { cellAt, readSheet, storedFormula } from "../../../src/xlsx/index.js";
import { changedEntries } from "../../xlsx/raw-entries.js";
import { describeHostContract, type GivenCell, type GivenWorkbook } from "../contract.js";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "file-host-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function fileCell(given: GivenCell): ExcelJS.CellValue {
  if (typeof given !== "string" || !given.startsWith("=")) return given;
  return { formula: storedFormula(given.slice(1), FUNCTION_SPELLINGS) } as ExcelJS.CellFormulaValue;
}

async function hostOf({ sheets, names }: GivenWorkbook): Promise<FileHost> {
  const made = new ExcelJS.Workbook();
  for (const { name, cells, hiddenRows = [], mergedRanges = [] } of sheets) {
    const sheet = made.addWorksheet(name);
    // Without a height the library would leave out a row that has no cells yet.
    for (const row of hiddenRows) Object.assign(sheet.getRow(row), { hidden: true, height: 15 });
    for (const [at, given] of Object.entries(cells)) sheet.getCell(at).value = fileCell(given);
    for (const range of mergedRanges) sheet.mergeCells(range);
  }
  for (const [name, refersTo] of Object.entries(names)) made.definedNames.add(refersTo, name);
  const path = join(folder, "given.xlsx");
  await made.xlsx.writeFile(path);
  return fileHost(await openWorkbookFile(path), calculateXlsx);
}

describeHostContract("a workbook file", async (workbook) => ({
  host: await hostOf(workbook),
  close: async () => undefined,
}));

const OUTLET: GivenWorkbook = {
  sheets: [{ name: "Outlets", cells: { A1: 400, B1: 2.5, C1: "=VANE.AIRFLOW(A1,B1,COUNT(A1))", D1: "=C1-950" } }],
  names: {},
};

const refusal = (attempt: Promise<unknown>): Promise<unknown> =>
  attempt.then(
    () => undefined,
    (reason: unknown) => reason,
  );

describe("a workbook file as a host", () => {
  const path = () => join(folder, "given.xlsx");
  const stored = async (address: string) =>
    cellAt(readSheet((await openWorkbookFile(path())).workbook, "Outlets"), address);

  it("leaves the file alone until it is saved, and saves every result with what was written", async () => {
    const host = await hostOf(OUTLET);
    const before = readFileSync(path());
    await host.write([{ address: { sheet: "Outlets", range: "A1" }, cells: [[480]] }]);
    expect(readFileSync(path())).toEqual(before);
    await host.save();
    expect([(await stored("A1"))?.value, (await stored("C1"))?.value, (await stored("D1"))?.value]).toEqual([
      480, 1200, 250,
    ]);
    await host.write([{ address: { sheet: "Outlets", range: "A1" }, cells: [[400]] }]);
    await host.save();
    expect((await stored("D1"))?.value).toBe(50);
  });

  it("stores a call of ours as a spreadsheet program stores it", async () => {
    const host = await hostOf(OUTLET);
    const cells = [["=VANE.OPENING.RECT(14,6)", "=SUM(A1:B1)"]];
    await host.write([{ address: { sheet: "Outlets", range: "E1:F1" }, cells }]);
    await host.save();
    expect((await stored("E1"))?.formula).toMatchObject({ text: "_xldudf_VANE_OPENING_RECT(14,6)", isDynamic: true });
    expect((await stored("F1"))?.formula).toMatchObject({ text: "SUM(A1:B1)", kind: "plain" });
    expect((await stored("F1"))?.value).toBe(402.5);
  });

  it("is not saved over a file that has changed meanwhile", async () => {
    const host = await hostOf(OUTLET);
    await host.write([{ address: { sheet: "Outlets", range: "A1" }, cells: [[480]] }]);
    const other = readFileSync(resolve(import.meta.dirname, "../../../templates/job-summary.xlsx"));
    writeFileSync(path(), other);
    expect(await refusal(host.save())).toMatchObject({ message: expect.stringContaining("has changed on disk") });
    expect(readFileSync(path())).toEqual(other);
  });

  it("writes to the input cells of a protected sheet and to no other", async () => {
    const template = resolve(import.meta.dirname, "../../../templates/duct-traverse.xlsx");
    const host = fileHost(await openWorkbookFile(template), calculateXlsx);
    const write = (range: string) => host.write([{ address: { sheet: "Duct traverse", range }, cells: [[612]] }]);
    await write("D25");
    const refused = await refusal(write("A24"));
    expect(refused).toBeInstanceOf(HostError);
    expect(refused).toMatchObject({ message: expect.stringMatching(/Nothing was written.*A24 is locked/) });
  });

  it("adds the sheets of templates behind its own, and leaves those as they were", async () => {
    const host = await hostOf(OUTLET);
    await host.sheets();
    await host.save();
    const before = readFileSync(path());
    expect(await host.addTemplate("face-sweep")).toContain("Face sweep");
    const again = await host.addTemplate("before-after");
    expect(again).not.toContain("Job");
    await host.save();
    const names = (await openWorkbookFile(path())).workbook.sheets.map(({ name }) => name);
    expect(names[0]).toBe("Outlets");
    expect(names).toEqual(expect.arrayContaining(["Job", "Face sweep", ...again]));
    expect(changedEntries(before, readFileSync(path()))).not.toContain("xl/worksheets/sheet1.xml");
    await host.write([{ address: { sheet: "Job", range: "B6" }, cells: [["House 12"]] }]);
    const [later] = await host.addTemplate("duct-traverse");
    expect((await host.read([{ sheet: later ?? "", range: "A2" }]))[0]?.values).toEqual([["House 12"]]);
    await host.write([{ address: { sheet: "Job", range: "B13" }, cells: [["si"]] }]);
    expect((await host.read([{ sheet: "Job", range: "B13" }]))[0]?.values).toEqual([["si"]]);
  });
});
