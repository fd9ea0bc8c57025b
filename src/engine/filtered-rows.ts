import { CorePlugin, coreTypes, type Model, registries, type UIPlugin } from "@odoo/o-spreadsheet";
import { firstAtLeast } from "./calculator/cell-set.js";

const PLUGIN = "VANE_FILTERED_ROWS";
/** The library's own plugin that knows which rows its filters hide. */
const FILTER_PLUGIN = "evaluation_filter";

type Rows = ReadonlySet<number>;

/** What a sheet's data says of rows that a filter of its file hides; they count from 0. */
interface FilteredSheet {
  readonly id: string;
  filteredRows?: readonly number[];
}

/** What a filter lets be seen: the texts of a column's cells by its place in the table, null where a file alone knows. */
export type RowChoices = Readonly<Record<string, readonly string[] | null>>;

/** A block of cells as the library counts: from 0. */
interface Zone {
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

/** A table with what its filter lets be seen, which the library keeps with the looks of the table. */
export interface FilteredTable {
  readonly range: { readonly zone: Zone };
  readonly config: {
    readonly hasFilters: boolean;
    readonly totalRow: boolean;
    readonly numberOfHeaders: number;
    readonly choices?: RowChoices;
    /** Whether every heading has a button; without it only those of columns by which rows are chosen. */
    readonly hasButtons?: boolean;
  };
}

/** Chooses which rows of a table are in view; one step for undo. */
interface ChooseRows {
  readonly type: "VANE_CHOOSE_ROWS";
  readonly sheetId: string;
  readonly zone: Zone;
  readonly hasButtons: boolean;
  readonly choices: RowChoices;
  /** The rows that are out of view for it, counted from 0. */
  readonly hidden: readonly number[];
}

interface FilteredRowsGetter {
  isRowFilteredInFile(sheetId: string, row: number): boolean;
}

const CHOOSE_ROWS = "VANE_CHOOSE_ROWS";

/** Shows the rows of a table that its filter lets be seen, and hides the others; see {@link ChooseRows}. */
export function chooseRows(model: Model, command: Omit<ChooseRows, "type">): void {
  model.dispatch(CHOOSE_ROWS as never, command as never);
}

/** The rows of a sheet that a filter hides, counted from 0. */
export function filteredRowsOf({ getters }: Model, sheetId: string): readonly number[] {
  const { isRowFilteredInFile } = getters as unknown as FilteredRowsGetter;
  const count = getters.getNumberRows(sheetId);
  return Array.from({ length: count }, (_, row) => row).filter((row) => isRowFilteredInFile(sheetId, row));
}

interface RowCommand {
  readonly type: string;
  readonly sheetId: string;
  readonly sheetIdTo: string;
  readonly dimension: "ROW" | "COL";
  readonly elements: readonly number[];
  readonly base: number;
  readonly position: "before" | "after";
  readonly quantity: number;
}

/**
 * Keeps which of the hidden rows a filter of the file hides. The library only keeps that they are hidden, as if by hand, and
 * its SUBTOTAL would count them.
 */
class FilteredRowsPlugin extends CorePlugin {
  static override getters = ["isRowFilteredInFile"];
  readonly filteredRows: Record<string, Rows> = {};

  isRowFilteredInFile(sheetId: string, row: number): boolean {
    return this.filteredRows[sheetId]?.has(row) === true && this.getters.isRowHiddenByUser(sheetId, row);
  }

  override handle(given: { readonly type: string }): void {
    if (given.type === CHOOSE_ROWS) {
      this.choose(given as ChooseRows);
      return;
    }
    const command = given as RowCommand;
    const rows = this.filteredRows[command.sheetId];
    if (rows === undefined) return;
    if (command.type === "DELETE_SHEET") this.keep(command.sheetId, undefined);
    else if (command.type === "DUPLICATE_SHEET") this.keep(command.sheetIdTo, rows);
    else if (command.dimension === "ROW") this.keep(command.sheetId, rowsAfter(rows, command));
  }

