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
  parseAddress,
  patchWorkbook,
  type Restructured,
  readSheet,
  sortTable,
  valueAt,
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

/** Where the table of outlets is: tests ask for it, so that a column or a row more breaks none of them. */
function outletsOf(workbook: Workbook) {
  const sheet = readSheet(workbook, "Outlets");
  const [table] = sheet.tables;
  if (table === undefined) throw new Error("There is no table of outlets.");
  const { firstRow, firstColumn, lastRow } = table.range;
  const column = (heading: string): string => {
    const index = table.columns.findIndex(({ name }) => name === heading);
    if (index < 0) throw new Error(`There is no column ${heading}.`);
    return formatAddress(1, firstColumn + index).slice(0, -1);
  };
  return { sheet, table, first: firstRow + 1, last: lastRow, column };
}

describe("a table that grows", () => {
  const before = opened("demonstration");
  const old = outletsOf(before);

  it("takes its name, rules, formats, print area, chart and the sums of other sheets along", async () => {
    const after = calculated(growTable(before, { table: "outlets", count: 10 }));
    requireSoundXml(after);
    const { sheet, last } = outletsOf(after);
    expect(last).toBe(old.last + 10);
    expect(sheet.validations.map(({ ranges }) => ranges[0]?.lastRow)).toEqual(old.sheet.validations.map(() => last));
    const area = after.names.find(({ name, sheet: scope }) => name === "_xlnm.Print_Area" && scope === "Outlets");
    expect(area?.refersTo.endsWith(`$${last}`)).toBe(true);
    const chart = partsOf(after).get("xl/charts/chart1.xml")?.content.toString("utf8") ?? "";
    const spans = [...chart.matchAll(/<c:f>[^<]*\$(\d+):\$[A-Z]+\$(\d+)</g)];
    expect(spans.length).toBeGreaterThan(4);
    expect(new Set(spans.map(([, from, to]) => Number(to) - Number(from) + 1))).toEqual(
      new Set([last - old.first + 1]),
    );
    const rooms = [...cellsOf(readSheet(after, "Rooms"))].map(({ formula }) => formula?.text ?? "");
    expect(
      rooms.filter((text) => new RegExp(`Outlets!\\$[A-Z]+\\$${old.first}:\\$[A-Z]+\\$${last}`).test(text)).length,
    ).toBeGreaterThan(30);
    expect(
      rooms.filter((text) => new RegExp(`Outlets!\\$[A-Z]+\\$${old.first}:\\$[A-Z]+\\$${old.last}`).test(text)),
    ).toEqual([]);
    const elsewhere = (await readElsewhere(after)).getWorksheet("Outlets");
    expect(elsewhere?.getCell(`${old.column("Airflow")}${last}`).formula).toContain(`${old.column("R1")}${last}:`);
  });

  it("counts what is typed into its new rows", () => {
    const grown = growTable(before, { table: "Outlets", count: 1 }).workbook;
    const row = old.last + 1;
    const headings = old.table.columns.filter(({ calculatedFormula }) => calculatedFormula === undefined);
    const edits = headings.map(({ name }): WorkbookEdit & { readonly address: string } => ({
      kind: "value",
      sheet: "Outlets",
      address: `${old.column(name)}${row}`,
      value: cellAt(old.sheet, `${old.column(name)}${old.first}`)?.value ?? null,
    }));
    const filled = openWorkbook(patchWorkbook(grown, edits), "filled.xlsx");
    const places = edits.flatMap(({ address }) => {
      const place = parseAddress(address);
      return place === undefined ? [] : [{ sheet: "Outlets", ...place }];
    });
    const after = calculated({ workbook: filled, outdated: places, notices: [] });
    const airflow = cellAt(readSheet(after, "Outlets"), `${old.column("Airflow")}${row}`)?.value;
    expect(airflow).toBe(cellAt(old.sheet, `${old.column("Airflow")}${old.first}`)?.value);
    // Every figure of a whole job or a room that is a sum of airflows is larger by this one, or as it was.
    const sums = (workbook: Workbook, name: string) =>
      [...cellsOf(readSheet(workbook, name))].flatMap(({ address, value, formula }) =>
        formula?.text.includes("SUMIFS(") && !formula.text.includes("/") && typeof value === "number"
          ? [[address, value] as const]
          : [],
      );
    for (const name of ["Outlets", "Rooms"]) {
      const now = new Map(sums(after, name));
      const more = sums(before, name).map(([address, value]) => (now.get(address) ?? Number.NaN) - value);
      expect(
        more.some((difference) => Math.abs(difference - Number(airflow)) < 1e-9),
        name,
      ).toBe(true);
    }
  });

  it("takes in rows that were typed below it, and leaves what is in them", () => {
    const row = old.last + 1;
    const [outlet, width, airflow, area, reading] = ["Outlet", "Width or diameter", "Airflow", "Area", "R1"].map(
      old.column,
    );
    const typed: WorkbookEdit[] = [
      { kind: "value", sheet: "Outlets", address: `${outlet}${row}`, value: "S-99" },
      { kind: "value", sheet: "Outlets", address: `${width}${row}`, value: 12 },
      { kind: "value", sheet: "Outlets", address: `${airflow}${row}`, value: 77 },
    ];
    const below = openWorkbook(patchWorkbook(before, typed), "below.xlsx");
    const after = calculated(extendTable(below, { table: "Outlets", count: 2 }));
    requireSoundXml(after);
    const { sheet, last } = outletsOf(after);
    expect(last).toBe(row + 1);
    const style = cellAt(sheet, `${outlet}${row - 1}`)?.style;
    expect(cellAt(sheet, `${outlet}${row}`)).toMatchObject({ value: "S-99", style });
    expect(cellAt(sheet, `${airflow}${row}`)).toMatchObject({ value: 77, formula: undefined });
    expect(cellAt(sheet, `${area}${row}`)?.formula?.text).toContain(`${width}${row}`);
    expect(cellAt(sheet, `${airflow}${row + 1}`)?.formula?.text).toContain(`${reading}${row + 1}`);
    const count = (workbook: Workbook) =>
      [...cellsOf(readSheet(workbook, "Outlets"))].find(({ formula }) => formula?.text.startsWith(`COUNTA($${outlet}$`))
        ?.value;
    expect(count(after)).toBe(Number(count(before)) + 1);
  });

  it("refuses what it cannot follow before anything is changed, and says what", () => {
    const head = old.first - 1;
    const rows = old.last - old.first + 1;
    expect(() => growTable(before, { table: "Nothing", count: 1 })).toThrow(/table “Nothing”: is not in the workbook/);
    expect(() => insertRows(before, { sheet: "Outlets", row: 0, count: 1 })).toThrow(/has no 1 rows from row 0/);
    expect(() => deleteRows(before, { sheet: "Outlets", row: head, count: 1 })).toThrow(
      /table Outlets, whose headings would go/,
    );
    expect(() => deleteRows(before, { sheet: "Outlets", row: old.first, count: rows })).toThrow(
      /would have no row left/,
    );
    const edge: WorkbookEdit[] = [{ kind: "value", sheet: "Outlets", address: "A1048576", value: "end" }];
    const full = openWorkbook(patchWorkbook(before, edge), "full.xlsx");
    expect(() => insertRows(full, { sheet: "Outlets", row: 5, count: 1 })).toThrow(
      /A1048576: would be pushed off the sheet/,
    );
  });

  it("is sorted with its results, each row as it was", () => {
    const after = calculated(sortTable(before, { table: "Outlets", column: "Airflow", direction: "descending" }));
    requireSoundXml(after);
    const rowsOf = (workbook: Workbook) => {
      const { sheet, table, first, last } = outletsOf(workbook);
      return Array.from({ length: last - first + 1 }, (_, index) =>
        table.columns.map((_column, at) => valueAt(sheet, first + index, table.range.firstColumn + at)),
      );
    };
    const airflowAt = old.table.columns.findIndex(({ name }) => name === "Airflow");
    const [was, is] = [rowsOf(before), rowsOf(after)];
    const figures = is.map((row) => row[airflowAt]).filter((value) => typeof value === "number");
    expect(figures).toEqual([...figures].sort((one, other) => other - one));
    expect(figures.length).toBeGreaterThan(10);
    const spelled = (rows: readonly unknown[]) => rows.map((row) => JSON.stringify(row)).sort();
    expect(spelled(is)).toEqual(spelled(was));
    const sums = (workbook: Workbook) => [...cellsOf(readSheet(workbook, "Rooms"))].map(({ value }) => value);
    expect(sums(after)).toEqual(sums(before));
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
    const notes = [...partsOf(after)].find(([name]) => /comments\d*\.xml$/.test(name))?.[1].content.toString("utf8");
    expect(notes).toMatch(/<commentList>\s*<\/commentList>/);
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
      grown: (_sheet, row) => row,
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
