import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { pageHostOver } from "../../hosts/page/page-host-over.js";
import { type BuiltPane, buildPane, openTab } from "./open-pane.js";
import { faultsInAnySetting, picture } from "./pane-faults.js";

let pane: BuiltPane;

// A person's keys take a person's time, and other tests share the machine.
vi.setConfig({ testTimeout: 120_000 });

beforeAll(async () => {
  pane = await buildPane();
}, 300_000);

afterAll(() => pane?.close());

const blank = () => pageHostOver({ sheets: [{ name: "Mine", cells: { A1: 1 } }], names: {} });

/** An invented log: idle, 40 s at a grille with one status text and one gap, idle. Its day and month are ambiguous. */
const LOG = [
  "Invented log",
  "Date;Velocity (m/s);Temperature (°C)",
  ...Array.from({ length: 50 }, (_, second) => {
    const isIdle = second < 5 || second >= 45;
    const velocity = second === 20 ? "OL" : isIdle ? "0,00" : (2 + 0.5 * Math.sin(second)).toFixed(2).replace(".", ",");
    return second === 30 ? null : `03/04/2025 10:00:${String(second).padStart(2, "0")};${velocity};21,4`;
  }).filter((row) => row !== null),
].join("\r\n");

async function openLogger(page: Page): Promise<void> {
  await openTab(page, "Measure");
  await page.getByRole("radio", { name: "Inside a duct" }).focus();
  await page.keyboard.press("ArrowRight");
  await page.getByRole("radio", { name: "Rectangular" }).focus();
  await page.keyboard.press("Space");
  await page.getByRole("radio", { name: "Timed sweeps" }).focus();
  await page.keyboard.press("Space");
  await page.getByText("Sweeps from a logger file").focus();
  await page.keyboard.press("Enter");
  const file = { name: "sweep.csv", mimeType: "text/csv", buffer: Buffer.from(LOG, "latin1") };
  await page.getByLabel("Logger file", { exact: false }).setInputFiles(file);
}

