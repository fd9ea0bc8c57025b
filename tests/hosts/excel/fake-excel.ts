import type { Model } from "@odoo/o-spreadsheet";
import { OfficeMockObject } from "office-addin-mock";
import { createModel, editCells, engineSpelling, typedContent } from "../../../src/engine/index.js";
import { type CellRange, formatRange, parseRange } from "../../../src/workbook/xlsx/address.js";
import type { GivenWorkbook } from "../contract.js";

/*
 * A workbook that stands in for Excel behind Office.js: the mock library insists on load and sync as Excel does, the
 * spreadsheet engine calculates.
 */

/** What Excel rejects a batch with. */
class FakeExcelError extends Error {
  constructor(readonly code: string) {
    super(`Excel says ${code}`);
  }
}

interface FakeSheet {
  readonly id: string;
  readonly name: string;
  protection: Readonly<Record<string, boolean | string>> | null;
  hasPassword: boolean;
  readonly unlocked: Set<string>;
  /** Formulas that Excel could not read when they came, as shown, by address. */
  readonly stuck: Map<string, string>;
}

type Mock = OfficeMockObject & Record<string, unknown>;
type Handler = (event: { readonly worksheetId: string }) => Promise<void>;

interface RangeMock {
  readonly mock: Mock;
  readonly sheet: FakeSheet;
  readonly range: CellRange;
  known: unknown;
}

