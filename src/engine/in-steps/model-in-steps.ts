import { Model } from "@odoo/o-spreadsheet";
import { DATA_VERSION } from "../data-version.js";
import { prepareEngine } from "../prepare-engine.js";
import { type SteppedEvaluation, waitingForCells } from "./calculate-in-steps.js";
import { insideOf, partOf } from "./library-inside.js";
import { measureRows } from "./measure-rows.js";
import { unpackedCells } from "./packed-cells.js";
import { type PendingCells, pendingCells, type SheetCells, sizeOf } from "./pending-cells.js";
import { type LookLists, placeCells, type SpelledFormulas } from "./place-cells.js";

export type ModelConfig = NonNullable<ConstructorParameters<typeof Model>[1]>;

interface Data extends LookLists {
  readonly version?: unknown;
  readonly sheets?: readonly SheetCells[];
}

/**
 * Makes a calculating workbook in steps, so that a page can answer between two of them. The library makes it in one go,
 * which takes seconds of a large one. It is whole once the last step is done, and must not be used before.
 *
 * @param spelled - Learns the formulas whose spelling is known by that
 */
export function* modelInSteps(
  data: object,
  config: ModelConfig,
  spelled: SpelledFormulas = new Map(),
): Generator<undefined, Model> {
  prepareEngine();
  const { version, sheets = [], styles = {}, formats = {} } = data as Data;
  // Only the library knows what its other releases wrote.
  if (version !== undefined && version !== DATA_VERSION) return modelOf(yield* unpacked(data as Data), config);
  const pending: PendingCells[] = [];
  for (const sheet of sheets) {
    const cells = yield* pendingCells(sheet);
    if (cells === null) return modelOf(yield* unpacked(data as Data), config);
    pending.push(cells);
  }
  const empty = sheets.map((sheet, index) => ({
    ...sheet,
    ...sizeOf(sheet, pending[index] ?? {}),
    cells: {},
    styles: {},
    formats: {},
  }));
  const model = waitingForCells(() => modelOf({ ...data, ...(sheets.length === 0 ? {} : { sheets: empty }) }, config));
  yield;
  const inside = insideOf(model);
  // What is placed here is no step that could be taken back.
  inside.state.changes = undefined;
  for (const [index, { id }] of sheets.entries()) {
    yield* placeCells(model, inside, id, pending[index] ?? {}, { styles, formats }, spelled);
    yield* measureRows(model, inside, id);
  }
  yield* partOf<SteppedEvaluation>(model, "coreViewsPluginRegistry", "evaluation").calculateInSteps();
  inside.colours.shouldUpdateColors = true;
  inside.positions.isDirty = true;
  for (const { id } of sheets) inside.viewports.sheetsWithDirtyViewports.add(id);
  // Tells the library's parts that there are other values than before; none is to be calculated.
  model.dispatch("EVALUATE_CELLS", { cellIds: [] });
  return model;
}

/** A workbook's data as the library knows it. */
function* unpacked(data: Data): Generator<undefined, Data> {
  if (data.sheets === undefined) return data;
  const sheets: SheetCells[] = [];
  for (const sheet of data.sheets) sheets.push({ ...sheet, cells: yield* unpackedCells(sheet.cells ?? {}) });
  return { ...data, sheets };
}

function modelOf(data: object, config: ModelConfig): Model {
  return new Model(data, config, [], undefined, false);
}
