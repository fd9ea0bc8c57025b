import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { distributionColumns, monthColumns } from "../../../src/pane/share/chart-columns.js";
import { handoffCopy } from "../../../src/pane/share/handoff-copy.js";
import { readJobFiles } from "../../../src/pane/share/read-job-files.js";
import { type ChosenFile, type ReadFile, readJobFile } from "../../../src/pane/share/roll-up-files.js";
import { NO_ROLL_UP, rollUpReducer } from "../../../src/pane/share/roll-up-state.js";
import { jobName, plusMinusPercents, sortedFindings, totalWords } from "../../../src/pane/share/roll-up-words.js";
import { summaryBytes } from "../../../src/pane/share/summary-bytes.js";
import { findingOf } from "../../../src/workbook/finding.js";
import { HostError } from "../../../src/workbook/index.js";
import { PERCENT_BINS, rollUp } from "../../../src/workbook/rollup/index.js";
import { cellsOf, openWorkbook, readSheet } from "../../../src/xlsx/index.js";
import { jobBytes } from "../../workbook/rollup/made-job.js";
import { plainWorkbook } from "../../xlsx/plain-workbook.js";

const template = (name: string) =>
  new Uint8Array(readFileSync(resolve(import.meta.dirname, `../../../templates/${name}.xlsx`)));

const file = (name: string, bytes: Uint8Array): ChosenFile => ({
  name,
  lastModified: 1_700_000_000_000,
  arrayBuffer: async () => bytes.slice().buffer,
});

/** Two outlets, 190 of 200 cfm in all, one of them 20 % short. */
const twoOutlets = (number: string) =>
  jobBytes(
    [
      { design: 100, before: 80, plusMinus: 8 },
      { design: 100, before: 110, plusMinus: 6 },
    ],
    { number },
    "ip",
    { Job_LimitMinus: 10, Job_LimitPlus: 10 },
  );

const failing: ChosenFile = {
  name: "gone.xlsx",
  lastModified: 0,
  arrayBuffer: () => Promise.reject(new Error("The file is gone.")),
};

describe("workbooks that are chosen for a roll-up", () => {
  it("give their figures one by one", async () => {
    const { figures, findings } = await readJobFile(file("one.xlsx", twoOutlets("J-1")));
    expect(findings.filter(({ leftOut }) => leftOut === "workbook")).toEqual([]);
    const { value } = rollUp(figures);
    expect(value.total).toMatchObject({
      compared: 2,
      measuredCfm: 190,
      designCfm: 200,
      percent: 95,
      low: 1,
      within: 1,
    });
  });

  it("that are copies count once", async () => {
    const files = ["one.xlsx", "copy.xlsx"].map((name) => file(name, twoOutlets("")));
    const read = await Promise.all(files.map(readJobFile));
    const { value, findings } = rollUp(read.flatMap(({ figures }) => figures));
    expect(value.total.compared).toBe(2);
    expect(findings.map(({ kind }) => kind)).toContain("superseded");
  });

  it.each([
    ["is no workbook", file("notes.xlsx", new TextEncoder().encode("no workbook at all")), "not-opened"],
    ["holds no list", file("notes.xlsx", plainWorkbook('<row r="1"><c r="A1"><v>1</v></c></row>')), "no-outlets-sheet"],
    ["holds an empty traverse", file("traverse.xlsx", template("duct-traverse")), "no-outlets"],
    ["was never filled", file("empty.xlsx", template("job-summary")), "no-outlets"],
    ["is gone when its turn comes", failing, "not-opened"],
  ])("are left out with a reason where one %s", async (_what, chosen, kind) => {
    const { figures, findings } = await readJobFile(chosen);
    expect(figures).toEqual([]);
    expect(findings).toContainEqual(
      expect.objectContaining({
        kind,
        leftOut: "workbook",
        file: chosen.name,
        action: expect.stringMatching(/\w+\.$/),
      }),
    );
  });

  it("are read in their order until the person stops", async () => {
    const names: string[] = [];
    const files = ["1.xlsx", "2.xlsx", "3.xlsx"].map((name) => file(name, new Uint8Array()));
    await readJobFiles(
      files,
      (cameIn) => names.push(...cameIn.map(({ name }) => name)),
      () => false,
    );
    expect(names).toEqual(["1.xlsx", "2.xlsx", "3.xlsx"]);
    await readJobFiles(
      files,
      () => expect.fail("It was stopped."),
      () => true,
    );
  });
});

