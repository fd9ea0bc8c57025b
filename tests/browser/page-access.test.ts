import { mkdtemp, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { accessViolations } from "./access-violations.js";
import { filesOn, pageWithDownloads } from "./files-on-page.js";
import { type OpenWorkbook, person, serveWorkbook } from "./open-workbook.js";

let workbook: OpenWorkbook;
let page: Page;

vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });

beforeAll(async () => {
  workbook = await serveWorkbook();
  page = await pageWithDownloads(workbook);
});

afterAll(() => workbook.close());

/** The engine's own toolbar and grid are not ours to change; what the grid shows is told in #cell. */
const violations = () => accessViolations(page, { include: ["html"], exclude: ["#workbook"] });

const inGrid = () => page.evaluate(() => document.activeElement?.closest("#workbook") != null);

const focused = () =>
  page.evaluate(() => {
    const element = document.activeElement;
    return element?.getAttribute("aria-label") ?? element?.id ?? "";
  });

/** Presses Tab until a control has the focus, as somebody without a mouse does, and returns whether it ever had. */
async function tabTo(name: string): Promise<boolean> {
  for (let presses = 0; presses < 30; presses += 1) {
    const text = await page.evaluate(() => {
      const element = document.activeElement;
      return element?.getAttribute("aria-label") ?? element?.textContent ?? "";
    });
    if (text === name) return true;
    await page.keyboard.press("Tab");
  }
  return false;
}

describe("the page around the grid, for everybody", () => {
  it("has no violation of WCAG 2.2 AA that a program can find, with a notice and an error beneath the grid", async () => {
    await person(page).addSheet();
    await person(page).type("J42", "door shut");
    await person(page).type("U42", "=VANE.AIRFLOW(J42,0.5)");
    await page.locator("#strip-text", { hasText: "door shut" }).waitFor();
    expect(await violations()).toEqual([]);
    await person(page).type("J42", "400");
    await person(page).openSheet("Outlets");
  });

  it("comes from the grid to the buttons by a key, and goes on with Tab", async () => {
    await person(page).goTo("A1");
    await page.keyboard.press("Control+Shift+F6");
    expect(await page.evaluate(() => document.activeElement?.closest("#actions") !== null)).toBe(true);
    for (const name of ["Open", "Save", "Save a copy", "Hand-off copy", "Print", "Field view", "Pane"]) {
      expect(await tabTo(name), name).toBe(true);
    }
    await page.keyboard.press("Control+Shift+F6");
    expect(await inGrid()).toBe(true);
  });

  it("goes round by the key through the pane as well, where it is open", async () => {
    await page.locator("#pane-toggle").click();
    await page.locator("#pane").getByRole("tab").first().waitFor();
    await person(page).goTo("A1");
    await page.keyboard.press("Control+Shift+F6");
    await page.keyboard.press("Control+Shift+F6");
    expect(await page.evaluate(() => document.activeElement?.closest("#pane") !== null)).toBe(true);
    expect(await violations()).toEqual([]);
    await page.keyboard.press("Control+Shift+F6");
    expect(await inGrid()).toBe(true);
    await page.locator("#pane-toggle").click();
  });

  it("opens the chooser of templates by the keyboard, goes through it, and gives the focus back", async () => {
    await page.locator("#new").focus();
    await page.keyboard.press("Enter");
    const chooser = page.getByRole("dialog", { name: "Start a workbook, or add sheets to the open one" });
    await chooser.waitFor();
    expect(await violations()).toEqual([]);
    expect(await tabTo("Start: Demonstration")).toBe(true);
    expect(await tabTo("Cancel: nothing is started")).toBe(true);
    await page.keyboard.press("Enter");
    await chooser.waitFor({ state: "detached" });
    expect(await focused()).toBe("new");
    await page.keyboard.press("Enter");
    await chooser.waitFor();
    await page.keyboard.press("Escape");
    await chooser.waitFor({ state: "detached" });
    expect(await focused()).toBe("new");
  });

  it("asks before a workbook with changes is replaced, by the keyboard, and gives the focus back", async () => {
    await person(page).type("J9", "261");
    await page.locator("#new").focus();
    await page.keyboard.press("Enter");
    expect(await tabTo("Start: Demonstration")).toBe(true);
    await page.keyboard.press("Enter");
    const question = page.getByRole("dialog", { name: /changes that are in no file yet/ });
    await question.waitFor();
    expect(await violations()).toEqual([]);
    await page.keyboard.press("Escape");
    await question.waitFor({ state: "detached" });
    expect(await focused()).toBe("new");
    expect(await person(page).read("J9")).toBe("261");
  });

  it("says what is wrong with a file in a dialog that a key closes", async () => {
    const path = join(await mkdtemp(join(tmpdir(), "vanesheet-files-")), "notes.xlsx");
    await writeFile(path, "outlet,velocity\nS-1,400\n");
    await filesOn(page).choose(path);
    const dialog = page.getByRole("dialog", { name: /notes\.xlsx/ });
    await dialog.waitFor();
    expect(await violations()).toEqual([]);
    expect(await tabTo("OK")).toBe(true);
    await page.keyboard.press("Enter");
    await dialog.waitFor({ state: "detached" });
    // The file was chosen by the mouse, which leaves the focus in the cells.
    expect(await inGrid()).toBe(true);
  });

  it("shows where a file may be dropped in words that can be read", async () => {
    await page.evaluate(() => {
      const transfer = new DataTransfer();
      transfer.items.add(new File(["content"], "dropped.xlsx"));
      document.body.dispatchEvent(new DragEvent("dragenter", { dataTransfer: transfer, bubbles: true }));
    });
    await page.locator("#drop").waitFor();
    expect(await violations()).toEqual([]);
    await page.evaluate(() => {
      const transfer = new DataTransfer();
      transfer.items.add(new File(["content"], "dropped.xlsx"));
      document.body.dispatchEvent(new DragEvent("dragleave", { dataTransfer: transfer, bubbles: true }));
    });
    await page.locator("#drop").waitFor({ state: "hidden" });
  });

  it("has a notice closed by the keyboard, and keeps the focus on the page", async () => {
    await filesOn(page).openTemplate("face-sweep.xlsx");
    await filesOn(page).downloaded(async () => {
      await page.locator("#save-copy").focus();
      await page.keyboard.press("Enter");
    });
    await page.locator(".notice.success").waitFor();
    expect(await violations()).toEqual([]);
    expect(await tabTo("Close")).toBe(true);
    await page.keyboard.press("Enter");
    expect(await page.locator(".notice").count()).toBe(0);
    expect(await focused()).toBe("pane-toggle");
  });
});
