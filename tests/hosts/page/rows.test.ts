import { mkdtemp, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { calculateXlsx } from "../../../src/engine/index.js";
import { fileHost, openWorkbookFile } from "../../../src/hosts/file/index.js";
import { cellEdits } from "../../../src/hosts/page/file/cell-edits.js";
import { changesSince } from "../../../src/hosts/page/file/changes-since.js";
import { bytesOnDisk } from "../../../src/hosts/page/file/page-file.js";
import { showFile } from "../../../src/hosts/page/page-context.js";
import { pageHost } from "../../../src/hosts/page/page-host.js";
import { rememberWorkbook } from "../../../src/hosts/page/remember-workbook.js";
import { restructure } from "../../../src/hosts/page/restructure.js";
import {
  type BlockEdit,
  checkedHost,
  checkWorkbook,
  type RowEdit,
  type WorkbookHost,
} from "../../../src/workbook/index.js";
import { type CellEdit, columnLetters, openWorkbook, patchWorkbook, readSheet } from "../../../src/xlsx/index.js";
import { templateFile } from "./page-host-over.js";
import { pageInNode } from "./page-in-node.js";

const EMPTY = { title: "empty", data: {}, movedSheetIds: [], protectedSheetIds: [], isChanged: false, file: null };

/** Where the list of outlets is in a file. */
function outletsIn(bytes: Uint8Array) {
  const [table] = readSheet(openWorkbook(bytes, "job.xlsx"), "Outlets").tables;
  if (table === undefined) throw new Error("There is no table of outlets.");
  const letters = (heading: string): string => {
    const index = table.columns.findIndex(({ name }) => name === heading);
    return columnLetters(table.range.firstColumn + index);
  };
  return { letters, first: table.range.firstRow + 1, last: table.range.lastRow };
}

/** An outlet of 12 in × 6 in that reads 400 fpm, 0.75 of it free. */
const AIRFLOW = (400 * 12 * 6 * 0.75) / 144;

function outletIn(bytes: Uint8Array, row: number, tag: string): readonly BlockEdit[] {
  const { letters } = outletsIn(bytes);
  const entries = { Outlet: tag, Kind: "supply", "Width or diameter": 12, Height: 6, Factor: 0.75, R1: 400 };
  return Object.entries(entries).map(([heading, entry]) => ({
    address: { sheet: "Outlets", range: `${letters(heading)}${row}` },
    cells: [[entry]],
  }));
}

async function onPage(bytes: Uint8Array) {
  const context = pageInNode(EMPTY);
  const name = "job.xlsx";
  await showFile(context, { name, bytes, handle: null }, await context.run("read", bytes, name), false);
  const host = pageHost(context, context.watchers, templateFile);
  const saved = async () => {
    const view = context.view();
    const file = view.file();
    if (file === null) throw new Error("The workbook has no file.");
    const { cells, structure, looks } = changesSince(file.baseline, view.exported(), view.movedSheetIds);
    expect({ structure, looks }).toEqual({ structure: [], looks: [] });
    return (await context.run("patch", file.bytes, file.name, cellEdits(view.model, cells))).bytes;
  };
  return { context, host, saved };
}

async function inFile(bytes: Uint8Array) {
  const path = join(await mkdtemp(join(tmpdir(), "vanesheet-rows-")), "job.xlsx");
  await writeFile(path, bytes);
  const host = fileHost(await openWorkbookFile(path), calculateXlsx);
  const saved = async () => {
    await host.save();
    return (await openWorkbookFile(path)).workbook.archive.bytes;
  };
  return { host, saved };
}

const HOSTS: Readonly<
  Record<
    string,
    (bytes: Uint8Array) => Promise<{ readonly host: WorkbookHost; readonly saved: () => Promise<Uint8Array> }>
  >
> = { "the page": onPage, "a file": inFile };

async function add(host: WorkbookHost, edit: RowEdit) {
  const notices = await host.addRows?.(edit);
  expect(notices).toEqual([]);
}

describe.each(Object.entries(HOSTS))("rows that are added on %s", (_, open) => {
  it("keep what was entered before, take new entries, and are in the totals and in the saved file", async () => {
    const bytes = new Uint8Array(await templateFile("room-balance"));
    const { first, last, letters } = outletsIn(bytes);
    const { host, saved } = await open(bytes);
    await host.write(outletIn(bytes, first, "S-1"));
    await add(host, { kind: "growTable", sheet: "Outlets", row: first, count: 10 });
    await add(host, { kind: "insertRows", sheet: "Outlets", row: first, count: 1 });
    await host.write([...outletIn(bytes, first, "S-0"), ...outletIn(bytes, last + 11, "S-99")]);
    const cells = [first, first + 1, last + 11].map((row) => ({
      sheet: "Outlets",
      range: `${letters("Airflow")}${row}`,
    }));
    const read = await host.read(cells);
    for (const { values } of read) expect(values[0]?.[0]).toBeCloseTo(AIRFLOW, 9);
    const file = await saved();
    const after = openWorkbook(file, "job.xlsx");
    expect(outletsIn(file)).toMatchObject({ first, last: last + 11 });
    const sums = [...readSheet(after, "Outlets").cells.numbers].filter((value) => Math.abs(value - 3 * AIRFLOW) < 1e-9);
    expect(sums).toHaveLength(1);
    const [before, now] = [unzipSync(bytes), unzipSync(file)];
    const lost = Object.keys(before).filter((name) => now[name] === undefined);
    expect(lost).toEqual([]);
    const kept = Object.keys(before).filter((name) =>
      Buffer.from(before[name] ?? []).equals(Buffer.from(now[name] ?? [])),
    );
    const notes = `xl/worksheets/sheet${after.sheets.length}.xml`;
    expect(kept).toEqual(expect.arrayContaining(["xl/styles.xml", "xl/sharedStrings.xml", notes]));
  });

  it("join the table that they were typed below, and the check that found them is content", async () => {
    const blank = new Uint8Array(await templateFile("room-balance"));
    const { last } = outletsIn(blank);
    const typed = [...outletIn(blank, last + 1, "S-98"), ...outletIn(blank, last + 2, "S-99")];
    const edits = typed.map(({ address: { sheet, range }, cells }): CellEdit => {
      return { kind: "value", sheet, address: range, value: cells[0]?.[0] ?? null };
    });
    const { host } = await open(patchWorkbook(openWorkbook(blank, "job.xlsx"), edits));
    const found = async () =>
      checkWorkbook(await checkedHost(host)).findings.filter(({ kind }) => kind === "rows-below-table");
    const [finding] = await found();
    expect(finding?.action).toContain("Let the pane extend the table");
    await add(host, { kind: "extendTable", sheet: "Outlets", row: last + 2 });
    expect(await found()).toEqual([]);
  });

  it("are refused in words where there is no list, and nothing changes", async () => {
    const { host } = await open(new Uint8Array(await templateFile("room-balance")));
    const edit: RowEdit = { kind: "growTable", sheet: "Outlets", row: 2, count: 10 };
    await expect(host.addRows?.(edit)).rejects.toThrow(
      /sheet “Outlets”, row 2: is in no table. Choose a row of the list./,
    );
    expect((await host.sheets()).map(({ name }) => name)).toContain("Outlets");
  });
});

describe("rows and sheets that change on the page", () => {
  it("are saved over the file that was opened, since what it still holds is known", async () => {
    const bytes = new Uint8Array(await templateFile("face-sweep"));
    const { context, saved } = await onPage(bytes);
    const sheet = openWorkbook(bytes, "job.xlsx").sheets[1]?.name ?? "";
    expect(await restructure(context, { kind: "renameSheet", sheet, name: "Ours" })).toEqual({
      isDone: true,
      notices: [],
    });
    expect(await restructure(context, { kind: "copySheet", sheet: "Ours" })).toMatchObject({ isDone: true });
    const file = context.view().file();
    expect(file !== null && bytesOnDisk(file) === bytes).toBe(true);
    expect(context.view().isChanged()).toBe(true);
    const names = openWorkbook(await saved(), "job.xlsx").sheets.map(({ name }) => name);
    expect(names.slice(0, 3)).toEqual(["Job", "Ours", "Ours (2)"]);
  });

  it("are taken back over what was saved meanwhile, as a change that is in no file yet", async () => {
    const bytes = new Uint8Array(await templateFile("face-sweep"));
    const { context, saved } = await onPage(bytes);
    const sheet = openWorkbook(bytes, "job.xlsx").sheets[1]?.name ?? "";
    const goBack = await rememberWorkbook(context);
    await restructure(context, { kind: "renameSheet", sheet, name: "Ours" });
    const renamed = context.view().file();
    if (renamed === null) throw new Error("The workbook has no file.");
    const onDisk = await saved();
    const { onDisk: _, ...rest } = renamed;
    await context.view().setFile({ ...rest, bytes: onDisk }, false);
    await goBack();
    const file = context.view().file();
    expect(file !== null && bytesOnDisk(file) === onDisk).toBe(true);
    expect(context.view().isChanged()).toBe(true);
    expect(openWorkbook(await saved(), "job.xlsx").sheets[1]?.name).toBe(sheet);
  });
});
