import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { TEMPLATES } from "../../src/workbook/index.js";
import { FakeWorkbook } from "../hosts/excel/fake-workbook.js";
import { givenPlan } from "../hosts/page/page-host-over.js";
import { faultsInEachColour, picture, stateInPictures } from "../pane/browser/pane-faults.js";
import type { BridgeWindow } from "./office-bridge.js";
import { type ExcelWindow, openBeside, openExcel } from "./open-excel.js";

/*
 * What a day in the field does to the pane: other workbooks, a cell left open, a sheet that refuses, all over the real
 * office.js; a stand-in answers for Excel. Whatever the pane complains of must be expected.
 */

const BUILD_TIMEOUT_MS = 300_000;
vi.setConfig({ testTimeout: 120_000 });

let excel: ExcelWindow;
const windows: ExcelWindow[] = [];

/** A job with limits of ±5 % in SI units, or in inch-pound with those of practice. */
function job(units: "si" | "ip"): FakeWorkbook {
  const plan = givenPlan(TEMPLATES["room-balance"](""));
  const at = (name: string) => (plan.names[name] ?? "").replace(/^.*!/, "").replaceAll("$", "");
  const sheets = plan.sheets.map((sheet) => {
    if (!(plan.names["Job_Units"] ?? "").includes(sheet.name)) return sheet;
    const stated = units === "si" ? { [at("Job_LimitMinus")]: 5, [at("Job_LimitPlus")]: 5 } : {};
    return { ...sheet, cells: { ...sheet.cells, [at("Job_Units")]: units, ...stated } };
  });
  return new FakeWorkbook({ sheets, names: plan.names });
}

async function beside(workbook: FakeWorkbook, place: string): Promise<ExcelWindow> {
  const opened = await openBeside(excel, workbook, { place });
  windows.push(opened);
  return opened;
}

const openTab = (page: Page, name: string) => page.getByRole("tab", { name: new RegExp(`^${name}`) }).click();

beforeAll(async () => {
  excel = await openExcel(job("ip"), { place: "C:\\Jobs\\First.xlsx" });
}, BUILD_TIMEOUT_MS);

afterAll(() => excel?.close());

afterEach(async () => {
  for (const opened of windows.splice(0)) {
    expect(await opened.complaints()).toEqual([]);
    await opened.close();
  }
});

