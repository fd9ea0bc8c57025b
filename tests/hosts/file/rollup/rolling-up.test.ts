import {
  appendFileSync,
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  unlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { DuckDBInstance } from "@duckdb/node-api";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { rollupCommand } from "../../../../src/cli/rollup.js";
import { BAD_WORKBOOKS } from "../../../../src/tools/rollup/bad-workbooks.js";
import type { MadeTruth } from "../../../../src/tools/rollup/make-jobs.js";
import { cellAt, openWorkbook, readSheet } from "../../../../src/xlsx/index.js";
import { jobBytes } from "../../../workbook/rollup/made-job.js";
import { type PrintedRollUp, rolledUp, runRollUp, someJobs } from "./run-rollup.js";

/** NIST Special Publication 811, appendix B.8: cubic foot per minute to liter per second, its exact digits. */
const LPS_PER_CFM = 0.4719474432;
const FILES = 60;

let folder = "";
let truth: MadeTruth;
let first: PrintedRollUp;

async function query(sql: string): Promise<readonly Readonly<Record<string, unknown>>[]> {
  const connection = await (await DuckDBInstance.create(":memory:")).connect();
  try {
    return (await connection.runAndReadAll(sql)).getRowObjectsJson();
  } finally {
    connection.closeSync();
  }
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "vanesheet-rollup-"));
  truth = someJobs(join(folder, "jobs"), FILES);
  first = await rolledUp(folder, [
    "jobs",
    "-o",
    "summary.xlsx",
    "--csv",
    "outlets.csv",
    "--parquet",
    "outlets.parquet",
  ]);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("sixty workbooks, bad ones of eighteen kinds among them", () => {
  it("are all accounted for", () => {
    const skipped = first.findings.filter(({ leftOut }) => leftOut === "workbook");
    expect(Object.values(truth.bad).every((count) => count > 0)).toBe(true);
    expect(Object.keys(truth.bad)).toEqual(Object.keys(BAD_WORKBOOKS));
    const bad = Object.values(truth.bad).reduce((sum, count) => sum + count, 0);
    expect(skipped.filter(({ kind }) => kind === "superseded")).toHaveLength(truth.revisions);
    expect(skipped.filter(({ kind }) => kind !== "superseded")).toHaveLength(bad);
    expect(first).toMatchObject({ found: FILES, read: FILES });
    expect(first.jobs).toHaveLength(truth.jobs);
    expect(first.jobs.length + skipped.length).toBe(FILES);
  });

  it("are counted exactly", () => {
    const { outlets, compared, notMeasured, noDesign, faulty, low, within, high } = truth;
    expect(first.total).toMatchObject({ outlets, compared, notMeasured, noDesign, faulty, low, within, high });
  });

  it("add up to what they were made of, SI and inch-pound together", () => {
    const cfm = (tenths: MadeTruth["designTenths"]) => tenths.ip / 10 + tenths.si / 10 / LPS_PER_CFM;
    expect(first.total.designCfm / cfm(truth.designTenths)).toBeCloseTo(1, 12);
    expect(first.total.measuredCfm / cfm(truth.measuredTenths)).toBeCloseTo(1, 12);
  });

  it("give the same totals when a query engine reads the Parquet", async () => {
    const [row] = await query(
      `SELECT count(*) FILTER (status = 'compared') AS compared, count(*) AS outlets, count(DISTINCT job_number) AS jobs, sum(measured_cfm) FILTER (status = 'compared') AS measured, sum(design_lps) FILTER (status = 'compared') AS design FROM '${join(folder, "outlets.parquet")}'`,
    );
    expect(row).toMatchObject({
      compared: String(truth.compared),
      outlets: String(truth.outlets),
      jobs: String(truth.jobs),
    });
    expect(Number(row?.["measured"])).toBeCloseTo(first.total.measuredCfm, 6);
    expect(Number(row?.["design"])).toBeCloseTo(first.total.designCfm * LPS_PER_CFM, 6);
  });

  it("give the months of the summary through the query that the document shows", async () => {
    const document = readFileSync(resolve(import.meta.dirname, "../../../../docs/rollup.md"), "utf8");
    const sql = /```sql\n(.*?)```/s.exec(document)?.[1] ?? "";
    const rows = await query(sql.replace("outlets.parquet", join(folder, "outlets.parquet")));
    expect(rows.map(({ month, outlets }) => [month, Number(outlets)])).toEqual(
      first.months.map(({ name, compared }) => [name, compared]),
    );
    for (const [index, row] of rows.entries()) {
      expect(Number(row["percent_of_design"])).toBeCloseTo(first.months[index]?.percent ?? Number.NaN, 9);
      expect(Number(row["within_percent"])).toBeCloseTo(first.months[index]?.withinPercent ?? Number.NaN, 9);
    }
  });

  it("give the same rows as CSV", async () => {
    const [difference] = await query(
      `SELECT count(*) AS rows FROM (SELECT file, row, outlet, status, measured_cfm, percent_of_design FROM read_csv('${join(folder, "outlets.csv")}') EXCEPT SELECT file, row, outlet, status, measured_cfm, percent_of_design FROM '${join(folder, "outlets.parquet")}')`,
    );
    const [all] = await query(`SELECT count(*) AS rows FROM read_csv('${join(folder, "outlets.csv")}')`);
    expect([difference, all]).toEqual([{ rows: "0" }, { rows: String(truth.outlets) }]);
  });

  it("stand in the summary as they were printed", () => {
    const workbook = openWorkbook(new Uint8Array(readFileSync(join(folder, "summary.xlsx"))), "summary.xlsx");
    const summary = readSheet(workbook, "Summary");
    const lines = new Map(
      Array.from({ length: 30 }, (_, row) => [cellAt(summary, `A${row}`)?.value, cellAt(summary, `B${row}`)]),
    );
    expect(lines.get("Jobs")).toMatchObject({ value: truth.jobs, formula: { kind: "plain" } });
    expect(lines.get("Outlets compared")).toMatchObject({ value: truth.compared });
    expect(lines.get("Measured")?.value).toBeCloseTo(first.total.measuredCfm, 6);
    expect(cellAt(readSheet(workbook, "Jobs"), "A9")?.value).toBe(first.jobs[0]?.jobNumber);
  });
});

