import { readFile } from "node:fs/promises";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it, vi } from "vitest";
import {
  type CellValue,
  cellAt,
  cellsOf,
  openWorkbook as openFile,
  readSheet,
  type Sheet,
  valueAt,
} from "../../src/xlsx/index.js";
import { pageWithDownloads } from "./files-on-page.js";
import { type OpenWorkbook, outletCell, person, serveWorkbook } from "./open-workbook.js";

/*
 * A whole job by keys alone: a new workbook, eighteen outlets of supply, return and exhaust from their tags to their
 * readings, a traverse of the supply duct with an anemometer and one of the return duct with a Pitot tube, and the save.
 * Every key is counted. A cell that is filled needs its characters and one key that ends it; what comes on top, from the
 * start of the workbook to its save, is at most four keys an outlet. The airflow is held against arithmetic of the
 * test's own.
 */

const MOST_MORE = 4;
/** For how long a key is down: faster than anybody types. */
const KEY_MS = 10;
const FIRST_ROW = 9;

interface Outlet {
  readonly tag: string;
  readonly system: string;
  readonly room: string;
  readonly kind: "supply" | "return" | "exhaust";
  readonly width: number;
  /** Undefined for a round one. */
  readonly height?: number;
  readonly factor: number;
  readonly design: number;
  readonly readings: readonly number[];
}

function outlet(kind: Outlet["kind"], index: number): Outlet {
  const isRound = index % 5 === 4;
  const letter = kind.charAt(0).toUpperCase();
  return {
    tag: `${letter}${index + 1}`,
    system: kind === "exhaust" ? "EF-1" : "AHU-1",
    room: `Room ${index + 1}`,
    kind,
    width: 8 + 2 * (index % 3),
    ...(isRound ? {} : { height: 6 }),
    factor: 0.7 + (index % 4) / 50,
    design: 90 + 5 * index,
    readings: Array.from({ length: 6 }, (_, at) => 240 + 13 * index + 7 * at),
  };
}

const OUTLETS = [
  ...Array.from({ length: 10 }, (_, index) => outlet("supply", index)),
  ...Array.from({ length: 5 }, (_, index) => outlet("return", index)),
  ...Array.from({ length: 3 }, (_, index) => outlet("exhaust", index)),
];

/** Line by line, as the probe goes in. */
const ANEMOMETER_FPM = [
  [812, 905, 846],
  [858, 951, 889],
  [797, 884, 823],
];
const PITOT_INWG = [
  [0.031, 0.042, 0.036],
  [0.034, 0.047, 0.039],
  [0.029, 0.04, 0.033],
];
const DUCT = { serves: "All rooms", widthIn: 20, heightIn: 12, designCfm: 1500 };

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Square inches over 144, the free part of them, times the average velocity. */
function airflowOf({ width, height, factor, readings }: Outlet): number {
  const areaIn2 = height === undefined ? (Math.PI * width ** 2) / 4 : width * height;
  return (areaIn2 / 144) * factor * mean(readings);
}

const ductAirflow = (velocities: readonly number[]): number =>
  ((DUCT.widthIn * DUCT.heightIn) / 144) * mean(velocities);

/** v = √(2 · pv / ρ) in SI: pv in pascals from the conventional inch of water (NIST SP 811), ρ of 0.075 lb/ft³ in kg/m³. */
function pitotFpm(pressureInWg: number): number {
  const densityKgM3 = (0.075 * 0.45359237) / 0.3048 ** 3;
  return Math.sqrt((2 * pressureInWg * 249.08891) / densityKgM3) / 0.00508;
}

let workbook: OpenWorkbook;
let page: Page;
let pressed = 0;
let needed = 0;

vi.setConfig({ testTimeout: 300_000, hookTimeout: 60_000 });

beforeAll(async () => {
  workbook = await serveWorkbook();
  page = await pageWithDownloads(workbook);
});

afterAll(() => workbook.close());

async function press(...keys: readonly string[]): Promise<void> {
  for (const key of keys) {
    pressed += 1;
    await page.keyboard.press(key, { delay: KEY_MS });
  }
}

/** Types what a cell needs, nothing for a cell that stays as it is, and ends it. */
async function enter(content: string | number | undefined, end: "Tab" | "Enter"): Promise<void> {
  const text = String(content ?? "");
  for (const character of text) await press(character);
  await press(end);
  if (text !== "") needed += text.length + 1;
}

async function enterRow(contents: readonly (string | number | undefined)[]): Promise<void> {
  for (const [index, content] of contents.entries()) {
    await enter(content, index < contents.length - 1 ? "Tab" : "Enter");
  }
}

const isAt = (address: string): Promise<void> =>
  page
    .locator("#cell")
    .filter({ hasText: `${address}:` })
    .waitFor();

