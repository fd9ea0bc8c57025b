import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { TEMPLATES } from "../../../src/workbook/index.js";
import { givenPlan, pageHostOver } from "../../hosts/page/page-host-over.js";
import { filledWorkbook } from "../../support/filled-workbook.js";
import { type BuiltPane, buildPane, openTab } from "./open-pane.js";
import { faultsInAnySetting } from "./pane-faults.js";

let pane: BuiltPane;

// A person's keys take a person's time, and other tests share the machine.
vi.setConfig({ testTimeout: 240_000 });

beforeAll(async () => {
  pane = await buildPane();
}, 300_000);

afterAll(() => pane?.close());

const TABS = ["Start", "Measure", "Balance", "Check", "Share"];

const JOB_UNITS = (givenPlan(TEMPLATES["room-balance"]("")).names["Job_Units"] ?? "")
  .replace(/^.*!/, "")
  .replaceAll("$", "");

/** The demonstration job with a word among its readings. */
const job = () => pageHostOver(filledWorkbook("room-balance", { Outlets: { J9: "door shut" } }));

/** Walks by Tab through the whole pane; returns what the keys never reach, and what has the focus without showing it. */
async function keyboardFaults(page: Page): Promise<readonly string[]> {
  const faults: string[] = [];
  await page.evaluate(() => {
    for (const element of document.querySelectorAll("[data-reached]")) element.removeAttribute("data-reached");
  });
  /** Marks what has the focus; says whether it was marked before, and null where nothing has it. */
  const mark = () =>
    page.evaluate(() => {
      const element = document.activeElement;
      if (!(element instanceof HTMLElement) || element === document.body) return null;
      const { outlineStyle, outlineWidth, boxShadow } = getComputedStyle(element);
      const isShown = (outlineStyle !== "none" && outlineWidth !== "0px") || boxShadow !== "none";
      // A date takes the keys part by part.
      const isAgain = "reached" in element.dataset && !element.matches("[data-last]");
      document.querySelector("[data-last]")?.removeAttribute("data-last");
      Object.assign(element.dataset, { reached: "", last: "" });
      return { isAgain, isShown, html: element.outerHTML.slice(0, 120) };
    });
  // Past the last control the keys leave the page once, and come in again at its top.
  let leaves = 0;
  for (;;) {
    await page.keyboard.press("Tab");
    const now = await mark();
    if (now === null) leaves += 1;
    if (now?.isAgain || leaves > 1) break;
    if (now?.isShown === false) faults.push(`no focus to see: ${now.html}`);
  }
  const missed = await page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>("button, input, select, textarea, summary, a[href]")]
      .filter((element) => {
        const isOff = element.matches(":disabled") || element.tabIndex < 0 || element.closest("[inert]") !== null;
        if (isOff || "reached" in element.dataset || !element.checkVisibility()) return false;
        // Of a group of radio buttons the keys stop at one.
        const group = element instanceof HTMLInputElement && element.type === "radio" ? element.name : null;
        return group === null || document.querySelector(`input[name="${group}"][data-reached]`) === null;
      })
      .map((element) => element.outerHTML.slice(0, 120)),
  );
  return [...faults, ...missed.map((html) => `not reached: ${html}`)];
}

describe("every tab of the pane", () => {
  it.each([
    ["filled", job],
    ["in SI", () => pageHostOver(filledWorkbook("room-balance", { Job: { [JOB_UNITS]: "si" } }))],
    ["empty", () => pageHostOver({ sheets: [{ name: "Sheet1", cells: {} }], names: {} })],
  ])("lets the Tab key reach every control, with its focus to see, over a workbook that is %s", async (_, host) => {
    const page = await pane.open(host());
    for (const tab of TABS) {
      await openTab(page, tab);
      await page.getByText(/^(Reading|Looking) .* …$/).waitFor({ state: "detached" });
      // What a tab shows may still come: a control that is out of reach is so at the next walk too.
      await expect.poll(() => keyboardFaults(page), { message: tab, timeout: 30_000 }).toEqual([]);
    }
    await page.context().close();
  });

  it("lets Tab stop at a panel that still reads, and go on to what it then shows", async () => {
    const host = job();
    let release = (): void => undefined;
    const held = new Promise<void>((resolve) => {
      release = resolve;
    });
    const page = await pane.open({ ...host, selection: () => held.then(() => host.selection()) });
    await openTab(page, "Start");
    await page.keyboard.press("ArrowRight");
    await page.getByText("Looking which row is selected").waitFor();
    await page.keyboard.press("Tab");
    const panel = page.getByRole("tabpanel", { name: "Measure" });
    await expect.poll(() => panel.evaluate((element) => element === document.activeElement)).toBe(true);
    release();
    await page.getByRole("radio", { name: "At a grille or register" }).waitFor();
    await page.keyboard.press("Tab");
    expect(
      await panel.evaluate((element) => element !== document.activeElement && element.matches(":focus-within")),
    ).toBe(true);
    await expect.poll(() => panel.evaluate((element) => element.tabIndex)).toBe(-1);
    await page.context().close();
  });

  it("keeps WCAG 2.2 AA in the states of Start and of Measure", async () => {
    const page = await pane.open(job());
    const faults: string[] = [];
    await openTab(page, "Start");
    await page.getByLabel("Job name").waitFor();
    faults.push(...(await faultsInAnySetting(page, "start")));
    await openTab(page, "Measure");
    await page.getByRole("radio", { name: "At a grille or register" }).check();
    await page.getByRole("radio", { name: "Timed sweeps" }).check();
    faults.push(...(await faultsInAnySetting(page, "measure-sweeps")));
    await page.getByRole("radio", { name: "Inside a duct" }).check();
    faults.push(...(await faultsInAnySetting(page, "measure-duct")));
    expect(faults).toEqual([]);
    await page.context().close();
  });
});
