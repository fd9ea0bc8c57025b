import { mkdtemp, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { BrowserContext, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { plainWorkbook } from "../xlsx/plain-workbook.js";
import { accessViolations } from "./access-violations.js";
import { filesOn } from "./files-on-page.js";
import { type OpenWorkbook, person, serveWorkbook } from "./open-workbook.js";
import { type Media, showIn } from "./show-in.js";

let workbook: OpenWorkbook;
let context: BrowserContext | undefined;
let failures: string[];

// A person's keys take a person's time, and other tests share the machine.
vi.setConfig({ testTimeout: 120_000 });

beforeAll(async () => {
  workbook = await serveWorkbook();
});

afterAll(() => workbook.close());

afterEach(async () => {
  await context?.close();
  context = undefined;
  expect(failures, "errors of the page").toEqual([]);
});

/** The width that Excel gives a pane, and that the page gives it too. */
const PANE_WIDTH = 320;

/** What a scroll bar that is always there takes of it. */
const SCROLL_BAR = 15;

/** Opens the page on an empty sheet with the pane beside it, by keys alone. */
async function openPane(options: BrowserContextOptions = {}): Promise<Page> {
  failures = [];
  context = await workbook.browser.newContext({
    viewport: { width: 1100, height: 800 },
    serviceWorkers: "block",
    ...options,
  });
  const page = await context.newPage();
  page.on("pageerror", (error) => failures.push(String(error)));
  await page.goto(workbook.served.address);
  await page.locator("#pane [role=tab]").first().waitFor({ state: "attached" });
  // A small screen begins without the grid.
  const grid = page.locator("#field-toggle", { hasText: /^Grid$/ });
  if (await grid.isVisible()) await grid.click();
  await person(page).isReady();
  await page.keyboard.press("Shift+F11");
  await page.locator("#cell", { hasText: "A1: empty" }).waitFor();
  await page.locator("#pane [role=tab]").first().waitFor({ state: "attached" });
  await page.keyboard.press("Control+F6");
  await page.locator("#pane").waitFor();
  return page;
}

/** Opens a workbook that holds no sheet of ours. */
async function openPlain(page: Page): Promise<void> {
  await page.evaluate("delete window.showOpenFilePicker; delete window.showSaveFilePicker;");
  const path = join(await mkdtemp(join(tmpdir(), "vanesheet-files-")), "plain.xlsx");
  await writeFile(path, plainWorkbook('<row r="1"><c r="A1"><v>1</v></c></row>'));
  await filesOn(page).choose(path);
  await filesOn(page).isOpen("plain.xlsx");
}

/** Presses Tab until the control that is named has the focus, as somebody without a mouse does. */
async function tabTo(page: Page, name: string | RegExp): Promise<void> {
  const label = () =>
    page.evaluate(() => {
      const element = document.activeElement;
      if (!(element instanceof HTMLInputElement)) return element?.textContent ?? "";
      return element.labels?.[0]?.textContent ?? "";
    });
  const isThere = async () => {
    const found = await label();
    return typeof name === "string" ? found.startsWith(name) : name.test(found);
  };
  for (let presses = 0; presses < 40; presses += 1) {
    if (presses > 0) await page.keyboard.press("Tab");
    if (await isThere()) return;
  }
  throw new Error(`Tab never comes to “${name}”.`);
}

/** What stands on the control that has the focus. */
const focused = (page: Page) => page.evaluate(() => document.activeElement?.textContent?.trim() ?? "");

/** Types readings one after another, each taken with Enter. */
async function typeReadings(page: Page, readings: readonly (number | "")[]): Promise<void> {
  for (const [index, reading] of readings.entries()) {
    await page.keyboard.type(String(reading));
    await page.keyboard.press("Enter");
    const isLast = (await page.locator(".vs-status").textContent())?.includes("The result is below") === true;
    if (!isLast) await page.locator(".vs-reading label", { hasText: `Point ${index + 2} of` }).waitFor();
  }
}

async function openMeasure(page: Page): Promise<void> {
  await page.keyboard.press("ArrowRight");
  // It comes with its fields once it is known which row is selected.
  await page.getByRole("tabpanel", { name: "Measure" }).getByRole("radio").first().waitFor();
}

const airflow = (page: Page) => page.locator(".vs-airflow dd").textContent();
const done = (page: Page) => page.locator(".vs-message-done p");

/** A flat profile with a slower wall, 24 readings. Invented. */
const READINGS = Array.from({ length: 24 }, (_, index) => [620, 700, 760, 800, 810, 770, 710, 640][index % 8] ?? 0);

const violations = (page: Page) => accessViolations(page, { include: ["#pane"], exclude: [] });

describe("a round duct, by the keyboard alone", () => {
  it("comes from an empty sheet to its airflow in a live formula, and is there again after a reload", async () => {
    const page = await openPane();
    expect(await page.locator("#pane").evaluate((pane) => pane.getBoundingClientRect().width)).toBe(PANE_WIDTH);
    await openMeasure(page);
    await tabTo(page, "Diameter");
    await page.keyboard.type("14");
    await page.locator(".vs-understood", { hasText: "= 14 in (356 mm)" }).waitFor();
    await tabTo(page, "Wall");
    await page.keyboard.type("1/2");
    await tabTo(page, /^Point 1 of 24/);
    await typeReadings(page, READINGS);
    // π/4 · (14/12)² = 1.06901 ft²; the mean of the eight readings is 726.25 fpm.
    expect(await airflow(page)).toMatch(/^776 cfm± /);
    await tabTo(page, "Put into sheet");
    await page.keyboard.press("Enter");
    await done(page).waitFor();
    expect(await done(page).textContent()).toContain("B3 shows 776 cfm.");
    await page.keyboard.press("Control+F6");
    const { read } = person(page);
    expect(await read("A2")).toBe("Diameter");
    expect(await read("B2")).toBe("14");
    expect(Number.parseFloat(await read("B3"))).toBeCloseTo(776.4, 0);
    expect(await read("E2")).toBe("620");

    await page.locator("#pane").getByRole("tab", { name: "Start" }).click();
    await page.reload();
    await person(page).isReady();
    await page.keyboard.press("Control+F6");
    // The pane has its tabs once it has read the workbook and the job; the focus is then on the tab.
    await page.locator("#pane [role=tab]:focus").waitFor();
    await openMeasure(page);
    await page.locator(".vs-status", { hasText: "All 24 points are taken." }).waitFor();
    expect(await airflow(page)).toMatch(/^776 cfm± /);
  });

  it("goes back with Backspace, tells blank, 0 and minus apart, and says at once what looks wrong", async () => {
    const page = await openPane();
    await openMeasure(page);
    await tabTo(page, "Diameter");
    await page.keyboard.type("10 1/4 in - 2*1/2 in");
    await page.locator(".vs-understood", { hasText: "= 9.25 in" }).waitFor();
    await tabTo(page, /^Point 1 of 18/);
    await typeReadings(page, [700, "", 0, -40, 710, 705]);
    await page.locator(".vs-warnings li", { hasText: "Point 4: reverse flow" }).waitFor();
    await page.locator(".vs-warnings li", { hasText: "Point 2 was not taken" }).waitFor();
    expect(await page.locator(".vs-result").textContent()).toContain("5 of 18");
    await page.keyboard.press("Backspace");
    await page.locator(".vs-reading label", { hasText: "Point 6 of 18" }).waitFor();
    expect(await page.locator(".vs-reading input").inputValue()).toBe("705");
    await page.keyboard.type("7oo");
    await page.keyboard.press("Enter");
    await page.locator(".vs-error", { hasText: "Enter a number" }).waitFor();
    await page.getByRole("tab", { name: "Start" }).click();
    await page.getByRole("tab", { name: "Measure" }).click();
    await page.locator(".vs-reading").waitFor();
    expect(await page.locator(".vs-reading input").inputValue()).toBe("7oo");
  });
});

describe("a face, by the keyboard alone", () => {
  it("is swept with the timer, twice, and put beside what is in use there only after a yes", async () => {
    const page = await openPane();
    await openMeasure(page);
    await tabTo(page, "Inside a duct");
    await page.keyboard.press("ArrowRight");
    await tabTo(page, "Round");
    await page.keyboard.press("ArrowRight");
    await tabTo(page, "Width");
    await page.keyboard.type("24");
    await tabTo(page, "Height");
    await page.keyboard.type("12");
    await tabTo(page, "Readings at points");
    await page.keyboard.press("ArrowRight");
    for (const velocity of ["400", "410"]) {
      await page.locator(".vs-timer button").focus();
      await page.keyboard.press("Space");
      await page.getByRole("timer").filter({ hasText: "1 s" }).waitFor();
      await page.keyboard.press("Enter");
      await page.keyboard.type(velocity);
    }
    await page.locator(".vs-understood", { hasText: "The sweeps differ by 2.5 %: agree." }).waitFor();
    // 24 x 12 in = 2 ft², 0.75 free: 1.5 ft² at some 405 fpm.
    expect(Number.parseInt((await airflow(page)) ?? "", 10)).toBeGreaterThan(598);
    expect(Number.parseInt((await airflow(page)) ?? "", 10)).toBeLessThan(617);
    await tabTo(page, "Put into sheet");
    await page.keyboard.press("Enter");
    await done(page).waitFor();
    await page.keyboard.press("Enter");
    await page.locator(".vs-message-failed", { hasText: "is in use" }).waitFor();
  });
});

describe("the selected row of a list, by the keyboard alone", () => {
  it("offers its size and factor, and takes the place of what is typed only at a press", async () => {
    const page = await openPane();
    await openPlain(page);
    await page.locator("#pane").getByRole("tab", { name: "Start" }).focus();
    await tabTo(page, "Add Room balance");
    await page.keyboard.press("Enter");
    await done(page).waitFor();
    await person(page).isReady();
    await page.locator("#cell", { hasText: "A1: Job details" }).waitFor();
    expect(await focused(page), "the pane asked for the sheets and keeps the focus").toBe("Add Room balance");
    // The sheets stand there in a grid of their own, which the keys find again.
    await page.keyboard.press("Control+F6");
    await page.keyboard.press("Shift+PageDown");
    await page.locator("#cell", { hasText: "A1: empty" }).waitFor();
    const row12 = { A12: "S2", F12: "14", G12: "6", J12: "390" };
    for (const [address, text] of Object.entries(row12)) await person(page).type(address, text);
    await person(page).type("A13", "S3");
    await person(page).type("F13", "10");
    await person(page).type("H13", "0.8");
    const offer = page.locator(".vs-known");

    await page.locator("#pane").getByRole("tab", { name: "Start" }).focus();
    await openMeasure(page);
    await tabTo(page, "Diameter");
    await page.keyboard.type("24");
    await page.keyboard.press("Control+F6");
    await person(page).goTo("A12");
    await offer.filter({ hasText: "Row 12, S2: 14 × 6 in, factor 0.75 (assumed)." }).waitFor();
    expect(
      await page.getByLabel("Diameter", { exact: true }).inputValue(),
      "another row starts empty, and nothing is taken unasked",
    ).toBe("");
    await page.keyboard.press("Control+F6");
    await tabTo(page, "Use this size");
    await page.keyboard.press("Enter");
    await offer.filter({ hasText: "Copied below." }).waitFor();
    expect(
      await page
        .getByRole("radio", { checked: true })
        .evaluateAll((all) => all.map((one) => one.parentElement?.textContent)),
    ).toEqual(["At a grille or register", "Rectangular", "Unknown", "Readings at points"]);
    await page.locator(".vs-understood", { hasText: "= 14 in (356 mm)" }).waitFor();
    await tabTo(page, /^Point 1 of 6/);
    await typeReadings(page, [400, 420, 380, 400, 400, 400]);
    // 14 × 6 in = 84 in², 0.5833 ft², 0.75 free, at 400 fpm.
    expect(await airflow(page)).toMatch(/^175 cfm± /);
    expect(await violations(page)).toEqual([]);

    for (const isFirst of [true, false]) {
      await tabTo(page, "Put into sheet");
      await page.keyboard.press("Enter");
      await page.getByRole("alertdialog", { name: "Replace existing values?" }).waitFor();
      await page.keyboard.press("Tab");
      expect(await focused(page), "the question has the focus").toBe("Replace it");
      if (isFirst) await page.keyboard.press("Tab");
      await page.keyboard.press("Enter");
      await page.getByRole("alertdialog").waitFor({ state: "detached" });
      expect(await focused(page), "and gives it back").toBe("Put into sheet");
    }
    await page.locator(".vs-message-done", { hasText: "shows 175 cfm." }).waitFor();

    await page.keyboard.press("Control+F6");
    await page.keyboard.press("ArrowDown");
    await offer.filter({ hasText: "Row 13, S3: 10 in round, factor 0.8." }).waitFor();
    expect(await offer.locator("[role=status]").textContent()).toBe("");
    expect(await page.getByLabel("Height").count(), "the size of S2 stays with S2").toBe(0);
    await person(page).goTo("A40");
    await offer.waitFor({ state: "detached" });
  });
});

describe("another workbook, opened while the pane is there", () => {
  const isOfWorkbook = (page: Page) => page.getByText("These are on the sheet of job details").waitFor();
  const isOfPane = (page: Page) => page.getByText("This workbook has no sheet of job details yet").waitFor();

  it("is asked for its own job details, and for none where it has none", async () => {
    const page = await openPane();
    await page.evaluate("delete window.showOpenFilePicker; delete window.showSaveFilePicker;");
    await isOfWorkbook(page);
    await filesOn(page).openTemplate("face-sweep.xlsx");
    await person(page).openSheet("Job");
    await person(page).type("B6", "House 12");
    await page.waitForFunction(() => document.querySelector<HTMLInputElement>("#pane input")?.value === "House 12");
    await filesOn(page).openTemplate("duct-traverse.xlsx");
    await page.waitForFunction(() => document.querySelector<HTMLInputElement>("#pane input")?.value === "");
    await isOfWorkbook(page);
    await openPlain(page);
    await isOfPane(page);
  });
});

const SCHEMES: readonly Media[] = [
  { colorScheme: "light", forcedColors: "none" },
  { colorScheme: "dark", forcedColors: "none" },
  { colorScheme: "light", forcedColors: "active" },
];

describe("the pane for everybody", () => {
  it("breaks no rule that a program can check, light, dark and in forced colours", async () => {
    const page = await openPane();
    const checkAll = async () => {
      for (const scheme of SCHEMES) {
        await showIn(page, scheme);
        expect(await violations(page), JSON.stringify(scheme)).toEqual([]);
      }
    };
    await checkAll();
    await openMeasure(page);
    await page.getByLabel("Diameter", { exact: true }).fill("14");
    await page.getByLabel("Wall").fill("thick");
    await page.locator(".vs-error", { hasText: "“thick”" }).waitFor();
    await page.getByLabel("Wall").fill("1");
    await page.locator(".vs-reading input").focus();
    await typeReadings(page, [700, "", -40, 4000, 710, 705]);
    await page.keyboard.type("7oo");
    await page.getByText("All points and readings").click();
    await page.getByRole("button", { name: "New measurement" }).click();
    await page.getByRole("button", { name: "Put into sheet" }).click();
    await done(page).waitFor();
    await checkAll();
    await page.getByRole("radio", { name: "At a grille or register" }).check();
    await page.getByRole("radio", { name: "Timed sweeps" }).check();
    await page.getByRole("button", { name: "Add a sweep" }).click();
    await checkAll();
  });

  it("has all its tabs on one line, whole, also beside a scroll bar, and whole on more lines at 200 % zoom", async () => {
    const page = await openPane();
    const tabs = page.locator("#pane [role=tab]");
    const lines = async () =>
      new Set(await tabs.evaluateAll((all) => all.map((tab) => tab.getBoundingClientRect().top))).size;
    const cut = () => tabs.evaluateAll((all) => all.filter((tab) => tab.scrollWidth > tab.clientWidth).length);
    // The widest bar is the one that counts a finding.
    await person(page).type("A1", '=VANE.AIRFLOW(400,"door shut")');
    await tabs.filter({ hasText: "1 finding" }).waitFor();
    for (const width of [PANE_WIDTH, PANE_WIDTH - SCROLL_BAR]) {
      await page
        .locator("#pane")
        .evaluate((pane, px) => Object.assign(pane.style, { width: px, flexBasis: px }), `${width}px`);
      for (const name of ["Start", "Measure", "Check", "Balance", "Share"]) {
        await page.getByRole("tab", { name }).click();
        expect(await lines(), `${name} at ${width} px`).toBe(1);
        expect(await cut(), `${name} at ${width} px`).toBe(0);
      }
    }
    await page.evaluate(() => Object.assign(document.documentElement.style, { fontSize: "200%" }));
    expect(await lines()).toBeGreaterThan(1);
    expect(await cut()).toBe(0);
  });

  it("needs no scrolling sideways at 200 % zoom", async () => {
    const page = await openPane({ viewport: { width: 640, height: 400 } });
    const overflow = () => page.locator("#pane").evaluate((pane) => pane.scrollWidth - pane.clientWidth);
    expect(await overflow()).toBe(0);
    await openMeasure(page);
    await page.getByLabel("Diameter", { exact: true }).fill("14");
    await page.locator(".vs-reading input").focus();
    await typeReadings(page, [700, 710]);
    expect(await overflow()).toBe(0);
    const below = () => page.evaluate(() => document.documentElement.scrollHeight - window.innerHeight);
    expect(await below(), "the pane scrolls, and not the page around it").toBe(0);
  });
});
