import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import type { Browser, Locator, Page } from "playwright-core";
import { servePage } from "../../cli/page/serve-page.js";
import { launchBrowser } from "../launch-browser.js";

/*
 * `npm run pictures`: the pictures of the README and of docs/walks.md, taken anew from the program as it is built. The
 * roll-up is drawn by LibreOffice, and its page by pdftoppm (poppler-utils).
 * What they show is the demonstration job and generated jobs, both invented.
 */

const PICTURES = join("docs", "pictures");
const COMMAND = resolve("dist", "cli", "vanesheet.cjs");
const SIZE = { width: 1366, height: 768 };
/** Enough for the headings and the first rows. */
const STRIP_HEIGHT = 480;
const PORT = 18_390;
const FACE_READINGS = [305, 330, "", 0, 318, 296];
const DUCT_READINGS = Array.from(
  { length: 24 },
  (_, index) => [620, 700, 760, 800, 810, 770, 710, 640][index % 8] ?? 0,
);

const folder = mkdtempSync(join(tmpdir(), "pictures-"));
const inFolder = (name: string): string => join(folder, name);

function vanesheet(...args: readonly string[]): void {
  try {
    execFileSync(process.execPath, [COMMAND, ...args], { cwd: folder, stdio: "ignore" });
  } catch (cause) {
    // A roll-up that has something to look at ends with 1, as it should.
    if ((cause as { status?: number }).status !== 1) throw cause;
  }
}

async function openPage(browser: Browser, address: string): Promise<Page> {
  const context = await browser.newContext({ viewport: SIZE });
  const page = await context.newPage();
  await page.addInitScript("delete window.showOpenFilePicker; delete window.showSaveFilePicker;");
  await page.goto(address);
  await page.locator(".o-grid canvas").first().waitFor();
  await page.locator("#cell").filter({ hasText: ":" }).waitFor();
  return page;
}

async function openFile(page: Page, path: string, name: string): Promise<void> {
  const chooser = page.waitForEvent("filechooser");
  await page.locator("#open").click();
  await (await chooser).setFiles(path);
  await page.locator("#title", { hasText: name }).waitFor();
  await page.locator("#busy").waitFor({ state: "hidden" });
}

async function goTo(page: Page, sheet: string, address: string): Promise<void> {
  await page.locator(".o-sheet", { hasText: new RegExp(`^\\s*${sheet}\\s*$`) }).click();
  const place = page.locator(".o-named-range-selector input");
  await place.click();
  await place.fill(address);
  await place.press("Enter");
  await page
    .locator("#cell")
    .filter({ hasText: `${address}:` })
    .waitFor();
}

async function openTab(page: Page, name: string): Promise<Locator> {
  const pane = page.locator("#pane");
  if (await pane.isHidden()) await page.locator("#pane-toggle").click();
  await pane.getByRole("tab", { name }).click();
  return pane;
}

async function typeReadings(page: Page, readings: readonly (number | string)[]): Promise<void> {
  await page.locator(".vs-reading input").focus();
  for (const reading of readings) {
    await page.keyboard.type(String(reading));
    await page.keyboard.press("Enter");
  }
  await page.locator(".vs-airflow").waitFor();
}

async function take(page: Page, name: string): Promise<void> {
  // The pane follows the sheet a moment later.
  await page.waitForTimeout(800);
  await page.screenshot({ path: join(PICTURES, `${name}.png`) });
}

/** The face of an outlet whose size is in its row, measured in the pane. */
async function takeFace(page: Page): Promise<void> {
  await goTo(page, "Outlets", "A12");
  const pane = await openTab(page, "Measure");
  await pane.getByRole("button", { name: "Use this size" }).click();
  await pane.locator(".vs-known").filter({ hasText: "Copied below." }).waitFor();
  await take(page, "tech-size");
  await typeReadings(page, FACE_READINGS);
  await pane.locator(".vs-airflow").scrollIntoViewIfNeeded();
  await take(page, "tech-face");
}

async function takeTraverse(page: Page): Promise<void> {
  await goTo(page, "Duct traverse notes", "A1");
  const pane = await openTab(page, "Measure");
  await pane.getByRole("radio", { name: "Inside a duct" }).check();
  await pane.getByRole("radio", { name: "Round" }).check();
  await pane.getByLabel("Diameter", { exact: true }).fill("14");
  await typeReadings(page, DUCT_READINGS.slice(0, 17));
  await pane.getByRole("heading", { name: "Readings" }).evaluate((heading) => heading.scrollIntoView());
  await take(page, "tech-traverse");
}

/** The same cell of a sheet and of its hand-off copy, one above the other. */
async function takeHandoff(browser: Browser, page: Page): Promise<void> {
  const copy = inFolder("demonstration (hand-off).xlsx");
  vanesheet("handoff", resolve("templates", "demonstration.xlsx"), "-o", copy);
  const strips: string[] = [];
  for (const path of [join("templates", "demonstration.xlsx"), copy]) {
    await openFile(page, path, path.slice(path.lastIndexOf("/") + 1));
    if (await page.locator("#pane").isVisible()) await page.locator("#pane-toggle").click();
    await goTo(page, "Outlets", "U12");
    await page.waitForTimeout(800);
    const bytes = await page.screenshot({ clip: { x: 0, y: 0, width: SIZE.width, height: STRIP_HEIGHT } });
    strips.push(bytes.toString("base64"));
  }
  const composed = await browser.newPage({ viewport: { width: SIZE.width, height: 2 * STRIP_HEIGHT + 8 } });
  const images = strips.map((bytes) => `<img src="data:image/png;base64,${bytes}" width="${SIZE.width}">`);
  await composed.setContent(`<body style="margin:0;display:grid;gap:8px;background:#17414f">${images.join("")}</body>`);
  await composed.screenshot({ path: join(PICTURES, "handoff.png") });
  await composed.close();
}

function takeRollup(): void {
  execFileSync(process.execPath, [
    join("build", "src", "tools", "rollup", "make-jobs.js"),
    inFolder("jobs"),
    "30",
    "20",
  ]);
  vanesheet("rollup", "jobs", "-o", "summary.xlsx");
  const quiet = { stdio: "ignore" } as const;
  execFileSync("soffice", ["--headless", "--convert-to", "pdf", "--outdir", folder, inFolder("summary.xlsx")], quiet);
  const firstPage = ["-png", "-singlefile", "-r", "90", inFolder("summary.pdf"), join(PICTURES, "manager-summary")];
  execFileSync("pdftoppm", firstPage, quiet);
}

mkdirSync(PICTURES, { recursive: true });
const served = await servePage(join("dist", "page"), PORT);
const browser = await launchBrowser();
try {
  const page = await openPage(browser, served.address);
  await openFile(page, join("templates", "demonstration.xlsx"), "demonstration.xlsx");
  await goTo(page, "Rooms", "A6");
  await take(page, "estimator-rooms");
  await goTo(page, "Outlets", "A9");
  await take(page, "estimator-outlets");
  await goTo(page, "Outlets", "A9");
  await openTab(page, "Balance");
  await take(page, "tech-balance");
  await takeFace(page);
  await takeTraverse(page);
  await takeHandoff(browser, page);
  takeRollup();
  for (const name of ["estimator-rooms", "tech-face", "handoff", "manager-summary"]) {
    const { length } = readFileSync(join(PICTURES, `${name}.png`));
    console.log(`${name}.png, ${Math.round(length / 1000)} kB`);
  }
} finally {
  await browser.close();
  await served.close();
  rmSync(folder, { recursive: true, force: true });
}
