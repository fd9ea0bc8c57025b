import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { stateInPictures } from "../pane/browser/pane-faults.js";
import { accessViolations } from "./access-violations.js";
import { type OpenWorkbook, person, serveWorkbook } from "./open-workbook.js";

/*
 * The field view on a phone and on a tablet: outlets with what is still to do, one at a time, by keys and by touch.
 */

let workbook: OpenWorkbook;
let page: Page;

vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });

beforeAll(async () => {
  workbook = await serveWorkbook();
});

afterAll(() => workbook.close());

afterEach(() => page.context().close());

async function openOn(width: number, height: number): Promise<void> {
  const context = await workbook.browser.newContext({
    viewport: { width, height },
    hasTouch: true,
    isMobile: true,
    serviceWorkers: "block",
  });
  page = await context.newPage();
  page.setDefaultTimeout(60_000);
  await page.goto(workbook.served.address);
  await page.locator(".vs-fieldrow").first().waitFor();
}

const violations = () => accessViolations(page, { include: ["html"], exclude: ["#workbook"] });
const overflow = () => page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
const row = (name: string) =>
  page.locator(".vs-fieldrow", { has: page.locator("b", { hasText: new RegExp(`^${name}$`) }) });
const result = () => page.locator(".vs-field-result");

describe("the field view on a phone", () => {
  it("leads from the list through the readings of an outlet to the next, by keys alone", async () => {
    await openOn(390, 844);
    expect(await violations()).toEqual([]);
    expect(await overflow()).toBe(0);
    expect(await row("S13").textContent()).toContain("not read");
    await stateInPictures(page, "field-list");
    await row("S13").press("Enter");
    expect(await page.locator(".vs-readings input").first().getAttribute("inputmode")).toBe("decimal");
    // A round opening of 6 in, free to 0.8: π/4 · 0.25 ft² · 0.8 · 200 fpm = 31.4 cfm.
    for (const reading of ["200", "205", "195", "200", "200", "200"]) {
      await page.keyboard.type(reading);
      await page.keyboard.press("Enter");
    }
    await result()
      .filter({ hasText: /31\.4 cfm of 30\.0 cfm, 104\.7 %\s*within/ })
      .waitFor();
    expect(await violations()).toEqual([]);
    expect(await overflow()).toBe(0);
    await stateInPictures(page, "field-outlet");
    await page.getByLabel("Damper position").fill("40 % open");
    await page.getByLabel("Note").fill("grille bent");
    await page.getByLabel("Note").press("Tab");
    await page.locator(".vs-next").press("Enter");
    await page.getByRole("heading", { name: /^S14/ }).waitFor();
    await page.getByRole("button", { name: "List of outlets" }).press("Enter");
    await expect.poll(() => row("S13").textContent()).toContain("within");
    await page.locator("#field-toggle").tap();
    await person(page).isReady();
    expect(await overflow()).toBe(0);
    expect(await page.locator(".o-grid-composer .o-composer").getAttribute("inputmode")).not.toBe("none");
    await page.locator("#field-toggle").tap();
    await row("S13").tap();
    await expect.poll(() => page.getByLabel("Damper position").inputValue()).toBe("40 % open");
    await expect.poll(() => page.getByLabel("Note").inputValue()).toBe("grille bent");
  });
});

describe("the field view on a tablet", () => {
  it("keeps what is no number, says why, writes the rest, and has all of it after a reload", async () => {
    await openOn(820, 1180);
    expect(await overflow()).toBe(0);
    await row("S13").tap();
    const first = page.locator(".vs-readings input").first();
    await first.fill("~200");
    await first.press("Enter");
    await page.locator(".vs-readings .vs-error", { hasText: "Enter a number" }).waitFor();
    await stateInPictures(page, "field-wrong");
    const second = page.locator(".vs-readings input").nth(1);
    await second.fill("200");
    await second.press("Enter");
    await result().filter({ hasText: "31.4 cfm" }).waitFor();
    expect(await violations()).toEqual([]);
    await page.waitForTimeout(600);
    await page.reload();
    await page.getByRole("heading", { name: /^S13/ }).waitFor();
    expect(await first.inputValue()).toBe("~200");
    expect(await second.inputValue()).toBe("200");
    await page.getByRole("button", { name: "Start a sweep" }).tap();
    await page.getByRole("button", { name: "Stop the sweep" }).tap();
    await page.getByRole("button", { name: "Start a sweep" }).waitFor();
  });
});
