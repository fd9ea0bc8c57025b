import { components, type Model } from "@odoo/o-spreadsheet";
import type { Component } from "@odoo/owl";
import { isLockedCell } from "../../../engine/index.js";
import type { EntryMove } from "./entry-moves.js";
import type { EntryEvents, EntryPlace } from "./entry-store.js";

/** The engine's grid, as far as it is changed here; its own types keep these to itself. */
interface LibraryGrid extends Component {
  readonly env: { readonly model: Model };
  readonly keyDownMapping: Record<string, () => void>;
  setup(): void;
}

type GridClass = (new (...given: never[]) => LibraryGrid) & Pick<typeof components.Grid, "template" | "components">;

/** The first locked cell of the selection that holds something. */
function lockedInSelection({ getters }: Model): EntryPlace | undefined {
  const sheetId = getters.getActiveSheetId();
  for (const { left, top, right, bottom } of getters.getSelectedZones()) {
    for (let row = top; row <= bottom; row += 1) {
      for (let col = left; col <= right; col += 1) {
        const place = { sheetId, col, row };
        if (getters.getCell(place) !== undefined && getters.getEvaluatedCell(place).type !== "empty") {
          if (isLockedCell(getters, place)) return place;
        }
      }
    }
  }
  return undefined;
}

/** Keys that put, paint or open what this page has no use for, or what no file of ours takes in. */
const UNUSED_KEYS = [
  ...["Ctrl+O", "Ctrl+K", "Alt+T", "Ctrl+B", "Ctrl+I", "Ctrl+U", "Ctrl+<", "Ctrl+Shift+<"],
  ...["Ctrl+Shift+E", "Ctrl+Shift+L", "Ctrl+Shift+R", "Ctrl+Alt+=", "Ctrl+Alt+-"],
  ...["Alt+Shift+ArrowRight", "Alt+Shift+ArrowLeft", "Alt+Shift+ArrowUp", "Alt+Shift+ArrowDown"],
];

interface LibraryComposer extends Component {
  readonly env: { readonly model: Model };
  readonly composerProps: object;
}

type ComposerClass = new (...given: never[]) => LibraryComposer;

/** What a rule on numbers is called. */
const NUMBER_RULES = /^is(?:Between|NotBetween|Equal|NotEqual|Greater|Less)/;

/**
 * The editor over the grid, which asks for the keyboard of the screen as soon as a cell is touched: a number pad where the
 * cell takes numbers. The engine asks for none until the second touch.
 */
class TouchedComposer extends (components.Grid.components.GridComposer as unknown as ComposerClass) {
  override get composerProps(): object {
    const props = super.composerProps;
    if (!window.matchMedia("(pointer: coarse)").matches) return props;
    const { getters } = this.env.model;
    const rule = getters.getValidationRuleForCell(getters.getActivePosition());
    return { ...props, inputMode: NUMBER_RULES.test(rule?.criterion.type ?? "") ? "decimal" : "text" };
  }
}

/** Returns the engine's grid, which moves by Enter and Tab as every spreadsheet does, and deletes what is selected alone. */
export function entryGrid(move: EntryMove, events: EntryEvents): typeof components.Grid {
  const Library = components.Grid as unknown as GridClass;
  class EntryGrid extends Library {
    static override components = {
      ...Library.components,
      GridComposer: TouchedComposer as unknown as typeof components.Grid.components.GridComposer,
    };

    override setup(): void {
      super.setup();
      const { keyDownMapping, env } = this;
      const erase = keyDownMapping["Delete"];
      const deleteSelected = (): void => {
        // A chart or picture of the file belongs to the file; the cells behind it are not meant.
        if (env.model.getters.getSelectedFigureId() !== null) return;
        const locked = lockedInSelection(env.model);
        if (locked === undefined) erase?.();
        else events.locked(locked);
      };
      Object.assign(keyDownMapping, {
        Enter: () => move("down"),
        "Shift+Enter": () => move("up"),
        Tab: () => move("right"),
        "Shift+Tab": () => move("left"),
        "Ctrl+Z": () => events.undo(),
        "Alt+ArrowDown": () => events.filter(),
        Delete: deleteSelected,
        Backspace: deleteSelected,
      });
      for (const key of UNUSED_KEYS) delete keyDownMapping[key];
    }
  }
  return EntryGrid as unknown as typeof components.Grid;
}
