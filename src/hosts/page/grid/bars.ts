import { components, type Model, Spreadsheet } from "@odoo/o-spreadsheet";
import type { Component } from "@odoo/owl";
import type { StructureActions } from "./structure-menu-actions.js";

interface Tool {
  readonly sequence: number;
  readonly props: { readonly action?: object };
}

/** The engine's bar of tools, as far as it is changed here. */
interface LibraryTopBar extends Component {
  readonly toolbarMenuRegistry: { readonly content: Record<string, Tool[]> };
  toolsCategories: readonly string[];
  setup(): void;
}

type TopBarClass = (new (
  ...given: never[]
) => LibraryTopBar) &
  Pick<typeof components.TopBar, "template" | "components">;

/** Undo, redo and zoom by their places among the engine's tools: the others change what no file of ours takes in. */
const KEPT_TOOLS = [1, 2, 5];
const UNDO_TOOL = 1;

/** The grid knows nothing of changes of rows and sheets, which begin it anew. */
function withOwnUndo(tool: Tool): Tool {
  const action = {
    ...tool.props.action,
    execute: () => actions?.undo(),
    isEnabled: (env: { readonly model: Model }) => actions?.canUndo(env) === true,
  };
  return { ...tool, props: { ...tool.props, action } };
}

class PageTopBar extends (components.TopBar as unknown as TopBarClass) {
  override setup(): void {
    const { content } = this.toolbarMenuRegistry;
    content["edit"] = (content["edit"] ?? [])
      .filter(({ sequence }) => KEPT_TOOLS.includes(sequence))
      .map((tool) => (tool.sequence === UNDO_TOOL ? withOwnUndo(tool) : tool));
    for (const category of Object.keys(content)) if (category !== "edit") content[category] = [];
    this.toolsCategories = ["edit"];
    super.setup();
  }
}

interface SheetMenuItem {
  readonly id: string;
  readonly name: string;
  readonly sequence: number;
  readonly separator: boolean;
  readonly execute: () => void;
}

interface SheetMenu {
  readonly content: Record<string, SheetMenuItem>;
}

interface LibraryBottomBar extends Component {
  openContextMenu(x: number, y: number, menuId: string, registry: SheetMenu): void;
  onSheetMouseDown(sheetId: string, event: MouseEvent): void;
}

type BottomBarClass = (new (...given: never[]) => LibraryBottomBar) & { readonly components: object };

interface LibraryTab extends Component {
  readonly props: { readonly sheetId: string };
  startEdition(): void;
}

type TabClass = new (...given: never[]) => LibraryTab;

let actions: StructureActions | null = null;

/** Says what is done with sheets. Call it before the first workbook is shown. */
export function registerSheetActions(given: StructureActions): void {
  actions = given;
}

/** What may be done with a sheet, in our order and words. */
function sheetMenu(sheetId: string): readonly (readonly [name: string, act: () => void])[] {
  return [
    ["Rename", () => actions?.renameSheet(sheetId)],
    ["Copy", () => actions?.copySheet(sheetId)],
    ["Move left", () => actions?.moveSheet(sheetId, -1)],
    ["Move right", () => actions?.moveSheet(sheetId, 1)],
    ["Delete", () => actions?.deleteSheet(sheetId)],
  ];
}

const Library = (Spreadsheet.components as unknown as { BottomBar: BottomBarClass }).BottomBar;
const LibraryTab = (Library.components as { BottomBarSheet: TabClass }).BottomBarSheet;

/** A tab whose name is asked for: the formulas in the file must follow it. */
class PageTab extends LibraryTab {
  override startEdition(): void {
    actions?.renameSheet(this.props.sheetId);
  }
}

class PageBottomBar extends Library {
  static override components = { ...Library.components, BottomBarSheet: PageTab };

  override openContextMenu(x: number, y: number, menuId: string, registry: SheetMenu): void {
    if (menuId !== "listSheets") {
      for (const id of Object.keys(registry.content)) delete registry.content[id];
      sheetMenu(menuId).forEach(([name, execute], sequence) => {
        registry.content[name] = { id: name, name, sequence, separator: name === "Move right", execute };
      });
    }
    super.openContextMenu(x, y, menuId, registry);
  }

  /** A tab is moved by its menu: dragged, it would leave the file behind. */
  override onSheetMouseDown(): void {
    // Nothing is dragged.
  }
}

/** The engine's bars with this page's tools and menus. */
export const PAGE_BARS = { TopBar: PageTopBar, BottomBar: PageBottomBar } as unknown as Pick<
  typeof Spreadsheet.components,
  "TopBar" | "BottomBar"
>;
