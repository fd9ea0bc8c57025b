import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { type InteractiveHost, TEMPLATES } from "../../../src/workbook/index.js";
import { givenPlan, pageHostOver } from "../../hosts/page/page-host-over.js";
import { filledWorkbook } from "../../support/filled-workbook.js";
import { cellsUnder } from "../../support/plan-places.js";
import { type BuiltPane, buildPane, openTab } from "./open-pane.js";
import { faultsInAnySetting, picture } from "./pane-faults.js";

let pane: BuiltPane;

// A person's keys take a person's time, and other tests share the machine.
vi.setConfig({ testTimeout: 120_000 });

beforeAll(async () => {
  pane = await buildPane();
}, 300_000);

afterAll(() => pane?.close());

const title = (page: Page) => page.locator(".vs-step");

/** The six readings of a row, wherever the template has them. */
const readingsOf = (row: number) => cellsUnder(TEMPLATES["room-balance"](""), "Outlets", ["R1", "R6"], row);

const cells = async (host: InteractiveHost, range: string) =>
  (await host.read([{ sheet: "Outlets", range }]))[0]?.values ?? [];

describe("the tab Balance", () => {
  it("leads by the keyboard from reading to setting to reading the key again, and the sheet has every reading", async () => {
    const host = pageHostOver(filledWorkbook("room-balance"));
    const page = await pane.open(host);
    await openTab(page, "Balance");
    await title(page).waitFor();
    await picture(page, "balance-first");
    for (const step of ["first", "second"]) {
      if (!(await title(page).textContent())?.startsWith("Read ")) break;
      const field = page.locator("form input");
      await field.focus();
      const label = await page.locator("form label").textContent();
      await page.keyboard.type("300 310 290 305 295 300");
      await page.keyboard.press("Enter");
      await page.locator("form label", { hasNotText: label ?? step }).waitFor();
    }
    await page.locator(".vs-step", { hasText: /^Set / }).waitFor();
    await picture(page, "balance-set");
    const set = (await title(page).textContent()) ?? "";
    const outlet = /^Set (.*) to /.exec(set)?.[1] ?? "";
    expect(await page.locator(".vs-look strong").textContent()).toMatch(/^\d+ fpm$/);
    const look = Number.parseFloat((await page.locator(".vs-look strong").textContent()) ?? "");
    await page.keyboard.type(String(look));
    await page.keyboard.press("Enter");
    await page.locator(".vs-step", { hasText: /^Read .* again$/ }).waitFor();
    const key = /^Read (.*) again$/.exec((await title(page).textContent()) ?? "")?.[1] ?? "";
    const names = (await cells(host, "A9:A40")).map(([name]) => name);
    const row = 9 + names.indexOf(outlet);
    expect((await cells(host, readingsOf(row)))[0]).toEqual([look, null, null, null, null, null]);
    await page.keyboard.type("310");
    await page.keyboard.press("Enter");
    await page.locator(".vs-step", { hasNotText: `Read ${key} again` }).waitFor();
    expect(await page.locator(".vs-outlet-words", { hasText: "throttled" }).count()).toBe(1);
    expect(await page.getByText("Did it change?").count()).toBe(2);
    for (const name of [outlet, key]) {
      await page.locator("strong", { hasText: new RegExp(`^${name}: \\d+ cfm → \\d+ cfm`) }).waitFor();
    }
    await picture(page, "balance-after");
    await page.context().close();
  });

  it("selects the cell of an outlet that is chosen from the list, and goes back to the advice", async () => {
    const host = pageHostOver(filledWorkbook("room-balance"));
    const page = await pane.open(host);
    await openTab(page, "Balance");
    const first = page.locator(".vs-outlet").first();
    await first.focus();
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: "Back to the advice" }).waitFor();
    const name = (await first.locator("strong").textContent()) ?? "";
    expect(await title(page).textContent()).toBe(`Read ${name}`);
    const selected = await host.selection();
    expect((await host.read(selected === null ? [] : [selected]))[0]?.values).toEqual([[name]]);
    await page.getByRole("button", { name: "Back to the advice" }).press("Enter");
    await page.locator(".vs-step", { hasNotText: new RegExp(`^Read ${name}$`) }).waitFor();
    await page.context().close();
  });

  it("keeps the readings as found in the cells before of a comparison, as soon as something was set", async () => {
    const host = pageHostOver(givenPlan(TEMPLATES["before-after"]("")));
    // One free square foot each, so that the velocity is the airflow.
    const row = (tag: string, design: number, velocity: number) =>
      [tag, "AHU-1", null, "supply", 12, 12, 1, design, null, null, null, null, velocity] as const;
    const sheet = "Before and after";
    await host.write([{ address: { sheet, range: "A7:M8" }, cells: [row("Hall", 100, 140), row("Bath", 120, 96)] }]);
    const page = await pane.open(host);
    await openTab(page, "Balance");
    await page.locator(".vs-step", { hasText: "Set Hall to 88 cfm" }).waitFor();
    await page.locator(".vs-hint", { hasText: "Current readings move to the as-found columns." }).waitFor();
    await picture(page, "balance-as-found");
    await page.locator("form input").focus();
    await page.keyboard.type("88");
    await page.keyboard.press("Enter");
    await page.locator(".vs-step", { hasText: "Read Bath again" }).waitFor();
    await page.keyboard.type("105");
    await page.keyboard.press("Enter");
    await page.locator("strong", { hasText: "Hall: 140 cfm → 88 cfm" }).waitFor();
    await page.locator("strong", { hasText: "Bath: 96 cfm → 105 cfm" }).waitFor();
    const [block] = await host.read([{ sheet, range: "I7:M8" }]);
    expect(block?.values).toEqual([
      [140, null, null, null, 88],
      [96, null, null, null, 105],
    ]);
    await page.context().close();
  });

  it("keeps what is typed while readings are on their way, for the outlet that is next, or gives it back", async () => {
    const host = pageHostOver(filledWorkbook("room-balance"));
    const write = host.write.bind(host);
    let answer = async () => {};
    host.write = async (edits) => {
      await answer();
      return write(edits);
    };
    const page = await pane.open(host);
    await openTab(page, "Balance");
    const field = page.locator("form input");
    const label = (await page.locator("form label").textContent()) ?? "";
    answer = () => Promise.reject(new Error("The sheet is protected."));
    await field.fill("300 310");
    await field.press("Enter");
    await page.getByText("The sheet is protected.").waitFor();
    expect(await field.inputValue()).toBe("300 310");
    let letThrough = () => {};
    answer = () => new Promise((resolve) => (letThrough = resolve));
    await field.press("Enter");
    await page.keyboard.type("41");
    await page.keyboard.press("Enter");
    await page.keyboard.type("5");
    expect(await page.locator("form label").textContent()).toBe(label);
    letThrough();
    await page.locator("form label", { hasNotText: label }).waitFor();
    expect(await field.inputValue()).toBe("415");
    await page.context().close();
  });

  it("follows what is typed in the sheet, and keeps what is being typed in the pane", async () => {
    const host = pageHostOver(filledWorkbook("room-balance"));
    const page = await pane.open(host);
    await openTab(page, "Balance");
    const field = page.locator("form input");
    await field.fill("41 4x");
    await page.locator(".vs-error", { hasText: "4x" }).waitFor();
    const empty = { sheet: "Outlets", range: readingsOf(9) };
    await host.write([{ address: empty, cells: [[null, null, null, null, null, null]] }]);
    await page.locator(".vs-outlet-words", { hasText: "not measured" }).nth(1).waitFor();
    await page.reload();
    await page.locator("form input").waitFor();
    expect(await page.locator("form input").inputValue()).toBe("41 4x");
    await page.context().close();
  });

  it("says where the readings of a list go that takes none from the pane", async () => {
    const page = await pane.open(pageHostOver(filledWorkbook("face-sweep")));
    await openTab(page, "Balance");
    await page.locator(".vs-outlet").first().click();
    await page.locator(".vs-flag", { hasText: "“Face sweep” takes no readings here. Type them there" }).waitFor();
    expect(await page.locator("form input").count()).toBe(0);
    await page.context().close();
  });

  it("says what to do in a workbook without outlets", async () => {
    const page = await pane.open(pageHostOver({ sheets: [{ name: "Mine", cells: { A1: 1 } }], names: {} }));
    await openTab(page, "Balance");
    await page.getByRole("heading", { name: "No outlets yet" }).waitFor();
    await page.context().close();
  });

  it("keeps WCAG 2.2 AA in light, dark and forced colours, also at twice the size of text", async () => {
    const page = await pane.open(pageHostOver(filledWorkbook("room-balance")));
    await openTab(page, "Balance");
    await title(page).waitFor();
    expect(await faultsInAnySetting(page, "balance")).toEqual([]);
    await page.context().close();
  });
});
