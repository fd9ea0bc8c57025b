import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { accessViolations, RULES_OF_LOOKS } from "../../browser/access-violations.js";
import { showIn } from "../../browser/show-in.js";

/** What a person's settings make of the pane, by the name of a picture. */
const SETTINGS = {
  light: { colorScheme: "light", forcedColors: "none" },
  dark: { colorScheme: "dark", forcedColors: "none" },
  "forced-colours": { colorScheme: "dark", forcedColors: "active" },
} as const;

/** Whether anything stands out to the right, so that a person would have to scroll both ways. */
function isTooWide(page: Page): Promise<boolean> {
  return page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth);
}

/**
 * Returns what breaks WCAG 2.2 AA in the page as it now stands, and whether a line does not fit.
 *
 * @param rules - Those of looks alone, where the same page was judged by all of them before
 */
async function faultsNow(page: Page, setting: string, rules: readonly string[]): Promise<readonly string[]> {
  const violations = await accessViolations(page, { include: ["html"], exclude: [] }, rules);
  return [...violations, ...((await isTooWide(page)) ? ["too wide"] : [])].map((fault) => `${setting}: ${fault}`);
}

/**
 * Returns what breaks WCAG 2.2 AA in any colours and at twice the size of text, and where a line does not fit.
 *
 * @param name - Begins the names of the pictures, which `PANE_PICTURES` names a folder for
 */
export async function faultsInAnySetting(page: Page, name: string): Promise<readonly string[]> {
  const faults: string[] = [];
  for (const [setting, media] of Object.entries(SETTINGS)) {
    await showIn(page, media);
    for (const size of ["100%", "200%"]) {
      await page.evaluate((fontSize) => {
        document.documentElement.style.fontSize = fontSize;
      }, size);
      const rules = setting === "light" && size === "100%" ? [] : RULES_OF_LOOKS;
      faults.push(...(await faultsNow(page, `${name}, ${setting}, ${size}`, rules)));
      await picture(page, `${name}-${setting}-${size.replace("%", "")}`);
    }
  }
  await page.evaluate(() => {
    document.documentElement.style.fontSize = "";
  });
  return faults;
}

/** Which width is looked at in which colours: each of them once. */
const STATE_SETTINGS = [
  ["light", 320],
  ["dark", 450],
] as const;

/** The same for a state of a tab: light in the width that Excel gives a pane at first, dark in a wider one. */
export async function faultsInEachColour(page: Page, name: string): Promise<readonly string[]> {
  const before = page.viewportSize();
  const faults: string[] = [];
  for (const [setting, width] of STATE_SETTINGS) {
    if (before !== null) await page.setViewportSize({ ...before, width });
    await showIn(page, SETTINGS[setting]);
    faults.push(
      ...(await faultsNow(page, `${name}, ${setting}, ${width} px`, setting === "light" ? [] : RULES_OF_LOOKS)),
    );
    await picture(page, `${name}-${setting}-${width}`);
  }
  if (before !== null) await page.setViewportSize(before);
  await page.emulateMedia(SETTINGS.light);
  return faults;
}

/** Pictures of a state in any colours and both widths, where `PANE_PICTURES` names a folder; else it costs nothing. */
export async function stateInPictures(page: Page, name: string): Promise<void> {
  if (!process.env["PANE_PICTURES"]) return;
  const before = page.viewportSize();
  for (const width of [320, 450]) {
    await page.setViewportSize({ width, height: before?.height ?? 760 });
    for (const [setting, media] of Object.entries(SETTINGS)) {
      await showIn(page, media);
      await picture(page, `${name}-${setting}-${width}`);
    }
  }
  if (before !== null) await page.setViewportSize(before);
  await page.emulateMedia({ colorScheme: null, forcedColors: null });
}

/** Writes a picture where `PANE_PICTURES` names a folder for it, for a person to look at. */
export async function picture(page: Page, name: string): Promise<void> {
  const folder = process.env["PANE_PICTURES"];
  if (!folder) return;
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`), fullPage: true });
}
