/*
 * Rolls generated jobs up in one run, in four parts that are merged, and by the queries of docs/rollup.md in DuckDB, and
 * holds every total by technician, month, instrument and system against what the jobs were made of.
 *
 * node build/src/tools/rollup/prove-roll-up.js [files] [rows]
 */
import { execFile } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { DuckDBInstance } from "@duckdb/node-api";
import { packageFile } from "../../hosts/file/package-file.js";
import type { Finding } from "../../workbook/finding.js";
import type { GroupResult, RollUp } from "../../workbook/rollup/index.js";
import { BAD_WORKBOOKS } from "./bad-workbooks.js";
import { type MadeGroup, type MadeGrouping, type MadeJobs, type MadeTruth, makeJobs } from "./make-jobs.js";

const COMMAND = packageFile("src/cli/vanesheet.mjs");
const TEMPLATE = packageFile("templates/job-summary.xlsx");
const DOCUMENT = packageFile("docs/rollup.md");
/** Exact digits, NIST Special Publication 811, appendix B.8. */
const LPS_PER_CFM = 0.4719474432;
const PARTS = 4;

/** The figures of a group by which the ways are compared. */
interface Figures {
  readonly compared: number;
  readonly low: number;
  readonly within: number;
  readonly high: number;
  readonly measuredCfm: number;
  readonly designCfm: number;
}

type Groups = Readonly<Record<MadeGrouping, ReadonlyMap<string, Figures>>>;

/** What the comparison came to. */
export interface Proof {
  readonly truth: MadeTruth;
  /** How many figures were compared, over the three ways. */
  readonly figures: number;
  /** Of all, relative to the true figure. */
  readonly largestDifference: number;
  /** Figures that are missing, too many or off by more than a billionth, in words. */
  readonly wrong: readonly string[];
  /** In how many ways a workbook was bad, and how many of the bad ones were named. */
  readonly badWays: number;
  readonly badNamed: number;
}

const ALLOWED = 1e-9;

