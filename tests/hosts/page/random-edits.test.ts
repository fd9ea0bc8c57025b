import { describe, expect, it } from "vitest";
import { patchAndCalculate } from "../../../src/engine/index.js";
import { cellEdits } from "../../../src/hosts/page/file/cell-edits.js";
import { changesSince } from "../../../src/hosts/page/file/changes-since.js";
import { type PageContext, showFile } from "../../../src/hosts/page/page-context.js";
import { restructure } from "../../../src/hosts/page/restructure.js";
import { type Chance, chanceOf } from "../../../src/tools/simulate/random.js";
import { DEMONSTRATION_FILE, TEMPLATES, type TemplateId } from "../../../src/workbook/index.js";
import {
  type CellValue,
  columnLetters,
  formulaCellsOf,
  openWorkbook,
  readSheet,
  type StructureEdit,
  valueAt,
  type Workbook,
  WorkbookFileError,
} from "../../../src/xlsx/index.js";
import { templateFile } from "./page-host-over.js";
import { pageInNode } from "./page-in-node.js";

/*
 * Whatever is typed on the page, deleted, or done to rows and sheets: the page shows what the file host calculates from the
 * same entries. So many edits, in batches; `RANDOM_EDITS=1000 RANDOM_SEED=2` tries others.
 */
const EDITS = Number(process.env["RANDOM_EDITS"] ?? 42);
const SEED = Number(process.env["RANDOM_SEED"] ?? 20);
const BATCH = 6;

const EMPTY = { title: "empty", data: {}, movedSheetIds: [], protectedSheetIds: [], isChanged: false, file: null };
const BOOKS = [...(Object.keys(TEMPLATES) as TemplateId[]), DEMONSTRATION_FILE] as const;

const oneOf = <Item>(chance: Chance, items: readonly Item[]): Item =>
  items[Math.floor(chance.uniform() * items.length)] as Item;

/** What somebody may type over a cell. */
function typed(chance: Chance, address: () => string): string {
  const [one, other] = [address(), address()];
  return oneOf(chance, [
    ...["0", "1", "12.5", "400", "-30", "1e3", "99999", "", "", "S-1", "none", "supply", "~350", "14x6", "TRUE"],
    ...["#N/A", " ", "12 1/2", "3,5"],
    ...[`=${one}`, `=SUM(${one}:${other})`, `=AVERAGE(${one}:${other})`, `=IF(${one}="","",${one}*2)`],
    ...[`=COUNT(${one}:${other})`, `=VANE.AIRFLOW.FACE(14,6,${one},0.75)`, `=VANE.DESIGN.VERDICT(${one},${other})`],
    ...[`=${one}&"/"&${other}`, `=${one}/${other}`, `=MAX(${one},${other})>5`, `=ROUND(${one},1)`],
  ]);
}

/** A change of rows or sheets, as the page's menus make them. */
function structureEdit(chance: Chance, workbook: Workbook): StructureEdit | null {
  const sheet = oneOf(chance, workbook.sheets).name;
  const { tables } = readSheet(workbook, sheet);
  const [table] = tables;
  if (table === undefined) return { kind: "renameSheet", sheet, name: `Sheet ${Math.floor(chance.uniform() * 1000)}` };
  const { firstRow, lastRow } = table.range;
  const row = firstRow + 1 + Math.floor(chance.uniform() * (lastRow - firstRow));
  return oneOf<StructureEdit>(chance, [
    { kind: "insertRows", sheet, row, count: 1 + Math.floor(chance.uniform() * 3) },
    { kind: "deleteRows", sheet, row, count: 1 },
    { kind: "growTable", table: table.name, count: 2 },
    {
      kind: "sortTable",
      table: table.name,
      column: oneOf(chance, table.columns).name,
      direction: oneOf(chance, ["ascending", "descending"]),
    },
    { kind: "renameSheet", sheet, name: `Sheet ${Math.floor(chance.uniform() * 1000)}` },
    { kind: "copySheet", sheet },
  ]);
}

const plain = (value: CellValue) => (value === null ? "" : typeof value === "object" ? value.error : value);