describe("the next run", () => {
  const again = (...more: readonly string[]) => rolledUp(folder, ["jobs", "-o", "summary.xlsx", "--replace", ...more]);
  const withoutRead = ({ read: _, ...rest }: PrintedRollUp) => rest;

  it("reads nothing that is as it was, and gives the same", async () => {
    const second = await again();
    expect(second.read).toBeLessThan(FILES);
    expect(second.read).toBe(0);
    expect(withoutRead(second)).toEqual(withoutRead(first));
  });

  it("reads what was saved again, and gives the same where its content is", async () => {
    const file = join(folder, first.jobs[0]?.file ?? "");
    utimesSync(file, 1_770_000_000, 1_770_000_000);
    expect(await again()).toMatchObject({ read: 1, total: first.total });
    expect(await again()).toMatchObject({ read: 0, total: first.total });
  });

  it("reads what changed, and forgets what is gone", async () => {
    const [changed, gone] = first.jobs.map(({ file }) => join(folder, file));
    copyFileSync(changed ?? "", join(folder, "kept.xlsx"));
    copyFileSync(gone ?? "", join(folder, "gone.xlsx"));
    writeFileSync(changed ?? "", jobBytes([{ design: 100, after: 96 }], { number: "J-1001" }));
    unlinkSync(gone ?? "");
    const third = await again();
    expect(third).toMatchObject({ found: FILES - 1, read: 1 });
    expect(third.jobs).toHaveLength(truth.jobs - 1);
    expect(third.jobs[0]).toMatchObject({ jobNumber: "J-1001", outlets: 1, measuredCfm: 96 });
    copyFileSync(join(folder, "kept.xlsx"), changed ?? "");
    copyFileSync(join(folder, "gone.xlsx"), gone ?? "");
    expect((await again("--units", "si")).total).toEqual(first.total);
  });

  it("passes over what is torn or spoiled in what was kept", async () => {
    const kept = join(folder, ".vanesheet", "summary.xlsx.readings");
    const lines = readFileSync(kept, "utf8").split("\n");
    lines[5] = lines[5]?.replace("J-", "K-") ?? "";
    writeFileSync(kept, `${lines.slice(0, 40).join("\n")}\n`);
    appendFileSync(kept, lines[41]?.slice(0, 100) ?? "");
    const mended = await again();
    expect(mended.read).toBeGreaterThan(FILES - 25);
    expect(mended.total).toEqual(first.total);
    expect((await again()).read).toBe(0);
  });
});

