import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type CellEdit,
  type CellValue,
  cellAt,
  cellsOf,
  formatAddress,
  openWorkbook,
  patchWorkbook,
  readSheet,
  type WorkbookEdit,
  WorkbookFileError,
} from "../../src/xlsx/index.js";
import { plainParts, plainWorkbook, zipParts } from "./plain-workbook.js";
import { changedEntries, entryText, rawEntries } from "./raw-entries.js";

const SHEET = "xl/worksheets/sheet1.xml";

type Change = { [K in CellEdit["kind"]]: Omit<CellEdit & { kind: K }, "sheet"> }[CellEdit["kind"]] & { sheet?: string };

function patch(bytes: Uint8Array, ...changes: readonly Change[]): Uint8Array {
  const edits = changes.map((change) => ({ sheet: "Sheet1", ...change }) as WorkbookEdit);
  return patchWorkbook(openWorkbook(bytes, "test.xlsx"), edits);
}

function rowsAfter(rows: string, ...changes: readonly Change[]): string {
  const text = entryText(patch(plainWorkbook(rows), ...changes), SHEET);
  return /<sheetData>(.*)<\/sheetData>/s.exec(text)?.[1] ?? text;
}

function refusal(act: () => unknown): WorkbookFileError {
  try {
    act();
  } catch (error) {
    if (error instanceof WorkbookFileError) return error;
    throw error;
  }
  throw new Error("nothing was refused");
}

const value = (address: string, given: CellValue): Change => ({ kind: "value", address, value: given });
const result = (address: string, given: CellValue): Change => ({ kind: "result", address, value: given });

describe("changing a value", () => {
  it.each<[string, CellValue, string]>([
    ["a number", 425.5, '<c r="B2" s="3"><v>425.5</v></c>'],
    ["zero, never minus zero", -0, '<c r="B2" s="3"><v>0</v></c>'],
    ["text", "a < b & c", '<c r="B2" s="3" t="inlineStr"><is><t>a &lt; b &amp; c</t></is></c>'],
    ["text with spaces", " a", '<c r="B2" s="3" t="inlineStr"><is><t xml:space="preserve"> a</t></is></c>'],
    ["a logical value", true, '<c r="B2" s="3" t="b"><v>1</v></c>'],
    ["an error", { error: "#N/A" }, '<c r="B2" s="3" t="e"><v>#N/A</v></c>'],
    ["a blank", null, '<c r="B2" s="3"/>'],
  ])("writes %s and keeps the style", (_, given, expected) => {
    expect(rowsAfter('<row r="2"><c r="B2" s="3" t="str"><v>old</v></c></row>', value("B2", given))).toBe(
      `<row r="2">${expected}</row>`,
    );
  });

  it("leaves everything outside the cell as it was, unknown attributes and trailing content too", () => {
    const rows = `<row r="1" x14ac:dyDescent="0.25" ht='15'><c r='A1' foo=" t='s' > " s="1" cm="1"><v>1</v><extLst><ext uri="{1}"/></extLst></c><!-- é --><c r="B1"/></row>`;
    expect(rowsAfter(rows, value("A1", 2))).toBe(rows.replace("<v>1</v>", "<v>2</v>"));
  });

  it("takes metadata of the old value away with it", () => {
    expect(rowsAfter('<row r="1"><c r="A1" t="e" vm="4"><v>#VALUE!</v></c></row>', value("A1", 3))).toBe(
      '<row r="1"><c r="A1"><v>3</v></c></row>',
    );
  });

  it("returns the very same file when nothing changes", () => {
    const bytes = plainWorkbook('<row r="1"><c r="A1"><v>1.50</v></c></row>');
    expect(patch(bytes, value("A1", 1.5), value("Q9", null))).toBe(bytes);
    expect(patch(bytes)).toBe(bytes);
  });

  it("never touches the bytes it was given, nor writes other ones when they come as a Buffer", () => {
    const given = plainWorkbook('<row r="1"><c r="A1"><v>1</v></c></row>');
    const buffer = Buffer.from(given);
    expect(patch(buffer, value("A1", 2))).toEqual(patch(given, value("A1", 2)));
    expect(new Uint8Array(buffer)).toEqual(given);
  });

  it("lets the later of two edits of one cell count", () => {
    expect(rowsAfter('<row r="1"><c r="A1"/></row>', value("A1", 1), value("$A$1", 2))).toContain("<v>2</v>");
  });

  it("writes with the prefix that the part uses", () => {
    const xml = `<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:dimension ref="A1"/><x:sheetData/></x:worksheet>`;
    const after = entryText(patch(plainWorkbook("", {}, xml), value("C3", "é"), value("A1", 1)), SHEET);
    expect(after).toContain(
      '<x:dimension ref="A1:C3"/><x:sheetData><x:row r="1"><x:c r="A1"><x:v>1</x:v></x:c></x:row><x:row r="3"><x:c r="C3" t="inlineStr"><x:is><x:t>é</x:t></x:is></x:c></x:row></x:sheetData>',
    );
  });

  it.each<[string, CellValue]>([
    ["not a number", Number.NaN],
    ["infinite", Number.POSITIVE_INFINITY],
    ["too long", "x".repeat(32_768)],
    ["half a character", "a\ud800"],
  ])("refuses a value that is %s", (_, given) => {
    const bytes = plainWorkbook('<row r="1"><c r="A1"/></row>');
    expect(refusal(() => patch(bytes, value("A1", given)))).toMatchObject({ code: "refused-edit" });
  });

  it("names file, sheet and cell when it refuses, and says what to do", () => {
    const bytes = plainWorkbook('<row r="1"><c r="A1"><f>B1*2</f><v>4</v></c></row>');
    expect(refusal(() => patch(bytes, value("A1", 5))).message).toBe(
      "test.xlsx, sheet “Sheet1”, cell A1: holds a formula. Change the cells that the formula reads, or ask for it to be replaced.",
    );
    expect(refusal(() => patch(bytes, { ...value("A1", 5), sheet: "Rooms" })).message).toBe(
      "test.xlsx: has no sheet “Rooms”. Its sheets are “Sheet1”.",
    );
    expect(refusal(() => patch(bytes, value("A0", 5))).message).toContain("A0");
  });

  it("refuses a cell under merged cells and a heading of a table", () => {
    const parts = {
      ...plainParts(
        "",
        `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData/><mergeCells><mergeCell ref="A1:B2"/></mergeCells></worksheet>`,
      ),
      "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="a" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/table" Target="../tables/table1.xml"/></Relationships>`,
      "xl/tables/table1.xml": `<table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" displayName="Outlets" ref="D1:E3"><tableColumns><tableColumn id="1" name="Tag"/><tableColumn id="2" name="Size"/></tableColumns></table>`,
    };
    const bytes = zipParts(parts);
    expect(refusal(() => patch(bytes, value("B2", 5))).message).toContain("A1:B2");
    expect(refusal(() => patch(bytes, value("E1", 5))).message).toContain("Outlets");
    expect(entryText(patch(bytes, value("A1", 5), value("E2", 6)), SHEET)).toContain("<v>6</v>");
  });
});