/** Cells that the page shows otherwise than the file host calculates them. */
async function differences(context: PageContext): Promise<readonly string[]> {
  const { model, file: held, exported, movedSheetIds } = context.view();
  const file = held();
  if (file === null) throw new Error("The workbook has no file.");
  const { cells, structure } = changesSince(file.baseline, exported(), movedSheetIds, file.entered);
  expect(structure).toEqual([]);
  const edits = cellEdits(model, cells).map((edit) => (edit.kind === "formula" ? { ...edit, result: null } : edit));
  const { bytes, calculation } = patchAndCalculate(openWorkbook(file.bytes, file.name), edits);
  const kept = new Set(calculation.kept.map(({ sheet, address }) => `${sheet}!${address}`));
  const workbook = openWorkbook(bytes, file.name);
  const found: string[] = [];
  for (const { name } of workbook.sheets) {
    const sheetId = model.getters.getSheetIdByName(name);
    if (sheetId === undefined) throw new Error(`The page does not show “${name}”.`);
    const sheet = readSheet(workbook, name);
    for (const { row, column, formula } of formulaCellsOf(sheet)) {
      const address = `${columnLetters(column)}${row}`;
      if (kept.has(`${name}!${address}`)) continue;
      const shown = model.getters.getEvaluatedCell({ sheetId, col: column - 1, row: row - 1 });
      const [page, host] = [shown.value ?? "", plain(valueAt(sheet, row, column))];
      const isSame =
        typeof page === "number" && typeof host === "number"
          ? Math.abs(page - host) <= 1e-12 * Math.max(1, Math.abs(host))
          : page === host;
      if (!isSame)
        found.push(
          `${name}!${address} =${formula.kind === "dataTable" ? "" : formula.text}: page ${page}, file ${host}`,
        );
    }
  }
  return found;
}

async function opened(book: (typeof BOOKS)[number]): Promise<PageContext> {
  const context = pageInNode(EMPTY);
  const bytes = new Uint8Array(await templateFile(book));
  const name = `${book}.xlsx`;
  await showFile(context, { name, bytes, handle: null }, await context.run("read", bytes, name), false);
  return context;
}

/** Does one thing to the workbook in view; says what it was. */
async function edited(context: PageContext, chance: Chance): Promise<string> {
  const { model, file } = context.view();
  const held = file();
  if (held === null) throw new Error("The workbook has no file.");
  if (chance.uniform() < 0.12) {
    const edit = structureEdit(chance, openWorkbook(held.bytes, held.name));
    if (edit === null) return "nothing";
    try {
      await restructure(context, edit);
      return JSON.stringify(edit);
    } catch (cause) {
      // What cannot follow is refused in words before anything changes.
      if (cause instanceof WorkbookFileError) return `refused: ${JSON.stringify(edit)}`;
      throw cause;
    }
  }
  const sheetId = oneOf(chance, model.getters.getSheetIds());
  const { numberOfRows, numberOfCols } = model.getters.getSheetSize(sheetId);
  const [rows, columns] = [Math.min(40, numberOfRows), Math.min(30, numberOfCols)];
  const address = () =>
    `${columnLetters(1 + Math.floor(chance.uniform() * columns))}${1 + Math.floor(chance.uniform() * rows)}`;
  const content = typed(chance, address);
  // A formula beside everything else reads what is there and is in no circle.
  const isFormula = content.startsWith("=");
  const col = isFormula ? columns + Math.floor(chance.uniform() * 3) : Math.floor(chance.uniform() * columns);
  const row = Math.floor(chance.uniform() * rows);
  if (col >= numberOfCols) return "nothing";
  const { isSuccessful } = model.dispatch("UPDATE_CELL", { sheetId, col, row, content });
  const place = `${model.getters.getSheetName(sheetId)}!${columnLetters(col + 1)}${row + 1}`;
  return `${isSuccessful ? "typed" : "refused"} ${place} ${content}`;
}

describe("random edits on the page", () => {
  it("show what the file host calculates from the same entries", async () => {
    const chance = chanceOf(SEED);
    let count = 0;
    while (count < EDITS) {
      const book = oneOf(chance, BOOKS);
      const context = await opened(book);
      const done: string[] = [];
      for (let batch = 0; batch < 3 && count < EDITS; batch += 1) {
        for (let at = 0; at < BATCH; at += 1) done.push(await edited(context, chance));
        count += BATCH;
        expect({ book, done, found: await differences(context) }).toEqual({ book, done, found: [] });
      }
    }
  }, 3_600_000);
});
