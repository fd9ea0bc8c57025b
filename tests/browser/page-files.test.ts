import { mkdtemp, readFile, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import ExcelJS from "exceljs";
import { unzipSync } from "fflate";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { cellAt, openWorkbook, readSheet } from "../../src/xlsx/index.js";
import { filesOn, pageWithDownloads } from "./files-on-page.js";
import { type OpenWorkbook, outletCell, person, serveWorkbook } from "./open-workbook.js";

let workbook: OpenWorkbook;
let page: Page;

// A person's keys take a person's time, and other tests share the machine.
vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });

/** One page for all: each opens the file that it is about. */
beforeAll(async () => {
  workbook = await serveWorkbook();
  page = await pageWithDownloads(workbook);
});

afterAll(() => workbook.close());

describe("files on the page", () => {
  it("prints the sheet in view as a table whose heading repeats, with the verdicts", async () => {
    await page.evaluate("window.print = () => undefined");
    await page.locator("#print").click();
    const printed = page.locator("#printed table");
    const heading = (await printed.locator("thead").textContent()) ?? "";
    expect(heading).toContain("Verdict");
    const verdict = printed.locator("tbody td", { hasText: /^low$/ }).first();
    expect(await verdict.evaluate((cell) => (cell as HTMLElement).style.backgroundColor)).toBe("rgb(252, 224, 194)");
    await page.emulateMedia({ media: "print" });
    expect(await printed.isVisible()).toBe(true);
    expect(await page.locator("#workbook").isVisible()).toBe(false);
    await page.emulateMedia({ media: null });
  });

  it("prints the charts of a sheet in the place of the cells that they cover", async () => {
    await filesOn(page).openTemplate("demonstration.xlsx");
    await person(page).openSheet("Chart");
    await person(page).hasDrawn();
    await page.evaluate(() => {
      window.print = () => {
        const picture = document.querySelector<HTMLImageElement>("#printed figure img");
        document.body.dataset["printed"] = `${picture?.complete} ${(picture?.naturalWidth ?? 0) > 500}`;
      };
    });
    await page.locator("#print").click();
    await page.locator("body[data-printed]").waitFor({ state: "attached" });
    expect(await page.locator("body").getAttribute("data-printed")).toBe("true true");
    const chart = page.locator("#printed tbody figure");
    expect(await chart.getAttribute("aria-label")).toContain("Percent of design by outlet");
    // Above the columns of limits, as on the sheet.
    const rows = await page
      .locator("#printed tbody > tr")
      .evaluateAll((lines) =>
        lines.map((line) => (line.querySelector("figure") === null ? line.textContent : "chart")),
      );
    expect(rows.indexOf("chart")).toBeLessThan(rows.findIndex((text) => text?.includes("Lower limit")));
    await page.evaluate("window.print = () => undefined");
  });

  it("opens a workbook, takes entries, saves them into its bytes, and has all of it after a reload", async () => {
    const { type, read, isReady, openSheet } = person(page);
    await filesOn(page).openTemplate("room-balance.xlsx");
    await openSheet("Outlets");
    for (const [address, text] of Object.entries({ A9: "S-1", F9: "12", G9: "6", H9: "0.75", I9: "100", J9: "200" })) {
      await type(address, text);
    }
    expect(await read(outletCell("Airflow", 9))).toBe("75.0");
    await person(page).goTo("F10");
    expect(await page.locator("#hint").textContent()).toContain("Clear width inside the frame");
    await page.locator("#kept", { hasText: "kept in this browser" }).waitFor();
    await page.waitForTimeout(500);
    await page.reload();
    await isReady();
    expect(await read(outletCell("Airflow", 9))).toBe("75.0");
    const bytes = await filesOn(page).downloaded(() => page.locator("#save").click());
    const before = unzipSync(await readFile("templates/room-balance.xlsx"));
    const after = unzipSync(bytes);
    const changed = Object.keys(after).filter(
      (name) => !Buffer.from(after[name] ?? []).equals(Buffer.from(before[name] ?? [])),
    );
    expect(changed.every((name) => name.startsWith("xl/worksheets/sheet"))).toBe(true);
    expect(Object.keys(after).sort()).toEqual(Object.keys(before).sort());
    const saved = readSheet(openWorkbook(bytes, "saved.xlsx"), "Outlets");
    expect(cellAt(saved, outletCell("Airflow", 9))?.value).toBeCloseTo(75, 9);
    expect(cellAt(saved, outletCell("Verdict", 9))?.value).toBe("low");
  });

  it("says what is wrong with a file, and leaves the workbook in view alone", async () => {
    const path = join(await mkdtemp(join(tmpdir(), "vanesheet-files-")), "notes.xlsx");
    await writeFile(path, "outlet,velocity\nS-1,400\n");
    const inView = await page.locator("#title").textContent();
    await filesOn(page).choose(path);
    const dialog = page.locator("dialog");
    await dialog.waitFor();
    expect(await dialog.textContent()).toContain("notes.xlsx");
    await dialog.locator("button").click();
    expect(await page.locator("#title").textContent()).toBe(inView);
  });

  it("opens a file that is dropped anywhere, and shows where while it is over the page", async () => {
    const bytes = [...(await readFile("templates/face-sweep.xlsx"))];
    const transfer = await page.evaluateHandle((content) => {
      const made = new DataTransfer();
      made.items.add(new File([new Uint8Array(content)], "dropped.xlsx"));
      return made;
    }, bytes);
    await page.dispatchEvent("#workbook", "dragenter", { dataTransfer: transfer });
    expect(await page.locator("#drop").isVisible()).toBe(true);
    await page.dispatchEvent("#workbook", "drop", { dataTransfer: transfer });
    await page.locator("#title", { hasText: "dropped.xlsx" }).waitFor();
    expect(await page.locator("#drop").isVisible()).toBe(false);
    expect(await page.locator(".o-sheet").allTextContents()).toContain("Job");
  });

  it("writes a new file where the file cannot follow, says what that leaves out, and spells calls as files do", async () => {
    await filesOn(page).openTemplate("duct-traverse.xlsx");
    await person(page).copyLooks();
    await page.locator("#save").click();
    const dialog = page.locator("dialog");
    await dialog.waitFor();
    expect(await dialog.textContent()).toMatch(/fonts, fills and borders.*leaves out:.*sheet protection/s);
    const bytes = await filesOn(page).downloaded(() =>
      page.getByRole("button", { name: "Save as a new file" }).click(),
    );
    const written = openWorkbook(bytes, "new.xlsx");
    expect(written.names.find(({ name }) => name === "Job_Units")).toMatchObject({
      refersTo: expect.stringMatching(/^Job!\$[A-Z]+\$\d+$/),
    });
    const parts = Object.entries(unzipSync(bytes)).filter(([name]) => name.startsWith("xl/worksheets/sheet"));
    const formulas = parts.map(([, part]) => Buffer.from(part).toString("utf8")).join("");
    expect(formulas).toContain("_xldudf_VANE_");
    expect(formulas).not.toContain("VANE.");
    // Rules on input: only what the format lists (ECMA-376-1:2016, 18.18.18), and a strict reader takes them.
    expect(formulas).toContain("<dataValidation ");
    for (const [, style] of formulas.matchAll(/\serrorStyle="([^"]*)"/g)) {
      expect(["stop", "warning", "information"]).toContain(style);
    }
    const strict = new ExcelJS.Workbook();
    await strict.xlsx.load(Buffer.from(bytes) as never);
    const kind = strict.getWorksheet("Duct traverse")?.getCell("B8").dataValidation;
    expect(kind).toMatchObject({ type: "list", formulae: ['"velocity,pressure"'] });
  });

  it("keeps a name for a cell, given in the box of names, in the file that was opened", async () => {
    await filesOn(page).openTemplate("duct-traverse.xlsx");
    const before = new Uint8Array(await readFile("templates/duct-traverse.xlsx"));
    await person(page).nameCell("Main_duct");
    const bytes = await filesOn(page).downloaded(() => page.locator("#save").click());
    expect(await page.locator("dialog").count()).toBe(0);
    const [was, is] = [unzipSync(before), unzipSync(bytes)];
    const changed = Object.keys(is).filter((part) => !Buffer.from(is[part] ?? []).equals(Buffer.from(was[part] ?? [])));
    expect(changed).toEqual(["xl/workbook.xml"]);
    const { names } = openWorkbook(bytes, "saved.xlsx");
    expect(names.find(({ name }) => name === "Main_duct")?.refersTo).toBe("Job!$A$1");
  });

  it("refuses a name that no file may hold as it is typed", async () => {
    await person(page).nameCell("C");
    const refusal = page.locator("dialog", { hasText: "Begin a name with a letter" });
    await refusal.waitFor();
    await refusal.getByRole("button", { name: "OK" }).click();
  });

  it("hands a copy over in which every call is a plain formula", async () => {
    await filesOn(page).openTemplate("before-after.xlsx");
    const bytes = await filesOn(page).downloaded(() => page.locator("#hand-off").click());
    const parts = Object.values(unzipSync(bytes)).map((part) => Buffer.from(part).toString("utf8"));
    expect(parts.join("")).not.toContain("_xldudf_");
    expect(openWorkbook(bytes, "copy.xlsx").sheets.at(-1)?.name).toBe("Hand-off note");
  });
});
