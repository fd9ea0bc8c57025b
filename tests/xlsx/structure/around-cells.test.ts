import { strFromU8 } from "fflate";
import { describe, expect, it } from "vitest";
import {
  deleteRows,
  growTable,
  insertRows,
  openWorkbook,
  readSheet,
  sortTable,
  type Workbook,
} from "../../../src/xlsx/index.js";
import { plainParts, zipParts } from "../plain-workbook.js";
import { rawEntries } from "../raw-entries.js";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const X14 = "http://schemas.microsoft.com/office/spreadsheetml/2009/9/main";
const XM = "http://schemas.microsoft.com/office/excel/2006/main";

/** A sheet with the elements given before and after its cells. */
function withSheet(rows: string, after: string, before = "", more: Record<string, string> = {}): Workbook {
  const sheet = `<worksheet xmlns="${MAIN}" xmlns:r="${OFFICE}" xmlns:x14="${X14}" xmlns:xm="${XM}">${before}<sheetData>${rows}</sheetData>${after}</worksheet>`;
  return openWorkbook(zipParts({ ...plainParts("", sheet), ...more }), "plain.xlsx");
}

const partOf = ({ archive }: Workbook, name = "xl/worksheets/sheet1.xml") =>
  strFromU8(rawEntries(archive.bytes).find((entry) => entry.name === name)?.content ?? new Uint8Array());

const numbers = (from: number, to: number) =>
  Array.from(
    { length: to - from + 1 },
    (_, index) => `<row r="${from + index}"><c r="A${from + index}"><v>${from + index}</v></c></row>`,
  ).join("");

const inserted = (workbook: Workbook, row: number, count = 2) =>
  partOf(insertRows(workbook, { sheet: "Sheet1", row, count }).workbook);
const deleted = (workbook: Workbook, row: number, count = 2) =>
  partOf(deleteRows(workbook, { sheet: "Sheet1", row, count }).workbook);

