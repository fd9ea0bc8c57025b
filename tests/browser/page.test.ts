import type { BrowserContext, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from "vitest";
import { type OpenWorkbook, outletCell, person, roomCell, serveWorkbook } from "./open-workbook.js";

let workbook: OpenWorkbook;
let context: BrowserContext;
let page: Page;
let requests: string[];
let failures: string[];

// A person's keys take a person's time, and other tests share the machine.
vi.setConfig({ testTimeout: 120_000 });

beforeAll(async () => {
  workbook = await serveWorkbook();
});

afterAll(() => workbook.close());

beforeEach(async () => {
  requests = [];
  failures = [];
  context = await workbook.browser.newContext({ viewport: { width: 1280, height: 720 }, serviceWorkers: "block" });
  page = await context.newPage();
  page.on("request", (request) => requests.push(request.url()));
  page.on("pageerror", (error) => failures.push(String(error)));
  await page.goto(workbook.served.address);
  await person(page).isReady();
});

afterEach(async () => {
  await context.close();
  const outside = requests.filter((url) => !url.startsWith(workbook.served.address) && !/^(?:data|blob):/.test(url));
  expect(outside, "requests to another address").toEqual([]);
  expect(failures, "errors of the page").toEqual([]);
});

describe("the local workbook page", () => {
  it("opens the demonstration job with its results", async () => {
    const { read } = person(page);
    expect(await page.locator("#title").textContent()).toBe("Demonstration.xlsx");
    expect(await read(outletCell("Airflow", 9))).toBe("108.6");
    expect(await read(outletCell("Verdict", 10))).toBe("low");
    expect(await read(outletCell("Airflow", 21))).toBe("empty");
    expect(await read(outletCell("Factor source", 12))).toBe("assumed");
  });

  it("changes what depends on a reading, and has it still after a reload", async () => {
    const { type, read, openSheet, isReady } = person(page);
    for (const column of ["J", "K", "L", "M", "N", "O"]) await type(`${column}21`, "200");
    // A round face of 6 in, free to 0.8: π/4 · 0.25 ft² · 0.8 · 200 fpm.
    expect(await read(outletCell("Average velocity", 21))).toBe("200.0");
    expect(await read(outletCell("Airflow", 21))).toBe("31.4");
    expect(await read(outletCell("Verdict", 21))).toBe("within");
    await openSheet("Rooms");
    expect(await read(roomCell("Verdict", 16))).toBe("within");
    await page.locator("#kept", { hasText: "kept in this browser" }).waitFor();
    await page.waitForTimeout(500);
    await page.reload();
    await isReady();
    await openSheet("Outlets");
    expect(await read("J21")).toBe("200");
    expect(await read(outletCell("Verdict", 21))).toBe("within");
  });

  it("says what is wrong with an input, in the cell and under the grid", async () => {
    const { type, read, addSheet } = person(page);
    await addSheet();
    await type("J42", "door shut");
    await type("K42", "400");
    await type("U42", "=VANE.AIRFLOW.FACE(12,6,J42:K42,0.75,COUNT(J42:K42))");
    expect(await read("U42")).toBe("#VALUE! – readings, row 1, column 1, holds the text “door shut”. Enter a number.");
    const strip = page.locator("#strip-text", { hasText: "door shut" });
    await strip.waitFor();
    expect(await strip.textContent()).toContain("U42");
    await type("J42", "260");
    await strip.waitFor({ state: "hidden" });
  });

  it("gives 400 fpm and 900 cfm for the published nine-point traverse", async () => {
    // NAVFAC MO-114, traverse of an 18 x 18 in duct: the same numbers as in shared/cases.
    const { type, read } = person(page);
    await page.locator(".o-sheet", { hasText: /^Duct traverse$/ }).click();
    const grid = [
      [300, 450, 300],
      [450, 600, 450],
      [300, 450, 300],
    ];
    for (const [row, readings] of grid.entries()) {
      for (const [column, reading] of readings.entries()) {
        await type(`${"DFH"[row]}${25 + column}`, String(reading));
      }
    }
    expect(await read("N10")).toBe("400.0");
    expect(await read("N11")).toBe("900.0");
  });

  it("offers the functions by name and tells their arguments", async () => {
    const { goTo, addSheet } = person(page);
    await addSheet();
    await goTo("I45");
    await page.keyboard.type("=VANE.AIRFLOW.F");
    await page.locator(".o-autocomplete-dropdown", { hasText: "VANE.AIRFLOW.FACE" }).waitFor();
    await page.keyboard.type("ACE(");
    const help = page.locator(".o-formula-assistant", { hasText: "readings" });
    await help.waitFor();
    expect(await help.textContent()).toContain("[factor]");
  });

  it("starts the demonstration over when asked, and forgets what was typed", async () => {
    const { type, read } = person(page);
    await type("J9", "999");
    await page.locator("#new").click();
    await page.getByRole("button", { name: "Start: Demonstration" }).click();
    await page.getByRole("button", { name: "Go on without saving" }).click();
    await page.locator("dialog").waitFor({ state: "detached" });
    await page.locator("#cell", { hasText: "A1" }).waitFor();
    expect(await read("J9")).toBe("260");
  });

  it("says so when the browser cannot keep the changes", async () => {
    await page.evaluate(() => {
      IDBObjectStore.prototype.put = () => {
        throw new Error("The disk is full.");
      };
    });
    await person(page).type("J9", "270");
    const kept = page.locator("#kept.failed");
    await kept.waitFor();
    expect(await kept.textContent()).toContain("storage is full.");
  });

  it("opens the pane beside the grid by a key, takes the focus there, and gives it back", async () => {
    const focused = () => page.evaluate(() => document.activeElement?.id);
    await page.locator("#pane-toggle").press("Enter");
    const pane = page.locator("#pane");
    await pane.waitFor();
    expect(await page.evaluate(() => document.activeElement?.closest("#pane") !== null)).toBe(true);
    const grid = await page.locator("#workbook").boundingBox();
    expect((await pane.boundingBox())?.x).toBeCloseTo((grid?.x ?? 0) + (grid?.width ?? 0), 0);
    await page.keyboard.press("Escape");
    await pane.waitFor({ state: "hidden" });
    expect(await focused()).toBe("pane-toggle");
  });

  it("leaves the keeping to the first tab where two are open", async () => {
    const second = await context.newPage();
    await second.goto(workbook.served.address);
    await person(second).isReady();
    expect(await second.locator("#kept.failed").textContent()).toContain("another tab");
  });
});

describe("the server of the page", () => {
  it("answers under its own name only, and gives no file outside its folder", async () => {
    const { address, port } = workbook.served;
    const { request } = await import("node:http");
    const status = (path: string, host: string) =>
      new Promise<number>((resolve, reject) => {
        request({ host: "127.0.0.1", port, path, headers: { host } }, (response) => {
          response.resume();
          resolve(response.statusCode ?? 0);
        })
          .on("error", reject)
          .end();
      });
    const own = new URL(address).host;
    expect(await status("/", own)).toBe(200);
    expect(await status("/", "attacker.example")).toBe(403);
    expect(await status("/../../package.json", own)).toBe(404);
    expect(await status("/%2e%2e/%2e%2e/package.json", own)).toBe(404);
  });
});
