import { beforeAll, describe, expect, it } from "vitest";
import type { UnitSystemName } from "../../../src/core/index.js";
import { type Finding, findingAt, findingOf } from "../../../src/workbook/finding.js";
import { writeReport } from "../../../src/workbook/plan-file/index.js";
import { rollUp, summaryWorkbook, TIDY_COLUMNS } from "../../../src/workbook/rollup/index.js";
import { cellAt, cellsOf, formulaCellsOf, openWorkbook, portableCodec, readSheet } from "../../../src/xlsx/index.js";
import { recalculated } from "../../support/libreoffice.js";
import { figuresOf, jobBytes, type OutletCells } from "./made-job.js";

const PLUS_MINUS: readonly OutletCells[] = [
  { design: 300, before: 240, after: 310, plusMinus: 30 },
  { design: 400, after: 330, plusMinus: 40, kind: "return" },
  { design: 120, plusMinus: 5 },
];

const ROLLED = rollUp([
  ...figuresOf(jobBytes(PLUS_MINUS, { number: "=1+1", name: '=HYPERLINK("x")', date: 46_000 }), "=a.xlsx"),
  ...figuresOf(jobBytes(PLUS_MINUS, { number: "J-2", technician: "@Tech", date: 46_040 }, "si"), "b.xlsx"),
  ...figuresOf(jobBytes([{ design: 50 }], { number: "J-3", technician: "+Tech", date: 46_080 }), "c.xlsx"),
]);

const FINDINGS: readonly Finding[] = [
  findingOf("=bad.xlsx", "not-opened", "workbook", "It is empty.", ""),
  {
    ...findingAt(["Job summary", "H10"], "unknown-kind", "nothing", "=The kind is not given.", ""),
    file: "b.xlsx",
  },
];

async function written(units: UnitSystemName): Promise<Uint8Array> {
  const { plan, values } = summaryWorkbook(ROLLED.value, FINDINGS, {
    units,
    about: "Three jobs.",
    changes: null,
    calibrationMonths: 12,
  });
  return writeReport(plan, values, portableCodec);
}

describe("the summary workbook", () => {
  let files: ReadonlyMap<string, Uint8Array> = new Map();
  let again: ReadonlyMap<string, Uint8Array> = new Map();

  beforeAll(async () => {
    files = new Map([
      ["ip", await written("ip")],
      ["si", await written("si")],
    ]);
    again = await recalculated(files);
  });

  it("shows the same after another program has calculated every formula", () => {
    let compared = 0;
    for (const [name, bytes] of files) {
      const own = openWorkbook(bytes, name);
      const other = openWorkbook(again.get(name) ?? new Uint8Array(), name);
      for (const { name: sheet } of own.sheets) {
        for (const { address, value } of formulaCellsOf(readSheet(own, sheet))) {
          const theirs = cellAt(readSheet(other, sheet), address)?.value ?? "";
          if (typeof value === "number") expect(theirs, `${sheet}!${address}`).toBeCloseTo(value, 8);
          else expect(theirs, `${sheet}!${address}`).toBe(value);
          compared += 1;
        }
      }
    }
    expect(compared).toBeGreaterThan(100);
  });

  it("never runs a text that begins like a formula", async () => {
    const workbook = openWorkbook(await written("ip"), "summary.xlsx");
    const formulas = workbook.sheets.flatMap(({ name }) => [...formulaCellsOf(readSheet(workbook, name))]);
    const ofTexts = formulas.filter(({ value }) => typeof value === "string" && value !== "");
    // A job's number, name and workbook are on several sheets.
    const different = new Map(ofTexts.map(({ formula, value }) => [formula.text, value]));
    expect([...different]).toEqual([
      ['"=1+1"', "=1+1"],
      ['"=HYPERLINK(""x"")"', '=HYPERLINK("x")'],
      ['"=a.xlsx"', "=a.xlsx"],
      ['"=bad.xlsx"', "=bad.xlsx"],
      ['"=The kind is not given."', "=The kind is not given."],
    ]);
    const technicians = [...cellsOf(readSheet(workbook, "Technicians"))].filter(
      ({ column, row }) => column === 1 && row > 5,
    );
    expect(technicians.map(({ value, formula }) => [value, formula])).toEqual([
      ["@Tech", undefined],
      ["+Tech", undefined],
      ["Tech A", undefined],
    ]);
  });

  it("leaves empty what cannot be said", async () => {
    const workbook = openWorkbook(await written("ip"), "summary.xlsx");
    const jobs = readSheet(workbook, "Jobs");
    const header = [...cellsOf(jobs)].filter(({ row }) => row === 8);
    const at = (title: string, row: number) => {
      const column = header.find(({ value }) => value === title)?.address.replace(/\d+/, "");
      return cellAt(jobs, `${column}${row}`)?.value;
    };
    // The third job lists one outlet that nobody measured.
    expect(at("Job number", 11)).toBe("J-3");
    expect([at("Design", 11), at("Percent of design", 11), at("± worst case", 11), at("Change", 11)]).toEqual([
      0,
      "",
      null,
      "",
    ]);
    expect(at("± worst case", 9)).toBe(70);
  });

  it("of no job at all can be written and opened", async () => {
    const { plan, values } = summaryWorkbook(rollUp([]).value, [], {
      units: "ip",
      about: "Nothing.",
      changes: null,
      calibrationMonths: 12,
    });
    const workbook = openWorkbook(await writeReport(plan, values, portableCodec), "summary.xlsx");
    expect(cellAt(readSheet(workbook, "Summary"), "B5")?.value).toBe(0);
  });
});

describe("the columns of a row an outlet", () => {
  it("have a name of their own, in one spelling, with its unit", () => {
    const names = TIDY_COLUMNS.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    for (const { name, unit } of TIDY_COLUMNS) {
      expect(name).toMatch(/^[a-z]+(_[a-z]+)*$/);
      const ending = { cfm: "_cfm", "L/s": "_lps", in: "_in" }[unit];
      if (ending !== undefined) expect(name.endsWith(ending)).toBe(true);
    }
  });
});
