import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { plainWorkbook } from "../xlsx/plain-workbook.js";
import { typedIn } from "./vanesheet.js";

let folder = "";

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "check-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const run = (...args: readonly string[]) => typedIn(folder, args);
const put = (name: string, bytes: Uint8Array) => writeFileSync(join(folder, name), bytes);

const row = (number: number, factor: number, second: string) =>
  `<row r="${number}"><c r="A${number}"><v>14</v></c><c r="B${number}"><v>6</v></c><c r="C${number}"><v>400</v></c>${second}
  <c r="E${number}"><v>${factor}</v></c>
  <c r="F${number}"><f>_xldudf_VANE_AIRFLOW_FACE(A${number},B${number},C${number}:D${number},E${number},COUNT(C${number}:D${number}))</f><v>1</v></c></row>`;

const IN_ORDER = plainWorkbook(row(1, 0.75, '<c r="D1"><v>420</v></c>'));
const WRONG = plainWorkbook(
  row(1, 0.75, '<c r="D1" t="str"><v>door shut</v></c>') + row(2, 1.3, '<c r="D2"><v>2.1</v></c>'),
);

describe("vanesheet check", () => {
  it("ends with 0 on a workbook in order, and says how much it looked through", async () => {
    put("rooms.xlsx", IN_ORDER);
    expect(await run("check", "rooms.xlsx")).toEqual({
      status: 0,
      out: "rooms.xlsx: 1 formula on 1 sheet looked through; nothing found.",
      err: "",
    });
  });

  it("lists findings by sheet, cell first, what is wrong, what to do, and ends with 1", async () => {
    put("rooms.xlsx", WRONG);
    const { status, out, err } = await run("check", "rooms.xlsx");
    expect({ status, err }).toEqual({ status: 1, err: "" });
    const [first, , sheet, ...lines] = out.split("\n");
    expect(first).toContain("2 errors and 2 warnings found");
    expect(sheet).toBe("Sheet1");
    expect(lines.filter((_, index) => index % 2 === 0).map((line) => line.trim().split(/\s+/).slice(0, 2))).toEqual([
      ["C1:D1", "warning:"],
      ["D1", "error:"],
      ["D2", "warning:"],
      ["E2", "error:"],
    ]);
    expect(out).toMatch(/D1 +error: Among the readings is the text “door shut”\.\n +Enter only a number/);
  });

  it("gives the same as data", async () => {
    put("rooms.xlsx", WRONG);
    const { status, out } = await run("check", "rooms.xlsx", "--json");
    expect(status).toBe(1);
    const data = JSON.parse(out) as Record<string, unknown>;
    expect(data).toMatchObject({ file: "rooms.xlsx", sheetCount: 1, formulaCount: 2, vaneFormulaCount: 2, kept: [] });
    expect(data["findings"]).toContainEqual({
      kind: "factor-out-of-range",
      severity: "error",
      leftOut: "nothing",
      file: "rooms.xlsx",
      sheet: "Sheet1",
      cell: "E2",
      problem: "The factor 1.3 is above 1, but louvers cannot free more than the whole area.",
      action:
        "Type the published factor, at most 1; an effective area is not a factor: divide it by the whole area first.",
    });
  });

  it("changes nothing and leaves nothing beside the file", async () => {
    put("rooms.xlsx", WRONG);
    await run("check", "rooms.xlsx");
    expect(readFileSync(join(folder, "rooms.xlsx"))).toEqual(Buffer.from(WRONG));
    expect(readdirSync(folder)).toEqual(["rooms.xlsx"]);
  });

  it("says so where no formula calls a VANE function", async () => {
    put("other.xlsx", plainWorkbook('<row r="1"><c r="A1"><v>1</v></c><c r="B1"><f>A1*2</f><v>2</v></c></row>'));
    const { status, out } = await run("check", "other.xlsx");
    expect(status).toBe(0);
    expect(out).toContain("None calls a VANE function");
  });

  it("names formulas that it could not calculate", async () => {
    const total = '<row r="2"><c r="F2"><f>NOT.THERE(F1)</f><v>7</v></c></row>';
    put("rooms.xlsx", plainWorkbook(row(1, 0.75, '<c r="D1"><v>420</v></c>') + total));
    const { status, out } = await run("check", "rooms.xlsx");
    expect(status).toBe(0);
    expect(out).toMatch(
      /Checked without a fresh result, 1; it may be out of date:\n {2}Sheet1!F2 {2}it calls NOT.THERE/,
    );
  });

  it.each([
    [["check"], 2, "FILE is missing"],
    [["check", "missing.xlsx"], 1, "missing.xlsx"],
    [["check", "a.xlsx", "b.xlsx"], 2, "One FILE is taken"],
  ])("%j says what is wrong", async (args, status, part) => {
    const ended = await run(...args);
    expect(ended.status).toBe(status);
    expect(ended.err).toContain(part);
  });
});
