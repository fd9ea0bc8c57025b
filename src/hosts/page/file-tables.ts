import type { TableInfo } from "../../workbook/index.js";
import type { PageContext } from "./page-context.js";

/** What was read of the bytes of files: asked for after every entry, while they change with the file alone. */
const known = new WeakMap<Uint8Array, Promise<readonly TableInfo[]>>();

/**
 * The tables of the workbook in view, as its file has them. On a sheet whose rows or columns the grid itself has moved, none
 * is known until the workbook is in a file again.
 */
export async function tablesInView(context: PageContext): Promise<readonly TableInfo[]> {
  const view = context.view();
  const file = view.file();
  if (file === null) return [];
  const asked = known.get(file.bytes) ?? context.run("tables", file.bytes, file.name);
  known.set(file.bytes, asked);
  const { getters } = view.model;
  const tables = await asked;
  return tables.filter(({ sheet }) => {
    const sheetId = getters.getSheetIdByName(sheet);
    return sheetId !== undefined && !view.movedSheetIds.has(sheetId);
  });
}