describe("what a sheet says beside its cells, with two rows more at row 5, and without rows 5 and 6", () => {
  it.each([
    [
      '<mergeCells count="2"><mergeCell ref="A4:B7"/><mergeCell ref="C5:C6"/></mergeCells>',
      '<mergeCells count="2"><mergeCell ref="A4:B9"/><mergeCell ref="C7:C8"/></mergeCells>',
      '<mergeCells count="1"><mergeCell ref="A4:B5"/></mergeCells>',
    ],
    [
      '<mergeCells count="1"><mergeCell ref="C5:C7"/></mergeCells>',
      '<mergeCells count="1"><mergeCell ref="C7:C9"/></mergeCells>',
      "",
    ],
    [
      '<hyperlinks><hyperlink ref="A6" location="Sheet1!A9"/></hyperlinks>',
      '<hyperlinks><hyperlink ref="A8" location="Sheet1!A11"/></hyperlinks>',
      "",
    ],
    [
      '<rowBreaks count="2" manualBreakCount="2"><brk id="4" max="9" man="1"/><brk id="7" man="1"/></rowBreaks>',
      '<rowBreaks count="2" manualBreakCount="2"><brk id="4" max="9" man="1"/><brk id="9" man="1"/></rowBreaks>',
      '<rowBreaks count="2" manualBreakCount="2"><brk id="4" max="9" man="1"/><brk id="5" man="1"/></rowBreaks>',
    ],
    [
      '<colBreaks count="1"><brk id="7" max="9"/></colBreaks>',
      '<colBreaks count="1"><brk id="7" max="9"/></colBreaks>',
      '<colBreaks count="1"><brk id="7" max="9"/></colBreaks>',
    ],
    [
      '<protectedRanges><protectedRange sqref="B2:B4 D6" name="typed"/></protectedRanges>',
      '<protectedRanges><protectedRange sqref="B2:B6 D8" name="typed"/></protectedRanges>',
      '<protectedRanges><protectedRange sqref="B2:B4" name="typed"/></protectedRanges>',
    ],
    [
      '<ignoredErrors><ignoredError sqref="A1:A9" numberStoredAsText="1"/></ignoredErrors>',
      '<ignoredErrors><ignoredError sqref="A1:A11" numberStoredAsText="1"/></ignoredErrors>',
      '<ignoredErrors><ignoredError sqref="A1:A7" numberStoredAsText="1"/></ignoredErrors>',
    ],
    [
      '<autoFilter ref="A2:C9"><filterColumn colId="0"/></autoFilter>',
      '<autoFilter ref="A2:C11"><filterColumn colId="0"/></autoFilter>',
      '<autoFilter ref="A2:C7"><filterColumn colId="0"/></autoFilter>',
    ],
    [
      '<conditionalFormatting sqref="A2:A9"><cfRule type="expression" priority="1"><formula>AND($A2&gt;$B$6,A2&lt;9)</formula></cfRule></conditionalFormatting>',
      '<conditionalFormatting sqref="A2:A11"><cfRule type="expression" priority="1"><formula>AND($A2&gt;$B$8,A2&lt;9)</formula></cfRule></conditionalFormatting>',
      '<conditionalFormatting sqref="A2:A7"><cfRule type="expression" priority="1"><formula>AND($A2&gt;#REF!,A2&lt;9)</formula></cfRule></conditionalFormatting>',
    ],
    [
      '<conditionalFormatting sqref="A9"><cfRule type="dataBar"><dataBar><cfvo type="formula" val="$B$8"/><cfvo type="num" val="7"/></dataBar></cfRule></conditionalFormatting>',
      '<conditionalFormatting sqref="A11"><cfRule type="dataBar"><dataBar><cfvo type="formula" val="$B$10"/><cfvo type="num" val="7"/></dataBar></cfRule></conditionalFormatting>',
      '<conditionalFormatting sqref="A7"><cfRule type="dataBar"><dataBar><cfvo type="formula" val="$B$6"/><cfvo type="num" val="7"/></dataBar></cfRule></conditionalFormatting>',
    ],
    [
      '<dataValidations count="2"><dataValidation type="list" sqref="A5:A6"><formula1>$D$5:$D$9</formula1></dataValidation><dataValidation type="whole" sqref="B4"><formula1>B3</formula1></dataValidation></dataValidations>',
      '<dataValidations count="2"><dataValidation type="list" sqref="A7:A8"><formula1>$D$7:$D$11</formula1></dataValidation><dataValidation type="whole" sqref="B4:B6"><formula1>B3</formula1></dataValidation></dataValidations>',
      '<dataValidations count="1"><dataValidation type="whole" sqref="B4"><formula1>B3</formula1></dataValidation></dataValidations>',
    ],
    [
      '<extLst><ext uri="{1}"><x14:dataValidations count="1"><x14:dataValidation type="list"><x14:formula1><xm:f>Sheet1!$D$5:$D$6</xm:f></x14:formula1><xm:sqref>A6</xm:sqref></x14:dataValidation></x14:dataValidations></ext></extLst>',
      '<extLst><ext uri="{1}"><x14:dataValidations count="1"><x14:dataValidation type="list"><x14:formula1><xm:f>Sheet1!$D$7:$D$8</xm:f></x14:formula1><xm:sqref>A8</xm:sqref></x14:dataValidation></x14:dataValidations></ext></extLst>',
      "",
    ],
    [
      '<extLst><ext uri="{1}"><x14:sparklineGroups><x14:sparklineGroup><x14:sparklines><x14:sparkline><xm:f>Sheet1!B4:E4</xm:f><xm:sqref>F4</xm:sqref></x14:sparkline><x14:sparkline><xm:f>Sheet1!B6:E6</xm:f><xm:sqref>F6</xm:sqref></x14:sparkline></x14:sparklines></x14:sparklineGroup></x14:sparklineGroups></ext></extLst>',
      '<extLst><ext uri="{1}"><x14:sparklineGroups><x14:sparklineGroup><x14:sparklines><x14:sparkline><xm:f>Sheet1!B4:E4</xm:f><xm:sqref>F4</xm:sqref></x14:sparkline><x14:sparkline><xm:f>Sheet1!B8:E8</xm:f><xm:sqref>F8</xm:sqref></x14:sparkline></x14:sparklines></x14:sparklineGroup></x14:sparklineGroups></ext></extLst>',
      '<extLst><ext uri="{1}"><x14:sparklineGroups><x14:sparklineGroup><x14:sparklines><x14:sparkline><xm:f>Sheet1!B4:E4</xm:f><xm:sqref>F4</xm:sqref></x14:sparkline></x14:sparklines></x14:sparklineGroup></x14:sparklineGroups></ext></extLst>',
    ],
  ])("%s", (before, withMore, withFewer) => {
    const workbook = withSheet(numbers(1, 9), before);
    const tail = (part: string) =>
      part.slice(part.indexOf("</sheetData>") + "</sheetData>".length, -"</worksheet>".length);
    expect(tail(inserted(workbook, 5))).toBe(withMore);
    expect(tail(deleted(workbook, 5))).toBe(withFewer);
  });

  it("freezes rows that come among the frozen ones, keeps what is selected, and covers what is there", () => {
    const views = (rows: number, top: number, cell: string, end: number) =>
      `<dimension ref="A1:A${end}"/><sheetViews><sheetView workbookViewId="0"><pane xSplit="1" ySplit="${rows}" topLeftCell="B${top}" state="frozen" activePane="bottomRight"/><selection pane="bottomRight" activeCell="${cell}" sqref="${cell}"/></sheetView></sheetViews>`;
    const workbook = withSheet(numbers(1, 9), "", views(3, 4, "B7", 9));
    expect(inserted(workbook, 2)).toContain(views(5, 6, "B9", 11));
    expect(inserted(workbook, 5)).toContain(views(3, 4, "B9", 11));
    expect(deleted(workbook, 2, 1)).toContain(views(2, 3, "B6", 8));
  });

  it("merges new rows as the rows around them are merged", () => {
    const merges = (rows: readonly number[]) => rows.map((row) => `<mergeCell ref="B${row}:C${row}"/>`).join("");
    const workbook = withSheet(numbers(1, 9), `<mergeCells count="4">${merges([4, 5, 6, 7])}</mergeCells>`);
    expect(inserted(workbook, 6, 1)).toContain(
      `<mergeCells count="5">${merges([4, 5, 7, 8])}${merges([6])}</mergeCells>`,
    );
  });

  it("refuses rows among a rule that reads another list row by row", () => {
    const rule =
      '<conditionalFormatting sqref="A12:A15"><cfRule type="expression" priority="1"><formula>A12&gt;A2</formula></cfRule></conditionalFormatting>';
    const workbook = withSheet(numbers(1, 20), rule);
    expect(() => insertRows(workbook, { sheet: "Sheet1", row: 14, count: 1 })).toThrow(
      /sheet “Sheet1”, the conditional format of A12:A15: reads “A12>A2”, which cannot follow rows of “Sheet1”/,
    );
    expect(inserted(workbook, 8, 1)).toContain(
      'sqref="A13:A16"><cfRule type="expression" priority="1"><formula>A13&gt;A2<',
    );
  });
});

