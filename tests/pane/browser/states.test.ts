import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { HostError, type InteractiveHost, TEMPLATES } from "../../../src/workbook/index.js";
import type { GivenWorkbook } from "../../hosts/contract.js";
import { givenPlan, pageHostOver } from "../../hosts/page/page-host-over.js";
import { filledWorkbook } from "../../support/filled-workbook.js";
import { columnUnder } from "../../support/plan-places.js";
import { type BuiltPane, buildPane, openTab } from "./open-pane.js";
import { faultsInAnySetting, faultsInEachColour } from "./pane-faults.js";

/*
 * What a person meets beside the usual job: every tab over a workbook without outlets, one just begun, one half done,
 * one in the other units, one that refuses.
 */

let pane: BuiltPane;

// A person's keys take a person's time, and other tests share the machine.
vi.setConfig({ testTimeout: 240_000 });

beforeAll(async () => {
  pane = await buildPane();
}, 300_000);

afterAll(() => pane?.close());

const PLAN = TEMPLATES["room-balance"]("");
const FIRST_ROW = 9;

const foreign = (): GivenWorkbook => ({ sheets: [{ name: "Costs", cells: { A1: "Item", B1: 12 } }], names: {} });
const fresh = () => givenPlan(PLAN);

/** The demonstration job with readings down to a row of its list. */
function halfFilled(): GivenWorkbook {
  const columns = ["R1", "R2", "R3", "R4", "R5", "R6"].map((header) => columnUnder(PLAN, "Outlets", header));
  const rows = Array.from({ length: 30 }, (_, index) => FIRST_ROW + 6 + index);
  const emptied = rows.flatMap((row) => columns.map((column) => [`${column}${row}`, null] as const));
  return filledWorkbook("room-balance", { Outlets: Object.fromEntries(emptied) });
}

const JOB_UNITS = (fresh().names["Job_Units"] ?? "").replace(/^.*!/, "").replaceAll("$", "");

/** Two outlets in millimeters and liters a second. */
function inMetricUnits(): GivenWorkbook {
  const { sheets, names } = fresh();
  const at = (header: string, row: number) => `${columnUnder(PLAN, "Outlets", header)}${row}`;
  const row = (index: number, name: string, design: number, velocity: number) => ({
    [at("Outlet", FIRST_ROW + index)]: name,
    [at("System", FIRST_ROW + index)]: "AHU-1",
    [at("Kind", FIRST_ROW + index)]: "supply",
    [at("Width or diameter", FIRST_ROW + index)]: 350,
    [at("Height", FIRST_ROW + index)]: 150,
    [at("Factor", FIRST_ROW + index)]: 0.8,
    [at("Design airflow", FIRST_ROW + index)]: design,
    [at("R1", FIRST_ROW + index)]: velocity,
  });
  return {
    names,
    sheets: sheets.map((sheet) =>
      sheet.name === "Job"
        ? { ...sheet, cells: { ...sheet.cells, [JOB_UNITS]: "si" } }
        : sheet.name === "Outlets"
          ? { ...sheet, cells: { ...sheet.cells, ...row(0, "S1", 80, 2.5), ...row(1, "S2", 90, 1.75) } }
          : sheet,
    ),
  };
}

const panelText = async (page: Page) => (await page.locator("[role=tabpanel]").textContent()) ?? "";

/** Which words each tab must say in a state, so that nobody is left without the next step. */
type Expected = Readonly<Record<"Start" | "Measure" | "Check" | "Balance" | "Share", RegExp>>;

const STATES: readonly (readonly [string, () => InteractiveHost, Expected])[] = [
  [
    "foreign",
    () => pageHostOver(foreign()),
    {
      Start: /keeps them here until you add a sheet below/,
      Measure: /At a grille or register/,
      Check: /Nothing to check yet\..* Add a sheet from a template on the tab Start/,
      Balance: /Add the sheet “Room balance” on the tab Start/,
      Share: /Choose the workbooks of many jobs/,
    },
  ],
  [
    "fresh",
    () => pageHostOver(fresh()),
    {
      Start: /apply to every sheet of this workbook/,
      Measure: /At a grille or register/,
      Check: /looked through/,
      Balance: /“Outlets” has no outlets yet. Enter each with its design airflow./,
      Share: /Choose the workbooks of many jobs/,
    },
  ],
  [
    "half",
    () => pageHostOver(halfFilled()),
    {
      Start: /apply to every sheet of this workbook/,
      Measure: /At a grille or register/,
      Check: /\d+ warnings?/,
      Balance: /not measured/,
      Share: /Choose the workbooks of many jobs/,
    },
  ],
  [
    "metric",
    () => {
      const host = pageHostOver(inMetricUnits());
      return { ...host, habits: async () => ({ decimalSign: ",", daysFrom: 1900 }) };
    },
    {
      Start: /°C/,
      Measure: /mm/,
      Check: /looked through/,
      Balance: /averages 1,70 m\/s/,
      Share: /Choose the workbooks of many jobs/,
    },
  ],
];

