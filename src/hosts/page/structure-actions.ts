import type { StructureEdit } from "../../xlsx/index.js";
import { parseRange, sheetNameProblem } from "../../xlsx/index.js";
import { tablesInView } from "./file-tables.js";
import { filterActions } from "./filter-actions.js";
import type { StructureActions } from "./grid/structure-menu-actions.js";
import { attempt, type PageContext } from "./page-context.js";
import { rememberWorkbook } from "./remember-workbook.js";
import { restructure } from "./restructure.js";

interface Done {
  /** What was done, in words. */
  readonly text: string;
  /** The cell to be selected afterwards, counted from 0. */
  readonly cell?: { readonly col: number; readonly row: number };
}

async function change(context: PageContext, doing: string, edit: StructureEdit, done: Done): Promise<void> {
  await attempt(context, doing, async () => {
    const goBack = await rememberWorkbook(context);
    const { isDone, notices } = await restructure(context, edit);
    if (!isDone) return;
    context.history.add({ text: done.text, goBack });
    if (done.cell !== undefined) context.view().model.selection.selectCell(done.cell.col, done.cell.row);
    context.messages.offer([done.text, ...notices].join(" "), {
      label: "Undo",
      act: () => void takeBackAll(context),
    });
  });
}

/** Takes the last change of rows or sheets back, and says what that was. */
async function takeBack(context: PageContext): Promise<void> {
  await attempt(context, "Going back …", async () => {
    const step = await context.history.takeBack();
    if (step === null) return;
    context.messages.clear();
    context.messages.notifyUser({ type: "success", sticky: false, text: `Taken back: ${step.text}` });
  });
}

/** Takes the last change of rows or sheets back, and with it what was entered since, which is asked first. */
async function takeBackAll(context: PageContext): Promise<void> {
  if (context.view().model.getters.canUndo()) {
    const all = "Take everything back";
    const question = "What was entered since then is taken back too. Ctrl+Z takes back one entry after the other.";
    if ((await context.messages.choose(question, [all, "Cancel"])) !== all) return;
  }
  await takeBack(context);
}

const rowsText = (first: number, count: number): string =>
  count === 1 ? `Row ${first}` : `Rows ${first} to ${first + count - 1}`;

/** Returns what may be done with the rows and sheets of the workbook in view. */
export function structureActions(context: PageContext): StructureActions {
  const selected = () => {
    const { getters } = context.view().model;
    const { top, bottom, left } = getters.getSelectedZone();
    const sheet = getters.getSheetName(getters.getActiveSheetId());
    return { sheet, first: top + 1, count: bottom - top + 1, col: left };
  };
  const nameOf = (sheetId: string): string => context.view().model.getters.getSheetName(sheetId);

  const sort = async (direction: "ascending" | "descending"): Promise<void> => {
    const { sheet, first, count, col } = selected();
    const tables = await tablesInView(context);
    const table = tables.find((one) => {
      const range = one.sheet === sheet ? parseRange(one.range.replaceAll("$", "")) : undefined;
      if (range === undefined) return false;
      const isColumn = col + 1 >= range.firstColumn && col + 1 <= range.lastColumn;
      return isColumn && first >= range.firstRow && first + count - 1 <= range.lastRow;
    });
    const range = parseRange(table?.range.replaceAll("$", "") ?? "");
    const column = range === undefined ? undefined : table?.columns[col + 1 - range.firstColumn];
    if (table === undefined || column === undefined) {
      context.messages.notifyUser({
        type: "warning",
        sticky: false,
        text: "Nothing was sorted. Select a cell of the table, in the column to sort by: whole rows are sorted, and only those of a table.",
      });
      return;
    }
    const text = `The rows of “${table.name}” are sorted by ${column}.`;
    const edit: StructureEdit = { kind: "sortTable", table: table.name, column, direction };
    await change(context, "Sorting …", edit, { text, cell: { col, row: first - 1 } });
  };

  const rename = async (sheetId: string): Promise<void> => {
    const sheet = nameOf(sheetId);
    const { getters } = context.view().model;
    const others = getters
      .getSheetIds()
      .filter((id) => id !== sheetId)
      .map(nameOf);
    const problemOf = (name: string) => sheetNameProblem(name, others);
    const name = await context.messages.ask(`New name of “${sheet}”`, sheet, problemOf);
    if (name === null || name === sheet) return;
    const text = `“${sheet}” is called “${name}” now, in every formula as well.`;
    await change(context, "Renaming …", { kind: "renameSheet", sheet, name }, { text });
  };

  const remove = async (sheetId: string): Promise<void> => {
    const sheet = nameOf(sheetId);
    const answer = await context.messages.choose(`Delete “${sheet}” with everything in it?`, ["Delete", "Cancel"]);
    if (answer !== "Delete") return;
    await change(context, "Deleting …", { kind: "deleteSheet", sheet }, { text: `“${sheet}” is deleted.` });
  };

  return {
    insertRows(where) {
      const { sheet, first, count, col } = selected();
      const row = where === "above" ? first : first + count;
      const edit: StructureEdit = { kind: "insertRows", sheet, row, count };
      const done = { text: `${rowsText(row, count)} inserted.`, cell: { col, row: row - 1 } };
      void change(context, "Inserting …", edit, done);
    },
    deleteRows() {
      const { sheet, first, count, col } = selected();
      const edit: StructureEdit = { kind: "deleteRows", sheet, row: first, count };
      void change(context, "Deleting …", edit, {
        text: `${rowsText(first, count)} deleted.`,
        cell: { col, row: first - 1 },
      });
    },
    sortRows: (direction) => void attempt(context, "", () => sort(direction)),
    ...filterActions(context),
    addSheet() {
      const { model } = context.view();
      const { getters } = model;
      const sheetIdFrom = getters.getActiveSheetId();
      const position = getters.getSheetIds().indexOf(sheetIdFrom) + 1;
      const sheetIdTo = model.uuidGenerator.smallUuid();
      const name = getters.getNextSheetName("Sheet");
      model.dispatch("CREATE_SHEET", { sheetId: sheetIdTo, position, name });
      model.dispatch("ACTIVATE_SHEET", { sheetIdFrom, sheetIdTo });
    },
    renameSheet: (sheetId) => void rename(sheetId),
    copySheet(sheetId) {
      const sheet = nameOf(sheetId);
      void change(context, "Copying …", { kind: "copySheet", sheet }, { text: `“${sheet}” is copied.` });
    },
    moveSheet(sheetId, by) {
      const ids = context.view().model.getters.getSheetIds();
      // Places are counted from 1.
      const to = ids.indexOf(sheetId) + 1 + by;
      if (to < 1 || to > ids.length) return;
      const sheet = nameOf(sheetId);
      void change(context, "Moving …", { kind: "moveSheet", sheet, to }, { text: `“${sheet}” is moved.` });
    },
    deleteSheet: (sheetId) => void remove(sheetId),
    undo() {
      const { model } = context.view();
      if (model.getters.canUndo()) model.dispatch("REQUEST_UNDO");
      else if (context.history.canTakeBack()) void takeBack(context);
      else if (context.history.hasBegunAnew()) {
        const text = "There is nothing more to take back: what was entered before rows or sheets changed stays.";
        context.messages.notifyUser({ type: "info", sticky: false, text });
      }
    },
    canUndo: ({ model }) => model.getters.canUndo() || context.history.canTakeBack(),
  };
}
