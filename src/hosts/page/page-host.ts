import { helpers, type Model } from "@odoo/o-spreadsheet";
import { type CellEdit, editCells, typedContent, watchChanges } from "../../engine/index.js";
import {
  type BlockAddress,
  type BlockEdit,
  type CellBlock,
  HostError,
  type InteractiveHost,
  type SheetInfo,
} from "../../workbook/index.js";
import { cellFormula, cellValue, placesIn, type Zone } from "./cells-of.js";

function sheetIdOf(model: Model, { sheet }: BlockAddress): string {
  const id = model.getters.getSheetIdByName(sheet);
  if (id === undefined) throw new HostError(`There is no sheet “${sheet}” in this workbook.`);
  return id;
}

function zoneOf({ range }: BlockAddress): Zone {
  try {
    return helpers.toZone(range);
  } catch (cause) {
    throw new HostError(`“${range}” is not a block of cells. Write it like B2:D9.`, { cause });
  }
}

function usedRange(model: Model, sheetId: string): string | null {
  const places = model.getters
    .getEvaluatedCellsPositions(sheetId)
    .filter((place) => model.getters.getEvaluatedCell(place).type !== "empty");
  if (places.length === 0) return null;
  const used = places.reduce<Zone>(
    (zone, { col, row }) => ({
      left: Math.min(zone.left, col),
      top: Math.min(zone.top, row),
      right: Math.max(zone.right, col),
      bottom: Math.max(zone.bottom, row),
    }),
    { left: Number.MAX_SAFE_INTEGER, top: Number.MAX_SAFE_INTEGER, right: 0, bottom: 0 },
  );
  return `${helpers.toXC(used.left, used.top)}:${helpers.toXC(used.right, used.bottom)}`;
}

function readBlock(model: Model, address: BlockAddress): CellBlock {
  const sheetId = sheetIdOf(model, address);
  const rows = placesIn(sheetId, zoneOf(address));
  return {
    address,
    values: rows.map((row) => row.map((place) => cellValue(model, place))),
    formulas: rows.map((row) => row.map((place) => cellFormula(model, place))),
  };
}

/** Checks a whole edit before anything is written, so that it happens whole or not at all. */
function plannedEdits(model: Model, edit: BlockEdit): readonly CellEdit[] {
  const { address, cells } = edit;
  const sheetId = sheetIdOf(model, address);
  const rows = placesIn(sheetId, zoneOf(address));
  if (cells.length !== rows.length || cells.some((row, index) => row.length !== rows[index]?.length)) {
    throw new HostError(`What is to be written does not have the size of ${address.sheet}!${address.range}.`);
  }
  return rows.flatMap((row, rowIndex) =>
    row.map((place, columnIndex) => {
      const given = cells[rowIndex]?.[columnIndex] ?? null;
      const isFormula = typeof given === "string" && given.startsWith("=");
      if (!isFormula && cellFormula(model, place) !== null) {
        const at = helpers.toXC(place.col, place.row);
        throw new HostError(`${address.sheet}!${at} holds a formula and was not overwritten. Nothing was written.`);
      }
      return { ...place, content: typedContent(given) };
    }),
  );
}

/**
 * The local page as a host of sheets, checks and the pane.
 *
 * @param currentModel - The workbook that is open now; another one may be opened later
 */
export function pageHost(currentModel: () => Model): InteractiveHost {
  return {
    kind: "page",

    async sheets(): Promise<readonly SheetInfo[]> {
      const model = currentModel();
      return model.getters.getSheetIds().map((id) => ({
        name: model.getters.getSheetName(id),
        usedRange: usedRange(model, id),
        isProtected: model.getters.isSheetLocked(id),
      }));
    },

    async read(addresses) {
      return addresses.map((address) => readBlock(currentModel(), address));
    },

    async write(edits) {
      const model = currentModel();
      const planned = edits.flatMap((edit) => plannedEdits(model, edit));
      const locked = edits.find(({ address }) => model.getters.isSheetLocked(sheetIdOf(model, address)));
      if (locked) throw new HostError(`The sheet “${locked.address.sheet}” is locked. Unlock it first.`);
      editCells(model, planned);
    },

    async names() {
      const model = currentModel();
      const ranges = model.getters.getNamedRanges();
      return new Map(
        ranges.map(({ name, range }) => [name, model.getters.getRangeString(range, "", { useFixedReference: true })]),
      );
    },

    async addTemplate(template) {
      throw new HostError(`The template “${template}” cannot be added to this page yet. Nothing was changed.`);
    },

    async select(address) {
      const model = currentModel();
      const sheetId = sheetIdOf(model, address);
      const zone = zoneOf(address);
      const active = model.getters.getActiveSheetId();
      if (active !== sheetId) model.dispatch("ACTIVATE_SHEET", { sheetIdFrom: active, sheetIdTo: sheetId });
      model.selection.selectZone({ cell: { col: zone.left, row: zone.top }, zone }, { scrollIntoView: true });
    },

    async selection() {
      const { getters } = currentModel();
      return {
        sheet: getters.getSheetName(getters.getActiveSheetId()),
        range: getters.zoneToXC(getters.getActiveSheetId(), getters.getSelectedZone()),
      };
    },

    async watch(listener) {
      const model = currentModel();
      const stop = watchChanges(model, (sheetIds) => {
        for (const id of sheetIds) {
          const name = model.getters.tryGetSheetName(id);
          if (name !== undefined) listener(name);
        }
      });
      return async () => stop();
    },
  };
}