describe("new cells and rows", () => {
  const rows = '<row r="2" spans="2:4"><c r="B2"><v>1</v></c><c r="D2"><v>2</v></c></row><row r="5"/>';

  it("puts cells and rows in order, within and after those that are there", () => {
    const edits = ["A2", "C2", "F2", "A1", "B5", "A3", "C4", "Z9"].map((address) => value(address, 7));
    const after = openWorkbook(patch(plainWorkbook(rows), ...edits), "test.xlsx");
    expect([...cellsOf(readSheet(after, "Sheet1"))].map(({ address }) => address)).toEqual([
      "A1",
      "A2",
      "B2",
      "C2",
      "D2",
      "F2",
      "A3",
      "C4",
      "B5",
      "Z9",
    ]);
  });

  it("takes a hint at the columns in use out of a row that outgrows it", () => {
    expect(rowsAfter(rows, value("A2", 7))).toContain('<row r="2"><c r="A2"><v>7</v></c>');
  });

  it("gives a new cell the style of its row or its column", () => {
    const xml = `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><cols><col min="2" max="3" style="4" width="9"/></cols><sheetData><row r="1" s="5" customFormat="1"/><row r="2" s="6"/></sheetData></worksheet>`;
    const after = entryText(
      patch(plainWorkbook("", {}, xml), value("B1", 1), value("B2", 2), value("D2", 3), value("C3", 4)),
      SHEET,
    );
    for (const cell of ['r="B1" s="5"', 'r="B2" s="4"', 'r="D2"', 'r="C3" s="4"'])
      expect(after).toContain(`<c ${cell}>`);
  });

  it("never moves cells that do not say where they are", () => {
    const bytes = plainWorkbook('<row><c><v>1</v></c><c><v>2</v></c></row><row r="7"><c><v>3</v></c></row>');
    const after = openWorkbook(patch(bytes, value("C1", 9), value("B7", 8), value("A3", 7)), "test.xlsx");
    expect([...cellsOf(readSheet(after, "Sheet1"))].map((cell) => [cell.address, cell.value])).toEqual([
      ["A1", 1],
      ["B1", 2],
      ["C1", 9],
      ["A3", 7],
      ["A7", 3],
      ["B7", 8],
    ]);
  });
});

