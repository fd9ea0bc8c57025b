import { Buffer } from "node:buffer";
import { readFileSync } from "node:fs";
import ExcelJS from "exceljs";
import { SaxesParser } from "saxes";
import { beforeAll, describe, expect, it } from "vitest";
import { calculateXlsx } from "../../../src/engine/index.js";
import { handoffOf } from "../../../src/workbook/index.js";
import {
  cellAt,
  cellsOf,
  deleteRows,
  extendTable,
  formatAddress,
  growTable,
  insertRows,
  openWorkbook,
  patchWorkbook,
  type Restructured,
  readSheet,
  type Workbook,
  type WorkbookEdit,
} from "../../../src/xlsx/index.js";
import { richWorkbook } from "../../hosts/file/rich-workbook.js";
import { recalculated } from "../../support/libreoffice.js";
import { rawEntries } from "../raw-entries.js";

const TEMPLATES = ["room-balance", "duct-traverse", "face-sweep", "before-after", "job-summary", "demonstration"];

const opened = (name: string) => openWorkbook(readFileSync(`templates/${name}.xlsx`), `${name}.xlsx`);

/** The first table of a workbook and its sheet. */
function firstTable(workbook: Workbook) {
  for (const { name, kind } of workbook.sheets) {
    const table = kind === "worksheet" ? readSheet(workbook, name).tables[0] : undefined;
    if (table !== undefined) return { sheet: name, table, first: table.range.firstRow + table.headerRows };
  }
  return undefined;
}

function calculated({ workbook, outdated }: Restructured): Workbook {
  const bytes = patchWorkbook(workbook, calculateXlsx(workbook, outdated).edits);
  return openWorkbook(bytes, workbook.fileName);
}

const partsOf = ({ archive }: Workbook) => new Map(rawEntries(archive.bytes).map((entry) => [entry.name, entry]));

/** Parts that are there in both, and differ. */
function changedParts(before: Workbook, after: Workbook): readonly string[] {
  const now = partsOf(after);
  return [...partsOf(before)].flatMap(([name, { content }]) =>
    now.get(name)?.content.equals(content) === true ? [] : [name],
  );
}

function requireSoundXml(workbook: Workbook): void {
  for (const [name, { content }] of partsOf(workbook)) {
    if (!/\.(xml|rels|vml)$/.test(name)) continue;
    const parser = new SaxesParser({ xmlns: true });
    parser.on("error", (cause) => {
      throw new Error(`${name}: ${cause.message}`);
    });
    parser.write(content.toString("utf8")).close();
  }
}

/** Opens a file with a reader that is not ours, and says what a cell of it holds. */
async function readElsewhere(workbook: Workbook) {
  const other = new ExcelJS.Workbook();
  await other.xlsx.load(Buffer.from(workbook.archive.bytes) as unknown as ArrayBuffer);
  return other;
}

describe.each(TEMPLATES)("rows of the template %s", (name) => {
  const before = opened(name);
  const found = firstTable(before);
  const sheet = found?.sheet ?? before.sheets[1]?.name ?? "";
  const row = (found?.first ?? 20) + 3;

  it("come among its list with formulas, and the parts of other sheets keep their bytes", async () => {
    const done = insertRows(before, { sheet, row, count: 2 });
    const after = calculated(done);
    requireSoundXml(after);
    const own = readSheet(before, sheet).partName;
    const changed = changedParts(before, after);
    expect(changed).toContain(own);
    const untouched = [...partsOf(before).keys()].filter((part) =>
      /theme|styles|sharedStrings|docProps|webext|notes/.test(part),
    );
    expect(changed.filter((part) => untouched.includes(part))).toEqual([]);
    for (const { row: at, column, value, formula } of cellsOf(readSheet(before, sheet))) {
      const moved = cellAt(readSheet(after, sheet), formatAddress(at < row ? at : at + 2, column));
      expect(moved?.value, `${at} ${column}`).toEqual(value);
      expect(moved?.formula === undefined, `${at} ${column}`).toBe(formula === undefined);
    }
    const elsewhere = (await readElsewhere(after)).getWorksheet(sheet);
    const model = cellAt(readSheet(before, sheet), formatAddress(row - 1, 1));
    if (model?.formula === undefined) expect(elsewhere?.getCell(row, 1).value).toBeNull();
    expect(cellAt(readSheet(after, sheet), formatAddress(row, 1))?.style ?? 0).toBe(model?.style ?? 0);
    if (found === undefined) return;
    found.table.columns.forEach(({ calculatedFormula }, index) => {
      const place = formatAddress(row + 1, found.table.range.firstColumn + index);
      const made = cellAt(readSheet(after, sheet), place);
      expect(made?.formula !== undefined, place).toBe(calculatedFormula !== undefined);
      if (calculatedFormula !== undefined) expect(made?.value, place).not.toBeNull();
    });
  });

  it("that came go again, and every part is as it was, byte for byte", () => {
    const there = insertRows(before, { sheet, row, count: 3 }).workbook;
    const back = deleteRows(there, { sheet, row, count: 3 }).workbook;
    expect(changedParts(before, back)).toEqual([]);
  });
});

