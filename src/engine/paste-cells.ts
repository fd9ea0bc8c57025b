import { type CommandResult, type Model, registries } from "@odoo/o-spreadsheet";
import Papa from "papaparse";
import { isLockedCell, isProtectedSheet, PROTECTED } from "./protect-cells.js";

interface Zone {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

interface Target {
  readonly sheetId: string;
  readonly zones: readonly Zone[];
}

interface CopiedCell {
  readonly content: string;
  /** Missing where the text comes from another program. */
  readonly position?: object;
  readonly compiledFormula?: { readonly hasDependencies: boolean };
}

interface CopiedCells {
  readonly cells?: readonly (readonly CopiedCell[])[];
  readonly zones?: readonly Zone[];
  readonly sheetId?: string;
}

interface Options {
  readonly pasteOption?: string;
  readonly isCutOperation?: boolean;
}

interface Place {
  readonly sheetId: string;
  readonly col: number;
  readonly row: number;
}

/** One of the library's handlers of the clipboard, as far as it is changed here; its own types keep these to itself. */
interface Handler {
  readonly getters: Model["getters"];
  readonly dispatch: (type: string, command: object) => void;
  paste(target: Target, content: CopiedCells, options: Options): void;
  isPasteAllowed(sheetId: string, target: readonly Zone[], content: CopiedCells, options: Options): CommandResult;
  getPasteTarget(sheetId: string, target: readonly Zone[], content: CopiedCells, options: Options): Target;
  convertTextToClipboardData(text: string): CopiedCells | undefined;
  pasteCell(origin: CopiedCell, target: Place, options: Options): void;
  clearClippedZones(content: CopiedCells): void;
}

type HandlerClass = new (...given: readonly unknown[]) => Handler;

/** Parts that a paste brings along beside contents; a protected sheet keeps its own. */
const LOOKS = ["dataValidation", "border", "conditionalFormat", "merge", "table"] as const;

let isRegistered = false;

/** Returns the rows of a text that another program put on the clipboard; its last line end begins no row. */
function pastedRows(text: string): readonly (readonly string[])[] {
  const lines = text.replace(/\r\n?/g, "\n").replace(/\n$/, "");
  return new Papa.Parser({ delimiter: "\t", newline: "\n" }).parse(lines, 0, false).data;
}

/** The cells of a paste that hold something and would go into a locked cell. */
function* lockedTargets(
  getters: Model["getters"],
  { sheetId, zones }: Target,
  cells: NonNullable<CopiedCells["cells"]>,
) {
  const [height, width] = [cells.length, cells[0]?.length ?? 0];
  for (const { left, top, right, bottom } of zones) {
    for (let row = top; row <= bottom; row += 1) {
      for (let col = left; col <= right; col += 1) {
        const content = cells[(row - top) % height]?.[(col - left) % width]?.content ?? "";
        if (content !== "" && isLockedCell(getters, { sheetId, col, row })) yield { col, row };
      }
    }
  }
}

function ofCells(Library: HandlerClass): HandlerClass {
  return class extends Library {
    override convertTextToClipboardData(text: string): CopiedCells | undefined {
      const rows = pastedRows(text);
      const width = Math.max(1, ...rows.map(({ length }) => length));
      const square = rows.map((row) =>
        Array.from({ length: width }, (_, index) => (row[index] ?? "").replaceAll(/[\t\n]/g, " ")).join("\t"),
      );
      return super.convertTextToClipboardData(square.join("\n"));
    }

    override isPasteAllowed(sheetId: string, target: readonly Zone[], content: CopiedCells, options: Options) {
      const { cells } = content;
      if (cells === undefined || cells.length === 0) return super.isPasteAllowed(sheetId, target, content, options);
      const { zones } = this.getPasteTarget(sheetId, target, content, options);
      const found = lockedTargets(this.getters, { sheetId, zones: zones.length === 0 ? target : zones }, cells).next();
      return found.done === true ? super.isPasteAllowed(sheetId, target, content, options) : PROTECTED;
    }

    override pasteCell(origin: CopiedCell, target: Place, options: Options): void {
      const isText = origin.position === undefined;
      if (options.pasteOption !== undefined && !isText) {
        super.pasteCell(origin, target, options);
        return;
      }
      if (!isText && !isProtectedSheet(this.getters, target.sheetId)) super.pasteCell(origin, target, options);
      // The cell stays as it looks: what came from elsewhere brings values alone.
      else this.dispatch("UPDATE_CELL", { ...target, content: this.contentFor(origin, target, options) });
    }

    private contentFor(origin: CopiedCell, target: Place, { isCutOperation }: Options): string {
      const { compiledFormula, position } = origin;
      if (compiledFormula?.hasDependencies !== true || position === undefined) return origin.content;
      const from = position as Place;
      const { getTranslatedCellFormula, getFormulaMovedInSheet } = this.getters;
      if (isCutOperation === true) return getFormulaMovedInSheet(target.sheetId, compiledFormula as never);
      const [across, down] = [target.col - from.col, target.row - from.row];
      return getTranslatedCellFormula(target.sheetId, across, down, compiledFormula as never);
    }

    override clearClippedZones(content: CopiedCells): void {
      if (content.sheetId === undefined || !isProtectedSheet(this.getters, content.sheetId)) {
        super.clearClippedZones(content);
        return;
      }
      this.dispatch("DELETE_CONTENT", { sheetId: content.sheetId, target: content.zones ?? [] });
    }
  };
}

function ofLooks(Library: HandlerClass): HandlerClass {
  return class extends Library {
    override paste(target: Target, content: CopiedCells, options: Options): void {
      if (!isProtectedSheet(this.getters, target.sheetId)) super.paste(target, content, options);
    }
  };
}

/** Frozen rows and columns only keep cells in view; a paste goes over their edge as over any other. */
function overFrozenEdge(Library: HandlerClass): HandlerClass {
  return class extends Library {
    override isPasteAllowed(): CommandResult {
      return "Success" as CommandResult;
    }
  };
}

/** Makes a paste leave the looks of protected sheets and the contents of locked cells alone; a model made later knows it. */
export function registerPaste(): void {
  if (isRegistered) return;
  isRegistered = true;
  const { cellHandlers } = registries.clipboardHandlersRegistries;
  const replace = (name: string, change: (Library: HandlerClass) => HandlerClass): void => {
    cellHandlers.replace(name, change(cellHandlers.get(name) as never) as never);
  };
  replace("cell", ofCells);
  replace("sheet", overFrozenEdge);
  for (const name of LOOKS) replace(name, ofLooks);
}
