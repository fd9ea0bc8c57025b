import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { openWorkbook } from "../../src/xlsx/index.js";
import { filesOn } from "./files-on-page.js";
import { type OpenWorkbook, outletCell, person, serveWorkbook } from "./open-workbook.js";

/* A browser in which something is missing, full or hangs. */

let workbook: OpenWorkbook;
let page: Page;

vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });

beforeAll(async () => {
  workbook = await serveWorkbook();
});
afterEach(() => page.context().close());
afterAll(() => workbook.close());

async function openedWith(spoil: string): Promise<void> {
  const context = await workbook.browser.newContext({
    viewport: { width: 1366, height: 768 },
    serviceWorkers: "block",
  });
  page = await context.newPage();
  await page.addInitScript(`delete window.showOpenFilePicker; delete window.showSaveFilePicker; ${spoil}`);
  await page.goto(workbook.served.address);
  await person(page).isReady();
}

const foot = () => page.locator("#kept");

describe("a browser that keeps nothing", () => {
  it.each([
    [
      "refuses its storage",
      'indexedDB.open = () => { throw new DOMException("Access is denied.", "SecurityError"); };',
      "storage refuses it",
    ],
    [
      "never answers when its storage is asked for",
      "indexedDB.open = () => new EventTarget();",
      "storage does not answer",
    ],
    [
      "cannot tell one tab from another",
      'Object.defineProperty(navigator, "locks", { value: undefined });',
      "cannot tell whether the page is open in another tab",
    ],
  ])("and %s opens all the same, and says so at the foot", async (_, spoil, says) => {
    await openedWith(spoil);
    await foot().filter({ hasText: says }).waitFor();
    expect(await page.locator("dialog.question").count()).toBe(0);
    await expect(person(page).read(outletCell("Airflow", 6))).resolves.not.toBe("");
  });

  it("and is full saves the file, and says of the rest at the foot that it is not kept", async () => {
    await openedWith(
      'IDBObjectStore.prototype.put = () => { throw new DOMException("Encountered full disk.", "QuotaExceededError"); };',
    );
    await foot().filter({ hasText: "storage is full" }).waitFor();
    await person(page).type("J9", "417");
    const bytes = await filesOn(page).downloaded(() => page.locator("#save").click());
    openWorkbook(bytes, "saved.xlsx");
    await page.getByText(/^Saved /).waitFor();
    expect(await page.locator("dialog.question").count()).toBe(0);
  });
});

describe("a browser that does no work beside the page", () => {
  it("has the page say what is missing for a file, and still takes entries and checks them", async () => {
    await openedWith("delete window.Worker;");
    const words = "This browser cannot read and write files beside the page. Use a current browser.";
    const dialog = page.locator("dialog.question", { hasText: words });
    await dialog.waitFor();
    await dialog.getByRole("button").click();
    await filesOn(page).choose(join("templates", "room-balance.xlsx"));
    await dialog.waitFor();
    await dialog.getByRole("button").click();
    const entries = { B2: "door shut", C2: "2.5", D2: "=VANE.AIRFLOW(B2,C2,COUNT(B2))" };
    for (const [address, text] of Object.entries(entries)) await person(page).type(address, text);
    await page.getByRole("button", { name: "Pane" }).click();
    await page.getByRole("tab", { name: /^Check/ }).click();
    await page.locator("#pane").getByRole("button", { name: /D2/ }).first().waitFor();
  });
});

describe("work beside the page that takes long", () => {
  it("says for how long, and is stopped by a click, with the workbook in view as it was", async () => {
    await openedWith(
      "{ const post = Worker.prototype.postMessage; Worker.prototype.postMessage = function (...given) { if (!window.hangs) post.apply(this, given); }; }",
    );
    const title = await page.locator("#title").textContent();
    await page.evaluate("window.hangs = true");
    await filesOn(page).choose(join("templates", "room-balance.xlsx"));
    await page.locator("#busy", { hasText: /Reading room-balance\.xlsx … [1-9]\d* s/ }).waitFor();
    await page.getByRole("button", { name: "Stop" }).click();
    await page.getByText("Stopped. Nothing was changed.").waitFor();
    await page.locator("#busy").waitFor({ state: "hidden" });
    expect(await page.locator("#title").textContent()).toBe(title);
    await page.evaluate("window.hangs = false");
    await filesOn(page).choose(join("templates", "room-balance.xlsx"));
    await filesOn(page).isOpen("room-balance.xlsx");
  });
});
