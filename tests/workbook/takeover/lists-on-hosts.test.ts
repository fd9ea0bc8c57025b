import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, describe, expect, it, vi } from "vitest";
import { calculateXlsx } from "../../../src/engine/index.js";
import { excelHost } from "../../../src/hosts/excel/index.js";
import { fileHost, openWorkbookFile } from "../../../src/hosts/file/index.js";
import {
  checkedHost,
  checkWorkbook,
  fileSource,
  handoffOf,
  hostSource,
  type InteractiveHost,
  mappingEdits,
  mappingNames,
  mappingOf,
  type OutletRow,
  planPlacement,
  proposeColumns,
  readAnswer,
  readFieldOutlets,
  readingEdits,
  readOutletLists,
  readSelectedOutlet,
  type TakenMeasurement,
  type WorkbookHost,
  withAnswers,
} from "../../../src/workbook/index.js";
import { readOutlets } from "../../../src/workbook/rollup/index.js";
import { cellsOf, formatRange, openWorkbook, patchWorkbook, readSheet } from "../../../src/xlsx/index.js";
import type { GivenWorkbook } from "../../hosts/contract.js";
import { FakeExcel } from "../../hosts/excel/fake-excel.js";
import { pageHostOver } from "../../hosts/page/page-host-over.js";
import { type OwnWorkbook, ownWorkbooks } from "./own-workbooks.js";

/*
 * A sheet of one's own is a list like any other, on every host: measured into, balanced, checked, rolled up and handed off.
 * What is expected is worked out here, from the sizes of the made workbooks and the readings of the tests.
 */

const makes = await ownWorkbooks();
const make = (part: string): OwnWorkbook => {
  const found = makes.find(({ title }) => title.includes(part));
  if (found === undefined) throw new Error(`No workbook is made with ${part}.`);
  return found;
};