describe("results of formulas", () => {
  it.each<[CellValue, string]>([
    [12.5, '<c r="A1" s="2" cm="1"><f t="array" ref="A1">_xldudf_VANE_AIRFLOW(B1,"é")</f><v>12.5</v></c>'],
    ["LOW", '<c r="A1" s="2" cm="1" t="str"><f t="array" ref="A1">_xldudf_VANE_AIRFLOW(B1,"é")</f><v>LOW</v></c>'],
    [null, '<c r="A1" s="2" cm="1" t="str"><f t="array" ref="A1">_xldudf_VANE_AIRFLOW(B1,"é")</f><v></v></c>'],
    [
      { error: "#N/A" },
      '<c r="A1" s="2" cm="1" t="e"><f t="array" ref="A1">_xldudf_VANE_AIRFLOW(B1,"é")</f><v>#N/A</v></c>',
    ],
    [
      { error: "#SPILL!" },
      '<c r="A1" s="2" cm="1" t="e"><f t="array" ref="A1">_xldudf_VANE_AIRFLOW(B1,"é")</f><v>#VALUE!</v></c>',
    ],
  ])("stores %j beside the formula, which stays", (given, expected) => {
    const rows =
      '<row r="1"><c r="A1" s="2" cm="1"><f t="array" ref="A1">_xldudf_VANE_AIRFLOW(B1,"é")</f><v>1</v></c></row>';
    expect(rowsAfter(rows, result("A1", given))).toBe(`<row r="1">${expected}</row>`);
  });

  it("stores what an array formula fills, in cells that are there and in new ones", () => {
    const rows =
      '<row r="1"><c r="A1" cm="1"><f t="array" ref="A1:A3">F()</f><v>1</v></c></row><row r="2"><c r="A2"><v>1</v></c></row>';
    const after = rowsAfter(rows, result("A1", 5), result("A2", 6), result("A3", "x"));
    expect(after).toContain('<c r="A2"><v>6</v></c></row><row r="3"><c r="A3" t="str"><v>x</v></c></row>');
    const bytes = plainWorkbook(rows);
    expect(refusal(() => patch(bytes, result("A4", 5))).message).toContain("holds no formula");
    expect(refusal(() => patch(bytes, value("A2", 5))).message).toContain("is filled by the formula of A1:A3");
  });
});

