import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { calculateXlsx } from "../../../src/engine/index.js";
import { fileHost, openWorkbookFile } from "../../../src/hosts/file/index.js";
import type { BlockEdit } from "../../../src/workbook/index.js";
import { cellAt, openWorkbook, readSheet } from "../../../src/xlsx/index.js";
import { madeByLibreOffice, reopened } from "../../support/libreoffice.js";
import { changedEntries, entryText, rawEntries } from "../../xlsx/raw-entries.js";
import { richWorkbook } from "./rich-workbook.js";

const SHEET = "xl/worksheets/sheet1.xml";

/** Ten readings, some in the row of a comment and of the sparkline. */
const READINGS: Readonly<Record<string, number>> = {
  E2: 512,
  F2: 498,
  G3: 505,
  E4: 611,
  E6: 0,
  F6: 333,
  G7: 421.5,
  E9: 77,
  F12: 602,
  G13: 590,
};

/** Airflow of an outlet of 14 in × 6 in, 0.75 of it free, by its three readings. */
const airflow = (readings: readonly number[]) =>
  ((readings.reduce((sum, reading) => sum + reading, 0) / readings.length) * 14 * 6 * 0.75) / 144;

const KEPT = {
  "a chart": /^xl\/charts\/chart\d*\.xml$/,
  "a picture": /^xl\/media\/image\d*\.png$/,
  "a drawing": /^xl\/drawings\/drawing\d*\.xml$/,
  "a pivot table": /^xl\/pivotTables\/pivotTable\d*\.xml$/,
  "a pivot table's data": /^xl\/pivotCache\/pivotCacheRecords\d*\.xml$/,
  comments: /^xl\/comments\d*\.xml$/,
};

interface Rich {
  readonly before: Uint8Array;
  after: Uint8Array;
}

const books = new Map<string, Rich>();
let shown: ReadonlyMap<string, Uint8Array> = new Map();
let folder = "";

async function withReadings(name: string, before: Uint8Array): Promise<Uint8Array> {
  const path = join(folder, `${name}.xlsx`);
  writeFileSync(path, before);
  const host = fileHost(await openWorkbookFile(path), calculateXlsx);
  await host.write(
    Object.entries(READINGS).map(
      ([range, reading]): BlockEdit => ({ address: { sheet: "Outlets", range }, cells: [[reading]] }),
    ),
  );
  await host.save();
  return readFileSync(path);
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "rich-"));
  const flat = readFileSync(join(import.meta.dirname, "rich-workbook.fods"));
  const byLibreOffice = (await madeByLibreOffice(new Map([["rich", flat]]))).get("rich");
  if (byLibreOffice === undefined) throw new Error("LibreOffice made nothing.");
  const made = { LibreOffice: byLibreOffice, library: await richWorkbook() };
  for (const [name, before] of Object.entries(made)) {
    books.set(name, { before, after: await withReadings(name, before) });
  }
  shown = await reopened(new Map([...books].map(([name, { after }]) => [name, after])));
}, 300_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function book(name: string): Rich {
  const found = books.get(name);
  if (found === undefined) throw new Error(`There is no workbook of ${name}.`);
  return found;
}

function valuesIn(bytes: Uint8Array): (address: string) => unknown {
  const sheet = readSheet(openWorkbook(bytes, "shown.xlsx"), "Outlets");
  return (address) => cellAt(sheet, address)?.value;
}

const withoutCells = (xml: string): string => xml.replace(/<c r="(?:[E-J]|L)\d+"[^>]*?(?:\/>|>.*?<\/c>)/gs, "");

describe.each(["LibreOffice", "library"])("ten readings changed in a rich workbook made by %s", (name) => {
  it.each(Object.entries(KEPT))("keeps %s", (_what, part) => {
    const names = rawEntries(book(name).before).map((entry) => entry.name);
    expect(names.some((entry) => part.test(entry))).toBe(true);
    expect(rawEntries(book(name).after).map((entry) => entry.name)).toEqual(names);
  });

  it("changes the one sheet and leaves every other part as it was, byte for byte", () => {
    const { before, after } = book(name);
    expect(changedEntries(before, after)).toEqual([SHEET]);
  });

  it("changes readings and results in that sheet and leaves all around them as it was", () => {
    const { before, after } = book(name);
    expect(withoutCells(entryText(after, SHEET))).toBe(withoutCells(entryText(before, SHEET)));
    expect(withoutCells(entryText(after, SHEET))).toMatch(/<conditionalFormatting .*<dataValidations /s);
    const formulas = /<f[^>]*>[^<]*<\/f>/g;
    expect(entryText(after, SHEET).match(formulas)).toEqual(entryText(before, SHEET).match(formulas));
  });

  it("opens in LibreOffice, which shows the readings and what was calculated from them", () => {
    const value = valuesIn(shown.get(name) ?? new Uint8Array());
    for (const [address, reading] of Object.entries(READINGS)) expect(value(address)).toBe(reading);
    let total = 0;
    for (let row = 2; row <= 13; row += 1) {
      const expected = airflow([`E${row}`, `F${row}`, `G${row}`].map((address) => Number(value(address))));
      expect(value(`H${row}`)).toBeCloseTo(expected, 9);
      expect(value(`J${row}`)).toBeCloseTo((100 * expected) / 180, 9);
      total += expected;
    }
    expect(value("H14")).toBeCloseTo(total, 9);
  });

  it("shows LibreOffice its chart, picture, pivot table and comment as before", () => {
    const names = rawEntries(shown.get(name) ?? new Uint8Array()).map((entry) => entry.name);
    for (const part of Object.values(KEPT)) expect(names.some((entry) => part.test(entry))).toBe(true);
  });
});

describe("ten readings changed in a workbook with macros", () => {
  it("leaves the macros and other programs' data as they were", () => {
    const { before, after } = book("library");
    for (const part of ["xl/vbaProject.bin", "customXml/item1.xml", "docProps/custom.xml"]) {
      expect(entryText(after, part)).toBe(entryText(before, part));
      expect(entryText(after, part).length).toBeGreaterThan(10);
    }
    expect(openWorkbook(after, "rich.xlsm").hasMacros).toBe(true);
  });
});
