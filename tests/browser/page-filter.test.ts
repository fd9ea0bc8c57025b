import { mkdtemp, readFile, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import ExcelJS from "exceljs";
import { strFromU8, unzipSync } from "fflate";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { cellsOf, openWorkbook, readSheet, rowStateAt } from "../../src/xlsx/index.js";
import { accessViolations } from "./access-violations.js";
import { filesOn, type OpenPage, openTemplate } from "./files-on-page.js";
import { person } from "./open-workbook.js";

/* A table filtered by keys alone, saved, and opened again. */

const TEMPLATE = "demonstration.xlsx";
const RETURN_ROWS = [23, 24];
const EMPTY_ROWS = Array.from({ length: 12 }, (_, index) => 27 + index);

let workbook: OpenPage;
let page: Page;
let saved: Uint8Array;

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

beforeAll(async () => {
  workbook = await openTemplate(TEMPLATE, "Outlets");
  page = workbook.page;
});

afterAll(() => workbook.close());

const keys = async (...pressed: readonly string[]): Promise<void> => {
  for (const key of pressed) await page.keyboard.press(key, { delay: 20 });
  await person(page).hasDrawn();
};

const dialog = () => page.locator("dialog.filter");
const status = () => page.locator("#filtered");
const focused = (): Promise<string | undefined> =>
  page.evaluate(() => (document.activeElement as HTMLInputElement | null)?.labels?.[0]?.textContent ?? undefined);

/** What the cells of the sheet of outlets hold. */
function contents(bytes: Uint8Array): ReadonlyMap<string, unknown> {
  const sheet = readSheet(openWorkbook(bytes, TEMPLATE), "Outlets");
  return new Map([...cellsOf(sheet)].map(({ address, value }) => [address, value]));
}

function hiddenRows(bytes: Uint8Array): readonly number[] {
  const sheet = readSheet(openWorkbook(bytes, TEMPLATE), "Outlets");
  return Array.from({ length: 40 }, (_, index) => index + 1).filter((row) => rowStateAt(sheet, row) === "filtered");
}

describe("a filter", () => {
  it("is asked for by Alt+Down, gone through by arrows, checked by Space, set by Enter", async () => {
    await person(page).goTo("D9");
    await keys("Alt+ArrowDown");
    await dialog().waitFor();
    expect(await focused()).toBe("All");
    expect(await page.getByRole("dialog", { name: "Show rows by Kind" }).count()).toBe(1);
    expect(await accessViolations(page, { include: ["dialog"], exclude: [] })).toEqual([]);
    await keys("Space", "Enter");
    expect(await dialog().locator(".problem").textContent()).toContain("Check at least one");
    await keys("ArrowDown", "ArrowDown");
    expect(await focused()).toBe("supply");
    await keys("Space", "Enter");
    await dialog().waitFor({ state: "detached" });
    expect(await status().textContent()).toMatch(/rows are hidden by a filter\. Sums still count them\./);
    await keys("ArrowUp");
    expect(await page.locator("#cell").textContent()).toBe("D8: Kind (filtered)");
  });

  it("is left as it was by Escape, and the cells have the keys again", async () => {
    const before = await status().textContent();
    await keys("Alt+ArrowDown");
    await dialog().waitFor();
    await keys("ArrowDown", "Space", "Escape");
    await dialog().waitFor({ state: "detached" });
    expect(await status().textContent()).toBe(before);
    await keys("ArrowDown");
    expect(await page.locator("#cell").textContent()).toContain("D9:");
  });

  it("is undone and done again in one step each", async () => {
    await keys("Control+z");
    expect(await status().isVisible()).toBe(false);
    await keys("Control+y");
    expect(await status().isVisible()).toBe(true);
  });

  it("is saved into the file, with the rows that it hides, and nothing else of it changes", async () => {
    const original = new Uint8Array(await readFile(join("templates", TEMPLATE)));
    saved = await filesOn(page).downloaded(() => keys("Control+s"));
    expect(await page.locator("dialog").count()).toBe(0);
    const [before, after] = [unzipSync(original), unzipSync(saved)];
    const changed = Object.keys(after).filter(
      (name) => !Buffer.from(after[name] ?? []).equals(Buffer.from(before[name] ?? [])),
    );
    expect(changed).toEqual(["xl/worksheets/sheet2.xml", "xl/tables/table1.xml"].filter((name) => name in after));
    expect(strFromU8(after["xl/tables/table1.xml"] ?? new Uint8Array())).toContain(
      '<filterColumn colId="3"><filters><filter val="supply"/></filters></filterColumn></autoFilter>',
    );
    expect(hiddenRows(saved)).toEqual(expect.arrayContaining([...RETURN_ROWS, ...EMPTY_ROWS]));
    // Totals and results are what they were.
    expect(contents(saved)).toEqual(contents(original));
  });

  it("is read by another reader of such files", async () => {
    const read = new ExcelJS.Workbook();
    await read.xlsx.load(Buffer.from(saved) as never);
    const sheet = read.getWorksheet("Outlets");
    expect(sheet?.getRow(9).hidden).toBe(false);
    for (const row of RETURN_ROWS) expect(sheet?.getRow(row).hidden, String(row)).toBe(true);
  });

  it("of a file is shown, said, and taken off by keys, also in the file", async () => {
    const folder = await mkdtemp(join(tmpdir(), "vanesheet-"));
    const path = join(folder, "filtered.xlsx");
    await writeFile(path, saved);
    await filesOn(page).choose(path);
    await filesOn(page).isOpen("filtered.xlsx");
    await person(page).openSheet("Outlets");
    await status().filter({ hasText: "hidden by a filter" }).waitFor();
    await person(page).goTo("D9");
    await keys("Alt+ArrowDown");
    await dialog().waitFor();
    expect(await dialog().getByLabel("supply").isChecked()).toBe(true);
    expect(await dialog().getByLabel("return").isChecked()).toBe(false);
    await keys("Space", "Enter");
    await dialog().waitFor({ state: "detached" });
    expect(await status().isVisible()).toBe(false);
    const open = await filesOn(page).downloaded(() => keys("Control+s"));
    expect(hiddenRows(open)).toEqual([]);
    expect(strFromU8(unzipSync(open)["xl/tables/table1.xml"] ?? new Uint8Array())).not.toContain("filterColumn");
    expect(contents(open)).toEqual(contents(saved));
  });
});