describe("replacing formulas", () => {
  const shared =
    '<row r="1"><c r="B1"><f t="shared" ref="B1:B3" si="0">A1*2</f><v>2</v></c></row><row r="2"><c r="B2"><f t="shared" si="0"/><v>4</v></c></row><row r="3"><c r="B3" t="str"><f t="shared" si="0"/><v>x</v></c></row>';
  const formula = (address: string, text: string, given: CellValue, more = {}): Change =>
    ({ kind: "formula", address, formula: text, result: given, ...more }) as Change;

  it("spells a shared formula out for the others when its first cell loses it", () => {
    expect(rowsAfter(shared, formula("B1", 'A1&"<"', "1<"), result("B3", 7), value("C2", 1))).toBe(
      '<row r="1"><c r="B1" t="str"><f>A1&amp;&quot;&lt;&quot;</f><v>1&lt;</v></c></row><row r="2"><c r="B2"><f>A2*2</f><v>4</v></c><c r="C2"><v>1</v></c></row><row r="3"><c r="B3"><f>A3*2</f><v>7</v></c></row>',
    );
    const after = rowsAfter(shared, { kind: "value", address: "B1", value: 3, formula: "replace" } as Change);
    expect(after).toContain('<c r="B1"><v>3</v></c>');
    expect(after).toContain("<f>A2*2</f>");
  });

  it("leaves a shared formula alone when another cell or a result changes", () => {
    expect(rowsAfter(shared, formula("B2", "7", 7), result("B1", 9))).toContain('si="0">A1*2</f><v>9</v>');
  });

  it("keeps an array formula one, makes it plain, or makes a dynamic one", () => {
    const rows = '<row r="1"><c r="A1" cm="1" s="1"><f t="array" ref="A1">OLD()</f><v>1</v></c></row>';
    expect(rowsAfter(rows, formula("A1", "NEW()", 2))).toBe(
      '<row r="1"><c r="A1" cm="1" s="1"><f t="array" ref="A1">NEW()</f><v>2</v></c></row>',
    );
    expect(rowsAfter(rows, formula("A1", "NEW()", 2, { form: "plain" }))).toBe(
      '<row r="1"><c r="A1" s="1"><f>NEW()</f><v>2</v></c></row>',
    );
    expect(
      rowsAfter('<row r="1"><c r="A1" s="1"/></row>', formula("A1", "NEW()", 2, { form: "dynamic", range: "A1:A2" })),
    ).toBe('<row r="1"><c r="A1" s="1" cm="1"><f t="array" ref="A1:A2">NEW()</f><v>2</v></c></row>');
  });

  it("takes a block's formula away only when every cell of the block gets something of its own", () => {
    const bytes = plainWorkbook(
      '<row r="1"><c r="A1" cm="1"><f t="array" ref="A1:B1">F()</f><v>1</v></c><c r="B1"><v>2</v></c></row>',
    );
    const plain = formula("A1", "1+0", 1, { form: "plain" });
    expect(refusal(() => patch(bytes, plain)).message).toContain("cell B1");
    expect(entryText(patch(bytes, plain, formula("B1", "1+1", 2)), SHEET)).toContain(
      '<c r="A1"><f>1+0</f><v>1</v></c><c r="B1"><f>1+1</f><v>2</v></c>',
    );
  });

  it("adds the metadata of dynamic arrays once, whatever metadata is there", () => {
    const first = patch(plainWorkbook('<row r="1"/>'), formula("A1", "F()", 1, { form: "dynamic" }));
    expect(entryText(first, "[Content_Types].xml")).toContain('PartName="/xl/metadata.xml"');
    expect(entryText(first, "xl/_rels/workbook.xml.rels")).toContain("/sheetMetadata");
    const second = patch(first, formula("A2", "F()", 1, { form: "dynamic" }));
    expect(changedEntries(first, second)).toEqual([SHEET]);
    expect(entryText(second, SHEET)).toContain('<c r="A2" cm="1">');

    const metadata = `<m:metadata xmlns:m="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><m:metadataTypes count="1"><m:metadataType name="XLRICHVALUE"/></m:metadataTypes><m:futureMetadata name="XLRICHVALUE" count="1"><m:bk/></m:futureMetadata><m:valueMetadata count="1"><m:bk><m:rc t="1" v="0"/></m:bk></m:valueMetadata></m:metadata>`;
    const parts = {
      ...plainParts('<row r="1"/>'),
      "xl/metadata.xml": metadata,
      "xl/_rels/workbook.xml.rels": plainParts("")["xl/_rels/workbook.xml.rels"]?.replace(
        "</Relationships>",
        '<Relationship Id="m" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata" Target="metadata.xml"/></Relationships>',
      ),
    } as Record<string, string>;
    const third = patch(zipParts(parts), formula("A1", "F()", 1, { form: "dynamic" }));
    const text = entryText(third, "xl/metadata.xml");
    expect(text).toContain(
      '<m:metadataTypes count="2"><m:metadataType name="XLRICHVALUE"/><m:metadataType name="XLDAPR"',
    );
    expect(text).toMatch(
      /<\/m:futureMetadata><m:futureMetadata name="XLDAPR" count="1">.*<\/m:futureMetadata><m:cellMetadata count="1"><m:bk><m:rc t="2" v="0"\/><\/m:bk><\/m:cellMetadata><m:valueMetadata/,
    );
    expect(changedEntries(third, patch(third, formula("A2", "F()", 1, { form: "dynamic" })))).toEqual([SHEET]);
  });

  it("takes the calculation order out whole when a formula goes, and only then", () => {
    const types = plainParts("")["[Content_Types].xml"] ?? "";
    const list = plainParts("")["xl/_rels/workbook.xml.rels"] ?? "";
    const bytes = zipParts({
      ...plainParts(shared),
      "[Content_Types].xml": types.replace(
        "</Types>",
        '<Override PartName="/xl/calcChain.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.calcChain+xml"/></Types>',
      ),
      "xl/_rels/workbook.xml.rels": list.replace(
        "</Relationships>",
        '<Relationship Id="rId9" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/calcChain" Target="calcChain.xml"/></Relationships>',
      ),
      "xl/calcChain.xml": "<calcChain/>",
    });
    expect(changedEntries(bytes, patch(bytes, value("A1", 3), result("B1", 6)))).toEqual([SHEET]);
    const after = patch(bytes, formula("B2", "7", 7));
    expect(rawEntries(after).map(({ name }) => name)).not.toContain("xl/calcChain.xml");
    expect(entryText(after, "[Content_Types].xml")).toBe(types);
    expect(entryText(after, "xl/_rels/workbook.xml.rels")).toBe(list);
  });

  it.each(["", "=A1", "a\udc00", "A1+".repeat(3000)])("refuses the formula %j", (text) => {
    expect(refusal(() => patch(plainWorkbook(shared), formula("B1", text, 1))).code).toBe("refused-edit");
  });
});

