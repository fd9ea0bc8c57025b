import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import ExcelJS from "exceljs";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { mappingsIn } from "../../src/workbook/index.js";
import { readOutlets } from "../../src/workbook/rollup/index.js";
import { openWorkbook } from "../../src/xlsx/index.js";
import { changedEntries } from "../xlsx/raw-entries.js";
import { typedIn } from "./vanesheet.js";

let folder = "";

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "columns-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const run = (...args: readonly string[]) => typedIn(folder, args);
const at = (name: string) => join(folder, name);
const kept = (name: string) => mappingsIn(openWorkbook(readFileSync(at(name)), name).names).value;

/** An invented sheet of a contractor, its columns in an order and some headings under another name. */
async function put(
  name: string,
  headings: readonly string[],
  sheetNames: readonly string[] = ["Grilles"],
): Promise<void> {
  const workbook = new ExcelJS.Workbook();
  for (const sheetName of sheetNames) {
    const sheet = workbook.addWorksheet(sheetName);
    sheet.getCell("A1").value = "Invented job";
    headings.forEach((heading, index) => {
      sheet.getCell(3, index + 1).value = heading;
    });
    const values: Readonly<Record<string, ExcelJS.CellValue>> = {
      Grille: "S1",
      "Width in": 14,
      "Height in": 6,
      "Vel 1": 400,
      "Vel 2": 420,
      "Spec CFM": 180,
      Swirl: 12,
      "Actual CFM": 179.4,
    };
    headings.forEach((heading, index) => {
      sheet.getCell(4, index + 1).value = values[heading] ?? null;
    });
  }
  writeFileSync(at(name), new Uint8Array(await workbook.xlsx.writeBuffer()));
}

const HEADINGS = ["Grille", "Width in", "Height in", "Vel 1", "Vel 2", "Spec CFM", "Actual CFM"];

describe("vanesheet columns", () => {
  it("tells each column with its unit and reason, and writes nothing", async () => {
    await put("job.xlsx", HEADINGS);
    const before = readFileSync(at("job.xlsx"));
    const { status, out, err } = await run("columns", "job.xlsx");
    expect({ status, err }).toEqual({ status: 0, err: "" });
    expect(out).toMatch(/B +Width in +width or diameter +in +heading “Width in”/);
    expect(out).toMatch(/D +Vel 1 +reading +fpm +heading “Vel 1”; unit as the other headings have it/);
    expect(out).toContain("Nothing was written. Add --keep to keep this in the workbook.");
    expect(readFileSync(at("job.xlsx")).equals(before)).toBe(true);
  });

  it("keeps it with --keep in the list of names alone, and takes it out again with --forget", async () => {
    await put("job.xlsx", HEADINGS);
    const before = readFileSync(at("job.xlsx"));
    expect((await run("columns", "job.xlsx", "--keep")).status).toBe(0);
    expect(changedEntries(before, readFileSync(at("job.xlsx")))).toEqual(["xl/workbook.xml"]);
    expect(kept("job.xlsx")).toMatchObject([{ sheet: "Grilles", headerRow: 3, list: 1 }]);
    const rolled = readOutlets(openWorkbook(readFileSync(at("job.xlsx")), "job.xlsx"), new Map());
    expect(rolled.value).toMatchObject([{ outlet: "S1", designCfm: 180, measuredCfm: 179.4, status: "compared" }]);
    expect((await run("columns", "job.xlsx", "--forget")).out).toBe("job.xlsx: 1 list forgotten.");
    expect(kept("job.xlsx")).toEqual([]);
  });

  it("asks what it does not know, keeps nothing until it is answered, and takes the answer", async () => {
    await put("job.xlsx", [...HEADINGS.slice(0, 5), "Swirl", "Actual CFM"]);
    const asked = await run("columns", "job.xlsx", "--keep");
    expect(asked.status).toBe(1);
    expect(asked.out).toContain("No column is known for the design airflow.");
    expect(kept("job.xlsx")).toEqual([]);
    const answered = await run(
      "columns",
      "job.xlsx",
      "--set",
      "F=design cfm",
      "--set",
      "kind=supply; rows=9",
      "--keep",
    );
    expect(answered.status).toBe(0);
    expect(kept("job.xlsx")).toMatchObject([{ lastRow: 9, stated: { kind: "supply" } }]);
    expect(kept("job.xlsx")[0]?.columns).toContainEqual({ key: "design", column: 6, unit: "cfm" });
  });

  it("keeps the same in a folder of workbooks wherever their columns are, and lists what does not fit", async () => {
    await put("master.xlsx", HEADINGS);
    await run("columns", "master.xlsx", "--keep");
    mkdirSync(at("jobs"));
    await put("jobs/same.xlsx", HEADINGS, ["Floor 1", "Floor 2"]);
    await put("jobs/moved.xlsx", ["Swirl", ...[...HEADINGS].reverse()]);
    await put(
      "jobs/other.xlsx",
      HEADINGS.filter((heading) => heading !== "Height in"),
    );
    writeFileSync(at("jobs/broken.xlsx"), "no workbook");
    const { status, out } = await run("columns", "--like", "master.xlsx", "jobs");
    expect(status).toBe(1);
    expect(out).toContain("2 workbooks of 4 keep their columns as master.xlsx does.");
    expect(out).toMatch(/Does not fit: Grilles: no heading “Height in” for the height .*\n {2}jobs\/other\.xlsx/);
    expect(out).toMatch(/Does not fit: is plain text.*\n {2}jobs\/broken\.xlsx/);
    const again = await run("columns", "--like", "master.xlsx", "jobs/moved.xlsx");
    expect(again.status).toBe(0);
    expect(kept("jobs/same.xlsx").map(({ sheet }) => sheet)).toEqual(["Floor 1", "Floor 2"]);
    expect(kept("jobs/moved.xlsx")[0]?.columns).toContainEqual({ key: "outlet", column: 8, unit: null });
    expect(kept("jobs/other.xlsx")).toEqual([]);
  });

  it.each([
    [["job.xlsx", "--set", "D=whidth in"], /“whidth in” is nothing that a column can hold/],
    [
      ["job.xlsx", "--set", "D=width cfm"],
      /“cfm” is not a unit of width or diameter; its unit is one of in, ft, mm, cm, m/,
    ],
    [["job.xlsx", "--set", "D"], /says nothing of a column/],
    [["job.xlsx", "--set", "factor=75"], /above 0 and at most 1/],
    [["job.xlsx", "--sheet", "Floors"], /has no sheet “Floors”, only “Grilles”/],
    [["job.xlsx", "--heading-row", "3"], /goes with --sheet/],
    [["--like", "job.xlsx", "job.xlsx"], /keeps nothing of its columns/],
    [[], /FILE is missing/],
  ])("says how it is typed right: %j", async (args, says) => {
    await put("job.xlsx", HEADINGS);
    const { status, err } = await run("columns", ...args);
    expect(status).toBe(2);
    expect(err).toMatch(says);
  });
});