/** Makes jobs and compares the three ways with their truth. */
export async function proveRollUp(jobs: MadeJobs): Promise<Proof> {
  const folder = mkdtempSync(join(tmpdir(), "vanesheet-proof-"));
  try {
    const truth = makeJobs(join(folder, "jobs"), new Uint8Array(readFileSync(TEMPLATE)), jobs);
    const one = await run(folder, ["jobs", "-o", "one.xlsx"]);
    const files = readdirSync(join(folder, "jobs"), { recursive: true, encoding: "utf8" })
      .filter((name) => name.endsWith(".xlsx"))
      .toSorted()
      .map((name) => join("jobs", name));
    // Dealt out one by one: the workbooks of one job come to different parts.
    const parts = Array.from({ length: PARTS }, (_, part) => join("parts", String(part)));
    const dealt = parts.map((part, of) => [
      ...files.filter((_, index) => index % PARTS === of),
      "-o",
      `${of}.xlsx`,
      "--part",
      part,
    ]);
    await Promise.all(dealt.map((args) => run(folder, args)));
    const merged = await run(folder, [...parts, "-o", "merged.xlsx"]);
    const expected = groupsOfTruth(truth);
    const ways: readonly (readonly [string, Groups])[] = [
      ["one run", groupsOf(one)],
      ["merged parts", groupsOf(merged)],
      ["queries", await groupsOfQueries(folder)],
    ];
    const wrong: string[] = [];
    let [figures, largestDifference] = [0, 0];
    for (const [way, groups] of ways) {
      for (const { what, difference } of differences(way, groups, expected)) {
        figures += 1;
        largestDifference = Math.max(largestDifference, difference);
        if (!(difference <= ALLOWED)) wrong.push(`${what} is off by ${difference}`);
      }
    }
    const leftOut = one.findings.filter(({ leftOut: what, kind }) => what === "workbook" && kind !== "superseded");
    return {
      truth,
      figures,
      largestDifference,
      wrong,
      badWays: Object.values(truth.bad).filter((count) => count > 0).length,
      badNamed: new Set(leftOut.map(({ file }) => file)).size,
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

type Printed = RollUp & { readonly findings: readonly Finding[] };

async function run(cwd: string, args: readonly string[]): Promise<Printed> {
  const { stdout } = await promisify(execFile)(process.execPath, [COMMAND, "rollup", ...args, "--json"], {
    cwd,
    maxBuffer: 2 ** 30,
  }).catch((cause: { readonly code: number; readonly stdout: string; readonly stderr: string }) => {
    // 1 says that workbooks are left out.
    if (cause.code !== 1 || cause.stdout === "") throw new Error(cause.stderr, { cause });
    return cause;
  });
  return JSON.parse(stdout) as Printed;
}

function groupsOfTruth({ groups }: MadeTruth): Groups {
  const cfm = (tenths: MadeGroup["designTenths"]) => tenths.ip / 10 + tenths.si / 10 / LPS_PER_CFM;
  const figuresOf = ({ compared, low, within, high, measuredTenths, designTenths }: MadeGroup): Figures => ({
    compared,
    low,
    within,
    high,
    measuredCfm: cfm(measuredTenths),
    designCfm: cfm(designTenths),
  });
  const byName = (made: Readonly<Record<string, MadeGroup>>) =>
    new Map(Object.entries(made).map(([name, group]) => [name.toLowerCase(), figuresOf(group)]));
  return {
    technician: byName(groups.technician),
    month: byName(groups.month),
    instrument: byName(groups.instrument),
    system: byName(groups.system),
  };
}

function groupsOf({ technicians, months, instruments, systems }: RollUp): Groups {
  const byName = <T extends GroupResult>(results: readonly T[], nameOf: (result: T) => string) =>
    new Map(results.filter(({ compared }) => compared > 0).map((result) => [nameOf(result).toLowerCase(), result]));
  return {
    technician: byName(technicians, ({ name }) => name),
    month: byName(months, ({ name }) => name),
    instrument: byName(instruments, ({ serial }) => serial),
    system: byName(systems, ({ jobNumber, system }) => `${jobNumber} ${system}`),
  };
}

/** What docs/rollup.md puts in place of the first line of its query by technician. */
function firstLines(document: string): Readonly<Record<MadeGrouping, string>> {
  const line = (word: string) =>
    new RegExp(`by ${word}[^\`]*\`([^\`]+)\``).exec(document)?.[1] ?? `no query by ${word}`;
  return {
    technician: "lower(coalesce(technician, ''))",
    month: line("month"),
    instrument: line("meter"),
    system: line("system"),
  };
}

async function groupsOfQueries(folder: string): Promise<Groups> {
  const document = readFileSync(DOCUMENT, "utf8").split("## Parts")[1] ?? "";
  const [views = "", query = ""] = [...document.matchAll(/```sql\n(.*?)```/gs)].map(([, sql = ""]) => sql);
  const connection = await (await DuckDBInstance.create(":memory:")).connect();
  try {
    await connection.run(views.replaceAll("'parts/", `'${folder}/parts/`));
    const groups: Partial<Record<MadeGrouping, ReadonlyMap<string, Figures>>> = {};
    for (const [grouping, first] of Object.entries(firstLines(document)) as [MadeGrouping, string][]) {
      const sql = query.replace("lower(coalesce(technician, '')) AS technician", `${first} AS name`);
      const rows = (await connection.runAndReadAll(sql)).getRowObjectsJson();
      groups[grouping] = new Map(rows.map((row) => [String(row["name"]).toLowerCase(), figuresOfRow(row)]));
    }
    return groups as Groups;
  } finally {
    connection.closeSync();
  }
}

function figuresOfRow(row: Readonly<Record<string, unknown>>): Figures {
  const number = (name: string) => Number(row[name]);
  return {
    compared: number("outlets"),
    low: number("low"),
    within: number("within"),
    high: number("high"),
    measuredCfm: number("measured_cfm"),
    designCfm: number("design_cfm"),
  };
}

const KEYS = ["compared", "low", "within", "high", "measuredCfm", "designCfm"] as const;

function* differences(way: string, groups: Groups, expected: Groups) {
  for (const grouping of Object.keys(expected) as MadeGrouping[]) {
    for (const name of new Set([...expected[grouping].keys(), ...groups[grouping].keys()])) {
      const [is, should] = [groups[grouping].get(name), expected[grouping].get(name)];
      for (const key of KEYS) {
        const [found, wanted] = [is?.[key] ?? Number.NaN, should?.[key] ?? Number.NaN];
        const difference = found === wanted ? 0 : Math.abs(found - wanted) / Math.abs(wanted);
        yield { what: `${way}, ${grouping} ${name}, ${key}`, difference };
      }
    }
  }
}

if (process.argv[1]?.endsWith("prove-roll-up.js")) {
  const [files = "1000", rows = "20"] = process.argv.slice(2);
  const proof = await proveRollUp({ files: Number(files), rows: Number(rows), badEvery: 20 });
  const { truth, figures, largestDifference, wrong, badWays, badNamed } = proof;
  const bad = Object.values(truth.bad).reduce((sum, count) => sum + count, 0);
  console.log(
    `${truth.files} workbooks, ${truth.jobs} jobs, ${truth.outlets} outlets; ${bad} bad in ${badWays} of ${Object.keys(BAD_WORKBOOKS).length} ways, ${badNamed} named.`,
  );
  console.log(`${figures} figures compared; the largest difference is ${largestDifference.toExponential(1)}.`);
  for (const line of wrong.slice(0, 20)) console.log(line);
  if (wrong.length > 0 || badNamed !== bad) process.exitCode = 1;
}
