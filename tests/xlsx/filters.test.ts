import { describe, expect, it } from "vitest";
import { openWorkbook, readSheet, rowStateAt } from "../../src/xlsx/index.js";
import { plainWorkbook } from "./plain-workbook.js";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

const ROWS = `<row r="1" hidden="0"><c r="A1"><v>1</v></c></row><row r="2" spans="1:1" hidden="1"><c r="A2"><v>1</v></c></row>
  <row r="3" hidden="true"/><row r="4" ht="12"/><row r="7" outlineLevel="1" hidden="1"><c r="A7"><v>1</v></c></row>`;
const CRITERION = '<filterColumn colId="0"><filters><filter val="1"/></filters></filterColumn>';

interface Given {
  readonly before?: string;
  readonly rows?: string;
  readonly after?: string;
  readonly parts?: Record<string, string>;
}

/** The states of the first eight rows. */
function states({ before = "", rows = ROWS, after = "", parts = {} }: Given): string {
  const part = `<worksheet xmlns="${MAIN}" xmlns:r="${OFFICE}">${before}<sheetData>${rows}</sheetData>${after}</worksheet>`;
  const sheet = readSheet(openWorkbook(plainWorkbook("", parts, part), "test.xlsx"), "Sheet1");
  return [1, 2, 3, 4, 5, 6, 7, 8].map((row) => rowStateAt(sheet, row)[0]).join("");
}

const filtered = (range: string, inside: string) => `<autoFilter ref="${range}">${inside}</autoFilter>`;

const withTable = (filter: string): Given => ({
  after: '<tableParts count="1"><tablePart r:id="a"/></tableParts>',
  parts: {
    "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="a" Type="${OFFICE}/table" Target="../tables/table1.xml"/></Relationships>`,
    "xl/tables/table1.xml": `<table xmlns="${MAIN}" displayName="Outlets" ref="A1:A4">${filter}<tableColumns><tableColumn id="1" name="Tag"/></tableColumns></table>`,
  },
});

const withList = (name: string, before: string): Given => ({
  before,
  parts: {
    "xl/workbook.xml": `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets><sheet name="Sheet1" sheetId="1" r:id="rId1"/></sheets><definedNames><definedName name="${name}" localSheetId="0" hidden="1">'Sheet1'!$A$1:$A$4</definedName></definedNames></workbook>`,
  },
});

describe("a row of a file", () => {
  it("is in view unless the file says that it is hidden, however the file spells it", () => {
    expect(states({})).toBe("shhssshs");
    expect(states({ rows: `<!-- -->${ROWS}` })).toBe("shhssshs");
    expect(states({ rows: "" })).toBe("ssssssss");
  });

  it("is hidden by a filter where one with a criterion is at work on it, and else by hand", () => {
    expect(states({ after: filtered("A1:B4", CRITERION) })).toBe("sffssshs");
    expect(states({ after: filtered("A2:B7", CRITERION) })).toBe("shfsssfs");
    expect(states(withTable(filtered("A1:A4", CRITERION)))).toBe("sffssshs");
  });

  it.each([
    ["buttons alone", filtered("A1:B4", "")],
    ["a hidden button", filtered("A1:B4", '<filterColumn colId="0" hiddenButton="1"/>')],
    ["another program's note on a column", filtered("A1:B4", '<filterColumn colId="0"><extLst/></filterColumn>')],
    ["a filter that only sorts", filtered("A1:B4", '<sortState ref="A2:B4"><sortCondition ref="A2:A4"/></sortState>')],
    ["a range that is none", filtered("all", CRITERION)],
    [
      "a filter of another view",
      `<customSheetViews><customSheetView>${filtered("A1:B4", CRITERION)}</customSheetView></customSheetViews>`,
    ],
  ])("is hidden by hand where the sheet has %s", (_what, after) => {
    expect(states({ after })).toBe("shhssshs");
  });

  it("is hidden by hand where a table has buttons alone", () => {
    expect(states(withTable(filtered("A1:A4", "")))).toBe("shhssshs");
  });

  it("is hidden by an advanced filter where the sheet is in filter mode and no filter of its own says where", () => {
    const mode = '<sheetPr filterMode="1"/>';
    expect(states(withList("_xlnm._FilterDatabase", mode))).toBe("sffssshs");
    expect(states(withList("_xlnm._FilterDatabase", ""))).toBe("shhssshs");
    expect(states(withList("_xlnm.Print_Area", mode))).toBe("shhssshs");
    expect(states({ ...withList("_xlnm._FilterDatabase", mode), after: filtered("A6:A7", CRITERION) })).toBe(
      "shhsssfs",
    );
  });
});
