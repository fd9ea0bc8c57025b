import { type Model, registries } from "@odoo/o-spreadsheet";
import type { StructureActions } from "./structure-menu-actions.js";

/** What the page itself does, whichever workbook is in view. */
export interface PageActions {
  readonly start: () => void;
  readonly open: () => void;
  readonly save: () => void;
  readonly saveCopy: () => void;
  readonly handOff: () => void;
  readonly print: () => void;
  readonly showField: () => void;
  readonly togglePane: () => void;
}

/** What the engine hands to an entry of a menu, as far as it is used here. */
interface MenuEnv {
  readonly model: Model;
  openSidePanel(name: string, props?: object): void;
}

/** An entry of a menu in the engine's own form. */
interface MenuItem {
  readonly name: string | ((env: never) => string);
  readonly id?: string;
  readonly sequence?: number;
  readonly separator?: boolean;
  readonly shortcut?: string;
  readonly icon?: string;
  readonly execute?: (env: never) => unknown;
  readonly isEnabled?: (env: never) => boolean;
  readonly isActive?: (env: never) => boolean;
  readonly children?: readonly unknown[];
}

/** A menu: its entries in their order, null for a line between them. */
type Entries = readonly (readonly [id: string, item: MenuItem] | null)[];

interface Registry {
  readonly content: Record<string, MenuItem>;
  add(id: string, item: MenuItem): Registry;
  addChild(id: string, path: string[], item: MenuItem): Registry;
}

const { topbarMenuRegistry, cellMenuRegistry, rowMenuRegistry, colMenuRegistry } = registries as unknown as Readonly<
  Record<string, Registry>
>;

const ZOOMS = [50, 75, 100, 125, 150, 200];

/** An entry of the engine's own menu, before that is put away. */
function known(registry: Registry | undefined, first: string, ...path: readonly string[]): MenuItem {
  let item = registry?.content[first];
  for (const id of path) {
    item = (item?.children as readonly MenuItem[] | undefined)?.find((child) => child.id === id);
  }
  if (item === undefined) throw new Error(`The grid has no menu entry “${[first, ...path].join(" > ")}”.`);
  const { id: _, sequence: __, separator: ___, ...rest } = item;
  return rest;
}

function emptied(registry: Registry | undefined): Registry {
  if (registry === undefined) throw new Error("The grid has lost one of its menus.");
  for (const id of Object.keys(registry.content)) delete registry.content[id];
  return registry;
}

/** Puts entries in their order; a line follows an entry before a null. */
function ordered(entries: Entries): readonly (readonly [id: string, item: MenuItem])[] {
  return entries.flatMap((entry, index) => {
    if (entry === null) return [];
    const [id, item] = entry;
    return [[id, { ...item, sequence: index, separator: entries[index + 1] === null }] as const];
  });
}

const own = (name: string, act: () => void, shortcut = ""): MenuItem => ({ name, execute: act, shortcut });

function clipboardEntries(): Entries {
  const named = (id: string, name: string) => [id, { ...known(topbarMenuRegistry, "edit", id), name }] as const;
  return [
    named("cut", "Cut"),
    named("copy", "Copy"),
    named("paste", "Paste"),
    [
      "paste_values",
      { ...known(topbarMenuRegistry, "edit", "paste_special", "paste_special_value"), name: "Paste values" },
    ],
  ];
}

function rowEntries({
  insertRows,
  deleteRows,
  sortRows,
  toggleFilter,
  filterBy,
  showAllRows,
}: StructureActions): Entries {
  return [
    ["insert_above", own("Insert row above", () => insertRows("above"))],
    ["insert_below", own("Insert row below", () => insertRows("below"))],
    ["delete_rows", own("Delete rows", deleteRows)],
    null,
    ["sort_up", own("Sort rows, A to Z", () => sortRows("ascending"))],
    ["sort_down", own("Sort rows, Z to A", () => sortRows("descending"))],
    null,
    ["filter_by", own("Filter by this column", () => filterBy(), "Alt+Down")],
    ["filter", own("Filter buttons", toggleFilter)],
    ["show_all", own("Show all rows", showAllRows)],
  ];
}

