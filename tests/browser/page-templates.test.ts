import { mkdtemp, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { calculateXlsx } from "../../src/engine/index.js";
import { fileHost, openWorkbookFile } from "../../src/hosts/file/index.js";
import { handoffOf } from "../../src/workbook/index.js";
import { cellAt, cellsOf, openWorkbook, patchWorkbook, readSheet, type Workbook } from "../../src/xlsx/index.js";
import { recalculated } from "../support/libreoffice.js";
import { filesOn, pageWithDownloads } from "./files-on-page.js";
import { type OpenWorkbook, outletCell, person, serveWorkbook } from "./open-workbook.js";

/*
 * Workbooks to which the pane added a template, saved by the page: read by the file host, and calculated by LibreOffice
 * from the plain formulas of their hand-off copies.
 */

let workbook: OpenWorkbook;
let page: Page;
const saved = new Map<string, Uint8Array>();
let calculated: ReadonlyMap<string, Uint8Array>;

vi.setConfig({ testTimeout: 120_000, hookTimeout: 300_000 });

async function addFromPane(title: string, firstSheet: string): Promise<void> {
  if (await page.locator("#pane").isHidden()) await page.locator("#pane-toggle").click();
  await page.getByRole("tab", { name: "Start" }).click();
  await page.getByRole("button", { name: `Add ${title}` }).click();
  await page.locator("#pane .vs-message-done", { hasText: firstSheet }).waitFor();
  await person(page).isReady();
}

const copy = () => filesOn(page).downloaded(() => page.locator("#save-copy").click());

/** Airflow 12 x 6 in · 0.75 / 144 in²/ft² · the mean of 190 and 210 fpm = 75 cfm. */
const OUTLET = { A9: "S-1", F9: "12", G9: "6", H9: "0.75", K9: "190", L9: "210" };

async function fillOutlet(): Promise<void> {
  await person(page).openSheet("Outlets");
  for (const [address, text] of Object.entries(OUTLET)) await person(page).type(address, text);
  expect(await person(page).read(outletCell("Airflow", 9))).toBe("75.0");
}

beforeAll(async () => {
  workbook = await serveWorkbook();
  page = await pageWithDownloads(workbook);
  await addFromPane("Duct traverse", "Duct traverse");
  saved.set("demonstration", await copy());
  await filesOn(page).openTemplate("face-sweep.xlsx");
  await addFromPane("Room balance", "Outlets");
  await fillOutlet();
  saved.set("opened", await copy());
  await filesOn(page).openTemplate("duct-traverse.xlsx");
  await addFromPane("Room balance", "Outlets");
  await fillOutlet();
  saved.set("inserted", await insertRowAndCopy());
  const copies = [...saved].map(([name, bytes]) => {
    const file = openWorkbook(bytes, `${name}.xlsx`);
    return [name, patchWorkbook(file, handoffOf(file).edits)] as const;
  });
  calculated = await recalculated(new Map(copies));
});

afterAll(() => workbook.close());

/** A row above the outlet, by the menu. */
async function insertRowAndCopy(): Promise<Uint8Array> {
  await person(page).goTo("A9");
  await page.getByText("Rows", { exact: true }).first().click();
  await page.getByText("Insert row above", { exact: true }).click();
  await page.locator(".notice.success", { hasText: "Row 9 inserted." }).waitFor();
  await page.locator("#busy").waitFor({ state: "hidden" });
  return copy();
}

type Shown = string | number | boolean;

function shown(from: Workbook, sheet: string, address: string): Shown {
  const value = cellAt(readSheet(from, sheet), address)?.value ?? "";
  return typeof value === "object" ? value.error : value;
}

function isNear(one: Shown, other: Shown): boolean {
  if (typeof one !== "number" || typeof other !== "number") return one === other;
  return Math.abs(one - other) <= 1e-9 * Math.max(Math.abs(one), Math.abs(other));
}

/** Cells that LibreOffice shows otherwise than the file that the page saved. */
function differences(name: string) {
  const ours = openWorkbook(saved.get(name) ?? new Uint8Array(), `${name}.xlsx`);
  const theirs = openWorkbook(calculated.get(name) ?? new Uint8Array(), `${name}.xlsx`);
  let numbers = 0;
  const different = ours.sheets.flatMap(({ name: sheet }) =>
    [...cellsOf(readSheet(ours, sheet))].flatMap(({ address }) => {
      const [own, other] = [shown(ours, sheet, address), shown(theirs, sheet, address)];
      if (typeof own === "number") numbers += 1;
      return isNear(own, other) ? [] : [`${sheet}!${address}: ${String(own)}, in LibreOffice ${String(other)}`];
    }),
  );
  return { different, numbers };
}

async function onDisk(name: string) {
  const path = join(await mkdtemp(join(tmpdir(), "vanesheet-saved-")), `${name}.xlsx`);
  await writeFile(path, saved.get(name) ?? new Uint8Array());
  return fileHost(await openWorkbookFile(path), calculateXlsx);
}

describe("a workbook to which the pane added a template, saved by the page", () => {
  it.each(["demonstration", "opened", "inserted"])("shows in LibreOffice what the page showed: %s", (name) => {
    const { different, numbers } = differences(name);
    expect(different).toEqual([]);
    expect(numbers).toBeGreaterThan(20);
  });

  it("holds the demonstration beside the new sheets, and the file host reads both", async () => {
    const host = await onDisk("demonstration");
    expect((await host.sheets()).map(({ name }) => name)).toEqual(expect.arrayContaining(["Duct traverse", "Rooms"]));
  });

  it.each([
    ["opened", outletCell("Airflow", 9)],
    ["inserted", outletCell("Airflow", 10)],
  ])("gives the outlet's airflow to the file host: %s", async (name, cell) => {
    const [block] = await (await onDisk(name)).read([{ sheet: "Outlets", range: `${cell}:${cell}` }]);
    expect(block?.values[0]?.[0]).toBeCloseTo(75, 9);
  });
});