describe("a table that grows", () => {
  const before = opened("demonstration");

  it("takes its name, rules, formats, print area, chart and the sums of other sheets along", async () => {
    const after = calculated(growTable(before, { table: "outlets", count: 10 }));
    requireSoundXml(after);
    const outlets = readSheet(after, "Outlets");
    const old = readSheet(before, "Outlets");
    const end = (old.tables[0]?.range.lastRow ?? 0) + 10;
    expect(outlets.tables[0]?.range.lastRow).toBe(end);
    expect(outlets.validations.map(({ ranges }) => ranges[0]?.lastRow)).toEqual(old.validations.map(() => end));
    const area = after.names.find(({ name, sheet }) => name === "_xlnm.Print_Area" && sheet === "Outlets")?.refersTo;
    expect(area).toMatch(new RegExp(`\\$${end}$`));
    const chart = partsOf(after).get("xl/charts/chart1.xml")?.content.toString("utf8") ?? "";
    const lengths = [...chart.matchAll(/<c:f>[^<]*\$(\d+):\$[A-Z]+\$(\d+)</g)].map(
      ([, from, to]) => Number(to) - Number(from),
    );
    expect(new Set(lengths)).toEqual(new Set([end - 9]));
    const rooms = [...cellsOf(readSheet(after, "Rooms"))].map(({ formula }) => formula?.text ?? "");
    expect(rooms.filter((text) => text.includes(`$${end}`)).length).toBeGreaterThan(30);
    expect(rooms.filter((text) => text.includes(`$${end - 10},`))).toEqual([]);
    expect((await readElsewhere(after)).getWorksheet("Outlets")?.getCell(end, 21).formula).toContain(`J${end}:O${end}`);
  });

  it("counts what is typed into its new rows", () => {
    const grown = growTable(before, { table: "Outlets", count: 1 }).workbook;
    const row = readSheet(grown, "Outlets").tables[0]?.range.lastRow ?? 0;
    const last = readSheet(before, "Outlets");
    const typed: WorkbookEdit[] = ["A", "B", "C", "D", "F", "G", "H", "I", "J", "K"].map((column) => ({
      kind: "value",
      sheet: "Outlets",
      address: `${column}${row}`,
      value: cellAt(last, `${column}9`)?.value ?? null,
    }));
    const filled = openWorkbook(patchWorkbook(grown, typed), "filled.xlsx");
    const places = typed.flatMap((edit) =>
      "address" in edit ? [{ sheet: "Outlets", row, column: edit.address.charCodeAt(0) - 64 }] : [],
    );
    const after = calculated({ workbook: filled, outdated: places, notices: [] });
    const total = (workbook: Workbook) => Number(cellAt(readSheet(workbook, "Outlets"), "N5")?.value);
    expect(total(after) - total(before)).toBeCloseTo(Number(cellAt(readSheet(after, "Outlets"), `U${row}`)?.value), 9);
    const room = (workbook: Workbook) =>
      Number([...cellsOf(readSheet(workbook, "Rooms"))].find(({ address }) => address === "J6")?.value);
    expect(room(after)).toBeGreaterThan(room(before));
  });

  it("takes in rows that were typed below it, and leaves what is in them", () => {
    const row = (readSheet(before, "Outlets").tables[0]?.range.lastRow ?? 0) + 1;
    const typed: WorkbookEdit[] = [
      { kind: "value", sheet: "Outlets", address: `A${row}`, value: "S-99" },
      { kind: "value", sheet: "Outlets", address: `F${row}`, value: 12 },
      { kind: "value", sheet: "Outlets", address: `U${row}`, value: 77 },
    ];
    const below = openWorkbook(patchWorkbook(before, typed), "below.xlsx");
    const after = calculated(extendTable(below, { table: "Outlets", count: 2 }));
    requireSoundXml(after);
    const sheet = readSheet(after, "Outlets");
    expect(sheet.tables[0]?.range.lastRow).toBe(row + 1);
    expect(cellAt(sheet, `A${row}`)).toMatchObject({ value: "S-99", style: cellAt(sheet, `A${row - 1}`)?.style });
    expect(cellAt(sheet, `U${row}`)).toMatchObject({ value: 77, formula: undefined });
    expect(cellAt(sheet, `P${row}`)?.formula?.text).toContain(`F${row}`);
    expect(cellAt(sheet, `U${row + 1}`)?.formula?.text).toContain(`J${row + 1}`);
    expect(cellAt(sheet, "B5")?.value).toBe(Number(cellAt(readSheet(before, "Outlets"), "B5")?.value) + 1);
  });

  it("refuses what it cannot follow before anything is changed, and says what", () => {
    expect(() => growTable(before, { table: "Nothing", count: 1 })).toThrow(/table “Nothing”: is not in the workbook/);
    expect(() => insertRows(before, { sheet: "Outlets", row: 0, count: 1 })).toThrow(/has no 1 rows from row 0/);
    expect(() => deleteRows(before, { sheet: "Outlets", row: 8, count: 1 })).toThrow(
      /table Outlets, whose headings would go/,
    );
    expect(() => deleteRows(before, { sheet: "Outlets", row: 9, count: 30 })).toThrow(/would have no row left/);
    const edge: WorkbookEdit[] = [{ kind: "value", sheet: "Outlets", address: "A1048576", value: "end" }];
    const full = openWorkbook(patchWorkbook(before, edge), "full.xlsx");
    expect(() => insertRows(full, { sheet: "Outlets", row: 5, count: 1 })).toThrow(
      /A1048576: would be pushed off the sheet/,
    );
  });
});