describe("each tab, in a workbook that is", () => {
  it.each(STATES)("%s: says what to do next and keeps WCAG 2.2 AA in light and dark", async (name, host, expected) => {
    const page = await pane.open(host());
    const faults: string[] = [];
    for (const [tab, words] of Object.entries(expected)) {
      await openTab(page, tab);
      await expect.poll(() => panelText(page), { message: `${name}, ${tab}`, timeout: 60_000 }).toMatch(words);
      await page.getByText(/^(Reading|Looking through) .* …$/).waitFor({ state: "detached" });
      faults.push(...(await faultsInEachColour(page, `state-${name}-${tab.toLowerCase()}`)));
    }
    expect(faults).toEqual([]);
    await page.context().close();
  });
});

const REFUSAL = "Nothing was written. The sheet is protected. Unprotect it, or save a copy and work there.";

describe("a workbook that refuses what is written", () => {
  it("says so once on each tab that writes, and keeps what was typed", async () => {
    const host = pageHostOver(filledWorkbook("room-balance"));
    const refusing: InteractiveHost = { ...host, write: () => Promise.reject(new HostError(REFUSAL)) };
    const page = await pane.open(refusing);
    const faults: string[] = [];
    const refusal = page.getByRole("alert").getByText(REFUSAL);
    await openTab(page, "Start");
    await page.getByLabel("Job name").fill("House 9");
    await page.getByLabel("Job name").press("Enter");
    await refusal.waitFor();
    expect(await page.getByText(REFUSAL).count()).toBe(1);
    expect(await page.getByLabel("Job name").inputValue()).toBe("House 9");
    const leftOver = page.getByText("Not in the workbook yet. Press Enter in the field to try again.");
    await leftOver.waitFor();
    faults.push(...(await faultsInEachColour(page, "state-refused-start")));
    await page.getByRole("button", { name: /^Close/ }).press("Enter");
    await refusal.waitFor({ state: "detached" });
    await openTab(page, "Measure");
    await openTab(page, "Start");
    expect(await leftOver.count()).toBe(1);
    await page.getByLabel("Job name").fill("House 10");
    expect(await leftOver.count()).toBe(0);
    await openTab(page, "Balance");
    await page.locator("form input").fill("300 310");
    await page.locator("form input").press("Enter");
    await refusal.waitFor();
    expect(await page.getByText(REFUSAL).count()).toBe(1);
    expect(await page.locator("form input").inputValue()).toBe("300 310");
    faults.push(...(await faultsInEachColour(page, "state-refused-balance")));
    expect(faults).toEqual([]);
    await page.context().close();
  });
});

/** What a browser keeps that was typed beside workbooks: of the same place, and of others that may be gone. */
const KEPT = {
  "vanesheet.drafts.old": {
    place: "C:\\Jobs\\House 12.xlsx",
    atMs: Date.UTC(2026, 0, 5, 9),
    drafts: { balance: { typed: "300 310" } },
  },
  "vanesheet.drafts.gone": {
    place: "https://files.example/A%20house%20with%20quite%20a%20long%20name%20that%20is%20gone.xlsx",
    atMs: Date.UTC(2026, 0, 4, 9),
    drafts: { start: { texts: { jobName: "Gone" } } },
  },
};

