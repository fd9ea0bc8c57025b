import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { type InteractiveHost, type RepairPlan, TEMPLATES } from "../../../src/workbook/index.js";
import { pageHostOver } from "../../hosts/page/page-host-over.js";
import { filledWorkbook } from "../../support/filled-workbook.js";
import { cellUnder } from "../../support/plan-places.js";
import { type BuiltPane, buildPane, openTab } from "./open-pane.js";
import { faultsInAnySetting } from "./pane-faults.js";

let pane: BuiltPane;

// A person's keys take a person's time, and other tests share the machine.
vi.setConfig({ testTimeout: 120_000 });

beforeAll(async () => {
  pane = await buildPane();
}, 300_000);

afterAll(() => pane?.close());

const PLAN = TEMPLATES["room-balance"]("");
const READING = cellUnder(PLAN, "Outlets", "R1", 9);
const FACTOR = cellUnder(PLAN, "Outlets", "Factor", 10);

/** The demonstration job with a word among its readings and a factor above 1. */
const faulty = () => filledWorkbook("room-balance", { Outlets: { [READING]: "door shut", [FACTOR]: 7.5 } });

describe("the tab Check", () => {
  it("lists the findings by sheet, leads to the cell by Enter, and follows the sheet as it is mended", async () => {
    const host = pageHostOver(faulty());
    const page = await pane.open(host);
    const tab = page.getByRole("tab", { name: /^Check \d+ findings$/ });
    await tab.waitFor();
    await openTab(page, "Check");
    await page.getByRole("heading", { name: "Outlets" }).waitFor();
    const found = page.locator(".vs-finding", { has: page.locator("strong", { hasText: new RegExp(`^${READING}$`) }) });
    expect(await found.textContent()).toContain("door shut");
    await found.focus();
    await page.keyboard.press("Enter");
    await expect.poll(() => host.selection()).toEqual({ sheet: "Outlets", range: READING });
    const before = await page.locator(".vs-finding").count();
    await host.write([{ address: { sheet: "Outlets", range: READING }, cells: [[300]] }]);
    await found.waitFor({ state: "detached", timeout: 60_000 });
    expect(await page.locator(".vs-finding").count()).toBeLessThan(before);
    await page.context().close();
  });

  it("keeps WCAG 2.2 AA in light, dark and forced colours, also at twice the size of text", async () => {
    const page = await pane.open(pageHostOver(faulty()));
    await openTab(page, "Check");
    await page.locator(".vs-finding").first().waitFor();
    expect(await faultsInAnySetting(page, "check")).toEqual([]);
    await page.context().close();
  });

  it("says where there was nothing to look at, and not that nothing was found", async () => {
    const page = await pane.open(pageHostOver({ sheets: [{ name: "Mine", cells: { A1: 1 } }], names: {} }));
    await openTab(page, "Check");
    const status = page.locator("[role=tabpanel] [role=status]");
    await status.filter({ hasText: "Nothing to check yet." }).waitFor();
    expect(await status.textContent()).toContain("0 formulas on 1 sheet: no VANE function and no list of outlets.");
    expect(await status.textContent()).not.toContain("Nothing found");
    expect(await page.getByRole("tab", { name: "Check", exact: true }).count()).toBe(1);
    await page.context().close();
  });

  it("asks before it enters stuck formulas again, and says what came of it", async () => {
    // Excel has no way of its own to look a workbook through.
    const { check: _, ...host } = pageHostOver({
      sheets: [{ name: "Mine", cells: { A1: "=VANE.AIRFLOW(400,2.5)" } }],
      names: {},
    });
    const formulas = [{ row: 1, column: 1, typed: "=VANE.AIRFLOW(400,2.5)" }];
    const plan: RepairPlan = { count: 1, sheets: [{ sheet: "Mine", isProtected: true, formulas }], unknown: [] };
    const agreed: RepairPlan[] = [];
    const mending: InteractiveHost = {
      ...host,
      kind: "excel",
      async read(addresses) {
        const blocks = await host.read(addresses);
        const name = { error: "#NAME?", message: "Mine!A1 shows #NAME?." } as const;
        return agreed.length > 0 ? blocks : blocks.map((block) => ({ ...block, values: [[name]] }));
      },
      planRepair: async () => plan,
      async repair(given) {
        agreed.push(given);
        await host.write([{ address: { sheet: "Mine", range: "A1" }, cells: [["=VANE.AIRFLOW(400,2.5)"]] }]);
        return { repaired: 1, unrepaired: [] };
      },
    };
    const page = await pane.open(mending);
    await openTab(page, "Check");
    await page.getByRole("button", { name: "Enter them again …" }).press("Enter");
    await page.getByText("is protected: the protection is lifted").waitFor();
    expect(agreed).toEqual([]);
    await page.getByRole("button", { name: "Yes, enter them again" }).press("Enter");
    await page.getByText("1 formula entered again.").waitFor();
    expect(agreed).toEqual([plan]);
    await page.getByText("Nothing found.").waitFor();
    await page.context().close();
  });
});
