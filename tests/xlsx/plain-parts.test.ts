import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { hasFormulaAt, openWorkbook, readSheet } from "../../src/xlsx/index.js";
import { readXml } from "../../src/xlsx/xml/read-xml.js";

const FILE = new Uint8Array(readFileSync(resolve(import.meta.dirname, "../../templates/demonstration.xlsx")));
const PARTS = Object.entries(unzipSync(FILE)).filter(([name]) => /\.(?:xml|rels)$/.test(name));

/** What a reader hears of a part, texts that follow one another as one, and none outside the root. */
function heard(bytes: Uint8Array): readonly unknown[] {
  const events: unknown[][] = [];
  let depth = 0;
  readXml(bytes, "part", {
    open: (name, attributes, ...places) => {
      depth += 1;
      events.push(["open", name, { ...attributes }, ...places]);
    },
    text: (text) => {
      if (depth === 0) return;
      const last = events.at(-1);
      if (last?.[0] === "text") last[1] = String(last[1]) + text;
      else events.push(["text", text]);
    },
    close: (name, ...places) => {
      depth -= 1;
      events.push(["close", name, ...places]);
    },
  });
  return events;
}

/** The same part with a comment behind it, which is left to the XML parser as a whole. */
const parsed = (bytes: Uint8Array) => heard(Uint8Array.from([...bytes, ...strToU8("<!-- -->")]));

describe("a plain part", () => {
  it.each(PARTS)("%s is heard as the XML parser tells it", (_, bytes) => {
    expect(heard(bytes)).toEqual(parsed(bytes));
  });

  it.each([
    '<a b="&lt;&#65;&quot;" c="d e">x &amp; y<b/>z</a>',
    '<a><b c="ä ≥ 🌡">Zürich\n\t±</b></a>',
    '\uFEFF<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<x:a xmlns:x="u" \n x:b="1"><x:c /></x:a >\n',
    "<a>one\r\ntwo</a>",
    "<a b='single' c=\"line\nbreak\"/>",
    "<a><![CDATA[<b>]]></a>",
  ])("is heard as the XML parser tells it, spelled %s", (text) => {
    expect(heard(strToU8(text))).toEqual(parsed(strToU8(text)));
  });

  it("is told where it stands though another with the same rest was read before, whose rows were longer or shorter", () => {
    const behindRows = (rows: string) => {
      const text = `<a x="1"><rows>${rows}</rows><b y="2"/></a>`;
      const start = text.indexOf("<rows>") + "<rows>".length;
      const places: unknown[] = [];
      const note = (name: string, at: number, to: number) => places.push([name, text.slice(at, to)]);
      readXml(
        strToU8(text),
        "part",
        {
          open: (name, _attributes, _depth, at, to) => note(name, at, to),
          close: (name, _depth, at, to) => note(name, at, to),
        },
        { start, end: start + rows.length },
      );
      return places;
    };
    for (const rows of ["<row/>", "", "<row/><row/>", "<row/>"]) {
      expect(behindRows(rows)).toEqual([
        ["a", '<a x="1">'],
        ["rows", "<rows>"],
        ["rows", "</rows>"],
        ["b", '<b y="2"/>'],
        ["b", '<b y="2"/>'],
        ["a", "</a>"],
      ]);
    }
  });

  it.each([
    "<a><b></a></b>",
    "<a/><b/>",
    "<a>",
    "<a>x</a>y",
    '<a b="1" b="2"/>',
    "<a>&unknown;</a>",
    "<a>]]></a>",
    "<a>\u0001</a>",
    '<a b="<"/>',
    "",
  ])("is refused where it is no XML: %s", (text) => {
    expect(() => heard(strToU8(text))).toThrow();
  });
});

describe("formulas that are read when asked for", () => {
  const read = (bytes: Uint8Array) => {
    const workbook = openWorkbook(bytes, "book.xlsx");
    return workbook.sheets.map(({ name }) => readSheet(workbook, name));
  };

  it("are those that the XML parser finds, in their cells", () => {
    const files = Object.entries(unzipSync(FILE)).map(([name, bytes]) => {
      const isSheet = name.startsWith("xl/worksheets/sheet");
      const text = isSheet ? strFromU8(bytes).replace("</sheetData>", "<!-- --></sheetData>") : "";
      return [name, isSheet ? strToU8(text) : bytes] as const;
    });
    const [plain, spelled] = [read(FILE), read(zipSync(Object.fromEntries(files)))];
    expect(plain.flatMap(({ cells }) => cells.formulas).length).toBeGreaterThan(100);
    for (const [index, sheet] of plain.entries()) {
      expect(sheet.cells.formulas).toEqual(spelled[index]?.cells.formulas);
      for (const { row, column } of sheet.cells.formulas) expect(hasFormulaAt(sheet, row, column)).toBe(true);
      expect(hasFormulaAt(sheet, 1, 1)).toBe(false);
    }
  });
});
