import type { Model } from "@odoo/o-spreadsheet";
import { shownCells } from "../../engine/index.js";
import type { BlockAddress, CellBlock, InteractiveHost, SheetInfo } from "../../workbook/index.js";
import { formatRange } from "../../xlsx/address.js";
import { activate } from "./activate-sheet.js";
import { addTemplateTo } from "./add-template.js";
import { cellFormula, cellValue, placesOf } from "./cells-of.js";
import { copyWorkbook } from "./copy-workbook.js";
import { tablesInView } from "./file-tables.js";
import { inSlices } from "./in-slices.js";
import { keepColumns } from "./keep-columns.js";
import { layoutInView } from "./layout-in-view.js";
import type { PageContext } from "./page-context.js";
import { rememberWorkbook } from "./remember-workbook.js";
import { restructure } from "./restructure.js";
import type { TemplateBytes } from "./template-bytes.js";
import type { Watchers } from "./watchers.js";
import { keepPageIdentity, pageIdentity } from "./workbook-identity.js";
import { writeBlocks } from "./write-blocks.js";

async function usedRange(model: Model, sheetId: string): Promise<string | null> {
  const used = { firstRow: Number.MAX_SAFE_INTEGER, firstColumn: Number.MAX_SAFE_INTEGER, lastRow: 0, lastColumn: 0 };
  const look = shownCells(model, sheetId, ({ type }, col, row) => {
    if (type === "empty") return;
    used.firstRow = Math.min(used.firstRow, row + 1);
    used.firstColumn = Math.min(used.firstColumn, col + 1);
    used.lastRow = Math.max(used.lastRow, row + 1);
    used.lastColumn = Math.max(used.lastColumn, col + 1);
  });
  await inSlices(look);
  return used.lastRow === 0 ? null : formatRange(used);
}

function readBlock(model: Model, address: BlockAddress): CellBlock {
  const places = placesOf(model, address);
  return {
    address,
    values: places.map((row) => row.map((place) => cellValue(model, place))),
    formulas: places.map((row) => row.map((place) => cellFormula(model, place))),
  };
}

function selectBlock(model: Model, address: BlockAddress): void {
  const places = placesOf(model, address);
  const first = places[0]?.[0];
  const last = places.at(-1)?.at(-1);
  if (first === undefined || last === undefined) return;
  activate(model, first.sheetId);
  const zone = { left: first.col, top: first.row, right: last.col, bottom: last.row };
  model.selection.selectZone({ cell: { col: first.col, row: first.row }, zone }, { scrollIntoView: true });
}

/**
 * The local page as a host of sheets, checks and the pane.
 *
 * @param context - Knows the workbook that is open now; another one may be opened later
 * @param watchers - Who is told of changes, whichever workbook is open
 * @param bytesOf - Gives the file of a template
 */
export function pageHost(context: PageContext, watchers: Watchers, bytesOf: TemplateBytes): InteractiveHost {
  const currentModel = (): Model => context.view().model;
  const { runBeside } = context;
  const host: InteractiveHost = {
    kind: "page",
    identity: () => pageIdentity(context.view()),
    keepIdentity: (id) => keepPageIdentity(context.view(), id),

    async sheets() {
      const { model, protectedSheetIds } = context.view();
      const sheets: SheetInfo[] = [];
      for (const id of model.getters.getSheetIds()) {
        const range = await usedRange(model, id);
        const name = model.getters.tryGetSheetName(id);
        // It was deleted meanwhile.
        if (name === undefined) continue;
        const isProtected = protectedSheetIds.has(id) || model.getters.isSheetLocked(id);
        sheets.push({ name, usedRange: range, isProtected });
      }
      return sheets;
    },

    async read(addresses) {
      return addresses.map((address) => readBlock(currentModel(), address));
    },

    async write(edits) {
      writeBlocks(currentModel(), edits);
    },

    async names() {
      const { getters } = currentModel();
      const written = { useFixedReference: true };
      return new Map(
        getters.getNamedRanges().map(({ name, range }) => [name, getters.getRangeString(range, "", written)]),
      );
    },

    tables: () => tablesInView(context),

    async layouts(sheets) {
      return sheets.map(({ name }) => layoutInView(currentModel(), name));
    },

    async addRows(edit) {
      const goBack = await rememberWorkbook(context);
      const { isDone, notices } = await restructure(context, edit);
      if (isDone) context.history.add({ text: "Rows were added to the table.", goBack });
      return isDone ? notices : null;
    },

    async keepColumns(names) {
      keepColumns(currentModel(), names);
    },

    async addTemplate(template, options = {}) {
      const goBack = await rememberWorkbook(context);
      const sheets = await addTemplateTo(context, template, options, bytesOf);
      context.history.add({ text: `The sheets ${sheets.join(", ")} were added.`, goBack });
      return sheets;
    },

    async select(address) {
      selectBlock(currentModel(), address);
    },

    async selection() {
      const { getters } = currentModel();
      const sheetId = getters.getActiveSheetId();
      return { sheet: getters.getSheetName(sheetId), range: getters.zoneToXC(sheetId, getters.getSelectedZone()) };
    },

    async watch(listener) {
      const stop = watchers.add(listener);
      return async () => stop();
    },

    async watchSelection(listener) {
      const stop = watchers.addSelection(listener);
      return async () => stop();
    },

    watchWorkbook: (listener) => watchers.addWorkbook(listener),

    ...(runBeside === null
      ? {}
      : { check: async () => runBeside("checkCopy", await copyWorkbook(currentModel(), host)) }),
  };
  return host;
}
