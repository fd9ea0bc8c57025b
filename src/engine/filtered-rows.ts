import { CorePlugin, registries, type UIPlugin } from "@odoo/o-spreadsheet";
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

interface FilteredRowsGetter {
  isRowFilteredInFile(sheetId: string, row: number): boolean;
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
    const command = given as RowCommand;
    const rows = this.filteredRows[command.sheetId];
    if (rows === undefined) return;
    if (command.type === "DELETE_SHEET") this.keep(command.sheetId, undefined);
    else if (command.type === "DUPLICATE_SHEET") this.keep(command.sheetIdTo, rows);
    else if (command.dimension === "ROW") this.keep(command.sheetId, rowsAfter(rows, command));
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
  if (corePluginRegistry.contains(PLUGIN)) return;
  corePluginRegistry.add(PLUGIN, FilteredRowsPlugin);
  const LibraryFilters = statefulUIPluginRegistry.get(FILTER_PLUGIN) as unknown as {
    new (
      config: ConstructorParameters<typeof UIPlugin>[0],
    ): UIPlugin & {
      isRowFiltered(sheetId: string, row: number): boolean;
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
    },
  );
}
