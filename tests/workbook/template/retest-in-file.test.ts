import { beforeAll, describe, expect, it } from "vitest";
import { calculateXlsx, patchAndCalculate, startWorkbook } from "../../../src/engine/index.js";
import { calculatePlan } from "../../../src/tools/templates/calculate-plan.js";
import { checkedFile, checkWorkbook, handoffOf, TEMPLATES } from "../../../src/workbook/index.js";
import { type Entries, writeTemplate } from "../../../src/workbook/plan-file/index.js";
import {
  cellAt,
  deleteRows,
  insertRows,
  openWorkbook,
  patchWorkbook,
  type Restructured,
  readSheet,
  sortTable,
  type Workbook,
  type WorkbookEdit,
} from "../../../src/xlsx/index.js";
import { filledWith } from "../../support/filled-templates.js";
import { recalculated } from "../../support/libreoffice.js";
import { cellUnder, columnUnder } from "../../support/plan-places.js";

/*
 * The filled room balance as a file, five of its outlets drawn, copied as values and read as they were reported: what a
 * person then does to the list, the seed or the share must never put a reading beside another outlet.
 */

const PLAN = TEMPLATES["room-balance"]("");
const SHEET = "Re-test";
const FIRST = 18;
const SEEDED = { C5: 20, C6: 4711 };

const at = (header: string, index: number) => cellUnder(PLAN, "Retest", header, FIRST + index);
const shown = (workbook: Workbook, address: string) => cellAt(readSheet(workbook, SHEET), address)?.value ?? "";
const set = (address: string, value: number | string | null): WorkbookEdit => ({
  kind: "value",
  sheet: SHEET,
  address,
  value,
});

function withEdits(workbook: Workbook, edits: readonly WorkbookEdit[]): Workbook {
  return openWorkbook(patchAndCalculate(workbook, edits).bytes, "retest.xlsx");
}

function calculated({ workbook, outdated }: Restructured): Workbook {
  const { edits } = calculateXlsx(workbook, outdated);
  return openWorkbook(patchWorkbook(workbook, edits), "retest.xlsx");
}

/** Tag, airflow and agreement of each row that names an outlet. */
function record(workbook: Workbook) {
  return Array.from({ length: 20 }, (_, index) =>
    ["Outlet read", "Airflow read", "Agreement"].map((header) => shown(workbook, at(header, index))),
  ).filter(([tag]) => tag !== "");
}

function summary(workbook: Workbook): string {
  return `${String(shown(workbook, "C10"))} ${String(shown(workbook, "C11"))}`.trim();
}

let before: Workbook;

beforeAll(async () => {
  const filled = { ...filledWith("room-balance", PLAN), [SHEET]: SEEDED } satisfies Entries;
  const drawn = openWorkbook(await writeTemplate(PLAN, filled, calculatePlan), "retest.xlsx");
  const rows = Array.from({ length: Number(shown(drawn, "C9")) }, (_, index) => index);
  const copied = rows.flatMap((index) => {
    const [tag, reported] = ["Drawn", "Reported"].map((header) => shown(drawn, at(header, index)));
    return [set(at("Outlet read", index), String(tag)), set(at("Reported then", index), Number(reported))];
  });
  const first = withEdits(drawn, [...copied, ...rows.map((index) => set(at("W1", index), 100))]);
  // The airflow follows the reading: the one at which it is as reported is its share of the first.
  const readings = rows.map((index) => {
    const [reported, read] = ["Reported then", "Airflow read"].map((header) => Number(shown(first, at(header, index))));
    return set(at("W1", index), (100 * (reported ?? 0)) / (read ?? 1));
  });
  before = withEdits(first, readings);
});

describe("the record of a re-test in a file", () => {
  it("agrees as it was read", () => {
    expect(record(before).length).toBeGreaterThanOrEqual(3);
    expect(new Set(record(before).map(([, , word]) => word))).toEqual(new Set(["agrees"]));
    expect(summary(before)).toMatch(/^All \d agree within 10 %\.$/);
  });

  it.each(["ascending", "descending"] as const)(
    "stays as it is when the list is sorted by airflow, %s",
    (direction) => {
      const sorted = calculated(sortTable(before, { table: "Outlets", column: "Airflow", direction }));
      expect(record(sorted)).toEqual(record(before));
      expect(summary(sorted)).toBe(summary(before));
    },
  );

  it("says which outlets are not drawn by another seed, and counts nothing as agreeing", () => {
    const other = withEdits(before, [set("C6", 4712)]);
    const words = record(other).map(([, , word]) => word);
    expect(words.filter((word) => word === "not drawn").length).toBeGreaterThanOrEqual(2);
    expect(summary(other)).toMatch(/^\d rows are not judged: .* \d not drawn: set seed and share back/);
    expect(record(other).map(([tag, airflow]) => [tag, airflow])).toEqual(
      record(before).map(([tag, airflow]) => [tag, airflow]),
    );
    const { findings } = checkWorkbook(checkedFile(other, calculateXlsx(other)));
    const places = record(other).flatMap(([, , word], index) =>
      word === "not drawn" ? [`${columnUnder(PLAN, "Retest", "Outlet read")}${FIRST + index}`] : [],
    );
    expect(findings.filter(({ kind }) => kind === "retest-not-judged").map(({ cell }) => cell)).toEqual(places);
    expect(summary(withEdits(other, [set("C6", 4711)]))).toBe(summary(before));
  });

  it("keeps its outlets when rows are inserted into the list, and names one that was deleted", () => {
    const inserted = calculated(insertRows(before, { sheet: "Outlets", row: 10, count: 2 }));
    expect(record(inserted)).toEqual(record(before));
    expect(summary(inserted)).toBe(summary(before));
    const [tag] = record(before)[0] ?? [];
    const outlets = readSheet(before, "Outlets");
    const row = Array.from({ length: 30 }, (_, index) => 9 + index).find(
      (one) => cellAt(outlets, `A${one}`)?.value === tag,
    );
    const deleted = calculated(deleteRows(before, { sheet: "Outlets", row: row ?? 0, count: 1 }));
    expect(record(deleted)[0]?.[2]).toBe("not listed");
    expect(summary(deleted)).toMatch(/not judged.* 1 not listed: enter the tag/);
  });

  it("says the same in LibreOffice, in its hand-off copy and in plain formulas", async () => {
    const other = withEdits(before, [set("C6", 4712), set(at("W2", 0), "105 fpm"), set(at("W1", 9), 90)]);
    const handoff = openWorkbook(patchWorkbook(other, handoffOf(other).edits), "handoff.xlsx");
    const plain = openWorkbook(startWorkbook(other, { units: "ip", paper: "letter", formulas: "plain" }), "plain.xlsx");
    const files = new Map([handoff, plain].map(({ fileName, archive }) => [fileName.slice(0, -5), archive.bytes]));
    const calculatedThere = await recalculated(files);
    expect(summary(other)).toMatch(/1 no outlet: enter which outlet was read/);
    for (const [name, bytes] of calculatedThere) {
      const there = openWorkbook(bytes, `${name}.xlsx`);
      expect([name, summary(there)]).toEqual([name, summary(other)]);
      const words = (workbook: Workbook) => record(workbook).map(([tag, , word]) => [tag, word]);
      expect(words(there)).toEqual(words(other));
    }
  });
});
