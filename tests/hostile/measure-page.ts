/*
 * Opens hostile workbooks, and large ones, on the built page in a real browser, and measures how long the page does not
 * answer: node build/tests/hostile/measure-page.js [words of titles]
 *
 * A block is one task of the page's main thread, in processor time, which other work on the machine does not stretch; the
 * clock's time is beside it. The large workbooks are calculated by the command line in the same run, for comparison.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import type { Browser, Page } from "playwright-core";
import { outletsWorkbook } from "../../src/tools/bench/outlets-workbook.js";
import { filesOn, pageWithDownloads } from "../browser/files-on-page.js";
import { person, serveWorkbook } from "../browser/open-workbook.js";
import { hostileInputs } from "./hostile-inputs.js";

const COMMAND = resolve(import.meta.dirname, "../../../src/cli/vanesheet.mjs");
const PATIENCE_MS = 180_000;

/** A task of a thread, as the browser traces it [µs]. */
interface TraceEvent {
  readonly name: string;
  readonly pid: number;
  readonly tid: number;
  readonly dur?: number;
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

interface Blocks {
  readonly longestMs: number;
  readonly longestByClockMs: number;
  /** Of all tasks of the main thread together [ms]. */
  readonly busyMs: number;
}

/** Does something on the page, and says how long its main thread was kept. */
async function traced(browser: Browser, page: Page, act: () => Promise<void>): Promise<Blocks> {
  await browser.startTracing(page, { categories: ["disabled-by-default-devtools.timeline", "__metadata"] });
  try {
    await act();
  } finally {
    // The events are read below; without a trace that was ended the next cannot begin.
    lastTrace = await browser.stopTracing();
  }
  const { traceEvents } = JSON.parse(lastTrace.toString()) as { readonly traceEvents: readonly TraceEvent[] };
  const mains = new Set(
    traceEvents
      .filter(({ name, args }) => name === "thread_name" && args?.name === "CrRendererMain")
      .map(({ pid, tid }) => `${pid} ${tid}`),
  );
  const tasks = traceEvents.filter(({ name, pid, tid }) => name === "RunTask" && mains.has(`${pid} ${tid}`));
  const most = (of: (task: TraceEvent) => number | undefined) =>
    tasks.reduce((longest, task) => Math.max(longest, of(task) ?? 0), 0) / 1000;
  return {
    longestMs: most(({ tdur }) => tdur),
    longestByClockMs: most(({ dur }) => dur),
    busyMs: tasks.reduce((sum, { tdur = 0 }) => sum + tdur, 0) / 1000,
  };
}
let lastTrace: Buffer = Buffer.alloc(0);

/** Opens a file, and returns what the page says when it was refused. */
async function opened(page: Page, path: string): Promise<string> {
  await filesOn(page).choose(path);
  const refusal = page.locator("dialog.question p");
  const title = page.locator("#title", { hasText: "in.xlsx" });
  await title.or(refusal).first().waitFor({ timeout: PATIENCE_MS });
  if (await refusal.isVisible()) return (await refusal.textContent()) ?? "";
  await page.locator("#busy").waitFor({ state: "hidden", timeout: PATIENCE_MS });
  await person(page).isReady();
  return "";
}

const words = process.argv.slice(2);
const isWanted = (title: string) => words.every((word) => title.includes(word));
const shown = ({ longestMs, longestByClockMs, busyMs }: Blocks) =>
  `longest block ${longestMs.toFixed(0)} ms (${longestByClockMs.toFixed(0)} by the clock), main thread ${busyMs.toFixed(0)} ms in all`;

const folder = mkdtempSync(join(tmpdir(), "measure-page-"));
const workbook = await serveWorkbook();
try {
  for (const { title, prepare } of hostileInputs.filter(({ group }) => group === "calculation")) {
    if (!title.startsWith("calc: ") || !isWanted(title)) continue;
    prepare(folder);
    const page = await pageWithDownloads(workbook);
    let said = "";
    const blocks = await traced(workbook.browser, page, async () => {
      said = await opened(page, join(folder, "in.xlsx"));
    });
    console.log(`${title.slice("calc: ".length)}: ${shown(blocks)}; ${said === "" ? "opened" : said}`);
    await page.context().close();
  }
  for (const outlets of [2_000, 20_000]) {
    const title = `${outlets} outlets`;
    if (!isWanted(title)) continue;
    const path = join(folder, "in.xlsx");
    writeFileSync(path, outletsWorkbook(outlets));
    const measured = join(folder, "measured");
    const timed = ["-f", "%U %S %e", "-o", measured, process.execPath, COMMAND, "calc", path, "--dry-run"];
    spawnSync("/usr/bin/time", timed);
    const [user = 0, system = 0, clock = 0] = readFileSync(measured, "utf8").trim().split(/\s+/).map(Number);
    const page = await pageWithDownloads(workbook);
    const begun = performance.now();
    const opening = await traced(workbook.browser, page, async () => void (await opened(page, path)));
    const seconds = (performance.now() - begun) / 1000;
    console.log(
      `${title}: opened in ${seconds.toFixed(1)} s, ${shown(opening)}; calc ${clock.toFixed(1)} s, ${(user + system).toFixed(1)} s of processor time`,
    );
    const entries = { E5: "377", E6: "377", "J1, which every row reads": "160" };
    for (const [place, text] of Object.entries(entries)) {
      await person(page).goTo(place.replace(/,.*/, ""));
      const entry = await traced(workbook.browser, page, async () => {
        await page.keyboard.type(text);
        await page.keyboard.press("Enter");
        await page.waitForTimeout(text === "160" ? 10_000 : 2_000);
      });
      console.log(`${title}, an entry in ${place}: ${shown(entry)}`);
    }
    const cdp = await page.context().newCDPSession(page);
    await cdp.send("HeapProfiler.collectGarbage");
    const { usedSize } = await cdp.send("Runtime.getHeapUsage");
    console.log(`${title}: ${(usedSize / 2 ** 20).toFixed(0)} MB of the tab's heap`);
    await page.context().close();
  }
} finally {
  await workbook.close();
  rmSync(folder, { recursive: true });
}
