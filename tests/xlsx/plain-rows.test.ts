import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cellsOf, openWorkbook, readSheet, WorkbookFileError } from "../../src/xlsx/index.js";
import { plainWorkbook } from "./plain-workbook.js";

/** A comment among the rows leaves all of them to the XML parser; it is seven bytes long. */
const COMMENT = "<!---->";

/** What comes of rows: their cells with their places in the part, or the kind of refusal. */
function outcome(rows: string, shift: number): unknown {
  try {
    const sheet = readSheet(openWorkbook(plainWorkbook(rows), "test.xlsx"), "Sheet1");
    const { starts, ends, formulas, cellCount, rowCount, rowStarts, rowOpenEnds, rowEnds, rowStyles, rowsHidden } =
      sheet.cells;
    const places = [starts, ends].map((offsets) =>
      Array.from(offsets.subarray(0, cellCount), (offset) => offset - shift),
    );
    const rowPlaces = [rowStarts, rowOpenEnds, rowEnds].map((offsets) => {
      return Array.from(offsets.subarray(0, rowCount), (offset) => offset - shift);
    });
    const formulaPlaces = formulas.map(({ start, end }) => [start - shift, end - shift]);
    const cells = [...cellsOf(sheet)];
    const ofRows = [rowStyles, rowsHidden].map((column) => [...column.subarray(0, rowCount)]);
    return { cells, places, rowPlaces, formulaPlaces, ofRows };
  } catch (error) {
    if (error instanceof WorkbookFileError) return error.code;
    throw error;
  }
}

function expectSame(rows: string): void {
  expect(outcome(rows, 0)).toEqual(outcome(COMMENT + rows, COMMENT.length));
}

describe("rows in the common spelling, read by themselves", () => {
  const pieces = [
    '<row r="1">',
    '<row r="2" spans="1:9" s="3" customFormat="1" ht="15.5" x14ac:dyDescent="0.25">',
    '<row r="3"/>',
    '<row r="3" hidden="1">',
    '<row hidden="true"/>',
    '<row r="4" hidden="0">',
    '<row r="1" s="3">',
    "<row>",
    "</row>",
    "<row r='1'>",
    '<row r="0">',
    '<row r="1" r="1">',
    '<c r="A1">',
    '<c r="B2" s="4" t="s">',
    '<c r="C3" t="str" cm="1">',
    '<c r="a1" t="b">',
    '<c t="e">',
    '<c t="inlineStr">',
    "<c>",
    "<c/>",
    '<c r="D4" s="-1"/>',
    '<c r="XFE1"/>',
    '<c r="A01"/>',
    '<c r="E5" s="1" vm="2" ph="1"/>',
    "</c>",
    "<f>",
    '<f t="shared" ref="A1:A2" si="0">',
    '<f t="shared" si="0"/>',
    '<f t="array" ref="A1">',
    "</f>",
    "<v>",
    '<v xml:space="preserve">',
    "</v>",
    "<v/>",
    "<is><t>",
    "</t></is>",
    "<is><r><t>",
    "</t></r></is>",
    "<extLst/>",
    "1",
    "0.1",
    "-12.50",
    "1e3",
    ".5",
    "5.",
    "123456789012345678",
    "0.30000000000000004",
    "é日😀",
    "&amp;&lt;",
    "&#65;&#x1F600;",
    "&#0;",
    "&nbsp;",
    "&",
    "]]>",
    "\u0001",
    "\ufffd",
    "\r\n",
    "  ",
    "\n",
    "#N/A",
    "A1&quot;x&quot;",
    "<![CDATA[x]]>",
    "<?x y?>",
    "true",
    "_x0041_",
  ];
  const cell = fc
    .tuple(
      fc.constantFrom(...pieces.filter((one) => one.startsWith("<c") && one.endsWith('">'))),
      fc.constantFrom("", "<f>A1*2</f>", '<f t="array" ref="A1">"é"&amp;B1</f>', '<f ca="1"/>'),
      fc.constantFrom(...pieces.filter((one) => !one.startsWith("<"))),
    )
    .map(([open, formula, text]) => `${open}${formula}<v>${text}</v></c>`);

  it("are what the XML parser makes of them, well-formed or not", () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...pieces), { maxLength: 12 }), (chosen) => expectSame(chosen.join(""))),
      { numRuns: 300 },
    );
  });

  it("are what the XML parser makes of them, cell by cell", () => {
    fc.assert(
      fc.property(fc.array(cell, { maxLength: 4 }), (cells) =>
        expectSame(`<row r="1">${cells.join(" ")}</row>\n<row><c/></row>`),
      ),
      { numRuns: 300 },
    );
  });

  it("are what the XML parser makes of them with any one byte changed", () => {
    const rows =
      '<row r="1" spans="1:3"><c r="A1" s="1"><v>12.5</v></c><c r="B1" t="str" cm="1"><f t="array" ref="B1">F(A1,"é")</f><v>a&amp;b</v></c></row><row r="2"><c r="A2" t="inlineStr"><is><t xml:space="preserve"> x</t></is></c><c r="B2" t="b"><v>1</v></c></row>';
    const letters = Array.from(`<>/="'& 019AZaz_:.-!?[]#;\n\r\té`);
    fc.assert(
      fc.property(fc.nat(rows.length - 1), fc.constantFrom("", ...letters), fc.nat(1), (at, letter, removed) => {
        expectSame(rows.slice(0, at) + letter + rows.slice(at + removed));
      }),
      { numRuns: 500, examples: [[rows.indexOf("</v>"), "", 1]] },
    );
  });

  it("reads numbers to the last digit", () => {
    fc.assert(
      fc.property(fc.double({ min: -1e300, max: 1e300, noNaN: true }), fc.nat(15), (number, digits) => {
        const texts = [String(number), number.toPrecision(digits + 1), number.toFixed(digits)];
        const rows = `<row r="1">${texts.map((text) => `<c><v>${text}</v></c>`).join("")}</row>`;
        const sheet = readSheet(openWorkbook(plainWorkbook(rows), "test.xlsx"), "Sheet1");
        expect([...cellsOf(sheet)].map(({ value }) => value)).toEqual(texts.map(Number));
      }),
      { numRuns: 300 },
    );
  });
});
