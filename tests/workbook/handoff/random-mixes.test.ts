import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { calculateXlsx } from "../../../src/engine/index.js";
import { handoffOf } from "../../../src/workbook/index.js";
import {
  openWorkbook,
  parseAddress,
  patchWorkbook,
  readSheet,
  valueAt,
  type Workbook,
} from "../../../src/xlsx/index.js";
import { recalculatedByGnumeric } from "../../support/gnumeric.js";
import { recalculated } from "../../support/libreoffice.js";
import { withoutResults } from "../../support/without-results.js";
import { type FormulaCellContent, formulaWorkbook } from "./formula-workbook.js";

/*
 * Random formulas in which our functions, those of the spreadsheet program and operators stand within each other, over
 * cells with numbers, a 0, a blank, empty text of another formula and text.
 */

const INPUTS: Readonly<Record<string, FormulaCellContent>> = {
  ...{ A1: 400, A2: 420, A3: 380, A4: 395 },
  ...{ B1: 0.5, B2: 0.75, B3: 0.6, B4: 0.9 },
  ...{ C1: 150, C2: null, C3: 0, C4: { formula: 'IF(TRUE,"")' } },
  ...{ D1: 14, D2: 6, D3: 8, D4: "text" },
};
const NAMES = { Velocities: "Sheet1!$A$1:$A$4", Areas: "Sheet1!$B$1:$B$4", Width: "Sheet1!$D$1" };

const call = (id: string, ...given: readonly string[]) => `_xldudf_VANE_${id.replaceAll(".", "_")}(${given.join(",")})`;

interface Mix {
  readonly formula: string;
  readonly isArray: boolean;
}

/** Without the cell of empty text: what adds it to a number is an error of its own. */
const cell = fc.constantFrom(...Object.keys(INPUTS).filter((at) => at !== "C4"), "Width");
const block = fc.constantFrom("A1:A4", "B1:B4", "A1:B4", "Velocities", "(A1:A3)", "C1:C4", "A2:D2");
const column = fc.constantFrom("A1:A4", "Velocities", "(A1:A4)");
const areas = fc.constantFrom("B1:B4", "Areas", "0.5", "Width");
const operator = fc.constantFrom("+", "-", "*", "/");

const { one } = fc.letrec<{ one: string }>((tie) => ({
  one: fc.oneof(
    { maxDepth: 4, withCrossShrink: true },
    cell,
    fc.integer({ min: 1, max: 900 }).map(String),
    fc.tuple(tie("one"), tie("one")).map(([v, a]) => call("AIRFLOW", v, a)),
    fc.tuple(tie("one"), tie("one")).map(([w, h]) => call("OPENING.RECT", w, h)),
    fc.tuple(tie("one"), tie("one")).map(([q, d]) => call("DESIGN.PERCENT", q, d)),
    fc.tuple(tie("one"), cell, block).map(([w, h, r]) => call("AIRFLOW.FACE", w, h, r, "0.75", `COUNT(${r})`)),
    block.map((r) => call("TRAVERSE.AVERAGE", r, `COUNT(${r})`)),
    fc.tuple(tie("one"), operator, tie("one")).map(([left, sign, right]) => `(${left}${sign}${right})`),
    fc.tuple(cell, tie("one"), tie("one")).map(([test, yes, no]) => `IF(${test}>100,${yes},${no})`),
    fc.tuple(tie("one")).map(([value]) => `IFERROR(ROUND(${value},3),7)`),
    fc.tuple(tie("one")).map(([value]) => `_xlfn.SINGLE(${value})`),
  ),
}));

const array = fc
  .tuple(fc.constantFrom("SUM", "MAX", "AVERAGE"), column, areas, one)
  .map(([name, v, a, factor]) => `${name}(IFERROR(${call("AIRFLOW", v, a)}*2,0))+${factor}`);