describe("a sweep from a logger file", () => {
  it("asks, plots, takes a sweep and puts it into the sheet, by keyboard in a narrow pane", async () => {
    const host = blank();
    await host.select({ sheet: "Mine", range: "A5" });
    const page = await pane.open(host);
    await openLogger(page);
    const form = page.getByLabel("Form of the times");
    await form.waitFor();
    await page.getByText("Does the day or the month come first in 03/04/2025?").waitFor();
    expect(await page.getByRole("img", { name: /Velocity over time/ }).count()).toBe(0);
    await form.focus();
    await page.keyboard.type("date, m");
    await page.getByRole("img", { name: /^Velocity over time, 48 readings in 49 s, from 0.00 to 492 fpm/ }).waitFor();
    expect(await page.getByText("Without the readings near zero: 5 at the beginning and 5 at the end.").count()).toBe(
      1,
    );
    expect(await form.evaluate((field) => field === document.activeElement)).toBe(true);
    expect(await page.getByText("1 gap, the longest 2 s.").count()).toBe(1);
    expect(await page.getByText("status: row 23 “OL”").count()).toBe(1);
    await page.getByText("What was found, to look at and to change").focus();
    await page.keyboard.press("Enter");
    expect(await page.getByLabel("Encoding").inputValue()).toBe("windows-1252");
    expect(await faultsInAnySetting(page, "logger")).toEqual([]);
    await page.getByText("What was found, to look at and to change").press("Enter");

    const start = page.getByRole("slider", { name: "Start, on the plot" });
    await start.focus();
    for (let press = 0; press < 5; press += 1) await page.keyboard.press("ArrowRight");
    expect(await page.getByLabel("Start", { exact: true }).inputValue()).toBe("10");
    await page.getByLabel("End", { exact: true }).fill("10:00:40");
    await page.getByRole("img", { name: /Taken: 10.0 s to 40.0 s\.$/ }).waitFor();
    await picture(page, "logger-picked");
    await page.getByRole("button", { name: "Take as sweep" }).press("Enter");
    expect(await page.getByLabel("Time", { exact: true }).inputValue()).toBe("30");
    const mean = Number(await page.getByLabel("Sweep 1, average").inputValue());
    // 2 m/s and whole swings of a sine about it: within a tenth of 394 fpm.
    expect(mean).toBeGreaterThan(354);
    expect(mean).toBeLessThan(433);

    await page.getByLabel("Width", { exact: true }).fill("24");
    await page.getByLabel("Height", { exact: true }).fill("12");
    // 24 in by 12 in are 2 ft2, of which 0.75 is free where nobody knows the factor.
    const airflow = await page.locator(".vs-airflow dd").textContent();
    expect(Math.abs(Number.parseFloat(airflow ?? "") - mean * 1.5)).toBeLessThan(1);
    await page.getByRole("button", { name: "Put into sheet" }).press("Enter");
    await page.locator(".vs-message-done").waitFor();
    const [block] = await host.read([{ sheet: "Mine", range: "A1:L40" }]);
    expect(block?.values.flat()).toEqual(expect.arrayContaining([mean, 30]));
    await page.context().close();
  });

  it("finds the sweeps of several logs, and takes those that are ticked in one go", async () => {
    const page = await pane.open(blank());
    await openLogger(page);
    const rest = Array.from({ length: 20 }, () => 1);
    const steady = (fpm: number) => Array.from({ length: 30 }, (_, index) => fpm + (index % 3));
    const csv = (velocities: readonly number[]) =>
      Buffer.from(["Time (s),Velocity (fpm)", ...velocities.map((one, second) => `${second},${one}`)].join("\n"));
    const files = [
      { name: "a.csv", velocities: [...steady(399), ...rest, ...steady(515), ...rest, ...steady(599)] },
      { name: "b.csv", velocities: [...steady(299), ...rest, ...steady(319)] },
    ].map(({ name, velocities }) => ({ name, mimeType: "text/csv", buffer: csv(velocities) }));
    await page.getByLabel("Logger file", { exact: false }).setInputFiles(files);
    const first = page.getByRole("region", { name: "a.csv" });
    await first.getByRole("checkbox", { name: "Sweep 2: 516 fpm in 29 s" }).press("Space");
    expect(await faultsInAnySetting(page, "logger-sweeps")).toEqual([]);
    await first.getByRole("button", { name: "Take 2 sweeps" }).press("Enter");
    await page.getByRole("region", { name: "b.csv" }).getByRole("button", { name: "Take 2 sweeps" }).press("Enter");
    await page.getByText("Taken as 2 sweeps: 300 in 29 s, 320 in 29 s.", { exact: false }).waitFor();
    const averages = await page
      .locator("li .vs-velocity input")
      .evaluateAll((all) => all.map((input) => (input as HTMLInputElement).value));
    expect(averages).toEqual(["400", "600", "300", "320"]);
    await page.context().close();
  });

  it("says why a file cannot be read, and takes the next one", async () => {
    const page = await pane.open(blank());
    await openLogger(page);
    const chooser = page.getByLabel("Logger file", { exact: false });
    await chooser.setInputFiles({
      name: "book.csv",
      mimeType: "text/csv",
      buffer: Buffer.from("PK\u0003\u0004 a workbook"),
    });
    await page.getByRole("alert").filter({ hasText: "damaged" }).waitFor();
    const plain = { name: "plain.csv", mimeType: "text/csv", buffer: Buffer.from("Time (s),fpm\n0,400\n1,420\n2,410") };
    await chooser.setInputFiles(plain);
    await page.getByRole("img", { name: /^Velocity over time, 3 readings/ }).waitFor();
    expect(await page.getByRole("alert").filter({ hasText: "damaged" }).count()).toBe(0);
    await page.context().close();
  });
});