/** Once the question what to start with is there, presses a button of it. */
async function fromTemplates(name: string, ...tabs: readonly string[]): Promise<void> {
  await press("Control+Shift+F6", "Enter");
  await page.locator("dialog").waitFor();
  await press(...tabs);
  expect(await page.evaluate(() => document.activeElement?.getAttribute("aria-label"))).toBe(name);
  await press("Enter");
  await page.locator("dialog").waitFor({ state: "detached" });
  await page.locator("#busy").waitFor({ state: "hidden" });
}

/** The duct of a traverse and its readings, from the first input cell of the sheet. */
async function enterTraverse(
  unit: string,
  kind: string | undefined,
  lines: readonly (readonly number[])[],
): Promise<void> {
  await fromTemplates("Add: Duct traverse", "Tab", "Tab", "Tab");
  await isAt("A1");
  await person(page).hasDrawn();
  await press("Tab");
  await isAt("B5");
  // From the left to the right: what and where, duct and probe.
  const nothing = undefined;
  const fields = [unit, DUCT.widthIn, DUCT.serves, DUCT.heightIn, nothing, nothing, kind, lines.length];
  const more = ["equal area", lines[0]?.length, nothing, nothing, nothing, nothing, nothing, DUCT.designCfm, nothing];
  for (const field of [...fields, ...more]) await enter(field, "Tab");
  await isAt("D25");
  // The block of the plan, with the places between its lines, is selected; Enter goes down one line after another.
  const [points, columns] = [(lines[0]?.length ?? 0) - 1, 2 * (lines.length - 1)];
  await press(...Array<string>(points).fill("Shift+ArrowDown"), ...Array<string>(columns).fill("Shift+ArrowRight"));
  for (const reading of lines.flat()) await enter(reading, "Enter");
}

/** What a sheet of a file holds so many rows below the cell of a label and columns beside it. */
function besideLabel(sheet: Sheet, label: string, rows: number, columns: number): CellValue {
  const found = [...cellsOf(sheet)].find(({ value }) => value === label);
  if (found === undefined) throw new Error(`“${sheet.name}” has no “${label}”.`);
  return valueAt(sheet, found.row + rows, found.column + columns);
}

it("is done with at most four keys more an outlet than its characters need, and every airflow is right", async () => {
  await fromTemplates("Start: Room balance");
  await page.locator("#title", { hasText: "Room balance" }).waitFor();
  await isAt("A1");
  await person(page).hasDrawn();
  await press("Shift+PageDown");
  await person(page).hasDrawn();
  await press("Tab");
  await isAt("A9");
  for (const { tag, system, room, kind, width, height, factor, design, readings } of OUTLETS) {
    await enterRow([tag, system, room, kind, undefined, width, height, factor, design, ...readings]);
  }
  await enterTraverse("AHU-1", undefined, ANEMOMETER_FPM);
  await enterTraverse("AHU-1", "pressure", PITOT_INWG);
  const download = page.waitForEvent("download");
  await press("Control+s");
  const bytes = new Uint8Array(await readFile(await (await download).path()));
  expect((pressed - needed) / OUTLETS.length).toBeLessThanOrEqual(MOST_MORE);

  const file = openFile(bytes, "the saved job");
  const outlets = readSheet(file, "Outlets");
  for (const [index, one] of OUTLETS.entries()) {
    const { value } = cellAt(outlets, outletCell("Airflow", FIRST_ROW + index)) ?? {};
    expect(value, one.tag).toBeCloseTo(airflowOf(one), 6);
  }
  for (const [label, kind] of [
    ["Supply measured", "supply"],
    ["Return measured", "return"],
    ["Exhaust measured", "exhaust"],
  ] as const) {
    const airflows = OUTLETS.filter((one) => one.kind === kind).map(airflowOf);
    expect(besideLabel(outlets, label, 1, 0), label).toBeCloseTo(mean(airflows) * airflows.length, 6);
  }
  for (const [sheet, velocities] of [
    ["Duct traverse", ANEMOMETER_FPM.flat()],
    ["Duct traverse (2)", PITOT_INWG.flat().map(pitotFpm)],
  ] as const) {
    const traverse = readSheet(file, sheet);
    expect(besideLabel(traverse, "Readings taken", 0, 4), sheet).toBe(velocities.length);
    const airflow = ductAirflow(velocities);
    expect(besideLabel(traverse, "Airflow", 0, 4), sheet).toBeCloseTo(airflow, 3);
    expect(besideLabel(traverse, "Percent of design", 0, 4), sheet).toBeCloseTo((100 * airflow) / DUCT.designCfm, 3);
  }
  expect(await page.locator(".notice.warning, .notice.danger").count()).toBe(0);
});
