import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import demoHouse from "../../../shared/demo/demo-house.json" with { type: "json" };
import { calculatePlan } from "../../../src/tools/templates/calculate-plan.js";
import { placeOf, sentencesOf } from "../../../src/workbook/finding.js";
import {
  JOB_SUMMARY_COLUMNS,
  type JobDetail,
  type JobSummaryKey,
  jobPlaces,
  jobSummary,
  roomBalance,
} from "../../../src/workbook/index.js";
import { writeTemplate } from "../../../src/workbook/plan-file/index.js";
import { jobFigures, rollUp } from "../../../src/workbook/rollup/index.js";
import { openWorkbook, patchWorkbook, type WorkbookEdit } from "../../../src/xlsx/index.js";
import { hostileWorkbooks } from "../../hosts/file/hostile-workbooks.js";
import { filledWith } from "../../support/filled-templates.js";
import { cellUnder } from "../../support/plan-places.js";
import { plainWorkbook } from "../../xlsx/plain-workbook.js";
import { jobBytes, type OutletCells, readBytes } from "./made-job.js";

const SOUND: OutletCells = { design: 100, after: 95 };

/** Writes a filled template as a file, calculated. */
async function templateBytes(template: "room-balance" | "job-summary"): Promise<Uint8Array> {
  const plan = template === "room-balance" ? roomBalance("") : jobSummary("");
  return writeTemplate(plan, filledWith(template, plan), calculatePlan);
}

function changed(bytes: Uint8Array, edits: readonly WorkbookEdit[]): Uint8Array {
  return patchWorkbook(openWorkbook(bytes, "job.xlsx"), edits);
}

/** A workbook in which one of its parts says something else. */
function rewritten(bytes: Uint8Array, part: string, from: string, to: string): Uint8Array {
  const parts = unzipSync(bytes);
  return zipSync({ ...parts, [part]: strToU8(strFromU8(parts[part] ?? new Uint8Array()).replaceAll(from, to)) });
}

/** The job with the header of a column, or what else is spelled so, spelled otherwise. */
function renamed(bytes: Uint8Array, from: string, to: string): Uint8Array {
  return rewritten(bytes, "xl/sharedStrings.xml", `<t>${from}</t>`, `<t>${to}</t>`);
}

const PLAN = jobSummary("");
const PLACES = jobPlaces(PLAN.names.map((name) => ({ ...name, sheet: undefined })));
const TABLE = PLAN.sheets.flatMap(({ tables }) => tables)[0]?.name ?? "";

/** The cell of a row of the summary, and of a detail of its job, as the plan has them. */
const summaryCell = (column: JobSummaryKey | undefined, row: number) =>
  cellUnder(PLAN, TABLE, JOB_SUMMARY_COLUMNS.find(({ key }) => key === column)?.header ?? "", row);
const jobCell = (detail: JobDetail, content: string): WorkbookEdit => {
  const place = PLACES.get(detail);
  if (place === undefined) throw new Error(`The job has no cell for ${detail}.`);
  return value(place.sheet, place.range, content);
};

const value = (sheet: string, address: string, content: string | number): WorkbookEdit => ({
  kind: "value",
  sheet,
  address,
  value: content,
});

describe("a job summary that the template made", () => {
  it("is read row by row, with nothing to complain of", async () => {
    const { value: outlets, findings } = readBytes(await templateBytes("job-summary"));
    expect(findings).toEqual([]);
    expect(outlets.map(({ outlet }) => outlet)).toEqual(demoHouse.outlets.map(({ outlet }) => outlet));
    expect(outlets[0]).toMatchObject({
      row: 10,
      jobNumber: "D-001",
      technician: "Invented technician",
      date: "2025-12-09",
      units: "ip",
      kind: "supply",
      widthIn: 12,
      heightIn: 6,
      factorRatio: 0.78,
      isFactorAssumed: false,
    });
  });

  it("gives the totals that its own sheet shows", async () => {
    const bytes = await templateBytes("job-summary");
    const { total } = rollUp(jobFigures({ file: "a", modifiedMs: 0, contentHash: "" }, readBytes(bytes).value)).value;
    // Figures of the filled template: 0.82 of design as found, 0.9, 1.02 and 1.15 of it as left, row 8 without design.
    const rows = demoHouse.outlets.map(({ designCfm }, index) => ({
      design: index === 7 ? null : designCfm,
      measured:
        index % 4 === 3 ? (index % 3 === 2 ? null : designCfm * 0.82) : designCfm * ([0.9, 1.02, 1.15][index % 3] ?? 1),
    }));
    const compared = rows.filter(({ design, measured }) => design !== null && measured !== null);
    expect(total.compared).toBe(compared.length);
    expect(total.designCfm).toBe(compared.reduce((sum, { design }) => sum + (design ?? 0), 0));
    expect(total.measuredCfm).toBeCloseTo(
      compared.reduce((sum, { measured }) => sum + (measured ?? 0), 0),
      9,
    );
  });

  it("is found under the number that a second one has", () => {
    const second = rewritten(
      jobBytes([SOUND]),
      "xl/workbook.xml",
      '<sheet name="Job summary"',
      '<sheet name="Job summary 2"',
    );
    expect(readBytes(second).value).toMatchObject([{ sheet: "Job summary 2", status: "compared" }]);
  });
});

