import { components, Spreadsheet } from "@odoo/o-spreadsheet";
import type { Component } from "@odoo/owl";

/** The engine's bar of tools, as far as it is changed here. */
interface LibraryTopBar extends Component {
  readonly toolbarMenuRegistry: { readonly content: Record<string, { readonly sequence: number }[]> };
  toolsCategories: readonly string[];
  setup(): void;
}

type TopBarClass = (new (
  ...given: never[]
) => LibraryTopBar) &
  Pick<typeof components.TopBar, "template" | "components">;

/** Undo, redo and zoom by their places among the engine's tools: the others change what no file of ours takes in. */
const KEPT_TOOLS = [1, 2, 5];

class PageTopBar extends (components.TopBar as unknown as TopBarClass) {
  override setup(): void {
    const { content } = this.toolbarMenuRegistry;
    content["edit"] = (content["edit"] ?? []).filter(({ sequence }) => KEPT_TOOLS.includes(sequence));
    for (const category of Object.keys(content)) if (category !== "edit") content[category] = [];
    this.toolsCategories = ["edit"];
    super.setup();
  }
}

interface SheetMenu {
  readonly content: Record<string, { name: unknown; sequence: number; separator?: boolean }>;
}

interface LibraryBottomBar extends Component {
  openContextMenu(x: number, y: number, menuId: string, registry: SheetMenu): void;
}

type BottomBarClass = new (...given: never[]) => LibraryBottomBar;

/** What may be done with a sheet, in our order and words; the engine's ids. */
const SHEET_MENU: Readonly<Record<string, string>> = {
  rename: "Rename",
  duplicate: "Copy",
  move_left: "Move left",
  move_right: "Move right",
  delete: "Delete",
};

class PageBottomBar extends (Spreadsheet.components as unknown as { BottomBar: BottomBarClass }).BottomBar {
  override openContextMenu(x: number, y: number, menuId: string, registry: SheetMenu): void {
    if (menuId !== "listSheets") {
      const ids = Object.keys(SHEET_MENU);
      for (const id of Object.keys(registry.content)) {
        const item = registry.content[id];
        const name = SHEET_MENU[id];
        if (item === undefined || name === undefined) delete registry.content[id];
        else Object.assign(item, { name, sequence: ids.indexOf(id), separator: id === "move_right" });
      }
    }
    super.openContextMenu(x, y, menuId, registry);
  }
}

/** The engine's bars with this page's tools and menus. */
export const PAGE_BARS = { TopBar: PageTopBar, BottomBar: PageBottomBar } as unknown as Pick<
  typeof Spreadsheet.components,
  "TopBar" | "BottomBar"
>;
