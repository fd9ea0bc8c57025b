import { describe, expect, it } from "vitest";
import { writeReport } from "../../../src/workbook/plan-file/index.js";
import { rollUp, summaryWorkbook } from "../../../src/workbook/rollup/index.js";
import { FORMATS } from "../../../src/workbook/template/style.js";
import { cellAt, openWorkbook, readSheet } from "../../../src/xlsx/index.js";
import { figuresOf, jobBytes } from "./made-job.js";

const OUTLETS = [{ design: 300, before: 250, after: 310 }, { design: 400 }];

/** So many that the sheets Jobs and Systems are long. */
const JOBS = 150;

const FIGURES = Array.from({ length: JOBS }, (_, index) => ({
  name: index === 7 ? ' "A" & <B>\u0007 ' : index === 8 ? "=1+1" : `Job ${index}`,
  number: `J-${index}`,
})).flatMap(({ name, number }) =>
  figuresOf(jobBytes(OUTLETS), `${number}.xlsx`).map((job) => ({ ...job, jobName: name, jobNumber: number })),
);

describe("a long report", () => {
  it("shows every cell of its plan, with its look", async () => {
    const details = { units: "ip", about: "Invented.", changes: null, calibrationMonths: 12 } as const;
    const { plan, values } = summaryWorkbook(rollUp(FIGURES).value, [], details);
    const workbook = openWorkbook(await writeReport(plan, values), "summary.xlsx");
    const jobs = plan.sheets.find(({ name }) => name === "Jobs");
    const sheet = readSheet(workbook, "Jobs");
    expect(jobs?.cells.length).toBeGreaterThan(3000);
    const looks = new Map<string, number>();
    for (const { at, content, style, format } of jobs?.cells ?? []) {
      const cell = cellAt(sheet, at);
      const isFormula = typeof content === "string" && content.startsWith("=");
      const result = values.get("Jobs")?.get(at)?.value ?? null;
      expect([at, cell?.value ?? ""]).toEqual([at, (isFormula ? result : content) ?? ""]);
      expect([at, cell?.formula?.text]).toEqual([at, isFormula ? content.slice(1) : undefined]);
      const look = `${style} ${format}`;
      expect(cell?.style).toBe(looks.get(look) ?? cell?.style);
      looks.set(look, cell?.style ?? -1);
      expect(workbook.styles[cell?.style ?? -1]?.numberFormat).toBe(FORMATS[format]);
    }
    expect(new Set(looks.values()).size).toBe(looks.size);
    expect(sheet.tables.map(({ name, headerRows }) => [name, headerRows])).toEqual([["Jobs", 1]]);
  });
});