describe("formulas that share their text or fill blocks", () => {
  const shared = `<row r="1"><c r="B1"><f t="shared" ref="B1:B4" si="0">A1*2</f><v>2</v></c></row><row r="2"><c r="B2"><f t="shared" si="0"/><v>4</v></c></row><row r="3"><c r="B3"><f t="shared" si="0"/><v>6</v></c></row><row r="4"><c r="B4"><f t="shared" si="0"/><v>8</v></c></row>`;
  const formulas = (part: string) =>
    [...part.matchAll(/<c r="(B\d+)"[^>]*>(<f.*?(?:\/>|<\/f>))/g)].map(([, cell, f]) => `${cell} ${f}`);

  it("go on sharing it while they move as one, and spell it out where they part", () => {
    expect(formulas(inserted(withSheet(shared, ""), 1, 1))).toEqual([
      'B2 <f t="shared" ref="B2:B5" si="0">A2*2</f>',
      'B3 <f t="shared" si="0"/>',
      'B4 <f t="shared" si="0"/>',
      'B5 <f t="shared" si="0"/>',
    ]);
    expect(formulas(inserted(withSheet(shared, ""), 3, 1))).toEqual([
      "B1 <f>A1*2</f>",
      "B2 <f>A2*2</f>",
      "B3 <f>A3*2</f>",
      "B4 <f>A4*2</f>",
      "B5 <f>A5*2</f>",
    ]);
    expect(formulas(deleted(withSheet(shared, ""), 1, 1))).toEqual([
      "B1 <f>A1*2</f>",
      "B2 <f>A2*2</f>",
      "B3 <f>A3*2</f>",
    ]);
  });

  it("are not copied where the rows around have other ones", () => {
    const odd = `<row r="1"><c r="B1"><f>A1*2</f></c></row><row r="2"><c r="B2" s="0"><f>SUM(A1:A9)</f></c></row><row r="3"><c r="B3"><f>A3*2</f></c></row>`;
    expect(formulas(inserted(withSheet(odd, ""), 3, 1))).toEqual([
      "B1 <f>A1*2</f>",
      "B2 <f>SUM(A1:A10)</f>",
      "B4 <f>A4*2</f>",
    ]);
  });

  it("refuses to part a block that one formula fills, and moves it whole", () => {
    const block = `<row r="3"><c r="B3"><f t="array" ref="B3:B5">A3:A5*2</f><v>1</v></c></row><row r="4"><c r="B4"><v>1</v></c></row><row r="5"><c r="B5"><v>1</v></c></row>`;
    const workbook = withSheet(block, "");
    expect(() => insertRows(workbook, { sheet: "Sheet1", row: 4, count: 1 })).toThrow(
      /B3:B5: is filled by one array formula/,
    );
    expect(() => deleteRows(workbook, { sheet: "Sheet1", row: 5, count: 1 })).toThrow(/is filled by one array formula/);
    expect(formulas(inserted(workbook, 2, 1))).toEqual(['B4 <f t="array" ref="B4:B6">A4:A6*2</f>']);
    expect(formulas(deleted(workbook, 2, 4))).toEqual([]);
  });

  it("moves the input cells of a what-if table with it", () => {
    const table = `<row r="6"><c r="B6"><f t="dataTable" ref="B6:B7" dt2D="0" dtr="0" r1="A4"/><v>1</v></c></row><row r="7"><c r="B7"><v>2</v></c></row>`;
    const workbook = withSheet(table, "");
    expect(formulas(inserted(workbook, 2, 1))).toEqual(['B7 <f t="dataTable" ref="B7:B8" dt2D="0" dtr="0" r1="A5"/>']);
    expect(() => deleteRows(workbook, { sheet: "Sheet1", row: 4, count: 1 })).toThrow(
      /is a what-if table over A4, which would go/,
    );
  });
});