const folder = mkdtempSync(join(tmpdir(), "own-lists-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
afterEach(() => vi.unstubAllGlobals());

/** The cells of a file as somebody would type them. */
function given(bytes: Uint8Array): GivenWorkbook {
  const workbook = openWorkbook(bytes, "own.xlsx");
  return {
    names: {},
    sheets: workbook.sheets.map(({ name }) => {
      const sheet = readSheet(workbook, name);
      const cells = [...cellsOf(sheet)].flatMap(({ address, value, formula }) => {
        const content = formula === undefined ? value : `=${formula.text}`;
        return content === null || typeof content === "object" ? [] : [[address, content] as const];
      });
      return { name, cells: Object.fromEntries(cells), mergedRanges: sheet.mergedRanges.map(formatRange) };
    }),
  };
}

async function fileHostOf(bytes: Uint8Array): Promise<WorkbookHost> {
  const path = join(folder, "own.xlsx");
  writeFileSync(path, bytes);
  return fileHost(await openWorkbookFile(path), calculateXlsx);
}

/** Nobody selects a cell of a file: a selection is what a test says. */
function selecting(host: WorkbookHost): InteractiveHost {
  let selected: { sheet: string; range: string } | null = null;
  const select: Pick<InteractiveHost, "select" | "selection"> = {
    select: async (address) => {
      selected = address;
    },
    selection: async () => selected,
  };
  return { ...host, ...select } as InteractiveHost;
}

function excelOver(bytes: Uint8Array): InteractiveHost {
  for (const [name, value] of Object.entries(new FakeExcel(given(bytes)).globals())) vi.stubGlobal(name, value);
  return excelHost(async () => new Uint8Array());
}

const HOSTS: Readonly<Record<string, (bytes: Uint8Array) => Promise<InteractiveHost>>> = {
  "a file": async (bytes) => selecting(await fileHostOf(bytes)),
  "the page": async (bytes) => pageHostOver(given(bytes)),
  "the stand-in for Excel": async (bytes) => excelOver(bytes),
};

async function takeOver(host: WorkbookHost, { answers }: OwnWorkbook): Promise<void> {
  const lists = proposeColumns(await hostSource(host)).map((list) => withAnswers(list, answers.map(readAnswer)));
  const names = mappingNames(lists.map(mappingOf));
  await host.keepColumns(names.map(({ name, refersTo }) => ({ name, refersTo, sheet: undefined })));
}

const isNear = (value: number | null | undefined, expected: number) =>
  expect(Math.abs((value ?? 0) / expected - 1), `${value} for ${expected}`).toBeLessThan(1e-9);

async function outletOf(host: WorkbookHost, tag: string): Promise<OutletRow> {
  const { value } = await readOutletLists(host, "ip");
  const outlet = value.find(({ name }) => name === tag);
  if (outlet === undefined) throw new Error(`No outlet ${tag}.`);
  return outlet;
}

/** Free areas in ft² by tag, from what each make was made of. */
const FREE_FT2: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  "two rows of headings": { "S-1": ((14 * 6) / 144) * 0.75, "S-2": ((12 * 6) / 144) * 0.7 },
  German: { "1.01": (300 / 304.8) * (150 / 304.8) * 0.8, "1.02": (200 / 304.8) * (100 / 304.8) * 0.7 },
  Spanish: { "I-1": (30 / 30.48) * (15 / 30.48) * 0.75 },
  "sheet a floor": { "D1-1": ((Math.PI * 64) / 4 / 144) * 0.8 },
  "published effective": { "S-1": Number((((14 * 6) / 144) * 0.75).toFixed(3)) },
  "two lists": { S1: 60 / 144, S3: 90 / 144 },
  "columns in another": { "S-1": ((14 * 6) / 144) * 0.75 },
};

const mean = (readings: readonly number[]) => readings.reduce((sum, one) => sum + one, 0) / readings.length;

describe.each(Object.entries(HOSTS))("On %s", (_name, open) => {
  it.each(Object.entries(FREE_FT2))(
    "a list with %s takes new readings, in the units of its columns",
    async (part, areas) => {
      const own = make(part);
      const host = await open(own.bytes);
      await takeOver(host, own);
      for (const [tag, areaFt2] of Object.entries(areas)) {
        const before = await outletOf(host, tag);
        isNear(before.measured, own.airflowsCfm[`${before.sheet}!${tag}`] ?? 0);
        isNear(before.freeArea, areaFt2);
        const readings = before.entryCells.map((_, index) => 250 + 20 * index);
        await host.write(readingEdits(before, readings));
        isNear((await outletOf(host, tag)).measured, areaFt2 * mean(readings));
      }
      const { findings } = checkWorkbook(await checkedHost(host));
      expect(findings.filter(({ kind }) => kind === "result-not-from-inputs")).toEqual([]);
    },
  );

  it("a measurement of the pane goes into the columns of the selected row, converted into their units", async () => {
    const own = make("German");
    const host = await open(own.bytes);
    await takeOver(host, own);
    const { cell } = await outletOf(host, "1.01");
    await host.select(cell);
    expect((await readSelectedOutlet(host, "ip"))?.opening).toMatchObject({ width: 300, height: 150, factor: 0.8 });
    const taken: TakenMeasurement = {
      ...{ kind: "face points", units: "ip", factor: 0.8, lines: 1, pointsPerLine: 3 },
      size: { shape: "rectangular", width: 12, height: 6 },
      readings: [400, null, 440],
    };
    const placement = await planPlacement(host, taken);
    if ("refusal" in placement || placement.resultAt === null) throw new Error(JSON.stringify(placement));
    await host.write(placement.edits);
    const flowCfm = 0.5 * 0.8 * 420;
    isNear((await outletOf(host, "1.01")).measured, flowCfm);
    const [block] = await host.read([placement.resultAt, { sheet: cell.sheet, range: "D5:I5" }]);
    isNear(Number(block?.values[0]?.[0]), flowCfm * 0.3048 ** 3 * 60);
    isNear(placement.resultScale, 0.3048 ** 3 * 60);
  });

  it("a list of airflows alone, as of a hood, takes the airflow, and its field view asks for it", async () => {
    const own = make("from a hood");
    const host = await open(own.bytes);
    await takeOver(host, own);
    const { cell } = await outletOf(host, "R-1");
    const [first] = await readFieldOutlets(host, "ip");
    expect(first?.entries.map(({ label, holds }) => [label, holds])).toEqual([["Final CFM", "airflow"]]);
    const flowCfm = ((14 * 6) / 144) * 0.75 * 410;
    for (const [range, heading] of [
      [cell.range, "Final CFM: 175"],
      ["G4", "Initial CFM: 150"],
    ] as const) {
      await host.select({ sheet: cell.sheet, range });
      const placement = await planPlacement(host, {
        ...{ kind: "face points", units: "ip", factor: 0.75, lines: 1, pointsPerLine: 2, readings: [400, 420] },
        size: { shape: "rectangular", width: 14, height: 6 },
      });
      if ("refusal" in placement) throw new Error(placement.refusal);
      expect(placement.replaces).toEqual([heading]);
      await host.write(placement.edits);
    }
    const { before, after } = await outletOf(host, "R-1");
    isNear(before, flowCfm);
    isNear(after, flowCfm);
  });
});

describe("In a file, a list of one's own", () => {
  it.each(Object.keys(FREE_FT2))("is rolled up from a hand-off copy with the airflows that it has: %s", (part) => {
    const own = make(part);
    const file = openWorkbook(own.bytes, "own.xlsx");
    const lists = proposeColumns(fileSource(file)).map((list) => withAnswers(list, own.answers.map(readAnswer)));
    const kept = openWorkbook(patchWorkbook(file, mappingEdits(file, lists.map(mappingOf))), "own.xlsx");
    const copy = openWorkbook(patchWorkbook(kept, handoffOf(kept).edits), "own.xlsx");
    const { value } = readOutlets(copy, new Map());
    expect(value).toHaveLength(Object.keys(own.airflowsCfm).length);
    for (const { sheet, outlet, measuredCfm } of value) isNear(measuredCfm, own.airflowsCfm[`${sheet}!${outlet}`] ?? 0);
  });
});
