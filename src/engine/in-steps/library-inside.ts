import { type CompiledFormula, type Model, registries } from "@odoo/o-spreadsheet";

/** Where a cell stands; the library counts from 0. */
export interface InsidePlace {
  readonly sheetId: string;
  readonly col: number;
  readonly row: number;
}

/** A cell as the library holds it. */
export interface InsideCell {
  readonly id: number;
  readonly isFormula: boolean;
  readonly content?: string;
  readonly style?: { readonly wrapping?: string; readonly rotation?: number };
  readonly format?: string;
  readonly compiledFormula?: {
    readonly rangeDependencies: readonly InsideRange[];
    toFormulaString(getters: unknown): string;
    usesSymbol(name: string): boolean;
  };
}

/** A block that a formula reads. */
export interface InsideRange {
  readonly sheetId: string;
  readonly zone: { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number };
}

/** The library's part that holds contents. */
export interface InsideCells {
  readonly cells: Record<string, Record<number, InsideCell>>;
  /** Writes them, and their looks, into the workbook's data. */
  export: (data: object, isShort: boolean) => void;
  /** What of a cell's style is not usual. */
  extractCustomStyle(cell: InsideCell): object;
  importCell(
    sheetId: string,
    content: string | undefined,
    style: unknown,
    format: unknown,
    compiled: CompiledFormula | undefined,
  ): InsideCell;
}

/** The library's part that knows which cell stands where. */
export interface InsideSheets {
  readonly cellPosition: Record<number, InsidePlace>;
  readonly sheets: Record<string, { readonly rows: readonly { readonly cells: Record<number, number> }[] }>;
}

/** The library's part that measures rows. */
export interface InsideHeights {
  readonly tallestCellInRow: Record<string, unknown[]>;
  getCellHeight(place: InsidePlace): number;
  getRowTallestCell(sheetId: string, row: number): unknown;
}

/** What a model keeps to itself, for what it does in one go and the page cannot wait for. */
export interface LibraryInside {
  readonly cells: InsideCells;
  readonly sheets: InsideSheets;
  readonly heights: InsideHeights;
  /** The cells that call a function by which rows that are hidden later matter. */
  readonly tracked: { readonly trackedCells: Record<string, Record<number, number>> };
  readonly positions: { isDirty: boolean };
  readonly colours: { shouldUpdateColors: boolean };
  readonly viewports: { readonly sheetsWithDirtyViewports: Set<string> };
  readonly state: { changes: unknown };
}

/** Returns the part of a model that the library registers under a name. */
export function partOf<Part>(
  model: Model,
  list: "corePluginRegistry" | "coreViewsPluginRegistry" | "statefulUIPluginRegistry",
  name: string,
): Part {
  const Plugin = registries[list].get(name) as unknown as new () => Part;
  const { handlers } = model as unknown as { readonly handlers: readonly unknown[] };
  const part = handlers.find((handler): handler is Part => handler instanceof Plugin);
  if (part === undefined) throw new Error(`The spreadsheet library has no part "${name}".`);
  return part;
}

/** Returns what a model keeps to itself. */
export function insideOf(model: Model): LibraryInside {
  return {
    cells: partOf(model, "corePluginRegistry", "cell"),
    sheets: partOf(model, "corePluginRegistry", "sheet"),
    heights: partOf(model, "coreViewsPluginRegistry", "row_size"),
    tracked: partOf(model, "coreViewsPluginRegistry", "formula_tracker"),
    colours: partOf(model, "coreViewsPluginRegistry", "custom_colors"),
    positions: partOf(model, "statefulUIPluginRegistry", "header_positions"),
    viewports: partOf(model, "statefulUIPluginRegistry", "viewport"),
    state: (model as unknown as { readonly state: { changes: unknown } }).state,
  };
}