describe("parts that are spelled otherwise", () => {
  it("rows and cells without addresses, prefixes, and single quotes", () => {
    const sheet = `<x:worksheet xmlns:x="${MAIN}"><x:sheetData><x:row><x:c><x:v>1</x:v></x:c></x:row><x:row r='2'><x:c r='A2'><x:f>A1+1</x:f><x:v>2</x:v></x:c><x:c r='B2'><x:v>9</x:v></x:c></x:row></x:sheetData></x:worksheet>`;
    const workbook = openWorkbook(zipParts(plainParts("", sheet)), "prefix.xlsx");
    const after = insertRows(workbook, { sheet: "Sheet1", row: 1, count: 1 }).workbook;
    expect(partOf(after)).toContain(
      '<x:sheetData><x:row r="2"><x:c><x:v>1</x:v></x:c></x:row><x:row r="3"><x:c r="A3"><x:f>A2+1</x:f><x:v>2</x:v></x:c><x:c r="B3">',
    );
  });
});

const TABLE_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml";

/** A sheet with a table of names, amounts and a running total in A2:C6, under a line of sums, and notes below. */
function withTable(
  more: { readonly totals?: boolean; readonly rows?: string; readonly after?: string } = {},
): Workbook {
  const amounts = [30, 10, 20, 40];
  const body = amounts
    .map((amount, index) => {
      const row = 3 + index;
      return `<row r="${row}"><c r="A${row}" t="inlineStr"><is><t>S-${amount}</t></is></c><c r="B${row}"><v>${amount}</v></c><c r="C${row}"><f>SUM(B$3:B${row})</f><v>1</v></c><c r="D${row}"><f>B${row}*$F$1</f></c></row>`;
    })
    .join("");
  const totals = more.totals === true ? '<row r="7"><c r="B7"><f>SUBTOTAL(109,T[Amount])</f><v>100</v></c></row>' : "";
  const head = `<row r="1"><c r="B1"><f>SUM(B3:B6)</f><v>100</v></c><c r="E1"><f>B4</f><v>10</v></c></row><row r="2"><c r="A2" t="inlineStr"><is><t>Name</t></is></c><c r="B2" t="inlineStr"><is><t>Amount</t></is></c><c r="C2" t="inlineStr"><is><t>Running</t></is></c><c r="D2" t="inlineStr"><is><t>Share</t></is></c></row>`;
  const last = more.totals === true ? 7 : 6;
  const table = `<table xmlns="${MAIN}" id="1" name="T" displayName="T" ref="A2:D${last}"${more.totals === true ? ' totalsRowCount="1"' : ""}><autoFilter ref="A2:D6"/><tableColumns count="4"><tableColumn id="1" name="Name"/><tableColumn id="2" name="Amount"/><tableColumn id="3" name="Running"/><tableColumn id="4" name="Share"><calculatedColumnFormula>B3*$F$1</calculatedColumnFormula></tableColumn></tableColumns></table>`;
  const parts = plainParts("");
  return withSheet(
    head + body + totals + (more.rows ?? ""),
    `<conditionalFormatting sqref="B4"><cfRule type="expression" priority="1"><formula>B4&lt;15</formula></cfRule></conditionalFormatting>${more.after ?? ""}<tableParts count="1"><tablePart r:id="rId1"/></tableParts>`,
    "",
    {
      "[Content_Types].xml": (parts["[Content_Types].xml"] ?? "").replace(
        "</Types>",
        `<Override PartName="/xl/tables/table1.xml" ContentType="${TABLE_TYPE}"/></Types>`,
      ),
      "xl/tables/table1.xml": table,
      "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${OFFICE}/table" Target="../tables/table1.xml"/></Relationships>`,
    },
  );
}

const formulasOf = (part: string) =>
  Object.fromEntries([...part.matchAll(/<c r="([A-Z]+\d+)"[^>]*><f>([^<]*)<\/f>/g)].map(([, cell, f]) => [cell, f]));

describe("a table with a running total", () => {
  it("grows before its totals, and the running total of each row ends with that row", () => {
    const after = growTable(withTable({ totals: true }), { table: "T", count: 2 }).workbook;
    expect(partOf(after, "xl/tables/table1.xml")).toContain('ref="A2:D9" totalsRowCount="1"><autoFilter ref="A2:D8"/>');
    expect(formulasOf(partOf(after))).toMatchObject({
      B1: "SUM(B3:B8)",
      C6: "SUM(B$3:B6)",
      C7: "SUM(B$3:B7)",
      D8: "B8*$F$1",
      B9: "SUBTOTAL(109,T[Amount])",
    });
  });

  it("keeps its totals, its headings and a row", () => {
    const workbook = withTable({ totals: true });
    expect(() => deleteRows(workbook, { sheet: "Sheet1", row: 7, count: 1 })).toThrow(/whose row of totals would go/);
    expect(
      partOf(deleteRows(workbook, { sheet: "Sheet1", row: 4, count: 2 }).workbook, "xl/tables/table1.xml"),
    ).toContain('ref="A2:D5"');
  });

  it("is sorted by whole rows: texts, values, rules and references to single rows go along", () => {
    const after = sortTable(withTable(), { table: "t", column: "amount", direction: "ascending" }).workbook;
    const part = partOf(after);
    expect([...part.matchAll(/<t>(S-\d+)<\/t>/g)].map(([, name]) => name)).toEqual(["S-10", "S-20", "S-30", "S-40"]);
    expect(formulasOf(part)).toEqual({
      B1: "SUM(B3:B6)",
      E1: "B3",
      C3: "SUM(B$3:B3)",
      C4: "SUM(B$3:B4)",
      C5: "SUM(B$3:B5)",
      C6: "SUM(B$3:B6)",
      D3: "B3*$F$1",
      D4: "B4*$F$1",
      D5: "B5*$F$1",
      D6: "B6*$F$1",
    });
    expect(part).toContain(
      '<conditionalFormatting sqref="B3"><cfRule type="expression" priority="1"><formula>B3&lt;15</formula>',
    );
    const down = sortTable(withTable(), { table: "T", column: "Name", direction: "descending" }).workbook;
    expect([...partOf(down).matchAll(/<t>(S-\d+)<\/t>/g)].map(([, name]) => name)).toEqual([
      "S-40",
      "S-30",
      "S-20",
      "S-10",
    ]);
    expect(readSheet(down, "Sheet1").tables[0]?.range.lastRow).toBe(6);
  });

  it("is not sorted where that would change what is meant, and says where", () => {
    const sorted =
      (workbook: Workbook, column = "Amount") =>
      () =>
        sortTable(workbook, { table: "T", column, direction: "ascending" });
    expect(sorted(withTable(), "Nothing")).toThrow(/table T: has no column “Nothing”. Its columns are “Name”/);
    expect(sorted(withTable({ rows: '<row r="9"><c r="A9"><f>SUM(B3:B4)</f></c></row>' }))).toThrow(
      /A9: reads “SUM\(B3:B4\)”/,
    );
    expect(sorted(withTable({ after: '<mergeCells count="1"><mergeCell ref="F3:F4"/></mergeCells>' }))).toThrow(
      /F3:F4: is merged among the rows/,
    );
  });
});

describe("conversations", () => {
  const THREADS = "http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments";
  const threads = (cells: readonly string[]) =>
    `<ThreadedComments xmlns="${THREADS}">${cells.map((cell) => `<threadedComment ref="${cell}" id="{1}"><text>Why A4?</text></threadedComment>`).join("")}</ThreadedComments>`;
  const workbook = withSheet(numbers(1, 9), "", "", {
    "xl/threadedComments/threadedComment1.xml": threads(["B4"]),
    "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.microsoft.com/office/2017/10/relationships/threadedComment" Target="../threadedComments/threadedComment1.xml"/></Relationships>`,
  });
  const part = (after: Workbook) => partOf(after, "xl/threadedComments/threadedComment1.xml");

  it("move with their cells, and go with their rows", () => {
    expect(part(insertRows(workbook, { sheet: "Sheet1", row: 2, count: 3 }).workbook)).toBe(threads(["B7"]));
    expect(part(deleteRows(workbook, { sheet: "Sheet1", row: 4, count: 1 }).workbook)).toBe(threads([]));
  });
});
