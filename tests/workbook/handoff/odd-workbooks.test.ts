import { describe, expect, it } from "vitest";
import { handoffFormula, handoffOf } from "../../../src/workbook/index.js";
import { openWorkbook, patchWorkbook, readSheet, valueAt } from "../../../src/xlsx/index.js";
import { plainParts, zipParts } from "../../xlsx/plain-workbook.js";
import { entryText } from "../../xlsx/raw-entries.js";

const CALL = '<row r="1"><c r="A1"><f>_xldudf_VANE_OPENING_RECT(14,6)</f><v>0.58</v></c></row>';
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

/** The hand-off copy of the smallest workbook, some of its parts given or added. */
function copyOf(changes: (parts: Record<string, string>) => Record<string, string>) {
  const parts = plainParts(CALL);
  const workbook = openWorkbook(zipParts({ ...parts, ...changes(parts) }), "job.xlsx");
  const bytes = patchWorkbook(workbook, handoffOf(workbook).edits);
  return { bytes, copy: openWorkbook(bytes, "copy.xlsx") };
}

describe("the sheet that says what was replaced", () => {
  it.each([
    ["a space in the closing tag", (list: string) => list.replace("</sheets>", "</sheets >")],
    ["the closing tag in a comment too", (list: string) => list.replace("</sheets>", "</sheets><!-- </sheets> -->")],
    ["a number of a sheet in single quotes", (list: string) => list.replace('sheetId="1"', "sheetId='7'")],
  ])("is added to a list of sheets with %s", (_, change) => {
    const { copy, bytes } = copyOf((parts) => ({ "xl/workbook.xml": change(parts["xl/workbook.xml"] ?? "") }));
    expect(copy.sheets.map(({ name }) => name)).toEqual(["Sheet1", "Hand-off note"]);
    const ids = [...entryText(bytes, "xl/workbook.xml").matchAll(/sheetId=["'](\d+)["']/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(2);
  });

  it("takes a name among the relationships that is free, however the taken one is quoted", () => {
    const { copy } = copyOf((parts) => ({
      "xl/workbook.xml": (parts["xl/workbook.xml"] ?? "").replace("rId1", "rIdHandoff"),
      "xl/_rels/workbook.xml.rels": (parts["xl/_rels/workbook.xml.rels"] ?? "").replace('"rId1"', "'rIdHandoff'"),
    }));
    expect(copy.sheets).toHaveLength(2);
  });

  it("takes the place of no other part", () => {
    const { bytes, copy } = copyOf(() => ({
      "xl/worksheets/handoff.xml": "<a/>",
      "xl/worksheets/handoff2.xml": "<b/>",
    }));
    expect(entryText(bytes, "xl/worksheets/handoff2.xml")).toBe("<b/>");
    expect(copy.sheets[1]?.partName).toBe("xl/worksheets/handoff3.xml");
  });
});

describe("the formulas by which a table fills new rows", () => {
  it("each become their own plain one, beside one that is empty", () => {
    const formulas = ["", "_xldudf_VANE_OPENING_RECT(14,6)", "1+1", "_xldudf_VANE_TRAVERSE_POINTS(12)"];
    const columns = formulas.map((formula, index) => {
      const id = index + 1;
      return `<tableColumn id="${id}" name="c${id}"><calculatedColumnFormula>${formula}</calculatedColumnFormula></tableColumn>`;
    });
    const { copy } = copyOf(() => ({
      "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="t" Type="${OFFICE}/table" Target="../tables/table1.xml"/></Relationships>`,
      "xl/tables/table1.xml": `<table displayName="T" ref="C3:F4"><tableColumns>${columns.join("")}</tableColumns></table>`,
    }));
    const [empty, ours, native, value] = readSheet(copy, "Sheet1").tables[0]?.columns ?? [];
    expect(empty?.calculatedFormula).toBeUndefined();
    expect(ours?.calculatedFormula).toContain("14");
    expect(ours?.calculatedFormula).not.toContain("VANE");
    expect(native?.calculatedFormula).toBe("1+1");
    expect(value?.calculatedFormula).toBeUndefined();
  });
});

describe("a formula that has no plain one", () => {
  it("is a value where calls within calls would grow beyond all size", () => {
    const nested = `${"VANE.OPENING.RECT(1,".repeat(300)}1${")".repeat(300)}`;
    expect(handoffFormula(nested)).toEqual({
      kind: "value",
      functions: ["VANE.OPENING.RECT"],
      reasons: ["The plain formula would be longer than a cell holds."],
    });
  });

  it.each([
    "VANE.OPENING.RECT('No,VANE.OPENING.ROUND(2))",
    'VANE.OPENING.RECT("1,2)',
    "VANE.OPENING.RECT(Outlets[Width,2)",
    "VANE.OPENING.RECT(1,2",
    "VANE.OPENING.RECT(1,2))",
    "VANE.OPENING.RECT({1,2)})",
    `VANE.OPENING.RECT(${"(".repeat(3000)}1${")".repeat(3000)},2)`,
  ])("is a value where a quote or a bracket is not closed: %s", (formula) => {
    expect(handoffFormula(formula)).toMatchObject({ kind: "value" });
  });
});

describe("an array formula over a whole sheet", () => {
  it("is not gone through cell by cell", () => {
    const call = "_xldudf_VANE_BALANCE_ORDER(A1:A2,A1:A2)";
    const rows = `<row r="1"><c r="B1"><f t="array" ref="B1:XFD1048576">${call}</f><v>1</v></c><c r="C1"><v>2</v></c></row>`;
    const workbook = openWorkbook(zipParts(plainParts(rows)), "job.xlsx");
    const { values, edits } = handoffOf(workbook);
    expect(values.map(({ address }) => address)).toEqual(["B1", "C1"]);
    expect(() => patchWorkbook(workbook, edits)).not.toThrow();
  });
});

describe("a reference to what a formula fills, where the file does not say which cells those are", () => {
  it.each(["A1#", "A1#\n ", "SUM(A1#)+1", "SUM(_xlfn.ANCHORARRAY(A1))"])(
    "keeps its value and says so: %j",
    (formula) => {
      const rows = `<row r="1"><c r="A1"><v>1</v></c><c r="B1"><f>${formula}</f><v>3</v></c></row>`;
      const workbook = openWorkbook(zipParts(plainParts(rows)), "job.xlsx");
      const { edits, values } = handoffOf(workbook);
      expect(values).toMatchObject([{ address: "B1", functions: ["#"] }]);
      expect(values[0]?.reasons).toEqual(["The file does not say which cells the formula before # fills."]);
      const copy = openWorkbook(patchWorkbook(workbook, edits), "copy.xlsx");
      expect(handoffOf(copy)).toMatchObject({ plain: [], values: [] });
      expect(valueAt(readSheet(copy, "Sheet1"), 1, 2)).toBe(3);
    },
  );
});

describe("a formula that ends before its operator is done", () => {
  it.each(["@", "A1+@", "A1:", "SUM(A1:", "SUM(@)", "VANE.AIRFLOW(400,@", "VANE.AIRFLOW(400,@)", "A1#:", "@@"])(
    "is left or named, never a crash: %s",
    (formula) => {
      const { kind } = handoffFormula(formula);
      expect(["unchanged", "plain", "value"]).toContain(kind);
    },
  );
});
