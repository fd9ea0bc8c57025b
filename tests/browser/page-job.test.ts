import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it, vi } from "vitest";
import { type OpenPage, openTemplate } from "./files-on-page.js";
import { outletCell, person } from "./open-workbook.js";

/*
 * Eighteen outlets of supply and return, read again from the first to the last by keys alone, every key counted: each
 * reading needs its digits and one key that ends it, and an outlet at most four more.
 */

const OUTLETS = 18;
const READINGS = 6;
const FIRST_ROW = 9;
const MOST_MORE = 4;
/** Between two keys of a fast typist. */
const KEY_MS = 40;

let workbook: OpenPage;
let page: Page;

vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });

beforeAll(async () => {
  workbook = await openTemplate("demonstration.xlsx", "Outlets");
  page = workbook.page;
});

afterAll(() => workbook.close());

it("reads eighteen outlets with at most four keys more an outlet than the readings need", async () => {
  let pressed = 0;
  let needed = 0;
  const press = async (key: string): Promise<void> => {
    pressed += 1;
    await page.keyboard.press(key, { delay: KEY_MS });
  };
  // Every reading has its own number.
  const reading = (outlet: number, index: number): string => String(200 + 10 * outlet + index);
  await person(page).goTo("J9");
  for (let outlet = 0; outlet < OUTLETS; outlet += 1) {
    for (let index = 0; index < READINGS; index += 1) {
      const digits = reading(outlet, index);
      for (const digit of digits) await press(digit);
      await press(index < READINGS - 1 ? "Tab" : "Enter");
      needed += digits.length + 1;
    }
  }
  expect((pressed - needed) / OUTLETS).toBeLessThanOrEqual(MOST_MORE);
  await person(page).hasDrawn();
  expect(await page.locator("#note").textContent()).toBe("");
  for (const outlet of [0, OUTLETS - 1]) {
    for (const [index, column] of [..."JKLMNO"].entries()) {
      expect(await person(page).read(`${column}${FIRST_ROW + outlet}`)).toBe(reading(outlet, index));
    }
  }
  const mean = 200 + 10 * (OUTLETS - 1) + (READINGS - 1) / 2;
  expect(await person(page).read(outletCell("Average velocity", FIRST_ROW + OUTLETS - 1))).toBe(mean.toFixed(1));
});
