import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findWorkbooks } from "../../../../src/hosts/file/rollup/find-workbooks.js";
import { sentencesOf } from "../../../../src/workbook/finding.js";

let folder = "";

beforeAll(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "vanesheet-find-")));
  for (const name of ["deep/deeper", ".hidden", "empty"]) mkdirSync(join(folder, name), { recursive: true });
  for (const name of [
    "b.xlsx",
    "a.XLSX",
    "macros.xlsm",
    "deep/deeper/c.xlsx",
    "~$b.xlsx",
    ".~lock.macros.xlsm#",
    ".hidden/d.xlsx",
    ".e.xlsx",
    "old.xls",
    "open.ods",
    "readme.txt",
    "summary.xlsx",
  ]) {
    writeFileSync(join(folder, name), name);
  }
  symlinkSync(join(folder, "deep"), join(folder, "loop"));
  symlinkSync(join(folder, "gone.xlsx"), join(folder, "broken.xlsx"));
});

afterAll(() => rmSync(folder, { recursive: true }));

const within = (file: string) => file.slice(folder.length + 1);

describe("looking for workbooks", () => {
  it("goes into folders, knows both endings, and passes over what is hidden, a lock file or the summary", async () => {
    const { value } = await findWorkbooks([folder], new Set([join(folder, "summary.xlsx")]));
    expect(value.map(({ file }) => within(file))).toEqual(["a.XLSX", "b.xlsx", "deep/deeper/c.xlsx", "macros.xlsm"]);
  });

  it("says which workbooks look open in another program", async () => {
    const { value } = await findWorkbooks([folder], new Set());
    expect(value.filter(({ isOpenElsewhere }) => isOpenElsewhere).map(({ file }) => within(file))).toEqual([
      "b.xlsx",
      "macros.xlsm",
    ]);
  });

  it("names spreadsheets of other kinds and links that lead nowhere", async () => {
    const { findings } = await findWorkbooks([folder, join(folder, "nowhere")], new Set());
    expect(findings.map((finding) => [within(finding.file), sentencesOf(finding)])).toEqual([
      [
        "broken.xlsx",
        `It is a link to “${join(folder, "gone.xlsx")}”, which is not there. Bring back what the link leads to, or name another file.`,
      ],
      ["old.xls", "A file that ends in .xls is not read. Save it as .xlsx if it is a job."],
      ["open.ods", "A file that ends in .ods is not read. Save it as .xlsx if it is a job."],
      ["nowhere", "It is not there. Check the name and the folder."],
    ]);
  });

  it("finds a workbook once that is named twice", async () => {
    const { value } = await findWorkbooks([join(folder, "deep"), join(folder, "deep", "deeper", "c.xlsx")], new Set());
    expect(value).toHaveLength(1);
  });
});