/** A collection's own properties are those of its items, as in Office.js. */
class FakeCollection extends OfficeMockObject {
  constructor(readonly items: readonly Mock[]) {
    super({});
  }
  override load(properties: string): this {
    for (const property of properties.split(",")) {
      for (const item of this.items) item.load(property.trim().replace(/^items\//, ""));
    }
    return this;
  }
}

function addressOf(row: number, column: number): string {
  return formatRange({ firstRow: row, firstColumn: column, lastRow: row, lastColumn: column });
}

function quoted(name: string): string {
  return /^\w+$/.test(name) ? name : `'${name.replaceAll("'", "''")}'`;
}

const EMPTY_RANGE = { address: "", formulas: 0, values: 0, valueTypes: 0 };

/** Nothing where some cells are locked and some are not; Excel says null, which the mock library cannot hold. */
function lockedOf(unlocked: number, cells: number): boolean | undefined {
  if (unlocked === cells) return false;
  return unlocked === 0 ? true : undefined;
}

export class FakeExcel {
  readonly sheets: FakeSheet[];
  /** How often the host waited for Excel. */
  syncs = 0;
  calculationSuspended = 0;
  /** Makes the write of that number (from 1) fail, as Excel does in the middle of a batch. */
  failingWrite = 0;
  failingCode = "InvalidArgument";
  selected: string | null = "Outlets!B2";
  readonly inserted: string[] = [];
  readonly handlers = new Set<Handler>();
  private readonly model: Model;
  private readonly names: Readonly<Record<string, string>>;
  private ranges: RangeMock[] = [];
  private mocks: OfficeMockObject[] = [];
  private actions: (() => void)[] = [];

  constructor({ sheets, names }: GivenWorkbook) {
    this.names = names;
    this.sheets = sheets.map(({ name }, index) => this.newSheet(`{sheet-${index}}`, name));
    this.model = createModel({
      sheets: sheets.map(({ name, cells }, index) => ({
        id: `{sheet-${index}}`,
        name,
        colNumber: 26,
        rowNumber: 60,
        cells: Object.fromEntries(Object.entries(cells).map(([address, cell]) => [address, typedContent(cell)])),
      })),
    });
  }

  /** What the add-in finds as globals inside Excel. */
  globals(): Readonly<Record<string, unknown>> {
    return {
      Excel: {
        run: (first: unknown, second?: (context: unknown) => unknown) =>
          typeof first === "function" ? first(this.newContext()) : second?.(this.newContext()),
        WorksheetPositionType: { end: "End" },
      },
      Office: { context: { requirements: { isSetSupported: () => true } } },
    };
  }

  sheet(name: string): FakeSheet {
    const found = this.sheets.find((sheet) => sheet.name === name || sheet.id === name);
    if (found === undefined) throw new FakeExcelError("ItemNotFound");
    return found;
  }

  /** Lets every listener hear that a sheet changed. */
  async change(sheet: string): Promise<void> {
    await Promise.all([...this.handlers].map((handler) => handler({ worksheetId: this.sheet(sheet).id })));
  }

  private newSheet(id: string, name: string): FakeSheet {
    return { id, name, protection: null, hasPassword: false, unlocked: new Set(), stuck: new Map() };
  }

  private engineContent(cell: unknown): string {
    const text = typeof cell === "boolean" ? String(cell).toUpperCase() : String(cell);
    return text.startsWith("=") ? engineSpelling(text) : text;
  }

  private track<Tracked extends OfficeMockObject>(mock: Tracked): Tracked & Record<string, unknown> {
    this.mocks.push(mock);
    return mock as Tracked & Record<string, unknown>;
  }

  private newContext(): unknown {
    this.ranges = [];
    this.mocks = [];
    this.actions = [];
    const context = {
      workbook: this.workbook(),
      application: { suspendApiCalculationUntilNextSync: () => (this.calculationSuspended += 1) },
      sync: () => this.sync(),
    };
    return context;
  }

  private async sync(): Promise<void> {
    this.syncs += 1;
    const actions = this.actions.splice(0);
    for (const action of actions) action();
    this.applyWrites();
    for (const mock of this.mocks) await mock.sync();
    await new Promise((resolve) => setImmediate(resolve));
    for (const range of this.ranges) range.known = range.mock["formulas"];
  }

  private applyWrites(): void {
    let writes = 0;
    for (const one of this.ranges) {
      const { mock, sheet, range, known } = one;
      const written = mock["formulas"];
      if (!Array.isArray(written) || written === known) continue;
      one.known = written;
      writes += 1;
      if (writes === this.failingWrite) {
        this.failingWrite = 0;
        throw new FakeExcelError(this.failingCode);
      }
      this.enter(sheet, range, written);
    }
  }

  private enter(sheet: FakeSheet, range: CellRange, rows: readonly (readonly unknown[])[]): void {
    const edits = rows.flatMap((cells, rowIndex) =>
      cells.map((cell, columnIndex) => {
        const row = range.firstRow + rowIndex;
        const column = range.firstColumn + columnIndex;
        const address = addressOf(row, column);
        if (sheet.protection !== null && !sheet.unlocked.has(address)) throw new FakeExcelError("AccessDenied");
        sheet.stuck.delete(address);
        return { sheetId: sheet.id, col: column - 1, row: row - 1, content: this.engineContent(cell) };
      }),
    );
    editCells(this.model, edits);
  }

  private workbook(): unknown {
    const sheetMocks = this.sheets.map((sheet) => this.sheetMock(sheet));
    const worksheets = Object.assign(new FakeCollection(sheetMocks), {
      getItem: (name: string) => this.itemOrFailing(name),
      getItemOrNullObject: (name: string) => this.itemOrFailing(name),
      onChanged: this.event(),
      onCalculated: this.event(),
    });
    return {
      worksheets,
      names: new FakeCollection(
        Object.entries(this.names).map(([name, refersTo]) =>
          this.track(new OfficeMockObject({ name, formula: `=${refersTo}` })),
        ),
      ),
      getSelectedRange: () => {
        if (this.selected === null) this.fail("InvalidSelection");
        return this.track(new OfficeMockObject({ address: this.selected ?? "" }));
      },
      insertWorksheetsFromBase64: (base64: string) => {
        this.inserted.push(base64);
        return { value: this.sheets.slice(-1).map(({ id }) => id) };
      },
    };
  }

  private event(): unknown {
    return {
      add: (handler: Handler) => {
        this.handlers.add(handler);
        return { context: {}, remove: () => this.handlers.delete(handler) };
      },
    };
  }

  private fail(code: string): void {
    this.actions.push(() => {
      throw new FakeExcelError(code);
    });
  }

  /** Excel says what is missing only when it is asked to carry out the batch. */
  private itemOrFailing(name: string): unknown {
    const found = this.sheets.find((sheet) => sheet.id === name || sheet.name === name);
    if (found !== undefined) return this.sheetMock(found);
    this.fail("ItemNotFound");
    return this.sheetMock(this.sheets[0] as FakeSheet);
  }

  private sheetMock(sheet: FakeSheet): Mock {
    const mock = this.track(
      new OfficeMockObject({
        name: sheet.name,
        protection: { protected: sheet.protection !== null, options: 0 },
      }),
    );
    const protection = mock["protection"] as Mock;
    Object.assign(protection, {
      options: sheet.protection ?? {},
      protect: (options: Readonly<Record<string, boolean>>) => {
        this.actions.push(() => {
          sheet.protection = options;
        });
      },
      unprotect: () => {
        this.actions.push(() => {
          if (sheet.hasPassword) throw new FakeExcelError("AccessDenied");
          sheet.protection = null;
        });
      },
    });
    return Object.assign(mock, {
      isNullObject: false,
      names: new FakeCollection([]),
      activate: () => this.actions.push(() => (this.selected = `${quoted(sheet.name)}!A1`)),
      getRange: (address: string) => this.rangeMock(sheet, parseRange(address) as CellRange),
      getUsedRangeOrNullObject: () => this.usedRangeMock(sheet),
    });
  }

  private usedRangeMock(sheet: FakeSheet): Mock {
    const places = Array.from({ length: 60 * 26 }, (_, index) => ({
      row: Math.floor(index / 26),
      col: index % 26,
    })).filter(({ row, col }) => this.shown(sheet, row + 1, col + 1).type !== "Empty");
    if (places.length === 0)
      return Object.assign(this.track(new OfficeMockObject(EMPTY_RANGE)), { isNullObject: true });
    const rows = places.map(({ row }) => row + 1);
    const columns = places.map(({ col }) => col + 1);
    return this.rangeMock(sheet, {
      firstRow: Math.min(...rows),
      firstColumn: Math.min(...columns),
      lastRow: Math.max(...rows),
      lastColumn: Math.max(...columns),
    });
  }

  private rangeMock(sheet: FakeSheet, range: CellRange): Mock {
    const rows = Array.from({ length: range.lastRow - range.firstRow + 1 }, (_, index) => range.firstRow + index);
    const columns = Array.from(
      { length: range.lastColumn - range.firstColumn + 1 },
      (_, index) => range.firstColumn + index,
    );
    const cells = rows.map((row) => columns.map((column) => this.shown(sheet, row, column)));
    const addresses = rows.flatMap((row) => columns.map((column) => addressOf(row, column)));
    const unlocked = addresses.filter((address) => sheet.unlocked.has(address)).length;
    const mock = this.track(
      new OfficeMockObject({
        address: `${quoted(sheet.name)}!${formatRange(range)}`,
        values: cells.map((row) => row.map(({ value }) => value)),
        valueTypes: cells.map((row) => row.map(({ type }) => type)),
        formulas: cells.map((row) => row.map(({ formula }) => formula)),
        hasSpill: false,
        format: { protection: { locked: lockedOf(unlocked, addresses.length) } },
      } as never),
    );
    this.ranges.push({ mock, sheet, range, known: undefined });
    return Object.assign(mock, {
      isNullObject: false,
      select: () => this.actions.push(() => (this.selected = `${quoted(sheet.name)}!${formatRange(range)}`)),
    });
  }

  private shown(sheet: FakeSheet, row: number, column: number): { value: unknown; type: string; formula: unknown } {
    const stuck = sheet.stuck.get(addressOf(row, column));
    if (stuck !== undefined) return { value: "#NAME?", type: "Error", formula: stuck };
    const position = { sheetId: sheet.id, col: column - 1, row: row - 1 };
    const { value, type } = this.model.getters.getEvaluatedCell(position);
    const cell = this.model.getters.getCell(position);
    const shown = value ?? "";
    const excelType = { empty: "Empty", error: "Error", number: "Double", boolean: "Boolean", text: "String" }[type];
    const formula =
      cell?.isFormula === true ? cell.compiledFormula.toFormulaString(this.model.getters as never) : shown;
    return { value: shown, type: cell?.isFormula && shown === "" ? "String" : (excelType ?? "String"), formula };
  }
}
