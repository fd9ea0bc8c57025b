import { describe, expect, it } from "vitest";
import { FUNCTION_SPELLINGS } from "../../../src/cells/index.js";
import { patchAndCalculate } from "../../../src/engine/index.js";
import {
  type Conversions,
  conversionsOf,
  fileSource,
  findLists,
  mappingEdits,
  mappingOf,
  plainFormulasOf,
  proposeColumns,
  readAnswer,
  readList,
  withAnswers,
} from "../../../src/workbook/index.js";
import {
  cellAt,
  type FormulaEdit,
  openWorkbook,
  patchWorkbook,
  readSheet,
  storedFormula,
  type Workbook,
} from "../../../src/xlsx/index.js";
import { recalculated } from "../../support/libreoffice.js";
import { withoutResults } from "../../support/without-results.js";
import { changedEntries } from "../../xlsx/raw-entries.js";
import { ownWorkbook, sheetInOrder } from "./mistakes.js";
import { type OwnWorkbook, ownWorkbooks } from "./own-workbooks.js";

const makes = await ownWorkbooks();
const ALL = { sheet: null, rows: null, column: null };

function takenOver(bytes: Uint8Array, answers: readonly string[]): Workbook {
  const workbook = openWorkbook(bytes, "own.xlsx");
  const lists = proposeColumns(fileSource(workbook)).map((list) => withAnswers(list, answers.map(readAnswer)));
  return openWorkbook(patchWorkbook(workbook, mappingEdits(workbook, lists.map(mappingOf))), "own.xlsx");
}

function outletsOf(workbook: Workbook) {
  return findLists(fileSource(workbook)).value.flatMap((list) => readList(list, null).outlets);
}

function edits({ value }: Conversions): readonly FormulaEdit[] {
  return value.map(({ sheet, address, newFormula }) => {
    const formula = storedFormula(newFormula.slice(1), FUNCTION_SPELLINGS);
    return { kind: "formula", sheet, address, formula, result: null, form: "dynamic" };
  });
}

interface Converted {
  readonly own: OwnWorkbook;
  readonly before: Workbook;
  readonly conversions: Conversions;
  readonly after: Workbook;
  readonly back: Uint8Array;
}

const converted: readonly Converted[] = makes.map((own) => {
  const before = takenOver(own.bytes, own.answers);
  const conversions = conversionsOf(outletsOf(before), ALL);
  const after = openWorkbook(patchAndCalculate(before, edits(conversions)).bytes, "own.xlsx");
  return { own, before, conversions, after, back: patchWorkbook(after, plainFormulasOf(after).edits) };
});

const valueAt = (workbook: Workbook, sheet: string, address: string) =>
  cellAt(readSheet(workbook, sheet), address)?.value;

describe.each(converted.map((one) => [one.own.title, one] as const))("A workbook with %s", (_title, one) => {
  const { own, before, conversions, after } = one;

  it("has every plain airflow converted, or the reason why not, and no typed value touched", () => {
    const airflows = Object.keys(own.airflowsCfm).length;
    expect(conversions.value.length + conversions.left.length).toBeLessThanOrEqual(airflows);
    const typed = conversions.left.filter(({ reason }) => !reason.startsWith("It was typed"));
    expect(typed).toEqual([]);
    for (const { sheet, address } of conversions.left) {
      expect(valueAt(after, sheet, address)).toBe(valueAt(before, sheet, address));
    }
  });

  it("gives the same airflows by the functions, to 1e-12", () => {
    for (const { sheet, address, oldValue, newValue, cause } of conversions.value) {
      const now = Number(valueAt(after, sheet, address));
      expect(Math.abs(now / (oldValue ?? 0) - 1), address).toBeLessThan(1e-12);
      expect(Math.abs(now / (newValue ?? 0) - 1), address).toBeLessThan(1e-12);
      expect(cause).toBeNull();
    }
  });

  it("changes its formulas, what Excel needs to know of them, and nothing else", () => {
    const changed = changedEntries(before.archive.bytes, after.archive.bytes);
    const allowed =
      /^(?:xl\/worksheets\/sheet\d+\.xml|xl\/metadata\.xml|xl\/_rels\/workbook\.xml\.rels|\[Content_Types\]\.xml)$/;
    expect(changed.filter((name) => !allowed.test(name))).toEqual([]);
  });
});

describe("The way back to plain formulas", () => {
  it("gives the same airflows, to 1e-12, calculated anew in LibreOffice with every result removed", async () => {
    const files = new Map(
      converted.flatMap(({ back, conversions }, index) =>
        conversions.value.length === 0 ? [] : [[`make-${index}`, withoutResults(back)] as const],
      ),
    );
    const opened = await recalculated(files);
    let count = 0;
    for (const [index, { conversions, before }] of converted.entries()) {
      const bytes = opened.get(`make-${index}`);
      if (bytes === undefined) continue;
      const workbook = openWorkbook(bytes, "back.xlsx");
      for (const { sheet, address } of conversions.value) {
        const [then, now] = [Number(valueAt(before, sheet, address)), Number(valueAt(workbook, sheet, address))];
        expect(Math.abs(now / then - 1), `${index} ${address}`).toBeLessThan(1e-12);
        count += 1;
      }
      expect(findLists(fileSource(workbook)).value.map(({ foundBy }) => foundBy)).toContain("mapping");
    }
    expect(count).toBeGreaterThan(20);
  }, 120_000);
});

describe("A conversion", () => {
  it("says why an airflow will be another one, and leaves alone what was not chosen", async () => {
    const bytes = await ownWorkbook({
      ...sheetInOrder(),
      J6: { formula: "B6*C6/144*AVERAGE(E6:H6)", result: 177.5 },
      J7: 52,
    });
    const workbook = takenOver(bytes, []);
    const { value, left } = conversionsOf(outletsOf(workbook), ALL);
    expect(left).toEqual([
      { sheet: "Grilles", address: "J7", outlet: "S-7", reason: "It was typed; a typed value is never replaced." },
    ]);
    const [, second] = value;
    expect(second).toMatchObject({
      oldFormula: "=B6*C6/144*AVERAGE(E6:H6)",
      newFormula: "=VANE.AIRFLOW.FACE(B6,C6,E6:H6,D6,COUNT(E6:H6))",
      oldValue: 177.5,
      newValue: expect.closeTo(124.25, 9),
    });
    expect(second?.cause?.problem).toBe("The factor 0.7 is missing.");
    const chosen = conversionsOf(outletsOf(workbook), { sheet: "grilles", rows: [8, 9], column: "J" });
    expect(chosen.value.map(({ address }) => address)).toEqual(["J8", "J9"]);
    expect(conversionsOf(outletsOf(workbook), { ...ALL, column: "K" })).toEqual({ value: [], left: [] });
  });
});