const mixes: fc.Arbitrary<Mix> = fc.oneof(
  { weight: 4, arbitrary: one.map((formula) => ({ formula, isArray: false })) },
  { weight: 1, arbitrary: array.map((formula) => ({ formula, isArray: true })) },
);

type Shown = number | string | boolean;

function shownAt(workbook: Workbook, at: string): Shown {
  const { row, column: across } = parseAddress(at) ?? { row: 0, column: 0 };
  const value = valueAt(readSheet(workbook, workbook.sheets[0]?.name ?? ""), row, across) ?? "";
  return typeof value === "object" ? "error" : value;
}

function isNear(own: Shown, other: Shown): boolean {
  if (typeof own !== "number" || typeof other !== "number") return own === other;
  return Math.abs(own - other) <= 1e-12 * Math.max(Math.abs(own), Math.abs(other), 1e-9);
}

const runs = Number(process.env["FUZZ_RUNS"] ?? 200);
const seed = Number(process.env["FUZZ_SEED"] ?? 1);

describe("the hand-off copy of random mixes of functions", () => {
  const given = fc
    .sample(mixes, { numRuns: runs * 3, seed })
    .filter(({ formula }) => formula.includes("VANE") && formula.length < 400)
    .slice(0, runs);
  const cells: Record<string, FormulaCellContent> = { ...INPUTS };
  given.forEach(({ formula, isArray }, index) => {
    const at = `F${index + 1}`;
    cells[at] = isArray ? { formula, array: at } : { formula };
  });
  const programs = new Map<string, Workbook>();
  /** Cells that our own calculation leaves as they are, and says so. */
  const kept = new Set<string>();
  let own: Workbook;
  let copy: Workbook;

  beforeAll(async () => {
    const workbook = openWorkbook(formulaWorkbook(cells, NAMES), "mixes.xlsx");
    const calculation = calculateXlsx(workbook);
    for (const { address } of calculation.kept) kept.add(address);
    own = openWorkbook(patchWorkbook(workbook, calculation.edits), "mixes.xlsx");
    copy = openWorkbook(withoutResults(patchWorkbook(own, handoffOf(own).edits)), "mixes.xlsx");
    const changed = Object.keys(INPUTS).flatMap((at) => {
      const { row, column: across } = parseAddress(at) ?? { row: 0, column: 0 };
      return [{ sheet: "Sheet1", row, column: across }];
    });
    const again = calculateXlsx(copy, changed);
    for (const { address } of again.kept) kept.add(address);
    programs.set("our own calculation", openWorkbook(patchWorkbook(copy, again.edits), "mixes.xlsx"));
    const file = new Map([["mixes", copy.archive.bytes]]);
    for (const [name, recalculate] of [
      ["LibreOffice", recalculated],
      ["Gnumeric", recalculatedByGnumeric],
    ] as const) {
      programs.set(name, openWorkbook((await recalculate(file)).get("mixes") ?? new Uint8Array(), "mixes.xlsx"));
    }
  }, 240_000);

  it("is tried on formulas that mostly give numbers", () => {
    expect(given.length).toBeGreaterThanOrEqual(Math.min(runs, 150));
    const numbers = given.filter((_, index) => typeof shownAt(own, `F${index + 1}`) === "number");
    expect(numbers.length).toBeGreaterThan(given.length / 4);
    expect(kept.size).toBeLessThan(given.length / 2);
  });

  it.each(["our own calculation", "LibreOffice", "Gnumeric"])("gives the same in %s", (program) => {
    const other = programs.get(program) ?? copy;
    const different = given.flatMap(({ formula }, index) => {
      if (kept.has(`F${index + 1}`)) return [];
      const [one, shown] = [shownAt(own, `F${index + 1}`), shownAt(other, `F${index + 1}`)];
      return isNear(one, shown) ? [] : [`${formula} gives ${one}, in the copy ${shown}`];
    });
    expect(different).toEqual([]);
  });
});