describe("a run that is compared with an earlier one", () => {
  const compared = async (earlier: string, ...more: readonly string[]) => {
    const { status, out, err } = await runRollUp(folder, [
      "jobs",
      "-o",
      "compared.xlsx",
      "--replace",
      "--compare",
      earlier,
      ...more,
    ]);
    return { status, out, err };
  };

  it.each(["summary.xlsx", "outlets.parquet"])("%s ends with 0 while all is as usual", async (earlier) => {
    const { status, out, err } = await compared(earlier);
    expect([err, status]).toEqual(["", 0]);
    expect(out).toContain(`Compared with ${earlier}: as it was.`);
  });

  it("ends with 3 for a new problem, and with 0 again once it is known", async () => {
    const file = join(folder, "jobs", "bad again.xlsx");
    writeFileSync(file, "");
    const first = await compared("summary.xlsx");
    expect(first.status).toBe(3);
    expect(first.out).toContain("Compared with summary.xlsx: new problems.");
    expect(first.out).toContain("jobs/bad again.xlsx: It is empty (0 bytes).");
    const changes = readSheet(
      openWorkbook(new Uint8Array(readFileSync(join(folder, "compared.xlsx"))), "compared.xlsx"),
      "Changes",
    );
    expect([cellAt(changes, "A6")?.value, cellAt(changes, "D6")?.value]).toEqual([
      "new problem",
      "jobs/bad again.xlsx",
    ]);
    // The summary is read before it is replaced.
    expect((await compared("compared.xlsx")).status).toBe(0);
    unlinkSync(file);
    const mended = await compared("compared.xlsx");
    expect(mended.status).toBe(0);
    expect(mended.out).toContain("problems gone: 1");
  });

  it("ends with 3 when a job is gone, also where Parquet is compared with", async () => {
    const { status, out } = await compared("outlets.parquet", "--job", "J-10[!]*");
    expect(status).toBe(3);
    expect(out).toContain(`jobs gone: ${truth.jobs}`);
  });

  it("says what is wrong with the file to compare with", async () => {
    expect(await compared("nothing.xlsx")).toMatchObject({
      status: 1,
      err: expect.stringContaining("There is no “nothing.xlsx” to compare with. Run once without --compare"),
    });
    expect(await compared("summary.csv")).toMatchObject({ status: 2 });
    writeFileSync(join(folder, "torn.parquet"), readFileSync(join(folder, "outlets.parquet")).subarray(0, 3000));
    expect(await compared("torn.parquet")).toMatchObject({
      status: 1,
      err: expect.stringContaining("torn.parquet"),
    });
  });
});

