import { type Model, Spreadsheet, stores } from "@odoo/o-spreadsheet";
import templates from "@odoo/o-spreadsheet/dist/o_spreadsheet.xml";
import { App, Component, xml } from "@odoo/owl";
import * as charts from "chart.js";
import Chart from "chart.js/auto";
import { ownWords } from "../../engine/index.js";
import "bootstrap/dist/css/bootstrap.min.css";
import "font-awesome/css/font-awesome.min.css";
import "@odoo/o-spreadsheet/dist/o_spreadsheet.css";
import { registerDrawing } from "./drawings/file-drawing.js";
import { PAGE_BARS } from "./grid/bars.js";
import { entryGrid } from "./grid/entry-grid.js";
import { entryMoves } from "./grid/entry-moves.js";
import { type CellEditor, type EntryEvents, entryStore } from "./grid/entry-store.js";
import { registerColours } from "./grid/own-colours.js";
import type { Messages } from "./messages.js";

/** The engine's link display asks an outside address for a picture of the linked site. */
const OUTSIDE_PICTURE = /<img\b[^>]*t-attf-src="https?:[^>]*\/>/g;

/** What an address of a link looks like, in the engine's words the address of its maker. */
const LINK_EXAMPLE = /placeholder="e\.g\. 'http[^"]*"/g;

/** The engine's menus answer to the mouse alone. */
const MENU = 't-on-mouseover="(ev) => this.onMenuMouseOver(menu, ev)"';
const MENU_BY_KEYS = `${MENU} role="button" tabindex="0" aria-haspopup="menu" t-on-keydown="(ev) => ['Enter', ' ', 'ArrowDown'].includes(ev.key) ? (ev.preventDefault(), ev.stopPropagation(), this.openMenu(menu, ev.currentTarget, true)) : undefined"`;

/** A press on a figure selects it; the engine would drag it. */
const DRAG = 'onMouseDown="(ev) => this.startDraggingFigure(figureUI, ev)"';
const SELECT = `onMouseDown="(ev) => ev.button > 0 ? undefined : this.env.model.dispatch('SELECT_FIGURE', { figureId: figureUI.id })"`;

/** Handles to resize a figure by, and its menu, for which nothing is in the list. */
const RESIZE = 't-if="isFigureResizable"';
const FIGURE_MENU = /t-on-contextmenu\.prevent\.stop="[^"]*(?:onContextMenu\(ev\)|showMenu)"/g;

/** The engine's templates with what this page changes in them. */
function pageTemplates(): string {
  return templates
    .replace(OUTSIDE_PICTURE, "")
    .replace(LINK_EXAMPLE, 'placeholder="https://"')
    .replace(MENU, MENU_BY_KEYS)
    .replace(DRAG, SELECT)
    .replace(RESIZE, 't-if="false"')
    .replace(FIGURE_MENU, 't-on-contextmenu.prevent.stop="() => undefined"');
}

/** The engine looks for the chart library, with its parts by name, on the window. */
function offerCharts(): void {
  Object.assign(window, { Chart: Object.assign(Chart, charts) });
}

/** A workbook on the screen. */
export interface ShownWorkbook {
  /** Enters what stands in the editor; returns whether nothing is left there. */
  readonly finishEntry: () => boolean;
  /** Puts a text into the editor of the selected cell, as if it had been typed. */
  readonly typeText: (text: string) => void;
  /** Takes it down, before another workbook is shown. */
  readonly takeDown: () => void;
}

/** Shows a workbook in an element. */
export async function showWorkbook(
  model: Model,
  element: HTMLElement,
  messages: Messages,
  events: EntryEvents,
): Promise<ShownWorkbook> {
  offerCharts();
  registerDrawing();
  registerColours();
  const move = entryMoves(model);
  class PageSpreadsheet extends Spreadsheet {
    static override components = { ...Spreadsheet.components, ...PAGE_BARS, Grid: entryGrid(move, events) };
  }
  let editor: CellEditor | null = null;
  let typeText: ShownWorkbook["typeText"] = () => undefined;
  class Root extends Component {
    static components = { PageSpreadsheet };
    static override props = {};
    static override template =
      xml`<PageSpreadsheet model="model" notifyUser="notifyUser" raiseError="raiseError" askConfirmation="askConfirmation"/>`;
    model = model;
    notifyUser = messages.notifyUser;
    raiseError = messages.raiseError;
    askConfirmation = messages.askConfirmation;
    override setup(): void {
      const container = stores.useStoreProvider();
      container.inject(stores.ModelStore, model as never);
      editor = container.instantiate(entryStore(events, move) as never) as unknown as CellEditor;
      container.inject(stores.CellComposerStore, editor as never);
      typeText = (content) => {
        container.get(stores.ComposerFocusStore).focusActiveComposer({ content, focusMode: "contentFocus" });
        container.trigger("store-updated");
      };
    }
  }
  const app = new App(Root, { translateFn: ownWords });
  app.addTemplates(pageTemplates());
  await app.mount(element);
  return {
    finishEntry() {
      editor?.stopEdition();
      return editor === null || editor.editionMode === "inactive";
    },
    typeText: (text) => typeText(text),
    takeDown: () => app.destroy(),
  };
}