describe("a room balance without a job summary", () => {
  it("gives its outlets, measured where there are readings", async () => {
    const { value: outlets, findings } = readBytes(await templateBytes("room-balance"));
    expect(findings).toEqual([]);
    const [first] = outlets;
    // By hand: 12 by 6 in are half a square foot, free to 0.78 of it; the readings have a mean of 1670 / 6.
    expect(first?.measuredCfm).toBeCloseTo(0.5 * 0.78 * (1670 / 6), 9);
    expect(first).toMatchObject({ designCfm: 110, beforeCfm: null, afterCfm: null, jobNumber: "D-001" });
    expect(outlets.filter(({ status }) => status === "not measured").map(({ outlet }) => outlet)).toEqual(
      demoHouse.outlets
        .filter(({ readingsFpm }) => readingsFpm.every((one) => one === null))
        .map(({ outlet }) => outlet),
    );
  });
});

describe("a cell that holds no figure", () => {
  it.each([
    ["a text", { after: "blocked by shelf" }, "not-a-number", "Measured after: “blocked by shelf” is not a number"],
    ["a number typed as text", { after: "95" }, "not-a-number", "95 is stored as text"],
    ["an error", { design: { error: "#REF!" } }, "error-value", "Design airflow shows #REF!"],
    ["a formula without a result", { after: { formula: "1+1" } }, "not-calculated", "without a stored result"],
    ["a negative design", { design: -100 }, "out-of-range", "Design airflow is -100"],
    ["an airflow beyond all measure", { after: 1e12 }, "out-of-range", "cannot be right"],
    ["a text as found, though it was measured as left", { before: "?" }, "not-a-number", "Measured before"],
  ] as const)("%s leaves its outlet out of the sums and is named", (_, cells, code, message) => {
    const [column] = Object.keys(cells) as JobSummaryKey[];
    const { value: outlets, findings } = readBytes(jobBytes([{ ...SOUND, ...cells }, SOUND]));
    expect(outlets.map(({ status }) => status)).toEqual(["faulty", "compared"]);
    expect(findings).toMatchObject([{ kind: code, leftOut: "outlet", file: "job.xlsx" }]);
    expect(findings.map(placeOf)[0]).toBe(`Job summary!${summaryCell(column, 10)}`);
    expect(findings.map(sentencesOf)[0]).toContain(message);
  });

  it("is taken from what was calculated for it", () => {
    const bytes = jobBytes([{ design: 100, after: { formula: "90+5" } }]);
    const { value: outlets, findings } = readBytes(bytes, new Map([[`Job summary!${summaryCell("after", 10)}`, 95]]));
    expect(findings).toEqual([]);
    expect(outlets).toMatchObject([{ status: "compared", measuredCfm: 95, percent: 95, verdict: "within" }]);
  });

  it("beside the figures costs nothing but is named", () => {
    const { value: outlets, findings } = readBytes(
      jobBytes([{ ...SOUND, plusMinus: "?", width: "wide", factor: 1.5, kind: "intake", date: "last week" }]),
    );
    expect(outlets[0]).toMatchObject({ status: "compared", plusMinusCfm: null, widthIn: null, kind: null, date: null });
    expect(findings.map(({ kind, leftOut }) => [kind, leftOut])).toEqual([
      ["not-a-number", "nothing"],
      ["out-of-range", "nothing"],
      ["unknown-kind", "nothing"],
      ["not-a-number", "nothing"],
      ["date", "nothing"],
    ]);
  });
});

describe("the units of a row", () => {
  it.each([
    ["imperial", "Units say “imperial”. Write ip or si."],
    [{ error: "#REF!" }, "Units say “#REF!”"],
  ] as const)("%j are refused", (units, message) => {
    const { value: outlets, findings } = readBytes(jobBytes([{ ...SOUND, units }]));
    expect(outlets[0]).toMatchObject({ status: "faulty", units: null });
    expect(findings.map(sentencesOf)[0]).toContain(message);
  });

  it("come from the sheet of job details where the row does not tell", () => {
    const { value: outlets } = readBytes(jobBytes([{ ...SOUND, units: null }], {}, "si"));
    expect(outlets[0]?.units).toBe("si");
    expect(outlets[0]?.designCfm).toBeCloseTo(211.888, 3);
  });

  it("that nobody states leave the row out", () => {
    const bytes = changed(jobBytes([{ ...SOUND, units: null }]), [jobCell("units", "")]);
    expect(readBytes(bytes).findings).toMatchObject([{ kind: "units", leftOut: "outlet" }]);
  });

  it("that the job no longer has leave the row out until the workbook was calculated", () => {
    const bytes = changed(jobBytes([SOUND]), [jobCell("units", "si")]);
    expect(readBytes(bytes).findings.map(sentencesOf)[0]).toContain(
      "Units show ip, but the sheet of job details says si",
    );
  });
});

