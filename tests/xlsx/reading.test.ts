import ExcelJS from "exceljs";
import { strToU8, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import {
  cellAt,
  cellsOf,
  formulaCellsOf,
  numberKindOf,
  openWorkbook,
  readSheet,
  valueAt,
} from "../../src/xlsx/index.js";
import { plainWorkbook } from "./plain-workbook.js";

function sheetOf(sheetXml: string, more: Record<string, string> = {}) {
  return readSheet(openWorkbook(plainWorkbook(sheetXml, more), "test.xlsx"), "Sheet1");
}

describe("reading a workbook that another library wrote", () => {
  it("finds values, formulas, tables, notes, rules and names", async () => {
    const book = new ExcelJS.Workbook();
    const rooms = book.addWorksheet("Rooms");
    rooms.getCell("A1").value = "Größe & <Maß>";
    rooms.getCell("B2").value = 425.5;
    rooms.getCell("C2").value = { formula: "B2*2", result: 851 };
    rooms.getCell("D2").value = true;
    rooms.getCell("E2").value = { error: "#N/A" };
    rooms.getCell("F2").value = { richText: [{ text: "bold", font: { bold: true } }, { text: " plain" }] };
    rooms.getCell("B3").value = 0.5;
    rooms.getCell("B3").numFmt = "0%";
    rooms.getCell("B4").value = new Date(Date.UTC(2024, 4, 1));
    rooms.getCell("A1").note = "measured twice";
    rooms.mergeCells("A20:B21");
    rooms.getCell("B5").dataValidation = {
      type: "decimal",
      operator: "between",
      formulae: [0, 9999],
      allowBlank: true,
    };
    rooms.addTable({ name: "Outlets", ref: "H1", columns: [{ name: "Tag" }, { name: "Size" }], rows: [["S1", 12]] });
    book.addWorksheet("Notes").state = "hidden";
    book.definedNames.add("Rooms!$B$2", "Design");

    const workbook = openWorkbook(new Uint8Array(await book.xlsx.writeBuffer()), "rooms.xlsx");
    expect(workbook.sheets.map(({ name, visibility }) => [name, visibility])).toEqual([
      ["Rooms", "visible"],
      ["Notes", "hidden"],
    ]);
    expect(workbook.names).toEqual([{ name: "Design", sheet: undefined, refersTo: "Rooms!$B$2", isHidden: false }]);
    const sheet = readSheet(workbook, "rooms");
    expect(cellAt(sheet, "A1")?.value).toBe("Größe & <Maß>");
    expect(cellAt(sheet, "B2")?.value).toBe(425.5);
    expect(cellAt(sheet, "C2")).toMatchObject({ value: 851, formula: { kind: "plain", text: "B2*2" } });
    expect(cellAt(sheet, "D2")?.value).toBe(true);
    expect(cellAt(sheet, "E2")?.value).toEqual({ error: "#N/A" });
    expect(cellAt(sheet, "F2")?.value).toBe("bold plain");
    expect(workbook.styles[cellAt(sheet, "B3")?.style ?? 0]?.numberKind).toBe("percent");
    expect(workbook.styles[cellAt(sheet, "B4")?.style ?? 0]?.numberKind).toBe("date");
    // 1 May 2024 is day 45413 of the 1900 system: 45292 (1 January) + 31 + 29 + 31 + 30.
    expect(cellAt(sheet, "B4")?.value).toBe(45_413);
    expect(cellAt(sheet, "Z99")).toBeUndefined();
    expect(valueAt(sheet, 99, 26)).toBeNull();
    expect(sheet.comments).toMatchObject([{ address: "A1", text: "measured twice" }]);
    expect(sheet.mergedRanges).toEqual([{ firstRow: 20, firstColumn: 1, lastRow: 21, lastColumn: 2 }]);
    expect(sheet.validations).toMatchObject([{ type: "decimal", formula1: "0", formula2: "9999", allowsBlank: true }]);
    expect(sheet.tables).toMatchObject([{ name: "Outlets", columns: [{ name: "Tag" }, { name: "Size" }] }]);
  });
});

describe("reading cells", () => {
  it("spells a shared formula out for each cell that shares it", () => {
    const sheet = sheetOf(
      `<row r="1"><c r="A1"><v>1</v></c><c r="B1"><f t="shared" ref="B1:B3" si="0">A1*$A$1</f><v>1</v></c></row>
       <row r="2"><c r="B2"><f t="shared" si="0"/><v>2</v></c></row>
       <row r="3"><c r="B3"><f t="shared" si="0"/></c></row>
       <row r="4"><c r="B4"><f t="shared" ref="B4:B5" si="0">A4+1</f></c></row>
       <row r="5"><c r="B5"><f t="shared" si="0"/></c></row>`,
    );
    expect([...formulaCellsOf(sheet)].map(({ address, formula }) => [address, formula.text])).toEqual([
      ["B1", "A1*$A$1"],
      ["B2", "A2*$A$1"],
      ["B3", "A3*$A$1"],
      ["B4", "A4+1"],
      ["B5", "A5+1"],
    ]);
    expect(cellAt(sheet, "B3")?.formula?.storedAt).toEqual({ row: 1, column: 2 });
  });

  it("tells dynamic arrays, older arrays and data tables apart", () => {
    const sheet = sheetOf(
      `<row r="1"><c r="A1" cm="1"><f t="array" ref="A1:A3">B1:B3*2</f><v>2</v></c>
       <c r="C1"><f t="array" ref="C1">SUM(B1:B3)</f><v>2</v></c>
       <c r="D1"><f t="dataTable" ref="D1:E2" dt2D="1" dtr="1" r1="A1" r2="A2"/><v>2</v></c></row>`,
    );
    expect(cellAt(sheet, "A1")?.formula).toMatchObject({ kind: "array", isDynamic: true, text: "B1:B3*2" });
    expect(cellAt(sheet, "C1")?.formula).toMatchObject({ kind: "array", isDynamic: false });
    expect(cellAt(sheet, "D1")?.formula).toMatchObject({ kind: "dataTable", text: "" });
  });

  it("counts on where rows and cells do not say where they are", () => {
    const sheet = sheetOf(`<row><c><v>1</v></c><c r="D1"><v>2</v></c><c><v>3</v></c></row><row><c><v>4</v></c></row>`);
    expect([...cellsOf(sheet)].map(({ address, value }) => [address, value])).toEqual([
      ["A1", 1],
      ["D1", 2],
      ["E1", 3],
      ["A2", 4],
    ]);
  });

  it("reads dates, texts and blanks in all their spellings", () => {
    const sheet = sheetOf(
      `<row r="1"><c r="A1" t="d"><v>2024-05-01T12:00:00</v></c><c r="B1" t="inlineStr"><is><t xml:space="preserve"> a_x000D_b </t></is></c>
       <c r="C1" t="inlineStr"><is><r><t>one</t></r><r><t> two</t></r><rPh sb="0" eb="1"><t>no</t></rPh></is></c>
       <c r="D1" t="str"><f>""</f><v></v></c><c r="E1" s="0"/><c r="F1"><v></v></c><c r="G1" t="str"><v><![CDATA[<&]]></v></c>
       <c r="H1"><v>1.5E-3</v></c><c r="I1" t="b"><v>0</v></c></row>`,
    );
    const values = [...cellsOf(sheet)].map(({ value }) => value);
    expect(values).toEqual([45_413.5, " a\rb ", "one two", "", null, null, "<&", 0.0015, false]);
  });

  it("reads a part whose elements carry a prefix", () => {
    const bytes = plainWorkbook(
      "",
      {},
      `<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:sheetData><x:row r="1"><x:c r="A1"><x:v>7</x:v></x:c></x:row></x:sheetData></x:worksheet>`,
    );
    const sheet = readSheet(openWorkbook(bytes, "test.xlsx"), "Sheet1");
    expect(cellAt(sheet, "A1")?.value).toBe(7);
    expect(sheet.layout.prefix).toBe("x:");
  });

  it("gives byte offsets that fit text of several bytes a letter, beyond one chunk", () => {
    const rows = Array.from({ length: 3000 }, (_, index) => {
      return `<row r="${index + 1}"><c r="A${index + 1}" t="str"><v>é日😀${index}</v></c></row>`;
    });
    const xml = strToU8(
      `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>${rows.join("")}</sheetData></worksheet>`,
    );
    const bytes = plainWorkbook("", {}, new TextDecoder().decode(xml));
    const { cells, layout } = readSheet(openWorkbook(bytes, "test.xlsx"), "Sheet1");
    const slice = (start: number | undefined, end: number | undefined) =>
      new TextDecoder().decode(xml.subarray(start, end));
    for (const index of [0, 1500, 2999]) {
      const cell = `<c r="A${index + 1}" t="str"><v>é日😀${index}</v></c>`;
      expect(slice(cells.starts[index], cells.ends[index])).toBe(cell);
      expect(slice(cells.rowStarts[index], cells.rowEnds[index])).toBe(`<row r="${index + 1}">${cell}</row>`);
    }
    expect(slice(layout.sheetData.closeStart, layout.sheetData.end)).toBe("</sheetData>");
  });

  it("finds the workbook wherever the package says that it is", () => {
    const sheetXml = `<worksheet xmlns="http://purl.oclc.org/ooxml/spreadsheetml/main"><sheetData><row r="1"><c r="A1"><v>1</v></c></row></sheetData></worksheet>`;
    const relationships = (id: string, kind: string, target: string) =>
      `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="${id}" Type="http://purl.oclc.org/ooxml/officeDocument/relationships/${kind}" Target="${target}"/></Relationships>`;
    const bytes = zipSync({
      "[Content_Types].xml": strToU8(
        `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/></Types>`,
      ),
      "_rels/.rels": strToU8(relationships("a", "officeDocument", "/deep/er/book.xml")),
      "deep/er/book.xml": strToU8(
        `<workbook xmlns="http://purl.oclc.org/ooxml/spreadsheetml/main" xmlns:q="http://purl.oclc.org/ooxml/officeDocument/relationships"><sheets><sheet name="S" sheetId="1" q:id="z"/></sheets></workbook>`,
      ),
      "deep/er/_rels/book.xml.rels": strToU8(relationships("z", "worksheet", "../s%20heet.xml")),
      "deep/s heet.xml": strToU8(sheetXml),
    });
    expect(cellAt(readSheet(openWorkbook(bytes, "test.xlsx"), "S"), "A1")?.value).toBe(1);
  });
});

describe("elements that are no rows and no cells", () => {
  it("are passed over with all that stands in them", () => {
    const odd = '<x r="B1"><f>1+1</f><v>7</v><y/></x>';
    const sheet = sheetOf(
      `<!-- --><row r="1">${odd}<c r="A1"><f>2+2</f><v>4</v></c>${odd}</row><z><c r="A9"><v>9</v></c></z><row r="2"><c r="A2"><v>2</v></c></row>`,
    );
    expect([...cellsOf(sheet)].map(({ address, value }) => [address, value])).toEqual([
      ["A1", 4],
      ["A2", 2],
    ]);
    expect(cellAt(sheet, "A1")?.formula?.text).toBe("2+2");
  });
});

describe("number formats", () => {
  it.each([
    ["General", "general"],
    ["0.00", "number"],
    ["0.0%", "percent"],
    ["yyyy-mm-dd", "date"],
    ["[h]:mm", "date"],
    ['0 "cfm days"', "number"],
    ["[Red]0.0", "number"],
    ["#,##0\\ \\m", "number"],
    ["@", "text"],
    ["[$-409]d-mmm", "date"],
  ])("%s is %s", (format, kind) => {
    expect(numberKindOf(format)).toBe(kind);
  });
});
