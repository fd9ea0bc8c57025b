import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { TEMPLATES } from "../../src/workbook/index.js";
import { cellUnder } from "../support/plan-places.js";
import { filesOn, pageWithDownloads } from "./files-on-page.js";
import { type OpenWorkbook, person, serveWorkbook } from "./open-workbook.js";

/*
 * A sheet started with more readings and parts than its file has, on the page and from the pane, and a sheet of before
 * and after that follows its outlets.
 */

const PLAN = TEMPLATES["room-balance"]("", { points: 9, blocks: ["visits"] });
const outlet = (heading: string) => cellUnder(PLAN, "Outlets", heading, 9);

let workbook: OpenWorkbook;
let page: Page;

vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

beforeAll(async () => {
  workbook = await serveWorkbook();
  page = await pageWithDownloads(workbook);
});

afterAll(() => workbook.close());

async function startWithMore(): Promise<void> {
  await page.locator("#new").click();
  const dialog = page.getByRole("dialog", { name: /Start a workbook/ });
  const balance = dialog.getByRole("listitem").filter({ hasText: "Room balance" }).first();
  await balance.locator("summary").click();
  await balance.getByLabel("Readings for each outlet").selectOption("9");
  await balance.getByLabel(/each outlet as found and as left/).check();
  await balance.getByRole("button", { name: "Start: Room balance" }).click();
  await filesOn(page).isOpen("Room balance.xlsx");
}

describe("A sheet with more readings and parts", () => {
  it("is started on the page", async () => {
    await startWithMore();
    await person(page).openSheet("Outlets");
    for (const [heading, text] of [
      ["Outlet", "S-1"],
      ["Width or diameter", "14"],
      ["Height", "6"],
      ["Factor", "0.75"],
      ["R9", "410"],
      ["B1", "310"],
    ] as const)
      await person(page).type(outlet(heading), text);
    // 84 in² / 144, three quarters free, times the average.
    expect(await person(page).read(outlet("Airflow"))).toBe("179.4");
    expect(await person(page).read(outlet("Airflow as found"))).toBe("135.6");
  });

  it("is followed by the sheet of before and after that the pane adds", async () => {
    if (await page.locator("#pane").isHidden()) await page.locator("#pane-toggle").click();
    await page.getByRole("tab", { name: "Start" }).click();
    await page.getByRole("button", { name: "Add, filled" }).click();
    await page.locator("#pane .vs-message-done", { hasText: "1 outlet as found and as left" }).waitFor();
    await person(page).openSheet("Before and after");
    const after = cellUnder(TEMPLATES["before-after"](""), "Changes", "Airflow after", 7);
    expect(await person(page).read(after)).toBe("179.4");
    await person(page).openSheet("Outlets");
    await person(page).type(outlet("R9"), "400");
    await person(page).openSheet("Before and after");
    expect(await person(page).read(after)).toBe("175.0");
  });

  it("is added from the pane", async () => {
    const row = page.locator("#pane li").filter({ hasText: "Face sweep" });
    await row.locator("summary").click();
    await row.getByLabel("Readings for each outlet").selectOption("6");
    await row.getByRole("button", { name: "Add Face sweep" }).click();
    await page.locator("#pane .vs-message-done", { hasText: "“Face sweep”" }).waitFor();
    await person(page).isReady();
    const sixth = cellUnder(TEMPLATES["face-sweep"]("", { points: 6 }), "Sweeps", "V6", 8);
    expect(await person(page).read(sixth)).toBe("V6");
  });
});