describe("percent and verdict", () => {
  it("are worked out from the figures, and a stored one that differs is named", () => {
    const { value: outlets, findings } = readBytes(jobBytes([{ ...SOUND, percent: 88, verdict: "low" }]));
    expect(outlets[0]).toMatchObject({ percent: 95, verdict: "within" });
    expect(findings.map(sentencesOf)[0]).toContain("its figures give 95.0 %, within");
  });

  it("rest on the stored verdict where no limits are stated", () => {
    const edits = [jobCell("minusPercent", ""), jobCell("plusPercent", "")];
    const { value: outlets } = readBytes(changed(jobBytes([{ ...SOUND, verdict: "low" }, SOUND]), edits));
    expect(outlets.map(({ verdict }) => verdict)).toEqual(["low", null]);
  });
});

describe("the columns", () => {
  it.each(["Outlet", "Design airflow", "Measured before", "Measured after"])(
    "without “%s” leave the file out",
    (header) => {
      const { value: outlets, findings } = readBytes(renamed(jobBytes([SOUND]), header, "Gone"));
      expect(outlets).toEqual([]);
      expect(findings).toMatchObject([{ kind: "list-not-read", leftOut: "workbook" }]);
      expect(findings.map(sentencesOf)[0]).toContain(`“${header}”`);
    },
  );

  it("without a note are read all the same", () => {
    const { value: outlets, findings } = readBytes(renamed(jobBytes([SOUND]), "Note", "Remarks"));
    expect(outlets).toHaveLength(1);
    expect(findings).toMatchObject([{ kind: "missing-column", leftOut: "nothing" }]);
  });

  it("with a header twice leave the file out", () => {
    const bytes = renamed(jobBytes([SOUND]), "Note", "Design airflow");
    expect(readBytes(bytes).findings).toMatchObject([{ kind: "list-not-read", leftOut: "workbook" }]);
  });

  it("without any header leave the file out", () => {
    const headers: readonly string[] = JOB_SUMMARY_COLUMNS.map(({ header }) => header);
    const bytes = headers.reduce((made, header) => renamed(made, header, "Gone"), jobBytes([SOUND]));
    const { value: outlets, findings } = readBytes(bytes);
    expect(outlets).toEqual([]);
    expect(findings).toMatchObject([{ kind: "list-not-read", leftOut: "workbook" }]);
    expect(findings.map(sentencesOf)[0]).toContain("no row with the headings of a job summary");
  });
});

describe("rows", () => {
  it("that are spare are not listed, and a workbook without any outlet is left out", () => {
    const spare: OutletCells = { outlet: null, jobId: null, units: null, kind: null };
    expect(readBytes(jobBytes([SOUND, spare, spare])).value).toHaveLength(1);
    expect(readBytes(jobBytes([spare])).findings).toMatchObject([{ kind: "no-outlets", leftOut: "workbook" }]);
  });

  it("with figures and no tag count, and a tag that stands twice is named", () => {
    const { value: outlets, findings } = readBytes(
      jobBytes([
        { ...SOUND, outlet: null },
        { ...SOUND, outlet: "S-9" },
        { ...SOUND, outlet: "s-9" },
      ]),
    );
    expect(outlets.map(({ outlet }) => outlet)).toEqual(["row 10", "S-9", "s-9"]);
    expect(findings.map(({ kind, leftOut }) => [kind, leftOut])).toEqual([
      ["no-outlet-tag", "nothing"],
      ["repeated-tag", "nothing"],
    ]);
  });
});

describe("a file that is no job", () => {
  it("is left out when its workbook is another", () => {
    expect(readBytes(plainWorkbook('<row r="1"><c r="A1"><v>1</v></c></row>')).findings).toMatchObject([
      { kind: "no-outlets-sheet", leftOut: "workbook" },
    ]);
  });

  // One of each kind: reading them all is tested where they are refused.
  const kinds = new Map(hostileWorkbooks.map((hostile) => [hostile.code, hostile]));

  it.each([...kinds.values()].map((hostile) => [hostile.title, hostile] as const))(
    "is left out when it is %s",
    (_, { make }) => {
      const { value: outlets, findings } = readBytes(make());
      expect(outlets).toEqual([]);
      expect(findings).toMatchObject([{ leftOut: "workbook" }]);
      expect(findings.map(sentencesOf)[0]).not.toBe("");
    },
  );
});
