import { readFileSync } from "node:fs";
import { unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { createModel, workbookData } from "../../src/engine/index.js";
import { JOB_NAMES } from "../../src/workbook/index.js";
import {
  appendWorkbook,
  formulaCellsOf,
  openWorkbook,
  patchWorkbook,
  readLooks,
  readSheet,
  type Workbook,
} from "../../src/xlsx/index.js";
import { plainWorkbook } from "./plain-workbook.js";

function template(name: string): Workbook {
  return openWorkbook(readFileSync(`templates/${name}.xlsx`), `${name}.xlsx`);
}

function appended(target: Workbook, source: Workbook) {
  const { edits, sheets } = appendWorkbook(target, source);
  return { sheets, workbook: openWorkbook(patchWorkbook(target, edits), target.fileName) };
}

/** Formulas whose result in the engine is not the one that the file stores. */
function wrongResults(workbook: Workbook, sheets: readonly string[]): readonly string[] {
  const { getters } = createModel(workbookData(workbook).data);
  return sheets.flatMap((name) =>
    [...formulaCellsOf(readSheet(workbook, name))].flatMap(({ address, row, column, value }) => {
      const sheetId = getters.getSheetIdByName(name) ?? "";
      const shown = getters.getEvaluatedCell({ sheetId, col: column - 1, row: row - 1 }).value ?? "";
      return shown === (value ?? "") ? [] : [`${name}!${address}`];
    }),
  );
}

/** A room balance without the sheet of the job, which every template has. */
const BALANCE_SHEETS = template("room-balance").sheets.flatMap(({ name }) => (name === "Job" ? [] : [name]));

describe("adding a template's sheets to a workbook file", () => {
  it("shares the sheet of the job, and leaves every part but the lists as it was", () => {
    const target = template("duct-traverse");
    const { workbook, sheets } = appended(target, template("room-balance"));
    expect(sheets).toEqual(BALANCE_SHEETS);
    expect(workbook.sheets.map(({ name }) => name)).toEqual(["Job", "Duct traverse", "Duct traverse notes", ...sheets]);
    expect(workbook.names.filter(({ name }) => name === "Job_Units")).toHaveLength(1);
    const [before, after] = [unzipSync(target.archive.bytes), unzipSync(workbook.archive.bytes)];
    const changed = Object.keys(before).filter(
      (name) => !Buffer.from(before[name] ?? []).equals(Buffer.from(after[name] ?? [])),
    );
    expect(changed.sort()).toEqual([
      "[Content_Types].xml",
      "xl/_rels/workbook.xml.rels",
      "xl/styles.xml",
      "xl/workbook.xml",
    ]);
    expect(wrongResults(workbook, sheets)).toEqual([]);
  });

  it("gives sheets, tables and names that are taken others, and formulas follow", () => {
    const target = openWorkbook(plainWorkbook(`<row r="1"><c r="A1"><v>1</v></c></row>`), "own.xlsx");
    const once = appended(target, template("room-balance"));
    const jobless = appended(once.workbook, template("room-balance"));
    expect(once.sheets[0]).toBe("Job");
    expect(jobless.sheets).toEqual(BALANCE_SHEETS.map((name) => `${name} (2)`));
    const outlets = readSheet(jobless.workbook, "Outlets (2)");
    expect(outlets.tables.map(({ name }) => name)).toEqual(["Outlets_2"]);
    const rooms = [...formulaCellsOf(readSheet(jobless.workbook, "Rooms (2)"))]
      .map(({ formula }) => formula.text)
      .join(" ");
    expect(rooms).toContain("'Outlets (2)'!");
    expect(rooms).not.toMatch(/[^'(]Outlets!/);
    expect(outlets.validations.map(({ formula1 }) => formula1)).toContain("'Rooms (2)'!$A$6:$A$35");
    expect(wrongResults(jobless.workbook, [...once.sheets, ...jobless.sheets])).toEqual([]);
  });

  it("keeps a name that means something else in the workbook, and lets the new one count on its sheet alone", () => {
    const names = `<definedNames><definedName name="job_units">Sheet1!$A$1</definedName></definedNames>`;
    const part = `<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="Sheet1" sheetId="1" r:id="rId1"/></sheets>${names}</workbook>`;
    const target = openWorkbook(plainWorkbook("", { "xl/workbook.xml": part }), "own.xlsx");
    const { workbook } = appended(target, template("face-sweep"));
    const units = workbook.names.filter(({ name }) => name.toLowerCase() === "job_units");
    expect(units.map(({ sheet, refersTo }) => [sheet, refersTo])).toEqual([
      [undefined, "Sheet1!$A$1"],
      ["Job", JOB_NAMES.find(({ name }) => name === "Job_Units")?.refersTo],
    ]);
  });

  it("looks as the template does, whatever styles the workbook has", () => {
    const source = template("before-after");
    const { workbook, sheets } = appended(template("job-summary"), source);
    const [before, after] = [readLooks(source), readLooks(workbook)];
    for (const name of sheets) {
      const [from, to] = [readSheet(source, name), readSheet(workbook, name)];
      expect(to.cells.cellCount).toBe(from.cells.cellCount);
      for (let index = 0; index < from.cells.cellCount; index += 1) {
        const [one, other] = [from.cells.styles[index] ?? 0, to.cells.styles[index] ?? 0];
        expect(after.cells[other]).toEqual(before.cells[one]);
      }
    }
  });
});