describe("rows of a workbook with everything that people keep beside cells", () => {
  let before: Workbook;
  beforeAll(async () => {
    before = openWorkbook(await richWorkbook(), "rich.xlsx");
  });

  it("move the note, the picture, the chart, the sparkline and the sources of the pivot table", () => {
    const after = insertRows(before, { sheet: "Outlets", row: 5, count: 2 }).workbook;
    requireSoundXml(after);
    const parts = partsOf(after);
    const text = (pattern: RegExp) =>
      [...parts]
        .filter(([name]) => pattern.test(name))
        .map(([, { content }]) => content.toString("utf8"))
        .join("\n");
    expect(readSheet(after, "Outlets").comments.map(({ address }) => address)).toEqual(["F8"]);
    expect(text(/vmlDrawing/)).toContain("<x:Row>7</x:Row>");
    expect(text(/charts\/chart/)).toContain("Outlets!$H$2:$H$15");
    expect(text(/pivotCacheDefinition/)).toContain('ref="A1:J15"');
    expect(text(/drawings\/drawing/).match(/<xdr:row>\d+<\/xdr:row>/g)).toEqual(
      [18, 20, 18, 32].map((row) => `<xdr:row>${row}</xdr:row>`),
    );
    expect(text(/sheet1\.xml$/)).toContain("<xm:f>Outlets!E2:G2</xm:f>");
    expect(after.names.find(({ name }) => name === "AllAirflow")?.refersTo).toBe("Outlets!$H$2:$H$15");
    const changed = changedParts(before, after);
    expect(
      changed.filter((part) => /media|vbaProject|customXml|styles|sheet2|sheet3|Records|pivotTable\d/.test(part)),
    ).toEqual([]);
  });

  it("go with their notes", () => {
    const after = deleteRows(before, { sheet: "Outlets", row: 6, count: 1 }).workbook;
    requireSoundXml(after);
    expect(readSheet(after, "Outlets").comments).toEqual([]);
    const vml = [...partsOf(after)].find(([name]) => /vmlDrawing/.test(name))?.[1].content.toString("utf8");
    expect(vml).not.toContain("<x:Row>");
  });

  it("that came go again, and every part is as it was", () => {
    const there = insertRows(before, { sheet: "Outlets", row: 4, count: 2 }).workbook;
    const back = deleteRows(there, { sheet: "Outlets", row: 4, count: 2 }).workbook;
    expect(changedParts(before, back)).toEqual([]);
  });

  it("do not part what one formula fills", () => {
    expect(() => deleteRows(before, { sheet: "Outlets", row: 2, count: 1 })).toThrow(
      /L2:L13: is filled by one array formula/,
    );
  });

  it("are announced to have macros that name cells by address", () => {
    expect(insertRows(before, { sheet: "Outlets", row: 4, count: 1 }).notices).toHaveLength(1);
  });
});

