import { describe, expect, it } from "vitest";
import { calculateXlsx } from "../../../src/engine/index.js";
import {
  checkedFile,
  checkWorkbook,
  type Finding,
  fileSource,
  mappingEdits,
  mappingOf,
  proposeColumns,
} from "../../../src/workbook/index.js";
import { openWorkbook, patchWorkbook } from "../../../src/xlsx/index.js";
import { MISTAKES, type Mistake, type OwnCells, ownWorkbook, sheetInOrder, WITHOUT_MAPPING } from "./mistakes.js";
import { madeWorkbook, PLANTED_IN_MAKES } from "./mistakes-in-makes.js";

/** Finds what is wrong in a sheet, its columns kept as they are proposed for the sheet in order. */
async function found(cells: OwnCells, isTakenOver: boolean): Promise<readonly Finding[]> {
  const file = openWorkbook(await ownWorkbook({ ...sheetInOrder(), ...cells }), "own.xlsx");
  const lists = proposeColumns(fileSource(openWorkbook(await ownWorkbook(sheetInOrder()), "own.xlsx")));
  const edits = isTakenOver ? mappingEdits(file, lists.map(mappingOf)) : [];
  const workbook = openWorkbook(patchWorkbook(file, edits), "own.xlsx");
  return checkWorkbook(checkedFile(workbook, calculateXlsx(workbook))).findings;
}

const told = (findings: readonly Finding[]) => findings.map(({ kind, cell }) => `${cell} ${kind}`);

async function expectFound({ kind, cell, says, cells, twin, isTakenOver }: Mistake): Promise<void> {
  const rest = isTakenOver ? [] : ["A4 columns-not-known"];
  const findings = await found(cells, isTakenOver);
  expect(told(findings)).toEqual([...rest, `${cell} ${kind}`]);
  expect(findings.at(-1)?.problem).toMatch(says);
  expect(findings.at(-1)?.action).not.toBe("");
  expect(told(await found(twin, isTakenOver))).toEqual(rest);
}

describe("In a sheet whose columns are known", () => {
  it.each(MISTAKES)("$title is found and explained, and its clean twin stays quiet", expectFound);
});

describe("In a sheet whose columns nobody has told", () => {
  it.each(WITHOUT_MAPPING)("$title is found all the same", expectFound);

  it("it is said that airflows go unchecked, whatever their headings are", async () => {
    const cells = sheetInOrder();
    const unnamed = Object.fromEntries(Object.entries(cells).filter(([address]) => !/^[A-L]4$/.test(address)));
    const file = openWorkbook(await ownWorkbook(unnamed), "own.xlsx");
    const { findings } = checkWorkbook(checkedFile(file));
    expect(told(findings)).toEqual(["J5 columns-not-known"]);
    expect(findings[0]?.action).toMatch(/vanesheet columns FILE/);
  });

  it("a sheet without airflows stays quiet", async () => {
    const costs = Object.fromEntries(
      [2, 3, 4, 5].flatMap((row) => [
        [`A${row}`, `Item ${row}`] as const,
        [`B${row}`, row] as const,
        [`C${row}`, 12.5] as const,
        [`D${row}`, { formula: `B${row}*C${row}`, result: row * 12.5 }] as const,
      ]),
    );
    const file = openWorkbook(
      await ownWorkbook({ A1: "Item", B1: "Quantity", C1: "Price", D1: "Cost", ...costs }),
      "c.xlsx",
    );
    expect(checkWorkbook(checkedFile(file)).findings).toEqual([]);
  });
});

describe("In three other makes of workbook", () => {
  const checked = async (bytes: Uint8Array, isTakenOver: boolean, clean: Uint8Array) => {
    const file = openWorkbook(bytes, "own.xlsx");
    const lists = isTakenOver ? proposeColumns(fileSource(openWorkbook(clean, "own.xlsx"))) : [];
    const workbook = openWorkbook(patchWorkbook(file, mappingEdits(file, lists.map(mappingOf))), "own.xlsx");
    const { findings } = checkWorkbook(checkedFile(workbook, calculateXlsx(workbook)));
    return findings.filter(({ kind }) => kind !== "columns-not-known");
  };

  it.each(PLANTED_IN_MAKES)("$title is found at its cell and explained", async (planted) => {
    const [clean, bytes] = [await madeWorkbook(planted.make), await madeWorkbook(planted.make, planted.plant)];
    const findings = await checked(bytes, true, clean);
    expect(told(findings)).toEqual([`${planted.cell} ${planted.kind}`]);
    expect(findings[0]?.problem).toMatch(planted.says);
    const { withoutMapping, cell } = planted;
    expect(told(await checked(bytes, false, clean))).toEqual(
      withoutMapping === null ? [] : [`${cell} ${withoutMapping}`],
    );
  });

  it.each(["german", "round", "by system"] as const)("the clean one stays quiet: %s", async (make) => {
    const clean = await madeWorkbook(make);
    expect(told(await checked(clean, true, clean))).toEqual([]);
    expect(told(await checked(clean, false, clean))).toEqual([]);
  });
});
