import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { HostError, type InteractiveHost } from "../../../src/workbook/index.js";
import { openWorkbook, readSheet } from "../../../src/xlsx/index.js";
import { pageHostOver } from "../../hosts/page/page-host-over.js";
import { jobBytes } from "../../workbook/rollup/made-job.js";
import { type BuiltPane, buildPane, openTab } from "./open-pane.js";
import { faultsInAnySetting } from "./pane-faults.js";

let pane: BuiltPane;

// A person's keys take a person's time, and other tests share the machine.
vi.setConfig({ testTimeout: 120_000 });

beforeAll(async () => {
  pane = await buildPane();
}, 300_000);

afterAll(() => pane?.close());

const blank = () => pageHostOver({ sheets: [{ name: "Mine", cells: { A1: 1 } }], names: {} });

const job = (index: number) => ({
  name: `job-${index}.xlsx`,
  mimeType: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
  buffer: Buffer.from(
    jobBytes(
      [80, 92, 97, 99, 101, 104, 118].map((percent) => ({ design: 100, before: percent + index, plusMinus: 9 })),
      { number: `J-${index}`, date: 46_000 + 31 * index },
      "ip",
      { Job_LimitMinus: 10, Job_LimitPlus: 10 },
    ),
  ),
});

const broken = { name: "notes.xlsx", mimeType: "text/plain", buffer: Buffer.from("no workbook at all") };

describe("the tab Share", () => {
  it("rolls chosen workbooks up, names the one that it left out, draws both charts and writes the summary", async () => {
    const page = await pane.open(blank());
    await openTab(page, "Share");
    await page.getByLabel("Workbooks", { exact: true }).setInputFiles([job(1), broken, job(2), job(3)]);
    await page.getByText("All 4 read.").waitFor();
    expect(await page.getByText("3 jobs, 21 outlets compared").count()).toBe(1);
    expect(await page.locator("li", { hasText: "notes.xlsx" }).count()).toBe(1);
    const headings = await page.locator("h3").allTextContents();
    expect(headings.filter((text) => /^(Together|Left out)/.test(text))).toEqual(["Together", "Left out: 1"]);
    expect(await page.getByRole("region", { name: "By instrument" }).count()).toBe(1);
    expect(
      await page.getByRole("img", { name: /^Number of outlets by percent of design\. 80 to 85 %: 3/ }).count(),
    ).toBe(1);
    expect(
      await page.getByRole("img", { name: /^Share of outlets inside their limits by month\. 2026-01/ }).count(),
    ).toBe(1);
    expect(await page.getByRole("row", { name: /^J-2/ }).count()).toBe(1);
    expect(await faultsInAnySetting(page, "share")).toEqual([]);
    const downloading = page.waitForEvent("download");
    await page.getByRole("button", { name: "Download the summary" }).press("Enter");
    const download = await downloading;
    expect(download.suggestedFilename()).toBe("Roll-up.xlsx");
    const workbook = openWorkbook(new Uint8Array(readFileSync(await download.path())), "Roll-up.xlsx");
    expect(workbook.sheets.map(({ name }) => name)).toContain("Jobs");
    expect(() => readSheet(workbook, "Jobs")).not.toThrow();
    await page.context().close();
  });

  it("opens the hand-off copy as a workbook and sets the sheet up for printing, where the host can", async () => {
    const opened: number[] = [];
    const bytes = new Uint8Array(readFileSync(resolve("templates/face-sweep.xlsx")));
    const host: InteractiveHost = {
      ...blank(),
      workbookBytes: async () => ({ bytes, name: "House 12.xlsx" }),
      async openWorkbook() {
        opened.push(1);
      },
      setUpPrint: () => Promise.reject(new HostError("The sheet was not set up for printing. “Mine” is empty.")),
    };
    const page = await pane.open(host);
    await openTab(page, "Share");
    await page.getByRole("button", { name: "Open the copy as a workbook" }).press("Enter");
    await page.getByText("plain formulas now").waitFor();
    expect(opened).toHaveLength(1);
    const downloading = page.waitForEvent("download");
    await page.getByRole("button", { name: "Download the copy" }).press("Enter");
    expect((await downloading).suggestedFilename()).toBe("House 12 (hand-off).xlsx");
    await page.getByRole("button", { name: "Set up the sheet in front" }).press("Enter");
    await page.getByRole("alert").filter({ hasText: "is empty" }).waitFor();
    await page.context().close();
  });
});
