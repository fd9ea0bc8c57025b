import { readFile } from "node:fs/promises";
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
    const saved = openWorkbook(bytes, "saved.xlsx");
    expect(saved.sheets.map(({ name }) => name)).toContain("Spaces");
    expect(cellAt(readSheet(saved, "Outlets"), "A9")?.value).toBe("S99");
    expect(cellAt(readSheet(saved, "Outlets"), outletCell("Airflow", 9))?.value).toBeCloseTo(75, 9);
  });
});
