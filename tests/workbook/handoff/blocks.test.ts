import { beforeAll, describe, expect, it } from "vitest";
import { calculateXlsx } from "../../../src/engine/index.js";
import { type Handoff, handoffOf } from "../../../src/workbook/index.js";
import { cellAt, openWorkbook, patchWorkbook, readSheet, type Workbook } from "../../../src/xlsx/index.js";
import { recalculatedByGnumeric } from "../../support/gnumeric.js";
import { recalculated } from "../../support/libreoffice.js";
import { withoutResults } from "../../support/without-results.js";
import { type FormulaCellContent, formulaWorkbook, type GivenTable } from "./formula-workbook.js";

type Cells = Readonly<Record<string, FormulaCellContent>>;

const stored = (formula: string) =>
  formula.replaceAll(/VANE\.([A-Z.]+)\(/g, (_, id: string) => {
    return `_xldudf_VANE_${id.replaceAll(".", "_")}(`;
  });

/** Rows of outlets from row 3 on: heading, units, then sound, blank, faulty and half-filled rows. */
const OUTLETS: Cells = {
  ...row(1, ["Outlet", "H", "Factor", "W", "Design", "R1", "R2", "R3", "n"]),
  ...row(2, ["", "in", "ratio", "in", "cfm", "fpm", "fpm", "fpm", ""]),
  ...row(3, ["S1", 6, 0.8, 14, 150, 400, 420, 380, counted(3)]),
  ...row(4, ["S2", null, null, 8, 100, 300, null, 310, counted(4)]),
  ...row(5, [null, null, null, null, null, null, null, null, counted(5)]),
  ...row(6, ["S3", 6, 1, 10, null, 250, 0, 260, counted(6)]),
  ...row(7, ["S4", 8, 1.2, 12, 200, 500, 510, 490, counted(7)]),
  ...row(8, ["S5", 8, 0.7, 12, 200, 500, "text", 490, counted(8)]),
  ...row(9, ["S6", 8, 0.7, null, 200, 500, 510, 490, counted(9)]),
  ...row(10, ["S7", 8, 0.7, null, null, null, null, null, counted(10)]),
  ...row(11, ["S8", 8, 0.7, 12, 220, null, null, null, counted(11)]),
  ...row(12, ["Upstairs", null, null, "Grilles", null, null, null, null, counted(12)]),
  ...row(13, ["S9", 8, 0.7, 12, "none", 500, 510, 490, counted(13)]),
  ...row(14, ["S10", 6, null, 14, 100, -400, -420, -380, counted(14)]),
};

function counted(at: number): FormulaCellContent {
  return { formula: `COUNT(F${at}:H${at})` };
}

function row(at: number, values: readonly FormulaCellContent[]): Cells {
  return Object.fromEntries(values.map((value, index) => [`${"ABCDEFGHI".charAt(index)}${at}`, value]));
}

function spilled(formula: string, range: string): Cells {
  return { [range.split(":")[0] ?? ""]: { formula: stored(formula), array: range, isDynamic: true } };
}

/** A workbook of the kinds, each with the cells to compare. */
interface Case {
  readonly title: string;
  readonly cells: Cells;
  readonly compared: readonly string[];
  readonly names?: Readonly<Record<string, string>>;
  readonly tables?: readonly GivenTable[];
  /** How many cells keep their value. */
  readonly valueCount?: number;
}

const block = (from: number, to: number, letters: string) =>
  Array.from({ length: to - from + 1 }, (_, index) => [...letters].map((letter) => `${letter}${from + index}`)).flat();

const CASES: readonly Case[] = [
  {
    title: "outlets of scattered columns, heights before widths",
    cells: {
      ...OUTLETS,
      ...spilled("VANE.SHEET.OUTLETS(D1:D14,C1:C14,E1:E14,F1:H14,I1:I14,,,,B1:B14)", "K1:Q14"),
      S1: { formula: "SUM(_xlfn.ANCHORARRAY(K1))" },
    },
    compared: block(1, 14, "KLMNOPQ"),
  },
  {
    title: "outlets in SI, with limits of their own, readings put together",
    cells: {
      ...OUTLETS,
      ...spilled('VANE.SHEET.OUTLETS(HSTACK(D3:D4,B3:B4),C3:C4,E3:E4,HSTACK(F3:F4,H3:H4),,5,8,"si")', "K3:Q4"),
    },
    compared: block(3, 4, "KLMNOPQ"),
  },
  {
    title: "ratios of a column, with the count of all of them",
    cells: {
      ...row(1, [100, 90]),
      ...row(2, [0, 80]),
      ...row(3, [70, 70]),
      ...row(4, [null, null]),
      ...spilled("VANE.BALANCE.RATIO(A1:A4,B1:B4,COUNT(A1:A4))", "D1:D4"),
      ...spilled("VANE.BALANCE.RATIO(A1:A4,B1:B4)", "E1:E4"),
    },
    compared: block(1, 4, "DE"),
  },
  {
    title: "a result that no plain formula gives, over several cells",
    cells: {
      ...row(1, [100, 90]),
      ...row(2, [60, 80]),
      ...row(3, [70, 70]),
      ...spilled("VANE.BALANCE.ORDER(A1:A3,B1:B3)", "D1:D3"),
    },
    compared: ["D1", "D2", "D3"],
    valueCount: 3,
  },
  {
    title: "array formulas of one cell, over names and brackets",
    cells: {
      ...row(1, [400, 410, 420, 0.5]),
      ...row(2, [410, 400, 430, 0.7]),
      ...row(3, [420, 380, 440, 0.9]),
      F1: { formula: stored("SUM(VANE.AIRFLOW(B1:B3,0.5))"), array: "F1" },
      F2: { formula: stored("MAX(VANE.DESIGN.PERCENT(Vels,400))"), array: "F2" },
      F3: { formula: stored("MAX(VANE.TRAVERSE.AVERAGE(B1:B3,COUNT(B1:B3))*D1:D3)"), array: "F3" },
      F4: { formula: stored("SUM(VANE.AIRFLOW((B1:B3),(D1:D3)))"), array: "F4", isDynamic: true },
      F5: { formula: stored("VANE.TRAVERSE.AVERAGE(Vels,COUNT(Vels))") },
      F6: { formula: stored("VANE.TRAVERSE.PRESSURE(D1:D3)") },
    },
    names: { Vels: "Sheet1!$A$1:$A$3" },
    compared: ["F1", "F2", "F3", "F4", "F5", "F6"],
  },
  {
    title: "a log of scattered readings",
    cells: {
      ...row(1, [1, 400, 2, 410, 3, 420]),
      ...row(2, [1, 400, 2, null, 3, 420]),
      ...row(3, [1, null, 2, null, 3, null]),
      ...row(4, [1, 400, 2, 0, 3, 420]),
      ...row(5, [1, 400, 2, "text", 3, 420]),
      ...Object.fromEntries(
        [1, 2, 3, 4, 5].map((at) => [
          `K${at}`,
          {
            formula: stored(`VANE.TRAVERSE.AVERAGE(CHOOSE({1,2,3},B${at},D${at},F${at}),COUNT(B${at},D${at},F${at}))`),
          },
        ]),
      ),
    },
    compared: ["K1", "K2", "K3", "K4", "K5"],
  },
  {
    title: "a column of a table",
    cells: {
      ...row(1, ["W", "H", "Area"]),
      ...row(2, [14, 6, { formula: stored("VANE.OPENING.RECT(Faces[[#This Row],[W]],Faces[[#This Row],[H]])") }]),
      ...row(3, [10, 8, { formula: stored("VANE.OPENING.RECT(Faces[[#This Row],[W]],Faces[[#This Row],[H]])") }]),
      E1: { formula: stored("VANE.TRAVERSE.AVERAGE(Faces[[W]:[H]],COUNT(Faces[[W]:[H]]))") },
    },
    tables: [
      {
        name: "Faces",
        range: "A1:C3",
        columns: [
          { name: "W" },
          { name: "H" },
          { name: "Area", formula: stored("VANE.OPENING.RECT(Faces[[#This Row],[W]],Faces[[#This Row],[H]])") },
        ],
      },
    ],
    compared: ["C2", "C3", "E1"],
  },
];

type Shown = number | string | boolean;

function shownAt(workbook: Workbook | undefined, at: string): Shown {
  if (workbook === undefined) return "not calculated";
  const value = cellAt(readSheet(workbook, workbook.sheets[0]?.name ?? ""), at)?.value ?? "";
  return typeof value === "object" ? value.error : value;
}

function isNear(one: Shown, other: Shown): boolean {
  if (typeof one !== "number" || typeof other !== "number") return one === other;
  return Math.abs(one - other) <= 1e-12 * Math.max(Math.abs(one), Math.abs(other), 1e-9);
}

describe("the hand-off copy of a workbook with", () => {
  const own = new Map<string, Workbook>();
  const handoffs = new Map<string, Handoff>();
  const programs = new Map<string, ReadonlyMap<string, Uint8Array>>();

  beforeAll(async () => {
    const copies = new Map<string, Uint8Array>();
    for (const [index, { title, cells, names, tables }] of CASES.entries()) {
      const given = openWorkbook(formulaWorkbook(cells, names, tables), "job.xlsx");
      const calculated = openWorkbook(patchWorkbook(given, calculateXlsx(given).edits), "job.xlsx");
      const handoff = handoffOf(calculated);
      own.set(title, calculated);
      handoffs.set(title, handoff);
      copies.set(`case-${index}`, withoutResults(patchWorkbook(calculated, handoff.edits)));
    }
    programs.set("LibreOffice", await recalculated(copies));
    programs.set("Gnumeric", await recalculatedByGnumeric(copies));
  }, 180_000);

  for (const [index, { title, compared, valueCount }] of CASES.entries()) {
    it.each(["LibreOffice", "Gnumeric"])(`${title}, calculates in %s to the same`, (program) => {
      const bytes = programs.get(program)?.get(`case-${index}`) ?? new Uint8Array();
      const copy = openWorkbook(bytes, "copy.xlsx");
      const workbook = own.get(title);
      const different = compared.flatMap((at) => {
        const [one, other] = [shownAt(workbook, at), shownAt(copy, at)];
        return isNear(one, other) ? [] : [`${at}: ${one}, in the copy ${other}`];
      });
      expect(different).toEqual([]);
      expect(compared.some((at) => typeof shownAt(workbook, at) === "number")).toBe(true);
    });

    it(`${title}, has ${valueCount ?? 0} values that no formula gives`, () => {
      const kept = handoffs.get(title)?.values ?? [];
      expect(kept.map(({ address, functions, reasons }) => [address, functions, reasons])).toHaveLength(
        valueCount ?? 0,
      );
      expect(kept.every(({ reasons }) => reasons.length > 0)).toBe(true);
    });
  }

  it("array formulas gives the numbers of the functions themselves", () => {
    const workbook = own.get("array formulas of one cell, over names and brackets");
    expect(["F1", "F2"].map((at) => shownAt(workbook, at))).toEqual([595, 105]);
  });
});
