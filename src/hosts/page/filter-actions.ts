import type { Model } from "@odoo/o-spreadsheet";
import { chooseRows, type FilteredTable, filteredRowsOf, type RowChoices } from "../../engine/index.js";
import { askFilter, type FilterValue } from "./filter-question.js";
import type { FilterActions } from "./grid/structure-menu-actions.js";
import type { PageContext } from "./page-context.js";

/** Texts count as the same whatever their case and the spaces around them. */
const keyOf = (text: string): string => text.trim().toLowerCase();

const texts = new Intl.Collator("en", { numeric: true, sensitivity: "base" });

interface Place {
  readonly sheetId: string;
  readonly col: number;
  readonly row: number;
}

function tableAt({ getters }: Model, place: Place): FilteredTable | undefined {
  return getters.getCoreTable(place) as FilteredTable | undefined;
}

/** The rows between a table's headings and its totals. */
function bodyRows({ range: { zone }, config }: FilteredTable): readonly number[] {
  const first = zone.top + config.numberOfHeaders;
  const last = zone.bottom - (config.totalRow ? 1 : 0);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => first + index);
}

function textAt({ getters }: Model, place: Place): string {
  return (getters.getEvaluatedCell(place).formattedValue ?? "").trim();
}

/** The rows that a filter does not let be seen. */
function hiddenBy(model: Model, sheetId: string, table: FilteredTable, choices: RowChoices): readonly number[] {
  const columns = Object.entries(choices).map(([index, shown]) => {
    return { col: table.range.zone.left + Number(index), shown: new Set((shown ?? []).map(keyOf)) };
  });
  return bodyRows(table).filter((row) =>
    columns.some(({ col, shown }) => !shown.has(keyOf(textAt(model, { sheetId, col, row })))),
  );
}

function valuesOf(model: Model, { sheetId, col }: Place, table: FilteredTable): readonly FilterValue[] {
  const { choices = {} } = table.config;
  const shown = choices[col - table.range.zone.left];
  const chosen = shown == null ? null : new Set(shown.map(keyOf));
  const values = new Map<string, FilterValue>();
  for (const row of bodyRows(table)) {
    const text = textAt(model, { sheetId, col, row });
    if (!values.has(keyOf(text))) values.set(keyOf(text), { text, isShown: chosen?.has(keyOf(text)) ?? true });
  }
  // Empty cells come last.
  const rank = ({ text }: FilterValue): number => (text === "" ? 1 : 0);
  return [...values.values()].sort((one, other) => rank(one) - rank(other) || texts.compare(one.text, other.text));
}

/** Returns what filters the tables of the workbook in view. */
export function filterActions(context: PageContext): FilterActions {
  const warn = (text: string): void => context.messages.notifyUser({ type: "warning", sticky: false, text });
  const selected = (): Place => context.view().model.getters.getActivePosition();

  const choose = (sheetId: string, table: FilteredTable, choices: RowChoices): void => {
    const { model } = context.view();
    const hidden = hiddenBy(model, sheetId, table, choices);
    const { hasButtons = false } = table.config;
    chooseRows(model, { sheetId, zone: table.range.zone, hasButtons, choices, hidden });
  };

  const filter = async (place: Place): Promise<void> => {
    const { model } = context.view();
    const table = tableAt(model, place);
    if (table === undefined) return warn("Select a cell of a table, in the column to filter by.");
    const { zone } = table.range;
    const { choices = {} } = table.config;
    const column = place.col - zone.left;
    const heading = (col: number): string =>
      textAt(model, { ...place, col, row: zone.top + Math.max(0, table.config.numberOfHeaders - 1) });
    const foreign = Object.entries(choices).find(([index, shown]) => shown === null && Number(index) !== column);
    if (foreign !== undefined) {
      const other = heading(zone.left + Number(foreign[0]));
      return warn(`“${other}” has a filter of another kind, from another program. Show all rows first.`);
    }
    const answer = await askFilter(heading(place.col), valuesOf(model, place, table));
    if (answer === null) return;
    const { [column]: _, ...others } = choices;
    choose(place.sheetId, table, answer === "all" ? others : { ...others, [column]: answer.shown });
  };

  return {
    toggleFilter() {
      const place = selected();
      const table = tableAt(context.view().model, place);
      if (table === undefined) return warn("Select a cell of a table: its headings get the buttons.");
      const { hasButtons = false, choices = {} } = table.config;
      const hidden = filteredRowsOf(context.view().model, place.sheetId);
      const { zone } = table.range;
      const inTable = hidden.filter((row) => row >= zone.top && row <= zone.bottom);
      const chosen = { sheetId: place.sheetId, zone, hasButtons: !hasButtons, choices, hidden: inTable };
      chooseRows(context.view().model, chosen);
    },
    filterBy: (place) => void filter({ ...selected(), ...place }),
    showAllRows() {
      const { model } = context.view();
      const sheetId = model.getters.getActiveSheetId();
      const tables = model.getters.getCoreTables(sheetId) as readonly FilteredTable[];
      for (const table of tables) {
        if (Object.keys(table.config.choices ?? {}).length > 0) choose(sheetId, table, {});
      }
      const left = filteredRowsOf(model, sheetId);
      if (left.length === 0) return;
      warn("Some rows are hidden by a filter outside a table. Take it off in your spreadsheet program.");
    },
  };
}
