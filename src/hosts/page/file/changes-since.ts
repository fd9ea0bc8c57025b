import { isMappingName } from "../../../workbook/index.js";
import type { AddedSheet, TableFilter } from "../../../xlsx/index.js";
import type { ExportedSheet, ExportedWorkbook } from "./engine-export.js";
import { filteredRowsIn, filtersSince } from "./filters-since.js";
import { hasOtherLooks, type LookList } from "./other-looks.js";

/** A cell whose content is not what it was. */
export interface ChangedCell {
  readonly sheetId: string;
  readonly sheet: string;
  readonly address: string;
  /** As typed, empty for none. */
  readonly before: string;
  readonly after: string;
}

/** The names that a person gave, or those by which the workbook keeps what its columns hold. */
function namesOf({ namedRanges }: ExportedWorkbook, which: "own" | "columns"): Readonly<Record<string, string>> {
  return Object.fromEntries(
    Object.entries(namedRanges).filter(([name]) => isMappingName(name) === (which === "columns")),
  );
}

/** Names of a workbook that are not what they were. */
export interface NameChanges {
  /** What each new or changed name stands for. */
  readonly set: Readonly<Record<string, string>>;
  /** Names of the file that go, or stand for something else. */
  readonly replaced: readonly string[];
}

/** What became of the names that a person gives. */
function changedNames(baseline: ExportedWorkbook, current: ExportedWorkbook): NameChanges | null {
  const [before, after] = [namesOf(baseline, "own"), namesOf(current, "own")];
  const differs = (one: typeof before, other: typeof before) =>
    Object.keys(one).filter((name) => one[name] !== other[name]);
  const [replaced, set] = [differs(before, after), differs(after, before)];
  if (replaced.length === 0 && set.length === 0) return null;
  return { set: Object.fromEntries(set.map((name) => [name, after[name] ?? ""])), replaced };
}

/** How a workbook differs from the file that it was opened from. */
export interface Changes {
  readonly cells: readonly ChangedCell[];
  /** Sheets that the file does not have yet, in their order; their cells are among those that changed. */
  readonly added: readonly AddedSheet[];
  /** What moved or came and went, in words: these changes need a new file. */
  readonly structure: readonly string[];
  /** What only looks different, in words. */
  readonly looks: readonly string[];
  /** The names by which the workbook keeps what its columns hold, where they have changed; null where they have not. */
  readonly columns: Readonly<Record<string, string>> | null;
  /** Names for cells that a person gave, changed or took away; null where there are none. */
  readonly names: NameChanges | null;
  /** Tables whose filter shows other rows. */
  readonly filters: readonly TableFilter[];
}

const LOOKS: Readonly<Record<string, string>> = {
  conditionalFormats: "conditional formats",
  dataValidationRules: "rules on entries",
  figures: "charts and pictures",
  panes: "frozen rows and columns",
  isVisible: "whether the sheet is hidden",
  areGridLinesVisible: "grid lines",
  color: "the color of the tab",
  headerGroups: "grouped rows and columns",
  isLocked: "the lock of the sheet",
};

/** Widths and heights are for the page alone; what is hidden is in the file. */
const SIZES: Readonly<Record<string, string>> = { cols: "hidden columns", rows: "hidden rows" };

/** Rows that a filter hides are not among them: they go with the filter. */
function hiddenOf(sheet: ExportedSheet, part: string): readonly string[] {
  const filtered = part === "rows" ? filteredRowsIn(sheet) : new Set<number>();
  const headers = Object.entries((sheet[part] ?? {}) as Readonly<Record<string, { readonly isHidden?: boolean }>>);
  return headers.flatMap(([index, { isHidden }]) => (isHidden === true && !filtered.has(Number(index)) ? [index] : []));
}

/** A sheet as it was before it was there. */
const notYet = (sheet: ExportedSheet): ExportedSheet => ({ ...sheet, cells: {}, styles: {}, formats: {}, borders: {} });

function isSame(one: unknown, other: unknown): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

function changedCells(before: ExportedSheet, after: ExportedSheet): readonly ChangedCell[] {
  const cells: ChangedCell[] = [];
  const place = { sheetId: after.id, sheet: before.name };
  for (const [address, content = ""] of Object.entries(after.cells)) {
    const old = before.cells[address] ?? "";
    if (old !== content) cells.push({ ...place, address, before: old, after: content });
  }
  for (const [address, old = ""] of Object.entries(before.cells)) {
    if (old !== "" && after.cells[address] === undefined) cells.push({ ...place, address, before: old, after: "" });
  }
  return cells;
}

