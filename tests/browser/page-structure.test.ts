import { readFile } from "node:fs/promises";
import ExcelJS from "exceljs";
import { unzipSync } from "fflate";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { cellAt, openWorkbook, readSheet } from "../../src/xlsx/index.js";
import { filesOn, type OpenPage, openTemplate } from "./files-on-page.js";
import { outletCell, person } from "./open-workbook.js";

/*
 * Rows that come, go and are sorted, and sheets that are renamed and copied, by the menus: what is saved is the same file,
 * with its chart, its protection and its print set-up.
 */

let workbook: OpenPage;
let page: Page;

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

beforeAll(async () => {
  workbook = await openTemplate("demonstration.xlsx", "Outlets");
  page = workbook.page;
});

afterAll(() => workbook.close());

async function choose(entry: string): Promise<void> {
  await page.locator(".o-topbar-menu", { hasText: "Rows" }).click();
  await page.locator(".o-menu .o-menu-item-name", { hasText: new RegExp(`^${entry}$`) }).click();
}

/** Where the lower right corner of a cell is, as the grid marks it. */
async function cornerOf(address: string): Promise<{ readonly x: number; readonly y: number }> {
  await person(page).goTo(address);
  const mark = await page.locator(".o-autofill").boundingBox();
  if (mark === null) throw new Error(`${address} is not in view.`);
  return { x: mark.x + mark.width / 2, y: mark.y + mark.height / 2 };
}

async function isDone(text: string): Promise<void> {
  await page.locator(".notice.success", { hasText: text }).waitFor();
  await page.locator("#busy").waitFor({ state: "hidden" });
  await person(page).isReady();
}

