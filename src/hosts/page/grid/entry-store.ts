import { type Model, stores } from "@odoo/o-spreadsheet";
import { isLockedCell, typedFormula } from "../../../engine/index.js";
import type { Direction, EntryMove } from "./entry-moves.js";
import { typedFraction } from "./typed-fraction.js";

/** A cell's place as the engine counts: from 0. */
export interface EntryPlace {
  readonly sheetId: string;
  readonly col: number;
  readonly row: number;
}

/** Who is told of what becomes of an entry. */
export interface EntryEvents {
  /** An entry that breaks the rule of its cell stays in the editor. */
  refused(place: EntryPlace, text: string): void;
  /** Somebody began to type into a locked cell. */
  locked(place: EntryPlace): void;
  /** What stands in the editor, with each key. */
  typed(place: EntryPlace, text: string): void;
  /** An entry that is refused cannot stay, since its sheet goes out of view. */
  dropped(place: EntryPlace, text: string): void;
  ended(): void;
  /** Somebody takes the last step back. */
  undo(): void;
  /** Somebody wants to see some rows of a table alone, by the column of the selected cell. */
  filter(): void;
}

/** The engine's editor of cells, as far as it is used here; its own types keep these to itself. */
export interface CellEditor {
  readonly model: Model;
  readonly getters: Model["getters"];
  readonly editionMode: "inactive" | "editing" | "selecting";
  readonly initialContent: string | undefined;
  readonly currentEditedCell: EntryPlace;
  readonly currentContent: string;
  canStopEdition(): boolean;
  stopEdition(direction?: Direction): void;
  startEdition(text?: string, selection?: object): unknown;
  setContent(text: string, selection?: object, raise?: boolean): void;
  handle(command: { readonly type: string }): void;
  getCurrentCanonicalContent(): string;
  confirmEdition(content: string): void;
  _stopEdition(): void;
  _cancelEdition(): void;
}

type EditorClass = new (...given: readonly unknown[]) => CellEditor;

/** Returns the engine's editor of cells, which keeps a refused entry, goes on as every spreadsheet does, and tells of it. */
export function entryStore(events: EntryEvents, move: EntryMove): EditorClass {
  const Library = stores.CellComposerStore as unknown as EditorClass;
  return class extends Library {
    override canStopEdition(): boolean {
      if (this.editionMode === "inactive") return true;
      const content = this.getCurrentCanonicalContent();
      // To leave a cell empty, or as it was, breaks no rule.
      return content === "" || content === this.initialContent || super.canStopEdition();
    }

    override stopEdition(direction?: Direction): void {
      if (!this.canStopEdition()) {
        events.refused(this.currentEditedCell, this.currentContent);
        return;
      }
      this._stopEdition();
      if (direction !== undefined) move(direction);
    }

    override startEdition(text?: string, selection?: object): unknown {
      const place = this.getters.getActivePosition();
      if (this.editionMode === "inactive" && isLockedCell(this.getters, place)) {
        events.locked(place);
        return "NoStateChange";
      }
      return super.startEdition(text, selection);
    }

    override getCurrentCanonicalContent(): string {
      return typedFraction(super.getCurrentCanonicalContent());
    }

    override confirmEdition(content: string): void {
      const { row, col } = this.currentEditedCell;
      super.confirmEdition(typedFormula(content, row + 1, col + 1));
    }

    override setContent(text: string, selection?: object, raise?: boolean): void {
      super.setContent(text, selection, raise);
      if (this.editionMode !== "inactive") events.typed(this.currentEditedCell, text);
    }

    override handle(command: { readonly type: string }): void {
      const isLeft = command.type === "ACTIVATE_SHEET" && this.editionMode !== "inactive";
      if (isLeft && !this.canStopEdition()) events.dropped(this.currentEditedCell, this.currentContent);
      super.handle(command);
    }

    override _cancelEdition(): void {
      const wasActive = this.editionMode !== "inactive";
      super._cancelEdition();
      if (wasActive) events.ended();
    }
  };
}