/** What the tabs offer by the mouse, for the sheet in view, by keys as well. */
function sheetEntries({ addSheet, renameSheet, copySheet, moveSheet, deleteSheet }: StructureActions): Entries {
  const ofSheet = (name: string, act: (sheetId: string) => void): MenuItem => ({
    name,
    execute: ({ model }: MenuEnv) => act(model.getters.getActiveSheetId()),
  });
  return [
    ["add_sheet", own("New sheet", addSheet)],
    null,
    ["rename_sheet", ofSheet("Rename", renameSheet)],
    ["copy_sheet", ofSheet("Copy", copySheet)],
    ["move_left", ofSheet("Move left", (sheetId) => moveSheet(sheetId, -1))],
    ["move_right", ofSheet("Move right", (sheetId) => moveSheet(sheetId, 1))],
    null,
    ["delete_sheet", ofSheet("Delete", deleteSheet)],
  ];
}

let isRegistered = false;

/** Puts this page's menus in place of the engine's: what a job needs, in our order and words. Call it once. */
export function registerMenus(actions: PageActions, structure: StructureActions): void {
  if (isRegistered) return;
  isRegistered = true;
  const clipboard = clipboardEntries();
  const rows = rowEntries(structure);
  const clear: Entries[number] = [
    "clear",
    { ...known(topbarMenuRegistry, "edit", "delete", "edit_delete_cell_values"), name: "Clear cells" },
  ];
  const menus: readonly (readonly [id: string, name: string, entries: Entries])[] = [
    [
      "file",
      "File",
      [
        ["new", own("New", actions.start)],
        ["open", own("Open", actions.open)],
        null,
        ["save", own("Save", actions.save, "Ctrl+S")],
        ["save_copy", own("Save a copy", actions.saveCopy)],
        ["hand_off", own("Hand-off copy", actions.handOff)],
        null,
        ["print", own("Print", actions.print, "Ctrl+P")],
      ],
    ],
    [
      "edit",
      "Edit",
      [
        [
          "undo",
          {
            ...known(topbarMenuRegistry, "edit", "undo"),
            name: "Undo",
            execute: structure.undo,
            isEnabled: structure.canUndo,
          },
        ],
        ["redo", { ...known(topbarMenuRegistry, "edit", "redo"), name: "Redo" }],
        null,
        ...clipboard,
        clear,
        null,
        [
          "find",
          {
            name: "Find and replace",
            shortcut: "Ctrl+F",
            execute: (env: MenuEnv) => env.openSidePanel("FindAndReplace", {}),
          },
        ],
      ],
    ],
    ["rows", "Rows", rows],
    ["sheet", "Sheet", sheetEntries(structure)],
    [
      "view",
      "View",
      [
        ["field", own("Field view", actions.showField)],
        ["pane", own("Pane", actions.togglePane)],
        null,
        ["formulas", { ...known(topbarMenuRegistry, "view", "show", "view_formulas"), name: "Formulas" }],
        ...ZOOMS.map(
          (zoom) =>
            [
              `zoom${zoom}`,
              { ...known(topbarMenuRegistry, "view", "zoom", `zoom${zoom}`), name: `Zoom ${zoom} %` },
            ] as const,
        ),
      ],
    ],
  ];
  const top = emptied(topbarMenuRegistry);
  menus.forEach(([id, name, entries], index) => {
    top.add(id, { name, sequence: index });
    for (const [child, item] of ordered(entries)) top.addChild(child, [id], item);
  });
  const ofCells: Entries = [...clipboard, clear, null, ...rows];
  for (const [registry, entries] of [
    [cellMenuRegistry, ofCells],
    [rowMenuRegistry, ofCells],
    [colMenuRegistry, [...clipboard, clear]],
  ] as const) {
    const menu = emptied(registry);
    for (const [id, item] of ordered(entries)) menu.add(id, item);
  }
}