describe("the manager's table of names", () => {
  it("merges names in the summary and in the rows, and each is told", async () => {
    // As a spreadsheet program saves it where the comma is a decimal sign.
    writeFileSync(join(folder, "names.csv"), "\uFEFFKind;Found;Counts as\r\ntechnician;Technician A;Technician B\r\n");
    const args = ["jobs", "-o", "named.xlsx", "--names", "names.csv", "--csv", "named.csv"];
    const { technicians, names, total } = await rolledUp(folder, args);
    expect(technicians.map(({ name }) => name)).toEqual(
      first.technicians.map(({ name }) => name).filter((name) => name !== "Technician A"),
    );
    expect(total).toEqual(first.total);
    const of = (name: string) => first.technicians.find((one) => one.name === name)?.outlets ?? 0;
    expect(technicians[0]?.outlets).toBe(of("Technician A") + of("Technician B"));
    expect(names).toMatchObject([{ name: "Technician A", countsAs: "Technician B", outlets: of("Technician A") }]);
    const [rows] = await query(
      `SELECT count(*) AS rows FROM read_csv('${join(folder, "named.csv")}') WHERE technician = 'Technician A'`,
    );
    expect(rows).toEqual({ rows: "0" });
  });
});

describe("a run that is killed", () => {
  it("at any moment goes on where it stopped, and gives the same in the end", async () => {
    const args = ["jobs", "-o", "cut-off.xlsx", "--workers", "2"];
    for (const afterMs of [350, 500]) await runRollUp(folder, args, afterMs);
    const finished = await rolledUp(folder, [...args, "--replace"]);
    expect(finished.total).toEqual(first.total);
    expect(finished.jobs.map(({ jobNumber, percent }) => [jobNumber, percent])).toEqual(
      first.jobs.map(({ jobNumber, percent }) => [jobNumber, percent]),
    );
  });
});

describe("a workbook that takes too long", () => {
  it("is given up and listed, and tried again in the next run", { timeout: 120_000 }, async () => {
    mkdirSync(join(folder, "slow"));
    for (const number of ["K-1", "K-2", "K-3"]) {
      writeFileSync(join(folder, "slow", `${number}.xlsx`), jobBytes([{ design: 100, after: 95 }], { number }));
    }
    const args = ["slow", "-o", "impatient.xlsx"];
    const impatient = await rolledUp(folder, [...args, "--seconds", "0.001"]);
    expect(impatient.jobs).toEqual([]);
    const slow = impatient.findings.filter(({ problem }) =>
      problem.startsWith("It takes longer than 0.001 seconds to read and calculate."),
    );
    expect([slow.length, impatient.read]).toEqual([3, 3]);
    expect(slow.every(({ leftOut }) => leftOut === "workbook")).toBe(true);
    const patient = await rolledUp(folder, [...args, "--replace"]);
    expect([patient.read, patient.jobs.length]).toEqual([3, 3]);
  });
});

describe("a command typed wrongly", () => {
  it.each([
    [[], { output: "s.xlsx" }, "FOLDER is missing"],
    [["jobs"], {}, "-o SUMMARY.xlsx is missing"],
    [["jobs"], { output: "s.txt" }, "has to end in .xlsx"],
    [["jobs"], { output: "s.xlsx", csv: "o.txt" }, "has to end in .csv"],
    [["jobs"], { output: "s.xlsx", units: "metric" }, "--units takes ip or si"],
    [["jobs"], { output: "s.xlsx", workers: "0" }, "--workers takes a whole number"],
    [["jobs"], { output: "s.xlsx", seconds: "0" }, "--seconds takes a number above 0"],
  ])("%j %j says what is wrong", async (positionals, options, part) => {
    await expect(rollupCommand.run({ positionals, options })).rejects.toThrow(part);
  });

  it("writes over nothing without being asked, and nothing where there is no workbook", async () => {
    const taken = await runRollUp(folder, ["jobs", "-o", "summary.xlsx"]);
    expect(taken).toMatchObject({ status: 1, err: expect.stringContaining("is there already") });
    const missing = await runRollUp(folder, ["nowhere", "-o", "none.xlsx"]);
    expect(missing).toMatchObject({
      status: 1,
      err: expect.stringContaining("There is no workbook to read in nowhere"),
    });
  });
});