describe("LibreOffice, which calculates a workbook anew after rows came", () => {
  it("finds the same numbers in other rows", async () => {
    const house = opened("demonstration");
    const plain = openWorkbook(patchWorkbook(house, handoffOf(house).edits), "plain.xlsx");
    const changes: Readonly<Record<string, Restructured>> = {
      inserted: insertRows(plain, { sheet: "Outlets", row: 12, count: 2 }),
      grown: growTable(plain, { table: "Outlets", count: 10 }),
      rooms: insertRows(plain, { sheet: "Rooms", row: 6, count: 1 }),
    };
    const files = new Map([
      ["before", plain.archive.bytes],
      ...Object.entries(changes).map(([name, { workbook }]) => [name, workbook.archive.bytes] as const),
    ]);
    const shown = await recalculated(files);
    const valuesOf = (name: string) => {
      const workbook = openWorkbook(shown.get(name) ?? new Uint8Array(), `${name}.xlsx`);
      return (sheet: string) => readSheet(workbook, sheet);
    };
    const before = valuesOf("before");
    const moved: Readonly<Record<string, (sheet: string, row: number) => number>> = {
      inserted: (sheet, row) => (sheet === "Outlets" && row >= 12 ? row + 2 : row),
      grown: (sheet, row) => (sheet === "Outlets" && row >= 39 ? row + 10 : row),
      rooms: (sheet, row) => (sheet === "Rooms" && row >= 6 ? row + 1 : row),
    };
    for (const [name, rowAfter] of Object.entries(moved)) {
      const after = valuesOf(name);
      const wrong: string[] = [];
      let compared = 0;
      for (const sheet of ["Outlets", "Rooms", "Systems", "Chart", "Before and after"]) {
        for (const { row, column, value, formula } of cellsOf(before(sheet))) {
          if (formula === undefined) continue;
          compared += 1;
          const now = cellAt(after(sheet), formatAddress(rowAfter(sheet, row), column))?.value ?? null;
          const isSame =
            typeof value === "number" && typeof now === "number"
              ? Math.abs(value - now) <= 1e-12 * Math.max(1, Math.abs(value))
              : JSON.stringify(value) === JSON.stringify(now);
          if (!isSame) wrong.push(`${sheet} ${row} ${column}: ${JSON.stringify(value)} is ${JSON.stringify(now)}`);
        }
      }
      expect(wrong, name).toEqual([]);
      expect(compared).toBeGreaterThan(700);
    }
  }, 180_000);
});