describe("the pane", () => {
  it("hears of changes and of what is selected, and says nothing of watching", async () => {
    const { page, workbook } = excel;
    await openTab(page, "Start");
    expect(await page.getByLabel("Job name").inputValue()).toBe("");
    const name = workbook.names.get("Job_Name") ?? "";
    const sheet = workbook.sheet(name.replace(/!.*$/, "").replaceAll("'", ""));
    const [column = "", row = ""] = name.replace(/^.*!/, "").split("$").slice(1);
    const place = { firstRow: Number(row), firstColumn: column.charCodeAt(0) - 64 };
    workbook.enter(sheet, { ...place, lastRow: place.firstRow, lastColumn: place.firstColumn }, [["House 7"]]);
    await page.waitForFunction(() => [...document.querySelectorAll("input")].some(({ value }) => value === "House 7"));
    expect(await excel.complaints()).toEqual([]);
  });

  it("keeps what is typed beside one workbook out of the next, and has it again beside the first", async () => {
    const workbookA = job("ip");
    const first = await beside(workbookA, "C:\\Jobs\\Job A.xlsx");
    await openTab(first.page, "Measure");
    await first.page.getByRole("radio", { name: "Rectangular" }).check();
    await first.page.getByLabel("Width that the probe crosses").fill("22 3/4");
    expect(workbookA.settings.size).toBe(1);
    const workbookB = job("ip");
    const second = await beside(workbookB, "C:\\Jobs\\Job B.xlsx");
    await openTab(second.page, "Measure");
    expect(await second.page.getByRole("radio", { name: "Round" }).isChecked()).toBe(true);
    expect(await second.page.getByText("Entries kept from before").count()).toBe(0);
    await stateInPictures(first.page, "excel-first-of-two");
    await stateInPictures(second.page, "excel-second-of-two");
    expect(workbookB.settings.size).toBe(0);
    await first.page.reload();
    await first.page.waitForFunction(() => document.querySelector("[role=tabpanel]") !== null);
    expect(await first.page.getByLabel("Width that the probe crosses").inputValue()).toBe("22 3/4");
  });

  it("offers in a copy what was typed beside the original, and puts nothing into it unasked", async () => {
    const original = job("ip");
    const first = await beside(original, "C:\\Jobs\\Job C.xlsx");
    await openTab(first.page, "Measure");
    await first.page.getByLabel("Diameter", { exact: true }).fill("14");
    // The workbook gets its id with the first draft; a copy made before has none.
    await expect.poll(() => original.settings.get("vanesheet.workbook")).toBeDefined();
    const copied = job("ip");
    for (const [key, value] of original.settings) copied.settings.set(key, value);
    const copy = await beside(copied, "C:\\Jobs\\Job D.xlsx");
    await openTab(copy.page, "Measure");
    expect(await copy.page.getByLabel("Diameter", { exact: true }).inputValue()).toBe("");
    const offer = copy.page.getByRole("region", { name: "Entries kept from before" });
    await offer.getByText("Measure: typed in “Job C.xlsx”").waitFor();
    await stateInPictures(copy.page, "excel-copy-offer");
    await offer.getByRole("button", { name: "Use them here" }).click();
    await copy.page.getByText("Now on Measure.").waitFor();
    expect(await copy.page.getByLabel("Diameter", { exact: true }).inputValue()).toBe("14");
    expect(copied.settings.get("vanesheet.workbook")).not.toBe(original.settings.get("vanesheet.workbook"));
  });

  it("lets two windows over one workbook share what is typed", async () => {
    const shared = job("ip");
    shared.settings.set("vanesheet.workbook", "shared");
    const one = await beside(shared, "https://files.example/Job E.xlsx");
    const other = await beside(shared, "https://files.example/Job E.xlsx");
    await openTab(one.page, "Measure");
    await openTab(other.page, "Measure");
    await one.page.getByLabel("Diameter", { exact: true }).fill("14");
    await other.page.waitForFunction(() => [...document.querySelectorAll("input")].some(({ value }) => value === "14"));
    await other.page.getByRole("radio", { name: "Equal area" }).check();
    await one.page.waitForFunction(() => document.querySelectorAll("input[type=radio]:checked").length > 0);
    await expect
      .poll(() => one.page.getByRole("radio", { name: "Equal area" }).isChecked(), { timeout: 60_000 })
      .toBe(true);
    expect(await one.page.getByLabel("Diameter", { exact: true }).inputValue()).toBe("14");
  });

  it("waits for the end of an edit before it knows the job, and says so", async () => {
    const workbook = job("si");
    workbook.isCellEdited = true;
    const { page } = await beside(workbook, "C:\\Jobs\\Job F.xlsx");
    await page.getByText("A cell is being edited. Press Enter or Escape in the sheet").waitFor();
    expect(await page.getByRole("tab").count()).toBe(0);
    expect(await faultsInEachColour(page, "excel-edited-at-start")).toEqual([]);
    await stateInPictures(page, "excel-edited-at-start");
    workbook.isCellEdited = false;
    await openTab(page, "Start");
    expect(await page.getByRole("radio", { name: "mm, m/s, L/s" }).isChecked()).toBe(true);
    expect(await page.getByLabel("Allowed below design").inputValue()).toBe("5");
    expect(await page.getByText("A cell is being edited").count()).toBe(0);
  });

  it("writes after the end of an edit, not over it and not twice", async () => {
    const workbook = job("ip");
    const { page } = await beside(workbook, "C:\\Jobs\\Job G.xlsx");
    await openTab(page, "Start");
    await page.getByLabel("Job name").fill("House 8");
    workbook.isCellEdited = true;
    await page.getByLabel("Job name").press("Enter");
    await page.getByText("A cell is being edited. Press Enter or Escape in the sheet").waitFor();
    await stateInPictures(page, "excel-edited-at-write");
    workbook.isCellEdited = false;
    await page.getByText("A cell is being edited").waitFor({ state: "detached" });
    const name = workbook.names.get("Job_Name") ?? "";
    await expect
      .poll(() => {
        const sheet = workbook.sheet(name.replace(/!.*$/, "").replaceAll("'", ""));
        const [column = "", row = ""] = name.replace(/^.*!/, "").split("$").slice(1);
        const [firstRow, firstColumn] = [Number(row), column.charCodeAt(0) - 64];
        return workbook.block(sheet, { firstRow, firstColumn, lastRow: firstRow, lastColumn: firstColumn }).values;
      })
      .toEqual([["House 8"]]);
  });

  it("says what a workbook opened for reading refuses, and keeps what was typed", async () => {
    const workbook = job("ip");
    workbook.isReadOnly = true;
    const opened = await beside(workbook, "C:\\Jobs\\Job H.xlsx");
    const { page } = opened;
    await openTab(page, "Start");
    await page.getByLabel("Job name").fill("House 9");
    await page.getByLabel("Job name").press("Enter");
    await page.getByRole("alert").getByText("opened for reading only").waitFor();
    expect(await page.getByLabel("Job name").inputValue()).toBe("House 9");
    await page.locator(".vs-problem", { hasText: "will not load Vanesheet with this workbook" }).waitFor();
    await stateInPictures(page, "excel-locked");
    expect(new Set(await opened.complaints())).toEqual(
      new Set([
        "Nothing was written. The sheet or the workbook is protected, or was opened for reading only. Unprotect it, or save a copy and work there.",
        "Not in the workbook yet. Press Enter in the field to try again.",
        expect.stringContaining("open the pane after opening it"),
      ]),
    );
  });
});

