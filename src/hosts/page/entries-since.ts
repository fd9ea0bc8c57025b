import { helpers, isCoreCommand, type Model } from "@odoo/o-spreadsheet";
import type { ExportedWorkbook } from "./file/engine-export.js";

/** Contents of cells as they were typed, by the id of their sheet and by address; empty where a cell was emptied. */
export type KeptEntries = Readonly<Record<string, Readonly<Record<string, string>>>>;

/** More cells than this are kept with the workbook as a whole. */
const MOST_ENTRIES = 5_000;

interface Command {
  readonly type: string;
  readonly sheetId?: string;
  readonly col?: number;
  readonly row?: number;
}

/** Follows what is entered into a workbook after it was kept as a whole. */
export interface EntriesSince {
  /** What was entered since; null where it cannot be told by contents alone, so that all has to be kept anew. */
  readonly entries: () => KeptEntries | null;
  /** Begins anew: this is what is kept as a whole. */
  readonly begin: (whole: ExportedWorkbook) => void;
  /** All has to be kept anew. */
  readonly forget: () => void;
  readonly stop: () => void;
}

/**
 * Follows what is entered into a workbook, so that an entry costs what one cell costs and not what the workbook costs: a
 * large one takes a second or more to be taken out of the engine.
 */
export function entriesSince(model: Model): EntriesSince {
  const owner = {};
  const cells = new Map<string, { readonly sheetId: string; readonly col: number; readonly row: number }>();
  let whole: ExportedWorkbook | null = null;
  const forget = (): void => {
    whole = null;
    cells.clear();
  };
  const note = (command: Command): void => {
    const { type, sheetId, col, row } = command;
    // Goes along with the command that enters a content.
    if (type === "UPDATE_CELL_POSITION") return;
    if (whole === null || (!isCoreCommand(command as never) && type !== "UNDO" && type !== "REDO")) return;
    const isContent = type === "UPDATE_CELL" && "content" in command && !("style" in command) && !("format" in command);
    if (!isContent || sheetId === undefined || col === undefined || row === undefined) {
      forget();
      return;
    }
    cells.set(`${sheetId} ${col} ${row}`, { sheetId, col, row });
    if (cells.size > MOST_ENTRIES) forget();
  };
  model.on("command-dispatched", owner, note as never);
  return {
    entries() {
      if (whole === null) return null;
      const entries: Record<string, Record<string, string>> = {};
      for (const position of cells.values()) {
        const cell = model.getters.getCell(position);
        // A date or a percentage that is typed brings its format along.
        if (cell?.format !== formatIn(whole, position)) return null;
        const content =
          cell?.isFormula === true ? cell.compiledFormula.toFormulaString(model.getters) : (cell?.content ?? "");
        entries[position.sheetId] ??= {};
        Object.assign(entries[position.sheetId] ?? {}, { [helpers.toXC(position.col, position.row)]: content });
      }
      return entries;
    },
    begin(kept) {
      cells.clear();
      whole = kept;
    },
    forget,
    stop: () => model.off("command-dispatched", owner),
  };
}

/** The format of a cell in a workbook as it was taken out of the engine. */
function formatIn(
  { sheets, formats }: ExportedWorkbook,
  { sheetId, col, row }: { readonly sheetId: string; readonly col: number; readonly row: number },
): string | undefined {
  const ofSheet = sheets.find(({ id }) => id === sheetId)?.["formats"] as Readonly<Record<string, number>> | undefined;
  for (const [range, id] of Object.entries(ofSheet ?? {})) {
    const { left, right, top, bottom } = helpers.toZone(range);
    if (col >= left && col <= right && row >= top && row <= bottom) return formats[id] as string;
  }
  return undefined;
}

/** Returns a workbook with what was entered into it after it was kept as a whole. */
export function withEntries(data: object, entries: KeptEntries): object {
  const { sheets } = data as ExportedWorkbook;
  return {
    ...data,
    sheets: sheets.map((sheet) => {
      const entered = entries[sheet.id];
      if (entered === undefined) return sheet;
      const cells = Object.entries({ ...sheet.cells, ...entered }).filter(([, content]) => content !== "");
      return { ...sheet, cells: Object.fromEntries(cells) };
    }),
  };
}
