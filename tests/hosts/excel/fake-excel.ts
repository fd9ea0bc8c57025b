import { OfficeMockObject } from "office-addin-mock";
import type { CellRange } from "../../../src/xlsx/address.js";
import type { GivenWorkbook } from "../contract.js";
import { FakeExcelError, type FakeSheet, FakeWorkbook, givenRange } from "./fake-workbook.js";

/*
 * Excel behind Office.js: the mock library insists on load and sync as Excel does.
 */

type Mock = OfficeMockObject & Record<string, unknown>;
type Handler = (event: { readonly worksheetId: string }) => Promise<void>;
type Handlers = Set<Handler>;

interface RangeMock {
  readonly mock: Mock;
  readonly sheet: FakeSheet;
  readonly range: CellRange;
  known: unknown;
}

interface GivenTable {
  readonly name: string;
  readonly address: string;
  readonly showHeaders: boolean;
  readonly showTotals: boolean;
  readonly columns: readonly string[];
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

const EMPTY_RANGE = { address: "", formulas: 0, values: 0, valueTypes: 0 };

export class FakeExcel {
  readonly workbook: FakeWorkbook;
  /** How often the host waited for Excel. */
  syncs = 0;
  calculationSuspended = 0;
  /** Makes the write of that number (from 1) fail, as Excel does in the middle of a batch. */
  failingWrite = 0;
  failingCode = "InvalidArgument";
  /** A formula that Excel never takes, with whatever is written in the same batch. */
  refusedFormula = "";
  readonly inserted: string[] = [];
  tables: readonly GivenTable[] = [];
  readonly handlers: Handlers = new Set();
  readonly selectionHandlers: Handlers = new Set();
  private ranges: RangeMock[] = [];
  private mocks: OfficeMockObject[] = [];
  private actions: (() => void)[] = [];

  constructor(given: GivenWorkbook) {
    this.workbook = new FakeWorkbook(given);
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
    return this.workbook.sheet(name);
  }

  /** Lets every listener hear that a sheet changed. */
  async change(sheet: string): Promise<void> {
    await Promise.all([...this.handlers].map((handler) => handler({ worksheetId: this.sheet(sheet).id })));
  }

  /** Lets every listener hear that other cells of a sheet were selected. */
  async moveSelection(sheet: string): Promise<void> {
    await Promise.all([...this.selectionHandlers].map((handler) => handler({ worksheetId: this.sheet(sheet).id })));
  }

  private track<Tracked extends OfficeMockObject>(mock: Tracked): Tracked & Record<string, unknown> {
    this.mocks.push(mock);
    return mock as Tracked & Record<string, unknown>;
  }

  private newContext(): unknown {
    this.ranges = [];
    this.mocks = [];
    this.actions = [];
    return {
      workbook: this.workbookMock(),
      application: {
        suspendApiCalculationUntilNextSync: () => {
          this.calculationSuspended += 1;
        },
      },
      sync: () => this.sync(),
    };
  }

  private async sync(): Promise<void> {
    this.syncs += 1;
    for (const action of this.actions.splice(0)) action();
    this.applyWrites();
    for (const mock of this.mocks) await mock.sync();
    await new Promise((resolve) => setImmediate(resolve));
    for (const range of this.ranges) range.known = range.mock["formulas"];
  }

  /** Writes in order; where one fails, those before it stand and those behind it are dropped, as in Excel. */
  private applyWrites(): void {
    const written = this.ranges.filter(
      ({ mock, known }) => Array.isArray(mock["formulas"]) && mock["formulas"] !== known,
    );
    for (const range of written) range.known = range.mock["formulas"];
    written.forEach(({ mock, sheet, range }, index) => {
      if (index + 1 === this.failingWrite) {
        this.failingWrite = 0;
        throw new FakeExcelError(this.failingCode);
      }
      const isRefused = (mock["formulas"] as unknown[][]).flat().includes(this.refusedFormula);
      if (this.refusedFormula !== "" && isRefused) throw new FakeExcelError(this.failingCode);
      this.workbook.enter(sheet, range, mock["formulas"] as unknown[][]);
    });
  }

