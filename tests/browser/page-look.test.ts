import { readFile } from "node:fs/promises";
import { unzipSync } from "fflate";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { filesOn, type OpenPage, openTemplate } from "./files-on-page.js";
import { person } from "./open-workbook.js";

/*
 * The page's own look: every menu against the list of what a job needs, no word or address of whoever made the grid, and
 * what the selected row comes to above the readings.
 */

let workbook: OpenPage;
let page: Page;

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

beforeAll(async () => {
  workbook = await openTemplate("demonstration.xlsx", "Outlets");
  page = workbook.page;
});

afterAll(() => workbook.close());

const CLIPBOARD = ["Cut", "Copy", "Paste", "Paste values"];
const ROWS = [
  ...["Insert row above", "Insert row below", "Delete rows"],
  ...["Sort rows, A to Z", "Sort rows, Z to A"],
  ...["Filter by this column", "Filter buttons", "Show all rows"],
];
const TOP: Readonly<Record<string, readonly string[]>> = {
  File: ["New", "Open", "Save", "Save a copy", "Hand-off copy", "Print"],
  Edit: ["Undo", "Redo", ...CLIPBOARD, "Clear cells", "Find and replace"],
  Rows: ROWS,
  Sheet: ["New sheet", "Rename", "Copy", "Move left", "Move right", "Delete"],
  View: ["Field view", "Pane", "Formulas", ...[50, 75, 100, 125, 150, 200].map((zoom) => `Zoom ${zoom} %`)],
};

/** Words and addresses of whoever made the grid, in anything that is shown or told. */
const VENDOR = /odoo|o-spreadsheet\.|affect all users|support ticket/i;

/** Every text and every attribute that is read out or shown, in the whole page. */
const told = () =>
  page.evaluate(() =>
    [...document.querySelectorAll("*")]
      .filter((element) => !["SCRIPT", "STYLE", "LINK"].includes(element.tagName))
      .flatMap((element) => [
        ...[...element.childNodes].filter(({ nodeType }) => nodeType === 3).map(({ textContent }) => textContent ?? ""),
        ...["title", "placeholder", "aria-label", "alt", "href"].map((name) => element.getAttribute(name) ?? ""),
      ])
      .join("\n"),
  );

async function entries(): Promise<readonly string[]> {
  await page.locator(".o-menu .o-menu-item").first().waitFor();
  const names = await page.locator(".o-menu .o-menu-item .o-menu-item-name").allInnerTexts();
  expect(await told()).not.toMatch(VENDOR);
  return names;
}

const close = async (): Promise<void> => {
  await page.locator("#title").click();
  await page.locator(".o-menu").waitFor({ state: "detached" });
};

describe("the menus of the page", () => {
  it("hold what a job needs, in this order and these words, and nothing else", async () => {
    expect(await page.locator(".o-topbar-menu").allInnerTexts()).toEqual(Object.keys(TOP));
    for (const [name, wanted] of Object.entries(TOP)) {
      await page.locator(".o-topbar-menu", { hasText: name }).click();
      expect(await entries(), name).toEqual(wanted);
      await close();
    }
  });

  it("open by keys as well", async () => {
    await page.locator(".o-topbar-menu", { hasText: "Rows" }).focus();
    await page.keyboard.press("Enter");
    expect(await entries()).toEqual(ROWS);
    await close();
  });

  it("are as short on cells, headings and sheets", async () => {
    const canvas = page.locator(".o-grid-overlay");
    await canvas.click({ button: "right", position: { x: 300, y: 350 } });
    expect(await entries()).toEqual([...CLIPBOARD, "Clear cells", ...ROWS]);
    await close();
    const grid = (await page.locator(".o-grid").boundingBox()) ?? { x: 0, y: 0 };
    await page.mouse.click(grid.x + 20, grid.y + 300, { button: "right" });
    expect(await entries()).toEqual([...CLIPBOARD, "Clear cells", ...ROWS]);
    await close();
    await page.mouse.click(grid.x + 300, grid.y + 10, { button: "right" });
    expect(await entries()).toEqual([...CLIPBOARD, "Clear cells"]);
    await close();
    await page.locator(".o-sheet", { hasText: "Rooms" }).click({ button: "right" });
    expect(await entries()).toEqual(["Rename", "Copy", "Move left", "Move right", "Delete"]);
    await close();
  });

  it("leave no tools but undo, redo and zoom, and none of the grid maker's colours", async () => {
    expect(await page.locator(".o-topbar-toolbar .tool-container > *").count()).toBe(3);
    const colours = await page.evaluate(() => {
      const style = getComputedStyle(document.documentElement);
      return ["--os-primary-button-bg", "--os-link-color", "--os-selection-border-color"].map((name) =>
        style.getPropertyValue(name).trim(),
      );
    });
    expect(colours).toEqual(["#17414f", "#17414f", "#b06a00"]);
  });
});