  private choose({ sheetId, zone, hasButtons, choices, hidden }: ChooseRows): void {
    const isInside = (row: number): boolean => row >= zone.top && row <= zone.bottom;
    const rows = [...(this.filteredRows[sheetId] ?? [])];
    const before = new Set(rows.filter((row) => isInside(row) && this.isRowFilteredInFile(sheetId, row)));
    // What a person hid stays hidden, and no filter shows it again.
    const wanted = hidden.filter((row) => before.has(row) || !this.getters.isRowHiddenByUser(sheetId, row));
    const after = new Set(wanted);
    const [shown, gone] = [[...before].filter((row) => !after.has(row)), wanted.filter((row) => !before.has(row))];
    const change = { sheetId, dimension: "ROW" } as const;
    if (shown.length > 0) this.dispatch("UNHIDE_COLUMNS_ROWS", { ...change, elements: shown });
    if (gone.length > 0) this.dispatch("HIDE_COLUMNS_ROWS", { ...change, elements: gone });
    this.keep(sheetId, new Set([...rows.filter((row) => !isInside(row)), ...wanted]));
    const isChosen = Object.keys(choices).length > 0;
    const config = { hasFilters: hasButtons || isChosen, hasButtons, choices: isChosen ? choices : undefined };
    this.dispatch("UPDATE_TABLE", { sheetId, zone, config } as never);
  }

  private keep(sheetId: string, rows: Rows | undefined): void {
    this.history.update("filteredRows", sheetId, rows);
  }

  override import(data: object): void {
    for (const { id, filteredRows } of (data as { readonly sheets: readonly FilteredSheet[] }).sheets) {
      if (filteredRows !== undefined) this.filteredRows[id] = new Set(filteredRows);
    }
  }

  override export(data: object): void {
    for (const sheet of (data as { readonly sheets: readonly FilteredSheet[] }).sheets) {
      const rows = this.filteredRows[sheet.id];
      if (rows !== undefined) sheet.filteredRows = [...rows];
    }
  }
}

/** Where the rows are after a command, and which of them are still hidden. */
function rowsAfter(rows: Rows, { type, elements, base, position, quantity }: RowCommand): Rows {
  if (type === "ADD_COLUMNS_ROWS") {
    const first = position === "before" ? base : base + 1;
    return new Set([...rows].map((row) => (row >= first ? row + quantity : row)));
  }
  if (type !== "REMOVE_COLUMNS_ROWS" && type !== "UNHIDE_COLUMNS_ROWS") return rows;
  const gone = new Set(elements);
  const left = [...rows].filter((row) => !gone.has(row));
  if (type === "UNHIDE_COLUMNS_ROWS") return new Set(left);
  const removed = [...gone].sort((one, other) => one - other);
  return new Set(left.map((row) => row - firstAtLeast(removed, row)));
}

/** Makes the library's SUBTOTAL leave out rows that a filter of the file hides; a model made later knows them. */
export function registerFilteredRows(): void {
  const { corePluginRegistry, statefulUIPluginRegistry } = registries;
  const { inverseCommandRegistry } = registries as unknown as {
    readonly inverseCommandRegistry: { add(type: string, inverse: (command: object) => readonly object[]): void };
  };
  if (corePluginRegistry.contains(PLUGIN)) return;
  corePluginRegistry.add(PLUGIN, FilteredRowsPlugin);
  (coreTypes as Set<string>).add(CHOOSE_ROWS);
  inverseCommandRegistry.add(CHOOSE_ROWS, (command: object) => [command]);
  const LibraryFilters = statefulUIPluginRegistry.get(FILTER_PLUGIN) as unknown as {
    new (
      config: ConstructorParameters<typeof UIPlugin>[0],
    ): UIPlugin & {
      isRowFiltered(sheetId: string, row: number): boolean;
      isFilterActive(position: { readonly sheetId: string; readonly col: number; readonly row: number }): boolean;
    };
    readonly getters: readonly string[];
    readonly layers: (typeof UIPlugin)["layers"];
  };
  statefulUIPluginRegistry.replace(
    FILTER_PLUGIN,
    class extends LibraryFilters {
      override isRowFiltered(sheetId: string, row: number): boolean {
        const { isRowFilteredInFile } = this.getters as unknown as FilteredRowsGetter;
        return super.isRowFiltered(sheetId, row) || isRowFilteredInFile(sheetId, row);
      }

      override isFilterActive(position: {
        readonly sheetId: string;
        readonly col: number;
        readonly row: number;
      }): boolean {
        const table = this.getters.getCoreTable(position) as FilteredTable | undefined;
        return table?.config.choices?.[position.col - table.range.zone.left] !== undefined;
      }
    },
  );
}
