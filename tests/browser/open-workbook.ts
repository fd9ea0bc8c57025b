import { existsSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { type ServedPage, servePage } from "../../src/cli/page/serve-page.js";
import { launchBrowser } from "../../src/tools/launch-browser.js";
import { TEMPLATES } from "../../src/workbook/index.js";
import { cellUnder } from "../support/plan-places.js";

const FOLDER = join("dist", "page");

/** Away from the port that a person uses. */
const FIRST_PORT = 18_320;

/** A cell of the list of outlets of a room balance: the column by its heading. */
export const outletCell = (header: string, row: number): string =>
  cellUnder(TEMPLATES["room-balance"](""), "Outlets", header, row);

/** A cell of the list of rooms of a room balance: the column by its heading. */
export const roomCell = (header: string, row: number): string =>
  cellUnder(TEMPLATES["room-balance"](""), "Rooms", header, row);

/** Between two keys of a fast typist. */
const KEY_MS = 40;

/** The page as a person has it open, served on this machine. */
export interface OpenWorkbook {
  readonly served: ServedPage;
  readonly browser: Browser;
  readonly close: () => Promise<void>;
}

export async function serveWorkbook(): Promise<OpenWorkbook> {
  if (!existsSync(join(FOLDER, "index.html"))) throw new Error("The page is not built. Run npm run build first.");
  const served = await servePage(FOLDER, FIRST_PORT);
  const browser = await launchBrowser();
  return {
    served,
    browser,
    async close() {
      await browser.close();
      await served.close();
    },
  };
}

/** What a person does in the page: go to a cell, type, read. */
export function person(page: Page) {
  const place = page.locator(".o-named-range-selector input");
  const cell = page.locator("#cell");

  async function isReady(): Promise<void> {
    await page.locator(".o-grid canvas").first().waitFor();
    await cell.filter({ hasText: ":" }).waitFor();
  }

  /** A person sees the grid drawn before typing; the engine empties its text field no sooner. */
  async function hasDrawn(): Promise<void> {
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  }

  async function goTo(address: string): Promise<void> {
    await place.click();
    await place.fill(address);
    await place.press("Enter");
    await cell.filter({ hasText: `${address}:` }).waitFor();
    await hasDrawn();
  }

  return {
    isReady,
    hasDrawn,
    goTo,
    /** Goes to a new sheet behind the others, whose cells are free. */
    async addSheet(): Promise<void> {
      await page.locator(".o-add-sheet").click();
      await cell.filter({ hasText: "A1: empty" }).waitFor();
      await hasDrawn();
    },
    async openSheet(name: string): Promise<void> {
      await page
        .locator(".o-sheet")
        .filter({ has: page.getByText(name, { exact: true }) })
        .click();
    },
    async type(address: string, text: string): Promise<void> {
      await goTo(address);
      await page.keyboard.type(text, { delay: KEY_MS });
      await page.keyboard.press("Enter");
      await hasDrawn();
    },
    /** Gives the selected cell a name, in the box of names. */
    async nameCell(name: string): Promise<void> {
      await place.click();
      await place.fill(name);
      await place.press("Enter");
      await hasDrawn();
    },
    /** Copies an empty input cell of the sheet Job to a new sheet: looks alone, which no file of ours takes in. */
    async copyLooks(): Promise<void> {
      await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
      await goTo("B7");
      await page.keyboard.press("Control+C");
      await hasDrawn();
      await page.locator(".o-add-sheet").click();
      await cell.filter({ hasText: "A1: empty" }).waitFor();
      await hasDrawn();
      await page.keyboard.press("Control+V");
      await hasDrawn();
    },
    /** What a cell shows, without its address. */
    async read(address: string): Promise<string> {
      await goTo(address);
      return ((await cell.textContent()) ?? "").replace(`${address}: `, "");
    },
  };
}