describe("the strip above the grid", () => {
  it("says what the selected row comes to while its readings are typed", async () => {
    await person(page).openSheet("Outlets");
    await person(page).goTo("J21");
    for (const reading of ["200", "200", "200"]) {
      await page.keyboard.type(reading);
      await page.keyboard.press("Tab");
    }
    // A round opening of 6 in, free to 0.8: π/4 · 0.25 ft² · 0.8 · 200 fpm.
    await page.locator("#row", { hasText: "31.4 cfm" }).waitFor();
    const told = await page.locator("#row").textContent();
    expect(told).toMatch(
      /S13.*Average 200 fpm.*Airflow 31\.4 cfm.*Design 30(?:\.0)? cfm.*Percent 10[45].*Verdict within/,
    );
    await person(page).goTo("A2");
    expect(await page.locator("#row").textContent()).toContain("Select the row of an outlet");
    await person(page).openSheet("Job");
    await page.locator("#row").waitFor({ state: "hidden" });
  });
});

describe("the chart of the file", () => {
  const figure = () => page.locator(".o-figure");

  it("is drawn where the file has it, and told to whoever cannot see it", async () => {
    await person(page).openSheet("Chart");
    const chart = page.getByRole("img", { name: "Chart: Percent of design by outlet. A bar for each outlet" });
    await chart.locator("canvas").waitFor();
    const colours = await chart.locator("canvas").evaluate((canvas) => {
      const { width, height } = canvas as HTMLCanvasElement;
      const pixels = (canvas as HTMLCanvasElement).getContext("2d")?.getImageData(0, 0, width, height).data ?? [];
      const found = new Set<string>();
      for (let at = 0; at < pixels.length; at += 4) found.add([...pixels.slice(at, at + 3)].join());
      return [...found];
    });
    // Bars, lower limit and upper limit, in the colours of the file.
    expect(colours).toEqual(expect.arrayContaining(["46,125,150", "198,93,0", "106,63,160"]));
  });

  it("is neither moved nor deleted, nor are the cells behind it, and Escape goes back to them", async () => {
    const cells = () => page.locator("#cell").textContent();
    await person(page).goTo("A1");
    const before = await cells();
    const place = await figure().boundingBox();
    await figure().click({ position: { x: 200, y: 200 } });
    for (const key of ["Delete", "Backspace", "ArrowRight", "Control+X"]) await page.keyboard.press(key);
    await page.locator(".notice", { hasText: "stay as the file has them" }).first().waitFor();
    await page.keyboard.press("Escape");
    await page.keyboard.press("ArrowDown");
    await page.locator("#cell", { hasText: "A2:" }).waitFor();
    await person(page).goTo("A1");
    expect(await cells()).toBe(before);
    expect(await figure().boundingBox()).toEqual(place);
  });

  it("keeps every byte of its parts when an entry is saved", async () => {
    const bytes = await filesOn(page).downloaded(() => page.locator("#save").click());
    const [before, after] = [unzipSync(await readFile("templates/demonstration.xlsx")), unzipSync(bytes)];
    const drawn = Object.keys(before).filter((name) => /drawings|charts|media/.test(name));
    expect(drawn.length).toBeGreaterThan(2);
    for (const name of drawn)
      expect(Buffer.compare(after[name] ?? Buffer.of(), before[name] ?? Buffer.of()), name).toBe(0);
    expect(await page.locator("dialog").count()).toBe(0);
  });
});
