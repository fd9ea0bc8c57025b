import { describe, expect, it } from "vitest";
import { zlibCodec } from "../../../src/hosts/file/index.js";
import { writeReport } from "../../../src/workbook/plan-file/index.js";
import { rollUp, summaryWorkbook } from "../../../src/workbook/rollup/index.js";
import { FORMATS } from "../../../src/workbook/template/style.js";
import { cellAt, formatAddress, openWorkbook, portableCodec, readSheet } from "../../../src/xlsx/index.js";
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

describe.each([
  ["anywhere", portableCodec],
  ["in Node", zlibCodec],
])("a long report, packed %s,", (_, codec) => {
  it("shows every cell of its plan, with its look", async () => {
    const details = { units: "ip", about: "Invented.", changes: null, calibrationMonths: 12 } as const;
    const { plan, values } = summaryWorkbook(rollUp(FIGURES).value, [], details);
    const workbook = openWorkbook(await writeReport(plan, values, codec), "summary.xlsx");
    const sheet = readSheet(workbook, "Jobs");
    const planned = plan.sheets.find(({ name }) => name === "Jobs")?.rows;
    const looks = new Map<string, number>();
    const rows = [...(planned?.rows() ?? [])];
    expect([rows.length, planned?.count]).toEqual([JOBS, JOBS]);
    rows.forEach(({ contents }, index) => {
      contents.forEach((content, column) => {
        const at = formatAddress((planned?.firstRow ?? 0) + index, column + 1);
        const cell = cellAt(sheet, at);
        const isFormula = typeof content === "object" && content !== null;
        expect([at, cell?.value ?? ""]).toEqual([at, (isFormula ? content.result : content) ?? ""]);
        expect([at, cell?.formula?.text]).toEqual([at, isFormula ? content.formula.slice(1) : undefined]);
        const { style, format } = planned?.looks[column] ?? { style: "plain", format: "general" };
        const look = `${style} ${format}`;
        expect(cell?.style).toBe(looks.get(look) ?? cell?.style);
        looks.set(look, cell?.style ?? -1);
        expect(workbook.styles[cell?.style ?? -1]?.numberFormat).toBe(FORMATS[format as keyof typeof FORMATS]);
      });
    });
    expect(new Set(looks.values()).size).toBe(looks.size);
    expect(sheet.tables.map(({ name, headerRows }) => [name, headerRows])).toEqual([["Jobs", 1]]);
  });
});