  private workbookMock(): unknown {
    const worksheets = Object.assign(new FakeCollection(this.workbook.sheets.map((sheet) => this.sheetMock(sheet))), {
      getItem: (name: string) => this.itemOrFailing(name),
      getItemOrNullObject: (name: string) => this.itemOrFailing(name),
      onChanged: this.event(this.handlers),
      onCalculated: this.event(this.handlers),
      onSelectionChanged: this.event(this.selectionHandlers),
      onActivated: this.event(this.selectionHandlers),
    });
    const names = [...this.workbook.names].map(([name, refersTo]) =>
      this.track(new OfficeMockObject({ name, formula: `=${refersTo}` })),
    );
    return {
      worksheets,
      names: Object.assign(new FakeCollection(names), {
        getItem: (name: string) => ({
          delete: () => this.actions.push(() => void this.workbook.names.delete(name)),
        }),
        add: (name: string, formula: string) => {
          this.actions.push(() => void this.workbook.names.set(name, formula.replace(/^=/, "")));
          return { visible: true };
        },
      }),
      tables: new FakeCollection(this.tables.map((table) => this.tableMock(table))),
      getSelectedRange: () => {
        if (this.workbook.selected === null) this.fail("InvalidSelection");
        return this.track(new OfficeMockObject({ address: this.workbook.selected ?? "" }));
      },
      insertWorksheetsFromBase64: (base64: string) => {
        this.inserted.push(base64);
        return { value: this.workbook.sheets.slice(-1).map(({ id }) => id) };
      },
    };
  }

  private tableMock({ address, columns, ...table }: GivenTable): Mock {
    const named = columns.map((name) => this.track(new OfficeMockObject({ name })));
    const mock = this.track(new OfficeMockObject({ ...table }));
    const load = mock.load.bind(mock);
    return Object.assign(mock, {
      columns: { items: named },
      getRange: () => this.track(new OfficeMockObject({ address })),
      load(property: string) {
        if (property.startsWith("columns/items/")) for (const column of named) column.load(property.slice(14));
        else load(property);
        return mock;
      },
    });
  }

  private event(handlers: Handlers): unknown {
    return {
      add: (handler: Handler) => {
        handlers.add(handler);
        return { context: {}, remove: () => handlers.delete(handler) };
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
    const found = this.workbook.sheets.find((sheet) => sheet.id === name || sheet.name === name);
    if (found !== undefined) return this.sheetMock(found);
    this.fail("ItemNotFound");
    return this.sheetMock(this.workbook.sheets[0] as FakeSheet);
  }

  private sheetMock(sheet: FakeSheet): Mock {
    const isProtected = sheet.protection !== null;
    const mock = this.track(
      new OfficeMockObject({ name: sheet.name, protection: { protected: isProtected, options: 0 } }),
    );
    Object.assign(mock["protection"] as Mock, {
      options: sheet.protection ?? {},
      protect: (options: Readonly<Record<string, boolean>>) => {
        this.actions.push(() => {
          sheet.protection = options;
        });
      },
      unprotect: () => this.actions.push(() => this.workbook.unprotect(sheet)),
    });
    return Object.assign(mock, {
      isNullObject: false,
      names: new FakeCollection([]),
      activate: () => this.actions.push(() => this.workbook.select(sheet, givenRange("A1"))),
      getRange: (address: string) =>
        /^\d+:\d+$/.test(address) ? this.rowsMock(sheet, address) : this.rangeMock(sheet, givenRange(address)),
      getUsedRangeOrNullObject: () => {
        const used = this.workbook.usedRange(sheet);
        if (used !== null) return this.rangeMock(sheet, used);
        return Object.assign(this.track(new OfficeMockObject(EMPTY_RANGE)), { isNullObject: true });
      },
    });
  }

  /** Whole rows, which are inserted and deleted. */
  private rowsMock(sheet: FakeSheet, address: string): unknown {
    const [first = 0, last = 0] = address.split(":").map(Number);
    const change = (kind: "insert" | "delete") => () => {
      this.actions.push(() => this.workbook.changeRows(sheet, kind, first, last - first + 1));
    };
    return { insert: change("insert"), delete: change("delete") };
  }

  private rangeMock(sheet: FakeSheet, range: CellRange): Mock {
    const { locked, ...shown } = this.workbook.block(sheet, range);
    const mock = this.track(
      new OfficeMockObject({ ...shown, hasSpill: false, format: { protection: { locked } } } as never),
    );
    this.ranges.push({ mock, sheet, range, known: undefined });
    const areas = (address: string | null) =>
      Object.assign(this.track(new OfficeMockObject({ address: address ?? "" })), { isNullObject: address === null });
    return Object.assign(mock, {
      isNullObject: false,
      getMergedAreasOrNullObject: () => areas(this.workbook.mergedAreas(sheet, range)),
      getSpecialCellsOrNullObject: (kind: string) => {
        if (kind !== "Visible") throw new FakeExcelError("InvalidArgument");
        return areas(this.workbook.areasInView(sheet, range));
      },
      select: () => this.actions.push(() => this.workbook.select(sheet, range)),
    });
  }
}