describe("whole parts", () => {
  it("adds a part with its type and relationship, replaces it, and takes it out again", () => {
    const bytes = plainWorkbook("");
    const add = (content: string): WorkbookEdit => ({
      kind: "part",
      partName: "customXml/item1.xml",
      content,
      contentType: "application/vnd.example+xml",
      relationship: { from: "xl/workbook.xml", type: "http://example.org/relationships/item" },
    });
    const edit = (file: Uint8Array, one: WorkbookEdit) => patchWorkbook(openWorkbook(file, "test.xlsx"), [one]);
    const first = edit(bytes, add("<a/>"));
    expect(changedEntries(bytes, first)).toEqual([
      "[Content_Types].xml",
      "xl/_rels/workbook.xml.rels",
      "customXml/item1.xml",
    ]);
    const second = edit(first, add("<b/>"));
    expect(changedEntries(first, second)).toEqual(["customXml/item1.xml"]);
    const third = edit(second, { kind: "removePart", partName: "customXml/item1.xml" });
    expect(rawEntries(third).map(({ name, content }) => [name, content.toString()])).toEqual(
      rawEntries(bytes).map(({ name, content }) => [name, content.toString()]),
    );
  });
});

describe("a signed workbook", () => {
  const bytes = zipParts({ ...plainParts('<row r="1"><c r="A1"/></row>'), "_xmlsignatures/origin.sigs": "" });

  it("is not changed unless that is asked for", () => {
    const workbook = openWorkbook(bytes, "test.xlsx");
    const edits: WorkbookEdit[] = [{ kind: "value", sheet: "Sheet1", address: "A1", value: 1 }];
    expect(workbook.isSigned).toBe(true);
    expect(refusal(() => patchWorkbook(workbook, edits))).toMatchObject({ code: "signed" });
    expect(changedEntries(bytes, patchWorkbook(workbook, edits, { signature: "break" }))).toEqual([SHEET]);
    expect(patchWorkbook(workbook, [])).toBe(bytes);
  });
});

describe("any edits of any small workbook", () => {
  const text = fc.oneof(
    fc.string({ unit: "grapheme", maxLength: 12 }),
    fc.string({ unit: "binary", maxLength: 12 }).filter((one) => !/[\ud800-\udfff]/u.test(one)),
    fc.constantFrom(
      "_x0041_",
      " lead",
      "tail\n",
      "a\r\nb",
      "\t",
      "]]>",
      "<&>\"'",
      "__proto__",
      "=1+1",
      "\ufffe",
      "é日😀",
    ),
  );
  const cellValue = fc.oneof(
    fc.double({ noNaN: true, noDefaultInfinity: true }),
    fc.integer(),
    text,
    fc.boolean(),
    fc.constant(null),
    fc.constantFrom("#N/A", "#VALUE!", "#DIV/0!").map((error) => ({ error })),
  );
  const placed = fc.array(fc.tuple(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 9 }), cellValue), {
    maxLength: 40,
  });
  const normal = (one: CellValue): CellValue => (one === 0 ? 0 : one);

  it("are read back as they were given, and every other cell as it was", () => {
    fc.assert(
      fc.property(placed, placed, (first, second) => {
        const expected = new Map<string, CellValue>();
        let bytes = plainWorkbook("");
        for (const batch of [first, second]) {
          for (const [row, column, given] of batch) expected.set(formatAddress(row, column), normal(given));
          bytes = patch(bytes, ...batch.map(([row, column, given]) => value(formatAddress(row, column), given)));
        }
        const sheet = readSheet(openWorkbook(bytes, "test.xlsx"), "Sheet1");
        for (const [address, given] of expected) expect(cellAt(sheet, address)?.value ?? null).toEqual(given);
        for (const { address, value: found } of cellsOf(sheet)) expect(found).toEqual(expected.get(address));
      }),
      { numRuns: 200 },
    );
  });

  it("leave every byte outside the changed cells as it was", () => {
    fc.assert(
      fc.property(placed, placed, (first, second) => {
        const before = patch(
          plainWorkbook('<row r="3" ht="20"/>'),
          ...first.map(([r, c, v]) => value(formatAddress(r, c), v)),
        );
        const after = patch(before, ...second.map(([r, c, v]) => value(formatAddress(r, c), v)));
        const touched = new Set(second.map(([row, column]) => formatAddress(row, column)));
        const strip = (file: Uint8Array): string =>
          entryText(file, SHEET)
            .replace(/<c r="([A-Z]+\d+)"[^>]*?(?:\/>|>.*?<\/c>)/gs, (whole, address: string) =>
              touched.has(address) ? "" : whole,
            )
            .replace(/<row r="\d+"(?:\/>|><\/row>)/g, "")
            .replace(/<(row r="3" ht="20")><\/row>/, "<$1/>");
        expect(strip(after)).toBe(strip(before));
      }),
      { numRuns: 100 },
    );
  });
});