/** Fills one cell that a defined name leads to, as a person would. */
function fillNamed(workbook: FakeWorkbook, name: string, value: unknown): void {
  const refersTo = workbook.names.get(name) ?? "";
  const sheet = workbook.sheet(refersTo.replace(/!.*$/, "").replaceAll("'", ""));
  const [column = "", row = ""] = refersTo.replace(/^.*!/, "").split("$").slice(1);
  const [firstRow, firstColumn] = [Number(row), column.charCodeAt(0) - 64];
  workbook.enter(sheet, { firstRow, firstColumn, lastRow: firstRow, lastColumn: firstColumn }, [[value]]);
}

describe("the workbook's own ways", () => {
  it("are followed: a decimal comma, and days that count from 1904", async () => {
    const workbook = job("si");
    workbook.decimalSeparator = ",";
    workbook.is1904 = true;
    // 1 January 2026 is day 46023 from 1900 on, and 44561 from 1904 on.
    fillNamed(workbook, "Job_Date", 44_561);
    const { page } = await beside(workbook, "C:\\Jobs\\Job I.xlsx");
    await openTab(page, "Start");
    expect(await page.getByLabel("Date measured").inputValue()).toBe("2026-01-01");
    await page.getByLabel("Air temperature").fill("21,5");
    await page.getByLabel("Air temperature").press("Enter");
    await page.locator(".vs-understood", { hasText: /Density of the air: 1,\d{3} kg\/m³/ }).waitFor();
    await stateInPictures(page, "excel-decimal-comma");
  });

  it("load the add-in with a workbook that holds our formulas, and no longer with one that does not", async () => {
    const ours = job("ip");
    const { page } = await beside(ours, "C:\\Jobs\\Job J.xlsx");
    await page.getByRole("tab", { name: /^Check/ }).waitFor();
    await expect.poll(() => ours.startState, { timeout: 60_000 }).toBe("Background");
    const theirs = new FakeWorkbook({ sheets: [{ name: "Costs", cells: { A1: 12 } }], names: {} });
    theirs.startState = "Background";
    const other = await beside(theirs, "C:\\Jobs\\Costs.xlsx");
    await other.page.getByRole("tab", { name: /^Check/ }).waitFor();
    await expect.poll(() => theirs.startState, { timeout: 60_000 }).toBe("Inactive");
  });

  it("lead to a tab by the ribbon, and Excel hears that the command is done", async () => {
    const { page } = await beside(job("ip"), "C:\\Jobs\\Job K.xlsx");
    await page.getByRole("tab", { name: /^Start/ }).waitFor();
    const isDone = await page.evaluate(
      () =>
        new Promise((done) => {
          const { mappings } = (Office.actions as unknown as { _association: { mappings: Record<string, unknown> } })
            ._association;
          (mappings["HANDOFF"] as (event: object) => void)({ completed: () => done(true) });
        }),
    );
    expect(isDone).toBe(true);
    await page.getByRole("tab", { name: "Share", selected: true }).waitFor();
  });

  it("make the pane dark with Excel, also while it is open", async () => {
    const { page } = await openBeside(excel, job("ip"), { isDark: true });
    const theme = () => page.evaluate(() => document.documentElement.dataset["theme"]);
    await expect.poll(theme, { timeout: 30_000 }).toBe("dark");
    await page.evaluate(() => {
      (window as unknown as BridgeWindow).simulatedExcel.isDark = false;
    });
    await expect.poll(theme, { timeout: 30_000 }).toBe("light");
    await page.close();
  });
});

