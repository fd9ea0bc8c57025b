import { registries } from "@odoo/o-spreadsheet";
import type { FilteredTable } from "../../../engine/index.js";

interface Place {
  readonly col: number;
  readonly row: number;
}

interface CellIcon {
  readonly onClick?: (place: Place, env: unknown) => void;
}

interface Getters {
  getCoreTable(place: Place): FilteredTable | undefined;
  isFilterActive(place: Place): boolean;
}

type MakeIcon = (getters: Getters, place: Place) => CellIcon | undefined;

interface IconRegistry {
  get(name: string): MakeIcon;
  replace(name: string, make: MakeIcon): void;
}

const ICON = "filter_icon";

/** Has the buttons in the headings of tables ask as this page does; the engine's own list answers to the mouse alone. */
export function registerFilterIcons(filterBy: (place: Place) => void): void {
  const icons = registries.iconsOnCellRegistry as unknown as IconRegistry;
  const make = icons.get(ICON);
  icons.replace(ICON, (getters, place) => {
    const icon = make(getters, place);
    // A button covers the end of a narrow heading.
    if (getters.getCoreTable(place)?.config.hasButtons !== true && !getters.isFilterActive(place)) return undefined;
    return icon === undefined ? undefined : { ...icon, onClick: ({ col, row }) => filterBy({ col, row }) };
  });
}
