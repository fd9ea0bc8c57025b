import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { FakeWorkbook } from "../hosts/excel/fake-workbook.js";
import { type ExcelWindow, openExcel } from "./open-excel.js";

/*
 * The pane inside the built add-in, with its content security policy and the real office.js; a stand-in answers for
 * Excel.
 */

let excel: ExcelWindow;
let workbook: FakeWorkbook;
const refused: string[] = [];

/** A list of outlets below, with one that is round. */
const LIST = {
  A20: "Outlet",
  B20: "Width",
  C20: "Height",
  D20: "Factor",
  E20: "Design airflow",
  F20: "Airflow",
  A21: "S1",
  B21: 8,
  D21: 0.8,
};

/** The build takes seconds on an idle machine and minutes on a busy one. */
const BUILD_TIMEOUT_MS = 300_000;

vi.setConfig({ testTimeout: 120_000 });

beforeAll(async () => {
  workbook = new FakeWorkbook({ sheets: [{ name: "Outlets", cells: { A1: "My own list", ...LIST } }], names: {} });
  excel = await openExcel(workbook);
  excel.page.on("console", (message) => {
    if (/Content Security Policy/.test(message.text())) refused.push(message.text());
  });
}, BUILD_TIMEOUT_MS);

afterAll(async () => {
  await excel?.close();
});

/** What a test expects the pane to complain of; anything else fails it. */
let expected: readonly RegExp[] = [];

afterEach(async () => {
  const unexpected = (await excel.complaints()).filter((text) => !expected.some((pattern) => pattern.test(text)));
  expected = [];
  expect(unexpected).toEqual([]);
});

describe("the pane in Excel", () => {
  it("measures a duct and puts it at the selected cell, where the formula shows the pane's number", async () => {
    const { page } = excel;
    workbook.select(workbook.sheet("Outlets"), { firstRow: 3, firstColumn: 2, lastRow: 3, lastColumn: 2 });
    await page.getByRole("tab", { name: "Measure" }).click();
    await page.getByRole("radio", { name: "Rectangular" }).check();
    await page.getByLabel("Width that the probe crosses").fill("18");
    await page.getByLabel("Height").fill("1' 6\"");
    await page.locator(".vs-understood", { hasText: "= 18 in (457 mm)" }).nth(1).waitFor();
    await page.getByRole("radio", { name: "Equal area" }).check();
    await page.getByLabel("Lines, one over the other").fill("3");
    await page.getByLabel("Points on each").fill("3");
    // NAVFAC MO-114, vol. 3, ch. 2: an 18 x 18 in duct, 400 fpm, 900 cfm.
    await page.locator(".vs-reading input").focus();
    for (const reading of [300, 450, 300, 450, 600, 450, 300, 450, 300]) {
      await page.keyboard.type(String(reading));
      await page.keyboard.press("Enter");
    }
    await page.getByRole("button", { name: "Put into sheet" }).click();
    await page.locator(".vs-message-done", { hasText: "C6 shows 900 cfm." }).waitFor();
    const { values, formulas } = workbook.block(workbook.sheet("Outlets"), {
      firstRow: 3,
      firstColumn: 2,
      lastRow: 6,
      lastColumn: 8,
    });
    expect(values[1]).toEqual(["Width", 18, "in", "", 300, 450, 300]);
    expect(formulas[3]?.[1]).toContain("VANE.AIRFLOW.DUCT(C4,C5,F4:H6,COUNT(F4:H6))");
  });

  it("writes nothing where something stands, and says so", async () => {
    const { page } = excel;
    workbook.select(workbook.sheet("Outlets"), { firstRow: 1, firstColumn: 1, lastRow: 1, lastColumn: 1 });
    await page.getByRole("button", { name: "Put into sheet" }).click();
    expected = [/A1 on sheet “Outlets” is in use/];
    await page.locator(".vs-message-failed", { hasText: "A1 on sheet “Outlets” is in use" }).waitFor();
    expect(
      workbook.block(workbook.sheet("Outlets"), { firstRow: 1, firstColumn: 1, lastRow: 1, lastColumn: 1 }).values,
    ).toEqual([["My own list"]]);
  });

  it("offers the size of the selected row, and takes it at a press", async () => {
    const { page } = excel;
    workbook.select(workbook.sheet("Outlets"), { firstRow: 21, firstColumn: 1, lastRow: 21, lastColumn: 1 });
    await page.getByRole("tab", { name: "Start" }).click();
    await page.getByRole("tab", { name: "Measure" }).click();
    await page.locator(".vs-known", { hasText: "Row 21, S1: 8 in round, factor 0.8." }).waitFor();
    // What was typed for no row stays there: this row starts empty.
    expect(await page.getByLabel("Diameter", { exact: true }).inputValue()).toBe("");
    expect(await page.getByRole("radio", { name: "At a grille or register" }).isChecked()).toBe(true);
    await page.getByRole("button", { name: "Use this size" }).press("Enter");
    await page.locator(".vs-known", { hasText: "Copied below." }).waitFor();
    expect(await page.getByLabel("Diameter", { exact: true }).inputValue()).toBe("8");
    expect(await page.getByLabel("Factor", { exact: true }).inputValue()).toBe("0.8");
  });

  it("needs no scrolling sideways at 320 px, nor at 200 % zoom of it", async () => {
    const { page } = excel;
    const sideways = () =>
      page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    expect(await sideways()).toBe(0);
    await page.setViewportSize({ width: 160, height: 320 });
    expect(await sideways()).toBe(0);
    await page.getByRole("tab", { name: "Start" }).click();
    expect(await sideways()).toBe(0);
    await page.setViewportSize({ width: 320, height: 640 });
  });

  it("asks for nothing that its content security policy refuses", () => {
    expect(refused).toEqual([]);
  });
});