describe("parts as other programs write them", () => {
  const inUtf16 = (text: string, isLittle: boolean, hasMark: boolean): Uint8Array => {
    const bytes = Buffer.from(`${hasMark ? "\ufeff" : ""}${text}`, "utf16le");
    return new Uint8Array(isLittle ? bytes : bytes.swap16());
  };
  const declared = (text: string) => `<?xml version="1.0" encoding="UTF-16" standalone="yes"?>\n${text}`;

  it.each([
    ["little end first, with its mark", true, true],
    ["big end first, with its mark", false, true],
    ["little end first, without", true, false],
    ["big end first, without", false, false],
  ])(
    "reads UTF-16, %s, writes a changed part in UTF-8 and leaves every other one its bytes",
    (_, isLittle, hasMark) => {
      const rows = '<row r="1"><c r="A1" t="str"><v>Grüße 暖房 🌬</v></c><c r="B1"><v>1</v></c></row>';
      const parts = Object.entries(plainParts(rows)).map(
        ([name, text]) => [name, inUtf16(declared(text), isLittle, hasMark)] as const,
      );
      const bytes = zipParts(Object.fromEntries(parts));
      const workbook = openWorkbook(bytes, "test.xlsx");
      expect(cellAt(readSheet(workbook, "Sheet1"), "A1")?.value).toBe("Grüße 暖房 🌬");
      const after = patch(bytes, value("B1", 2));
      expect(changedEntries(bytes, after)).toEqual([SHEET]);
      expect(entryText(after, SHEET)).toContain('encoding="UTF-8"');
      const sheet = readSheet(openWorkbook(after, "test.xlsx"), "Sheet1");
      expect([cellAt(sheet, "A1")?.value, cellAt(sheet, "B1")?.value]).toEqual(["Grüße 暖房 🌬", 2]);
    },
  );

  it("reads names of parts with backslashes, and keeps them", () => {
    const parts = Object.entries(plainParts('<row r="1"><c r="A1"><v>1</v></c></row>'));
    const bytes = zipParts(Object.fromEntries(parts.map(([name, text]) => [name.replaceAll("/", "\\"), text])));
    const after = patch(bytes, value("A1", 2));
    expect(changedEntries(bytes, after)).toEqual(["xl\\worksheets\\sheet1.xml"]);
    expect(cellAt(readSheet(openWorkbook(after, "test.xlsx"), "Sheet1"), "A1")?.value).toBe(2);
  });

  it("reads targets and content types with backslashes", () => {
    const parts = plainParts('<row r="1"><c r="A1"><v>1</v></c></row>');
    const bytes = zipParts({
      ...parts,
      "[Content_Types].xml": (parts["[Content_Types].xml"] ?? "").replaceAll("/xl/workbook.xml", "\\xl\\workbook.xml"),
      "_rels/.rels": (parts["_rels/.rels"] ?? "").replace("xl/workbook.xml", "xl\\workbook.xml"),
    });
    expect(cellAt(readSheet(openWorkbook(bytes, "test.xlsx"), "Sheet1"), "A1")?.value).toBe(1);
  });
});
