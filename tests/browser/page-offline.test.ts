import { cp, mkdtemp, readFile, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { type ServedPage, servePage } from "../../src/cli/page/serve-page.js";
import { launchBrowser } from "../../src/tools/launch-browser.js";
import { cellAt, openWorkbook, readSheet } from "../../src/xlsx/index.js";
import { filesOn } from "./files-on-page.js";
import { outletCell, person } from "./open-workbook.js";

/*
 * The page without its server: it opens again, calculates, saves and hands off from what the browser keeps, and offers a
 * new version instead of changing under somebody who works.
 */

let folder: string;
let served: ServedPage;
let browser: Browser;
let page: Page;

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "vanesheet-offline-"));
  await cp(join("dist", "page"), folder, { recursive: true });
  served = await servePage(folder, 18_420);
  browser = await launchBrowser();
  page = await (await browser.newContext({ viewport: { width: 1366, height: 768 } })).newPage();
  await page.addInitScript("delete window.showOpenFilePicker; delete window.showSaveFilePicker;");
  await page.goto(served.address);
  await person(page).isReady();
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
});

afterAll(async () => {
  await browser.close();
  await served.close();
});

describe("the page", () => {
  it("can be installed", async () => {
    const manifest: unknown = JSON.parse(await readFile(join(folder, "page.webmanifest"), "utf8"));
    expect(manifest).toMatchObject({ name: "Vanesheet workbook", display: "standalone", start_url: "./" });
    expect(await page.locator('link[rel="manifest"]').getAttribute("href")).toBe("page.webmanifest");
  });

  it("offers a new version, and takes it when it is wanted", async () => {
    const worker = join(folder, "service-worker.js");
    const index = join(folder, "index.html");
    await writeFile(index, (await readFile(index, "utf8")).replace("<h1>Vanesheet</h1>", "<h1>Vanesheet, new</h1>"));
    const listed = await readFile(worker, "utf8");
    await writeFile(worker, listed.replace(/(index\.html\\*",\\*"revision\\*":\\*")[0-9a-f]+/, "$1000000000000"));
    expect(await readFile(worker, "utf8")).not.toBe(listed);
    await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.update());
    const offer = page.locator(".notice", { hasText: "A new version of this page is here" });
    await offer.waitFor();
    expect(await page.locator("h1").textContent()).toBe("Vanesheet");
    await offer.getByRole("button", { name: "Use it now" }).click();
    await page.locator("h1", { hasText: "Vanesheet, new" }).waitFor();
    await person(page).isReady();
  });

  it("opens, takes entries, calculates, saves and hands off after its server has ended", async () => {
    await served.close();
    await page.reload();
    await person(page).isReady();
    await person(page).openSheet("Outlets");
    await person(page).type("J21", "200");
    expect(await person(page).read(outletCell("Airflow", 21))).toBe("31.4");
    const saved = await filesOn(page).downloaded(() => page.locator("#save").click());
    expect(cellAt(readSheet(openWorkbook(saved, "saved.xlsx"), "Outlets"), "J21")?.value).toBe(200);
    const handed = await filesOn(page).downloaded(() => page.locator("#hand-off").click());
    expect(openWorkbook(handed, "copy.xlsx").sheets.at(-1)?.name).toBe("Hand-off note");
    // A template that nobody has opened yet is kept as well, and so is what the pane loads late.
    await page.locator("#new").click();
    await page.getByRole("button", { name: "Start: Face sweep" }).click();
    await page.locator("#title", { hasText: "Face sweep" }).waitFor();
    await page.locator("#pane-toggle").click();
    await page.getByRole("tab", { name: "Start" }).waitFor();
  });
});