describe("a roll-up on its way", () => {
  const nothing: ReadFile = { figures: [], findings: [] };
  const started = rollUpReducer(NO_ROLL_UP, { type: "started", fileCount: 2 });
  const came = (name: string) => ({ type: "came in", files: [{ name, read: nothing }] }) as const;

  it("counts what came in, and is done with the last", () => {
    const one = rollUpReducer(started, came("a.xlsx"));
    expect(one).toMatchObject({ status: "reading", readCount: 1, latest: "a.xlsx" });
    expect(rollUpReducer(one, came("b.xlsx"))).toMatchObject({ status: "done", readCount: 2 });
  });

  it("takes nothing in after it was stopped, and starts anew with other files", () => {
    const stopped = rollUpReducer(started, { type: "stopped" });
    expect(rollUpReducer(stopped, came("a.xlsx"))).toBe(stopped);
    expect(rollUpReducer(stopped, { type: "started", fileCount: 5 })).toMatchObject({
      status: "reading",
      readCount: 0,
    });
    expect(rollUpReducer(stopped, { type: "started", fileCount: 0 }).status).toBe("idle");
  });
});

describe("what a roll-up comes to", () => {
  const made = async () => rollUp((await readJobFile(file("one.xlsx", twoOutlets("J-1")))).figures).value;

  it("is said in words: the sums and never a mean of percents, with the ± between its two ends", async () => {
    const value = await made();
    expect(totalWords(value, "ip")).toBe(
      "1 job, 2 outlets compared: 190 of 200 cfm design (95.0 %), 50.0 % of those with limits are within them.",
    );
    // ± 8 and ± 6 cfm of 190 cfm: 14 cfm if both err alike.
    expect(plusMinusPercents(value.total)).toBe("± 7.4 % (95 %) on the total, worst case: every outlet errs alike.");
    expect(value.jobs.map(jobName)).toEqual(["J-1 Invented job"]);
  });

  it("is drawn with a column for each class of percent, and for each month that has a verdict", async () => {
    const { total, months } = await made();
    const { columns, most, description } = distributionColumns(total.percentCounts);
    expect(columns.filter(({ value }) => value > 0).map(({ key }) => key)).toEqual(["80 to 85", "110 to 115"]);
    expect([columns.length, most]).toEqual([PERCENT_BINS.length, 1]);
    expect(description).toBe("Number of outlets by percent of design. 80 to 85 %: 1; 110 to 115 %: 1.");
    expect(monthColumns(months).columns).toEqual([{ key: "2025-12", value: 50, label: "2025-12" }]);
    expect(monthColumns(months.map((month) => ({ ...month, withinPercent: null }))).columns).toEqual([]);
  });

  it("is written as a workbook with all of it", async () => {
    const bytes = await summaryBytes(await made(), [], { fileCount: 1, units: "ip", today: new Date("2026-01-05") });
    const workbook = openWorkbook(bytes, "Roll-up.xlsx");
    const texts = workbook.sheets.flatMap(({ name }) =>
      [...cellsOf(readSheet(workbook, name))].map(({ value }) => value),
    );
    expect(texts).toContain("J-1");
    expect(texts.some((text) => String(text).includes("1 workbook, rolled up on 2026-01-05."))).toBe(true);
  });

  it("keeps workbooks that were left out apart from what is worth a look", async () => {
    const { findings } = await readJobFile(failing);
    const note = findingOf("one.xlsx", "noted", "nothing", "Look.", "");
    expect(sortedFindings([...findings, note])).toEqual({ skipped: findings, lost: [], others: [note] });
  });
});

describe("the hand-off copy", () => {
  it("holds plain formulas in place of every call, under a name of its own", () => {
    const { bytes, name, words } = handoffCopy({ bytes: template("room-balance"), name: "House 12.xlsx" });
    expect(name).toBe("House 12 (hand-off).xlsx");
    const workbook = openWorkbook(bytes, name);
    const formulas = workbook.sheets.flatMap(({ name: sheet }) =>
      [...cellsOf(readSheet(workbook, sheet))].flatMap(({ formula }) => formula?.text ?? []),
    );
    expect(formulas.length).toBeGreaterThan(100);
    expect(formulas.filter((formula) => /VANE/i.test(formula))).toEqual([]);
    expect(words).toMatch(/^\d+ calls are plain formulas now\./);
  });

  it("is refused where nothing calls our functions, and where the file cannot be read", () => {
    const copy = handoffCopy({ bytes: template("room-balance"), name: "House 12.xlsx" });
    expect(() => handoffCopy(copy)).toThrow(HostError);
    expect(() => handoffCopy({ bytes: new Uint8Array([1, 2, 3]), name: "x.xlsx" })).toThrow(/No copy was made/);
  });
});
