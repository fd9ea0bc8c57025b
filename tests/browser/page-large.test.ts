import { mkdtemp, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from "vitest";
import { patchAndCalculate } from "../../src/engine/index.js";
import { outletsWorkbook } from "../../src/tools/bench/outlets-workbook.js";
import { cellsOf, openWorkbook, readSheet } from "../../src/xlsx/index.js";
import { filesOn, pageWithDownloads } from "./files-on-page.js";
import { type OpenWorkbook, person, serveWorkbook } from "./open-workbook.js";

/* Workbooks of so many cells that the page makes them in slices. */

const OUTLETS = 3_000;

let workbook: OpenWorkbook;
let page: Page;
let folder: string;

vi.setConfig({ testTimeout: 240_000, hookTimeout: 60_000 });

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "vanesheet-large-"));
  workbook = await serveWorkbook();
});
beforeEach(async () => {
  page = await pageWithDownloads(workbook);
});
afterEach(() => page.context().close());
afterAll(() => workbook.close());

async function fileOf(outlets: number, name: string): Promise<string> {
  const path = join(folder, name);
  await writeFile(path, outletsWorkbook(outlets));
  return path;
}

/** What a file holds once it is calculated, by address. */
function contents(bytes: Uint8Array): ReadonlyMap<string, unknown> {
  const cells = cellsOf(readSheet(openWorkbook(bytes, "saved.xlsx"), "Outlets"));
  return new Map([...cells].map(({ address, value }) => [address, value]));
}

describe("a large workbook", () => {
  it("takes an entry and is saved at once after opening, as the file host calculates it, and is there after a reload", async () => {
    const { type, isReady, read } = person(page);
    const path = await fileOf(OUTLETS, "large.xlsx");
    await filesOn(page).choose(path);
    await filesOn(page).isOpen("large.xlsx");
    await page.keyboard.type("S-first");
    await page.keyboard.press("Enter");
    const saved = contents(await filesOn(page).downloaded(() => page.locator("#save").click()));
    const expected = contents(
      patchAndCalculate(openWorkbook(outletsWorkbook(OUTLETS), "large.xlsx"), [
        { kind: "value", sheet: "Outlets", address: "A1", value: "S-first" },
      ]).bytes,
    );
    expect(saved.get("A1")).toBe("S-first");
    expect([...saved]).toEqual([...expected]);
    await type("E2990", "900");
    expect(Number(await read("L2990"))).toBeCloseTo(Number(expectedAverage(expected, 2990, 900)), 0);
    await page.locator("#kept", { hasText: "kept in this browser" }).waitFor();
    await page.waitForTimeout(500);
    await page.reload();
    await isReady();
    expect(await read("A1")).toBe("S-first");
    expect(await read("E2990")).toBe("900");
    expect(await read(`A${OUTLETS}`)).toBe(`S-${OUTLETS}`);
  });

  it("shows on every row what the file host calculates", async () => {
    await filesOn(page).choose(await fileOf(OUTLETS, "large.xlsx"));
    await filesOn(page).isOpen("large.xlsx");
    const bytes = outletsWorkbook(OUTLETS);
    const edit = { kind: "value", sheet: "Outlets", address: "J1", value: 160 } as const;
    const expected = contents(patchAndCalculate(openWorkbook(bytes, "large.xlsx"), [edit]).bytes);
    for (const row of [2, 1_500, OUTLETS]) {
      const shown = await person(page).read(`M${row}`);
      expect(Number(shown)).toBeCloseTo(Number(expected.get(`M${row}`)), 1);
    }
  });

  it("can be stopped while it is opened, and leaves the workbook in view as it was", async () => {
    const title = await page.locator("#title").textContent();
    await filesOn(page).choose(await fileOf(20_000, "larger.xlsx"));
    await page.locator("#busy", { hasText: "Calculating" }).waitFor();
    // What is typed now would go into the workbook that is about to be replaced.
    expect(await page.locator("#workbook").getAttribute("inert")).not.toBeNull();
    await page.locator("#busy .stop").click();
    await page.locator(".notice", { hasText: "Stopped. Nothing was changed." }).waitFor();
    expect(await page.locator("#title").textContent()).toBe(title);
    expect(await page.locator("#workbook").getAttribute("inert")).toBeNull();
    await person(page).type("E9", "321");
    expect(await person(page).read("E9")).toBe("321");
  });
});

/** The mean of a row's five readings with another first one. */
function expectedAverage(cells: ReadonlyMap<string, unknown>, row: number, first: number): number {
  const others = ["F", "G", "H", "I"].map((column) => Number(cells.get(`${column}${row}`)));
  return (first + others.reduce((sum, one) => sum + one, 0)) / 5;
}