describe("rows and sheets on the page", () => {
  it("insert a row with the formulas of its list, and take it back", async () => {
    const { goTo, read, type } = person(page);
    await goTo("A10");
    await choose("Insert row above");
    await isDone("Row 10 inserted.");
    expect(await read("A10")).toBe("empty");
    expect(await read("A11")).toBe("S2");
    for (const [address, text] of Object.entries({
      A10: "S99",
      F10: "12",
      G10: "6",
      H10: "0.75",
      I10: "75",
      J10: "200",
    })) {
      await type(address, text);
    }
    // 12 x 6 in free to 0.75 at 200 fpm.
    expect(await read(outletCell("Airflow", 10))).toBe("75.0");
    await goTo("A12");
    await choose("Delete rows");
    await isDone("Row 12 deleted.");
    expect(await read("A12")).toBe("S4");
    await page.locator(".notice", { hasText: "Row 12 deleted." }).getByRole("button", { name: "Undo" }).click();
    await page.locator("#busy").waitFor({ state: "hidden" });
    await person(page).isReady();
    expect(await read("A12")).toBe("S3");
    expect(await read(outletCell("Airflow", 10))).toBe("75.0");
  });

  it("take a change of rows back by the key as well, after the entries since, and say what it was", async () => {
    const { goTo, read, type } = person(page);
    await goTo("A11");
    await choose("Insert row above");
    await isDone("Row 11 inserted.");
    await type("A11", "S98");
    await page.keyboard.press("Control+Z");
    expect(await read("A11")).toBe("empty");
    await page.keyboard.press("Control+Z");
    await isDone("Taken back: Row 11 inserted.");
    expect(await read("A11")).toBe("S2");
    expect(await read("A10")).toBe("S99");
  });

  it("ask before a change of rows is taken back together with the entries since", async () => {
    const { goTo, read, type } = person(page);
    await goTo("A11");
    await choose("Insert row above");
    await isDone("Row 11 inserted.");
    await type("A11", "S98");
    const undo = page.locator(".notice", { hasText: "Row 11 inserted." }).getByRole("button", { name: "Undo" });
    await undo.click();
    const question = page.locator("dialog.question", { hasText: "What was entered since then is taken back too." });
    await question.getByRole("button", { name: "Cancel" }).click();
    expect(await read("A11")).toBe("S98");
    await page.keyboard.press("Control+Z");
    expect(await read("A11")).toBe("empty");
    await page.keyboard.press("Control+Z");
    await isDone("Taken back: Row 11 inserted.");
    expect(await read("A11")).toBe("S2");
  });

  it("leave rows and cells alone that are dragged or sorted where the file could not follow", async () => {
    const { goTo, read } = person(page);
    await goTo("A9");
    const grid = (await page.locator(".o-grid").boundingBox()) ?? { x: 0, y: 0 };
    const [from, to] = [(await cornerOf("A11")).y - 8, (await cornerOf("A14")).y - 8];
    await page.mouse.click(grid.x + 20, from);
    await page.mouse.move(grid.x + 20, from + 1);
    await page.mouse.down();
    await page.mouse.move(grid.x + 20, to, { steps: 5 });
    await page.mouse.up();
    await page.locator(".notice", { hasText: "cannot be dragged" }).waitFor();
    expect(await read("A11")).toBe("S2");
  });

  it("filter rows by their headings with the mouse, and show all of them again", async () => {
    const { goTo } = person(page);
    const under = async (address: string, text: string) => {
      await goTo("A8");
      await page.keyboard.press("ArrowDown");
      await page.locator("#cell", { hasText: `${address}: ${text}` }).waitFor();
    };
    await goTo("D9");
    await choose("Filter buttons");
    const heading = await cornerOf("D8");
    await page.mouse.click(heading.x - 12, heading.y - 26);
    const dialog = page.getByRole("dialog", { name: "Show rows by Kind" });
    for (const kind of ["supply", "(empty)"]) await dialog.getByLabel(kind).uncheck();
    await dialog.getByRole("button", { name: "Show these" }).click();
    // Returns alone are left; they stand below the supplies.
    await page.locator("#filtered", { hasText: "hidden by a filter" }).waitFor();
    await goTo("A8");
    await page.keyboard.press("ArrowDown");
    await page.locator("#cell", { hasText: /: R1$/ }).waitFor();
    await choose("Show all rows");
    await under("A9", "S1");
  });

  it("sort whole rows of the table by a column, the headings and the rows above left alone", async () => {
    const { goTo, read } = person(page);
    await goTo("A9");
    await choose("Sort rows, Z to A");
    await isDone("sorted by Outlet");
    expect(await read("A8")).toBe("Outlet");
    expect(await read("A9")).toBe("S99");
    expect(await read(outletCell("Airflow", 9))).toBe("75.0");
    await goTo("A3");
    await choose("Sort rows, A to Z");
    await page.locator(".notice.warning", { hasText: "Nothing was sorted" }).waitFor();
  });

  it("add a sheet behind the one in view, whose tab is in sight", async () => {
    await page.locator(".o-add-sheet").click();
    await page.locator("#cell", { hasText: "A1: empty" }).waitFor();
    const [tab, bar] = [page.locator(".o-sheet.active"), page.locator(".o-sheet-container, .o-all-sheets").first()];
    const [tabBox, barBox] = [await tab.boundingBox(), await bar.boundingBox()];
    expect((tabBox?.x ?? 0) + (tabBox?.width ?? 0)).toBeLessThanOrEqual((barBox?.x ?? 0) + (barBox?.width ?? 0));
    await page.keyboard.type("Attic");
    await page.keyboard.press("Enter");
    await person(page).openSheet("Outlets");
  });

  it("rename a sheet, also in the formulas, and save all of it into the same file", async () => {
    await page.locator(".o-sheet", { hasText: "Rooms" }).dblclick();
    const dialog = page.getByRole("dialog");
    await dialog.getByRole("textbox").fill("Out/lets");
    await page.keyboard.press("Enter");
    expect(await dialog.textContent()).toContain("cannot hold /");
    await dialog.getByRole("textbox").fill("Spaces");
    await page.keyboard.press("Enter");
    await isDone("is called “Spaces” now");
    const bytes = await filesOn(page).downloaded(() => page.locator("#save").click());
    expect(await page.locator("dialog").count()).toBe(0);
    const [before, after] = [unzipSync(await readFile("templates/demonstration.xlsx")), unzipSync(bytes)];
    const missing = Object.keys(before).filter((name) => after[name] === undefined && !name.endsWith("calcChain.xml"));
    expect(missing).toEqual([]);
    expect(Object.keys(after).filter((name) => name.includes("/charts/")).length).toBeGreaterThan(0);
    const sheets = Object.entries(after).filter(([name]) => /^xl\/worksheets\/sheet\d+\.xml$/.test(name));
    const texts = sheets.map(([, part]) => Buffer.from(part).toString("utf8"));
    const was = Object.entries(before).filter(([name]) => /^xl\/worksheets\/sheet\d+\.xml$/.test(name));
    for (const mark of ["<sheetProtection", "<pageSetup", "<printOptions"]) {
      const count = (all: readonly string[]) => all.filter((text) => text.includes(mark)).length;
      expect(count(texts), mark).toBe(count(was.map(([, part]) => Buffer.from(part).toString("utf8"))));
    }
    // Sheets, their list, what reads their cells: nothing else is another.
    const changed = Object.keys(before).filter(
      (name) => after[name] !== undefined && Buffer.compare(before[name] ?? Buffer.of(), after[name]) !== 0,
    );
    const mayChange = /worksheets\/sheet\d+\.xml$|tables\/|charts\/chart\d+\.xml$|workbook\.xml|Content_Types/;
    expect(changed.filter((name) => !mayChange.test(name))).toEqual([]);
    const strict = new ExcelJS.Workbook();
    await strict.xlsx.load(Buffer.from(bytes) as never);
    expect(strict.getWorksheet("Sheet1")?.getCell("A1").value).toBe("Attic");
    const saved = openWorkbook(bytes, "saved.xlsx");
    expect(saved.sheets.map(({ name }) => name).slice(1, 4)).toEqual(["Outlets", "Sheet1", "Spaces"]);
    expect(cellAt(readSheet(saved, "Sheet1"), "A1")?.value).toBe("Attic");
    expect(cellAt(readSheet(saved, "Outlets"), "A9")?.value).toBe("S99");
    expect(cellAt(readSheet(saved, "Outlets"), outletCell("Airflow", 9))?.value).toBeCloseTo(75, 9);
  });
});
