import { readFile } from "node:fs/promises";
import { basename, join } from "node:path";
import type { Page } from "playwright-core";
import { type OpenWorkbook, person, serveWorkbook } from "./open-workbook.js";

/** Opens the page where the browser has no dialogs of its own for files: a plain chooser, and downloads. */
export async function pageWithDownloads({ browser, served }: OpenWorkbook): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1366, height: 768 }, serviceWorkers: "block" });
  const page = await context.newPage();
  await page.addInitScript("delete window.showOpenFilePicker; delete window.showSaveFilePicker;");
  await page.goto(served.address);
  await person(page).isReady();
  return page;
}

/** A page in which a person has opened a file. */
export interface OpenPage extends OpenWorkbook {
  readonly page: Page;
}

/** Opens the page with one of the templates in it, on a sheet of it. */
export function openTemplate(template: string, sheet: string): Promise<OpenPage> {
  return openPageWith(join("templates", template), sheet);
}

/** Opens the page with a file in it, on a sheet of it. */
async function openPageWith(path: string, sheet: string): Promise<OpenPage> {
  const workbook = await serveWorkbook();
  const page = await pageWithDownloads(workbook);
  await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
  await filesOn(page).choose(path);
  await filesOn(page).isOpen(basename(path));
  await person(page).openSheet(sheet);
  return { ...workbook, page };
}

/** What a person does with files on the page. */
export function filesOn(page: Page) {
  async function choose(path: string): Promise<void> {
    const chooser = page.waitForEvent("filechooser");
    await page.locator("#open").click();
    await (await chooser).setFiles(path);
  }

  /** Waits until a file that was chosen is in view, in place of what need not be saved. */
  async function isOpen(name: string): Promise<void> {
    const title = page.locator("#title", { hasText: name });
    const goOn = page.getByRole("button", { name: "Go on without saving" });
    await title.or(goOn).first().waitFor();
    if (await goOn.isVisible()) await goOn.click();
    await title.waitFor();
    await page.locator("#busy").waitFor({ state: "hidden" });
    await person(page).isReady();
  }

  return {
    choose,
    isOpen,
    async openTemplate(name: string): Promise<void> {
      await choose(join("templates", name));
      await isOpen(name);
    },
    async downloaded(click: () => Promise<void>): Promise<Uint8Array> {
      const download = page.waitForEvent("download");
      await click();
      return readFile(await (await download).path());
    },
  };
}
