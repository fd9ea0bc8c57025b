import { mkdtemp, readFile, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { calculateXlsx } from "../../../src/engine/index.js";
import { fileHost, openWorkbookFile } from "../../../src/hosts/file/index.js";
import { cellEdits } from "../../../src/hosts/page/file/cell-edits.js";
import { besideCells, changesSince } from "../../../src/hosts/page/file/changes-since.js";
import { showFile } from "../../../src/hosts/page/page-context.js";
import { pageHost } from "../../../src/hosts/page/page-host.js";
import type { BlockEdit, TemplateId } from "../../../src/workbook/index.js";
import { TEMPLATES } from "../../../src/workbook/index.js";
import { cellAt, openWorkbook, readSheet } from "../../../src/xlsx/index.js";
import { cellsUnder, cellUnder } from "../../support/plan-places.js";
import { templateFile } from "./page-host-over.js";
import { pageInNode } from "./page-in-node.js";

const EMPTY = { title: "empty", data: {}, movedSheetIds: [], protectedSheetIds: [], isChanged: false, file: null };

async function opened(template: TemplateId) {
  const context = pageInNode(EMPTY);
  const bytes = new Uint8Array(await templateFile(template));
  const name = `${template}.xlsx`;
  await showFile(context, { name, bytes, handle: null }, await context.run("read", bytes, name), false);
  const host = pageHost(context, context.watchers, templateFile);
  const changes = () => {
    const view = context.view();
    const file = view.file();
    if (file === null) throw new Error("The workbook has no file.");
    return changesSince(file.baseline, view.exported(), view.movedSheetIds);
  };
  const saved = async () => {
    const file = context.view().file();
    if (file === null) throw new Error("The workbook has no file.");
    const since = changes();
    const edits = cellEdits(context.view().model, since.cells);
    return (await context.run("patch", file.bytes, file.name, edits, besideCells(since))).bytes;
  };
  return { context, host, bytes, changes, saved };
}

function partsThatDiffer(one: Uint8Array, other: Uint8Array): readonly string[] {
  const [before, after] = [unzipSync(one), unzipSync(other)];
  const names = new Set([...Object.keys(before), ...Object.keys(after)]);
  return [...names].filter((name) => !Buffer.from(before[name] ?? Buffer.of()).equals(Buffer.from(after[name] ?? [])));
}

const PLAN = TEMPLATES["room-balance"]("");

/** The first outlet's airflow, wherever the template has it. */
const AIRFLOW_CELL = cellUnder(PLAN, "Outlets", "Airflow", 9);

const ENTERED: Readonly<Record<string, string | number>> = {
  Outlet: "S-1",
  System: "AHU-1",
  Room: "Hall",
  Kind: "supply",
  "Width or diameter": 12,
  Height: 6,
  Factor: 0.75,
  "Design airflow": 150,
  R1: 200,
  R2: 210,
  R3: 0,
};

/** The inputs of the first outlet side by side, from its tag to its third reading. */
const FIRST_ROW = (() => {
  const headers = PLAN.sheets.flatMap(({ tables }) => tables.find(({ name }) => name === "Outlets")?.columns ?? []);
  return headers.slice(0, headers.findIndex(({ name }) => name === "R3") + 1).map(({ name }) => ENTERED[name] ?? null);
})();

const OUTLET: readonly BlockEdit[] = [
  { address: { sheet: "Outlets", range: cellsUnder(PLAN, "Outlets", ["Outlet", "R3"], 9) }, cells: [FIRST_ROW] },
  { address: { sheet: "Job", range: "B5:B6" }, cells: [["0012"], ["Invented job"]] },
];

describe("files in the page", () => {
  it.each(Object.keys(TEMPLATES) as TemplateId[])(
    "opens %s as it is: nothing has changed, and saving gives the same bytes",
    async (template) => {
      const { changes, saved, bytes } = await opened(template);
      const none = { cells: [], added: [], filters: [], names: null, structure: [], looks: [], columns: null };
      expect(changes()).toEqual(none);
      expect(Buffer.from(await saved()).equals(Buffer.from(bytes))).toBe(true);
    },
  );

  it("saves entries to the same bytes as the file host does", async () => {
    const { host, changes, saved, bytes } = await opened("room-balance");
    await host.write(OUTLET);
    expect(changes()).toMatchObject({ structure: [], looks: [] });
    const fromPage = await saved();
    const path = join(await mkdtemp(join(tmpdir(), "vanesheet-page-")), "room-balance.xlsx");
    await writeFile(path, bytes);
    const onDisk = fileHost(await openWorkbookFile(path), calculateXlsx);
    await onDisk.write(OUTLET);
    await onDisk.save();
    expect(partsThatDiffer(fromPage, await readFile(path))).toEqual([]);
    expect(partsThatDiffer(fromPage, bytes).every((name) => name.startsWith("xl/worksheets/sheet"))).toBe(true);
  });

  it("saves what columns hold as hidden names in the list of names, and nothing else", async () => {
    const { host, changes, saved, bytes } = await opened("room-balance");
    const name = "_vanesheet.list1.outlet";
    await host.keepColumns([{ name, sheet: undefined, refersTo: "'Outlets'!$A$8" }]);
    expect(changes()).toMatchObject({ structure: [], looks: [] });
    const file = await saved();
    expect(partsThatDiffer(file, bytes)).toEqual(["xl/workbook.xml"]);
    const kept = openWorkbook(file, "saved.xlsx").names.filter((one) => one.name === name);
    expect(kept).toEqual([{ name, sheet: undefined, refersTo: "Outlets!$A$8", isHidden: true }]);
  });

  it("saves names that are given, changed and taken away, with what their formulas come to, and no other part", async () => {
    const { context, changes, saved, bytes } = await opened("duct-traverse");
    const { model } = context.view();
    const sheetId = model.getters.getSheetIdByName("Job") ?? "";
    const block = (xc: string) => [model.getters.getRangeDataFromXc(sheetId, xc)];
    model.dispatch("CREATE_NAMED_RANGE", { name: "Main_duct", ranges: block("B6") });
    model.dispatch("UPDATE_CELL", { sheetId, col: 1, row: 5, content: "Invented house" });
    model.dispatch("DELETE_NAMED_RANGE", { name: "Job_Site" });
    expect(changes()).toMatchObject({ structure: [], looks: [], names: { replaced: ["Job_Site"] } });
    const first = await saved();
    const { names } = openWorkbook(first, "saved.xlsx");
    expect(names.find(({ name }) => name === "Main_duct")?.refersTo).toBe("Job!$B$6");
    expect(names.map(({ name }) => name)).not.toContain("Job_Site");
    const before = openWorkbook(bytes, "before.xlsx").names.length;
    expect(names).toHaveLength(before);
    expect(
      partsThatDiffer(first, bytes).every((name) => /^xl\/(?:workbook|worksheets\/sheet\d+)\.xml$/.test(name)),
    ).toBe(true);
  });

  it.each(["1st", ".floor", "R", "c", "R1C1", "_xlnm.Print_Area", `a${"b".repeat(255)}`])(
    "takes no name that a file may not hold: %s",
    async (name) => {
      const { context } = await opened("duct-traverse");
      const { model } = context.view();
      const ranges = [model.getters.getRangeDataFromXc(model.getters.getActiveSheetId(), "B6")];
      expect(model.dispatch("CREATE_NAMED_RANGE", { name, ranges }).isSuccessful).toBe(false);
    },
  );

  it("saves a formula of a cell function as files spell it, with its result", async () => {
    const { context, host, saved } = await opened("room-balance");
    // Every cell of the notes is locked.
    const { model, protectedSheetIds } = context.view();
    (protectedSheetIds as Set<string>).delete(model.getters.getSheetIdByName("Room balance notes") ?? "");
    await host.write([{ address: { sheet: "Room balance notes", range: "D40" }, cells: [["=VANE.AIRFLOW(400,2.5)"]] }]);
    const file = await saved();
    const { sheets } = openWorkbook(file, "saved.xlsx");
    const notes = sheets.find(({ name }) => name === "Room balance notes")?.partName ?? "";
    const written = Buffer.from(unzipSync(file)[notes] ?? []).toString("utf8");
    expect(written).toMatch(/<c r="D40"[^>]*cm="1"[^>]*><f[^>]*>_xldudf_VANE_AIRFLOW\(400,2.5\)<\/f><v>1000<\/v>/);
    expect(context.said).toEqual([]);
  });

  it("lets no formula of a protected sheet be typed over until its protection is taken off", async () => {
    const { context, changes } = await opened("room-balance");
    const { model, protectedSheetIds } = context.view();
    const sheetId = model.getters.getSheetIdByName("Outlets") ?? "";
    const type = () => model.dispatch("UPDATE_CELL", { sheetId, col: 20, row: 8, content: "99" });
    expect(type().isSuccessful).toBe(false);
    expect(changes().cells).toEqual([]);
    (protectedSheetIds as Set<string>).delete(sheetId);
    expect(type().isSuccessful).toBe(true);
    expect(changes().cells.map(({ address, after }) => [address, after])).toEqual([["U9", "99"]]);
  });

  it("tells structure and looks from entries", async () => {
    const { context, changes } = await opened("face-sweep");
    const { model } = context.view();
    const sheetId = model.getters.getSheetIds()[1] ?? "";
    model.dispatch("RESIZE_COLUMNS_ROWS", { sheetId, dimension: "COL", elements: [0], size: 200 });
    // Widths are for the page alone.
    expect(changes()).toMatchObject({ cells: [], structure: [], looks: [] });
    model.dispatch("HIDE_COLUMNS_ROWS", { sheetId, dimension: "ROW", elements: [20] });
    expect(changes()).toMatchObject({ cells: [], structure: [], looks: [expect.stringContaining("hidden rows")] });
    model.dispatch("UNHIDE_COLUMNS_ROWS", { sheetId, dimension: "ROW", elements: [20] });
    model.dispatch("SET_FORMATTING", {
      sheetId,
      target: [{ left: 0, right: 0, top: 20, bottom: 20 }],
      style: { bold: true },
    });
    expect(changes().looks).toEqual([expect.stringContaining("fonts, fills and borders")]);
    model.dispatch("DELETE_SHEET", { sheetId, sheetName: model.getters.getSheetName(sheetId) });
    expect(changes().structure).toEqual([expect.stringMatching(/^the sheet “.*” is gone$/)]);
  });

  it("tells a look that came into a cell together with its content, and not what typing brings along", async () => {
    const { context, changes } = await opened("face-sweep");
    const { model } = context.view();
    model.dispatch("CREATE_SHEET", { sheetId: "mine", position: 2, name: "Mine" });
    const enter = (content: string, look: object) =>
      model.dispatch("UPDATE_CELL", { sheetId: "mine", col: 0, row: 0, content, ...look });
    for (const content of ["410", "5%", "2026-03-14", "Attic"]) {
      enter(content, {});
      expect(changes().looks, content).toEqual([]);
    }
    enter("Attic", { style: { bold: true } });
    expect(changes().looks).toEqual(["fonts, fills and borders on “Mine”"]);
  });

  it("puts a new sheet with its cells into the same file, in its place, and keeps every other part", async () => {
    const { context, bytes, saved } = await opened("room-balance");
    const { model } = context.view();
    model.dispatch("CREATE_SHEET", { sheetId: "mine", position: 2, name: "My <own>" });
    model.dispatch("UPDATE_CELL", { sheetId: "mine", col: 0, row: 0, content: "Attic & crawl space" });
    model.dispatch("UPDATE_CELL", { sheetId: "mine", col: 1, row: 1, content: "=1+Outlets!I9" });
    const [before, after] = [unzipSync(bytes), unzipSync(await saved())];
    const written = openWorkbook(await saved(), "saved.xlsx");
    const names = openWorkbook(bytes, "before.xlsx").sheets.map(({ name }) => name);
    expect(written.sheets.map(({ name }) => name)).toEqual([...names.slice(0, 2), "My <own>", ...names.slice(2)]);
    const mine = readSheet(written, "My <own>");
    expect([cellAt(mine, "A1")?.value, cellAt(mine, "B2")?.formula?.text]).toEqual([
      "Attic & crawl space",
      "1+Outlets!I9",
    ]);
    const changed = Object.keys(before).filter(
      (name) => Buffer.compare(before[name] ?? Buffer.of(), after[name] ?? Buffer.of()) !== 0,
    );
    expect(changed.sort()).toEqual(["[Content_Types].xml", "xl/_rels/workbook.xml.rels", "xl/workbook.xml"]);
  });

  it("moves no row and sorts no cells without the file", async () => {
    const { context, changes } = await opened("room-balance");
    const { model } = context.view();
    const sheetId = model.getters.getSheetIdByName("Outlets") ?? "";
    const move = { sheetId, dimension: "ROW" as const, base: 12, elements: [9], position: "after" as const };
    expect(model.dispatch("MOVE_COLUMNS_ROWS", { ...move, sheetName: "Outlets" }).isSuccessful).toBe(false);
    const zone = { left: 0, right: 0, top: 8, bottom: 12 };
    expect(model.dispatch("SORT_CELLS", { sheetId, col: 0, row: 8, zone, sortDirection: "asc" }).isSuccessful).toBe(
      false,
    );
    expect(changes()).toMatchObject({ cells: [], structure: [] });
  });

  it("adds a template's sheets beside what is there, in the page and in the bytes that it will save", async () => {
    const { context, host, saved } = await opened("duct-traverse");
    await host.write([{ address: { sheet: "Job", range: "B6" }, cells: [["Invented job"]] }]);
    const changed: string[] = [];
    await host.watch((sheet) => changed.push(sheet));
    const added = await host.addTemplate("room-balance");
    // The sheet of job details is there already, and shared.
    const own = TEMPLATES["room-balance"]("").sheets.map(({ name }) => name);
    expect(added).toEqual(own.filter((name) => name !== "Job"));
    expect(changed).toContain("Outlets");
    expect((await host.sheets()).map(({ name }) => name)).toEqual([
      "Job",
      "Duct traverse",
      "Duct traverse notes",
      ...added,
    ]);
    expect((await host.read([{ sheet: "Job", range: "B6" }]))[0]?.values).toEqual([["Invented job"]]);
    await host.write(OUTLET.slice(0, 1));
    const [read] = await host.read([{ sheet: "Outlets", range: AIRFLOW_CELL }]);
    expect(read?.values[0]?.[0]).toBeCloseTo(((200 + 210 + 0) / 3) * ((12 * 6 * 0.75) / 144), 9);
    const again = pageInNode(EMPTY);
    const bytes = await saved();
    await showFile(
      again,
      { name: "both.xlsx", bytes, handle: null },
      await again.run("read", bytes, "both.xlsx"),
      false,
    );
    const reopened = pageHost(again, again.watchers, templateFile);
    expect((await reopened.read([{ sheet: "Outlets", range: AIRFLOW_CELL }]))[0]?.values).toEqual(read?.values);
    expect((await reopened.read([{ sheet: "Job", range: "B6" }]))[0]?.values).toEqual([["Invented job"]]);
    expect(context.view().isChanged()).toBe(true);
  });
});