describe("entries that the browser keeps", () => {
  it("stay in their fields, with the focus, where the workbook gets its name while it is asked for it", async () => {
    const host = pageHostOver(filledWorkbook("room-balance"));
    let id: string | null = null;
    let answer: (() => void) | null = null;
    let isSlow = false;
    const slow: InteractiveHost = {
      ...host,
      async identity() {
        const asked = { id, place: "House 12.xlsx" };
        if (isSlow) {
          isSlow = false;
          await new Promise<void>((resolve) => {
            answer = resolve;
          });
        }
        return asked;
      },
      async keepIdentity(given) {
        id = given;
      },
    };
    const page = await pane.open(slow);
    await openTab(page, "Measure");
    const diameter = page.getByLabel("Diameter", { exact: true });
    await diameter.waitFor();
    isSlow = true;
    await page.evaluate("cellsChanged('Job')");
    await vi.waitFor(() => expect(answer).not.toBeNull());
    await diameter.focus();
    await page.keyboard.type("1");
    await vi.waitFor(() => expect(id).not.toBeNull());
    (answer as (() => void) | null)?.();
    await page.keyboard.type("4");
    await page.getByText("= 14 in (356 mm)").waitFor();
    // Long enough that the pane could have taken it for another workbook.
    await page.waitForTimeout(500);
    await page.keyboard.type("1/2");
    expect(await diameter.inputValue()).toBe("141/2");
    await page.context().close();
  });

  it("of this place are offered, those of other workbooks are listed at the end of Start", async () => {
    const host = pageHostOver(filledWorkbook("room-balance"));
    const placed: InteractiveHost = { ...host, identity: async () => ({ id: null, place: "C:\\Jobs\\House 12.xlsx" }) };
    const page = await pane.open(placed);
    await page.evaluate((kept) => {
      for (const [key, drafts] of Object.entries(kept)) localStorage.setItem(key, JSON.stringify(drafts));
    }, KEPT);
    await page.reload();
    const offer = page.getByRole("region", { name: "Entries kept from before" });
    await offer.getByText("Balance: typed in “House 12.xlsx”").waitFor();
    const others = page.getByText("Entries kept from other workbooks (1)");
    await others.press("Enter");
    await page.getByText("Start: typed in “A house with quite a long name that is gone.xlsx”").waitFor();
    expect(await faultsInEachColour(page, "state-kept-start")).toEqual([]);
    await offer.getByRole("button", { name: "Use them here" }).press("Enter");
    await page.getByRole("status").getByText("Now on Balance.").waitFor();
    await openTab(page, "Balance");
    expect(await page.locator("form input").inputValue()).toBe("300 310");
    await openTab(page, "Start");
    await others.press("Enter");
    await page.getByRole("button", { name: "Delete them" }).press("Enter");
    await others.waitFor({ state: "detached" });
    await page.context().close();
  });
});

describe("a workbook that cannot be read", () => {
  it("is tried again, with the reason above and no tab that would be empty", async () => {
    const host = pageHostOver(filledWorkbook("room-balance"));
    const reason = "Excel did not answer.";
    let isDown = true;
    const down = <Arguments extends readonly unknown[], Result>(call: (...given: Arguments) => Promise<Result>) => {
      return (...given: Arguments) => (isDown ? Promise.reject(new HostError(reason)) : call(...given));
    };
    const failing: InteractiveHost = { ...host, read: down(host.read), names: down(host.names) };
    const page = await pane.openWithoutTabs(failing);
    await page.locator(".vs-problem", { hasText: `${reason} Vanesheet keeps trying.` }).waitFor();
    expect(await page.locator(".vs-problem").count()).toBe(1);
    expect(await page.getByRole("tab").count()).toBe(0);
    expect(await faultsInEachColour(page, "state-unread")).toEqual([]);
    isDown = false;
    await page.getByRole("tab", { name: "Start" }).waitFor();
    await page.locator(".vs-problem").waitFor({ state: "detached" });
    await page.context().close();
  });
});

describe("a measurement in a duct", () => {
  it("says what is missing, what is wrong, and shows every point with the result in any setting", async () => {
    const host = pageHostOver(foreign());
    await host.select({ sheet: "Costs", range: "D4" });
    const page = await pane.open(host);
    await openTab(page, "Measure");
    await page.getByRole("radio", { name: "Rectangular" }).check();
    await page.getByLabel("Width that the probe crosses").fill("18 by 3");
    await page.getByLabel("Height").fill("1' 6\"");
    await page.locator(".vs-understood", { hasText: "= 18 in (457 mm)" }).waitFor();
    await page.getByLabel("Straight upstream").fill("far");
    const wrong = page.locator(".vs-error");
    await wrong.nth(1).waitFor();
    expect(await page.locator("[aria-invalid=true]").count()).toBe(2);
    const faults = [...(await faultsInAnySetting(page, "measure-wrong"))];
    await page.getByLabel("Width that the probe crosses").fill("18");
    await page.getByLabel("Straight upstream").fill("4");
    await page.getByRole("radio", { name: "Equal area" }).check();
    await page.getByLabel("Lines, one over the other").fill("3");
    await page.getByLabel("Points on each").fill("3");
    await page.getByText("Still missing: a reading.").waitFor();
    expect(await page.getByRole("button", { name: "Put into sheet" }).isDisabled()).toBe(true);
    await page.locator(".vs-reading input").focus();
    // One point of reverse flow; the rest as in a handbook's example of an 18 in square duct.
    for (const reading of [300, 450, 300, 450, 600, 450, 300, 450, -40]) {
      await page.keyboard.type(String(reading));
      await page.keyboard.press("Enter");
    }
    await page.getByRole("heading", { name: "Result" }).waitFor();
    expect(await page.getByText("Still missing").count()).toBe(0);
    await page.getByRole("list", { name: "What looks wrong" }).getByText("reverse").waitFor();
    for (const summary of await page.locator("summary").all()) await summary.press("Enter");
    faults.push(...(await faultsInAnySetting(page, "measure-filled")));
    expect(faults).toEqual([]);
    await page.context().close();
  });
});