describe("the network", () => {
  const OFFICE_JS = "https://appsforoffice.microsoft.com/lib/1/hosted/office.js";

  /** Opens the page of the add-in as it is served, with office.js from Microsoft's address. */
  async function openPage(arrange: (page: Page) => Promise<void>): Promise<Page> {
    // On a computer where nothing is kept yet.
    const context = await excel.page.context().browser()?.newContext({ serviceWorkers: "block" });
    if (context === undefined) throw new Error("The browser is gone.");
    const page = await context.newPage();
    page.setDefaultTimeout(60_000);
    const { origin } = new URL(excel.page.url());
    await page.route(`${origin}/pane.html`, async (route) => {
      const response = await route.fetch();
      const body = (await response.text())
        .replace("office-js/office.js", OFFICE_JS)
        .replace(/content="default-src[^"]*"/, "");
      await route.fulfill({ response, body });
    });
    await arrange(page);
    await page.goto(`${origin}/pane.html`, { waitUntil: "commit" });
    return page;
  }

  it("without office.js makes the pane say so, and what to do", async () => {
    const page = await openPage(async (opened) => {
      await opened.route(OFFICE_JS, (route) => route.abort());
    });
    await page.getByRole("alert").getByText("did not come from appsforoffice.microsoft.com").waitFor();
    expect(await page.getByRole("button", { name: "Try again" }).count()).toBe(1);
    expect(await faultsInEachColour(page, "excel-no-office")).toEqual([]);
    await stateInPictures(page, "excel-no-office");
    await page.context().close();
  });

  it("that lets office.js hang makes the pane say so after 20 seconds", async () => {
    const page = await openPage(async (opened) => {
      await opened.emulateMedia({ colorScheme: "dark" });
      await opened.clock.install();
      await opened.route(OFFICE_JS, () => undefined);
    });
    await page.getByText("Loading Vanesheet …").waitFor();
    await page.clock.fastForward(21_000);
    await page.getByRole("alert").getByText("has not come from appsforoffice.microsoft.com for 20 seconds").waitFor();
    await picture(page, "excel-office-hangs-dark");
    await page.context().close();
  });

  it("lets Excel on the web read the functions from its own address", async () => {
    const { origin } = new URL(excel.page.url());
    const page = await excel.page.context().newPage();
    const count = await page.evaluate(
      async (address) => ((await (await fetch(address)).json()) as { functions: unknown[] }).functions.length,
      `${origin}/functions.json`,
    );
    expect(count).toBeGreaterThan(30);
    await page.close();
  });

  it("is not needed for the second start", async () => {
    const { page } = await beside(job("ip"), "C:\\Jobs\\Job L.xlsx");
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
      while (navigator.serviceWorker.controller === null) await new Promise((resolve) => setTimeout(resolve, 50));
    });
    const types: Readonly<Record<string, string>> = { js: "text/javascript", map: "application/json" };
    await page.route("**/office-js/**", (route) => {
      const path = new URL(route.request().url()).pathname.replace("/office-js/", "");
      const body = readFileSync(join("node_modules/@microsoft/office-js/dist", path));
      return route.fulfill({ body, contentType: types[path.split(".").at(-1) ?? ""] ?? "text/plain" });
    });
    await page.context().setOffline(true);
    try {
      await page.reload();
      await page.getByRole("tab", { name: /^Start/ }).waitFor();
    } finally {
      await page.context().setOffline(false);
    }
  });
});