function changedLooks(
  before: ExportedSheet,
  after: ExportedSheet,
  baseline: ExportedWorkbook,
  current: ExportedWorkbook,
  entered: readonly string[],
): readonly string[] {
  // The engine sets a number to the right by itself, and gives a typed percentage or date its format.
  const edited = new Set(entered);
  const differs = (list: LookList): boolean =>
    hasOtherLooks({ sheet: before, workbook: baseline }, { sheet: after, workbook: current }, list, edited);
  const words = [
    ...(differs("styles") || differs("borders") ? ["fonts, fills and borders"] : []),
    ...(differs("formats") ? ["number formats"] : []),
    ...Object.entries(SIZES).flatMap(([part, name]) =>
      isSame(hiddenOf(before, part), hiddenOf(after, part)) ? [] : [name],
    ),
    ...Object.entries(LOOKS).flatMap(([part, name]) => (isSame(before[part], after[part]) ? [] : [name])),
  ];
  return words.length === 0 ? [] : [`${words.join(", ")} on “${after.name}”`];
}

/** The blocks of a sheet's tables; what their filters let be seen is told by itself. */
function tableRanges(sheet: ExportedSheet): readonly string[] {
  return ((sheet["tables"] ?? []) as readonly { readonly range: string }[]).map(({ range }) => range);
}

function changedStructure(before: ExportedSheet, after: ExportedSheet, isMoved: boolean): readonly string[] {
  const on = `on “${after.name}”`;
  const moved = isMoved && !(isSame(before.cells, after.cells) && before.rowNumber === after.rowNumber);
  return [
    ...(before.name === after.name ? [] : [`the sheet “${before.name}” is now called “${after.name}”`]),
    ...(moved ? [`rows or columns were inserted, deleted or moved ${on}`] : []),
    ...(isSame(before["merges"], after["merges"]) ? [] : [`cells were merged or parted ${on}`]),
    ...(isSame(tableRanges(before), tableRanges(after)) || moved ? [] : [`a table came, went or grew ${on}`]),
  ];
}

/**
 * Compares a workbook with the file that it was opened from.
 *
 * @param baseline - As the file gave it
 * @param current - As it is now
 * @param movedSheetIds - Sheets on which rows or columns were inserted, deleted or moved since
 * @param entered - Cells that were saved since, by their sheet's id
 */
export function changesSince(
  baseline: ExportedWorkbook,
  current: ExportedWorkbook,
  movedSheetIds: ReadonlySet<string>,
  entered: Readonly<Record<string, readonly string[]>> = {},
): Changes {
  const known = new Map(baseline.sheets.map((sheet) => [sheet.id, sheet]));
  const there = new Set(current.sheets.map(({ id }) => id));
  const added = current.sheets.flatMap(({ id, name }, index) =>
    known.has(id) ? [] : [{ name, behind: current.sheets[index - 1]?.name }],
  );
  const gone = baseline.sheets.filter(({ id }) => !there.has(id)).map(({ name }) => `the sheet “${name}” is gone`);
  const order = (sheets: readonly ExportedSheet[], other: (id: string) => boolean) =>
    sheets.map(({ id }) => id).filter(other);
  const isReordered = !isSame(
    order(baseline.sheets, (id) => there.has(id)),
    order(current.sheets, (id) => known.has(id)),
  );
  const pairs = current.sheets.map((after) => ({ before: known.get(after.id) ?? notYet(after), after }));
  const cells = pairs.map(({ before, after }) => changedCells(before, after));
  const columns = namesOf(current, "columns");
  return {
    columns: isSame(namesOf(baseline, "columns"), columns) ? null : columns,
    cells: cells.flat(),
    names: changedNames(baseline, current),
    filters: pairs.flatMap(({ before, after }) => filtersSince(before, after)),
    added,
    structure: [
      ...gone,
      ...(isReordered ? ["the sheets are in another order"] : []),
      ...pairs.flatMap(({ before, after }) =>
        changedStructure(before, after, movedSheetIds.has(after.id) && known.has(after.id)),
      ),
    ],
    looks: pairs.flatMap(({ before, after }, index) =>
      changedLooks(before, after, baseline, current, [
        ...(entered[after.id] ?? []),
        ...(cells[index] ?? []).map(({ address }) => address),
      ]),
    ),
  };
}

export type BesideCells = Pick<Changes, "columns" | "added" | "names" | "filters">;

/** Returns what goes into the file beside the contents of cells. */
export function besideCells({ columns, added, names, filters }: Changes): BesideCells {
  return { columns, added, names, filters };
}

/** Adds changed cells to those that were entered before. */
export function withEntered(
  entered: Readonly<Record<string, readonly string[]>>,
  cells: readonly ChangedCell[],
): Readonly<Record<string, readonly string[]>> {
  const sets = new Map(Object.entries(entered).map(([id, addresses]) => [id, new Set(addresses)]));
  for (const { sheetId, address } of cells) sets.set(sheetId, (sets.get(sheetId) ?? new Set()).add(address));
  return Object.fromEntries([...sets].map(([id, addresses]) => [id, [...addresses]]));
}
