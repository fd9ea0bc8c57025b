import { strFromU8, unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { calculateXlsx } from "../../src/engine/index.js";
import { openWorkbook, patchWorkbook, readSheet, valueAt } from "../../src/xlsx/index.js";
import { reopened } from "../support/libreoffice.js";
import { plainParts, plainWorkbook, zipParts } from "../xlsx/plain-workbook.js";

const cell = (address: string, formula: string, value?: number) =>
  `<c r="${address}"><f>${formula.replaceAll("&", "&amp;").replaceAll('"', "&quot;").replaceAll("<", "&lt;")}</f>${value === undefined ? "" : `<v>${value}</v>`}</c>`;

const number = (address: string, value: number) => `<c r="${address}"><v>${value}</v></c>`;

function calculated(cells: string) {
  const workbook = openWorkbook(plainWorkbook(`<row r="1">${cells}</row>`), "job.xlsx");
  const calculation = calculateXlsx(workbook);
  const bytes = patchWorkbook(workbook, calculation.edits);
  return { ...calculation, bytes, workbook: openWorkbook(bytes, "job.xlsx") };
}

const sheetXml = (bytes: Uint8Array) => strFromU8(unzipSync(bytes)["xl/worksheets/sheet1.xml"] ?? new Uint8Array());

/** An airflow that was 800 and is 1000 now, a formula that nothing here calculates over it, and one over that. */
const CHAIN =
  number("A1", 400) +
  number("B1", 2.5) +
  cell("C1", "_xldudf_VANE_AIRFLOW(A1,B1)", 800) +
  cell("D1", "NOT.THERE(C1,5)", 800) +
  cell("E1", "D1*2", 1600) +
  cell("F1", "C1/100", 8);

describe("a formula that cannot be calculated", () => {
  it("loses a result that is known to be old, and so does all that depends on it; each is listed with the reason", () => {
    const { kept, edits } = calculated(CHAIN);
    expect(kept).toEqual([
      { sheet: "Sheet1", address: "D1", isOutdated: true, reason: expect.stringContaining("NOT.THERE") },
      { sheet: "Sheet1", address: "E1", isOutdated: true, reason: "it depends on D1, which is not calculated here" },
    ]);
    expect(edits).toMatchObject([
      { address: "C1", value: 1000 },
      { address: "F1", value: 10 },
      { address: "D1", value: null, isOutdated: true },
      { address: "E1", value: null, isOutdated: true },
    ]);
  });

  it("is marked to be calculated when the file is opened, and calculates no whole workbook anew", () => {
    const xml = sheetXml(calculated(CHAIN).bytes);
    expect(xml).toContain('<c r="D1"><f ca="1">NOT.THERE(C1,5)</f></c>');
    expect(xml).toContain('<c r="E1"><f ca="1">D1*2</f></c>');
    expect(xml).toContain('<c r="F1"><f>C1/100</f><v>10</v></c>');
    expect(xml).not.toContain("fullCalcOnLoad");
  });

  it("keeps its result where nothing that it reads has changed", () => {
    const { kept, edits } = calculated(
      number("A1", 400) +
        number("B1", 2.5) +
        cell("C1", "_xldudf_VANE_AIRFLOW(A1,B1)", 1000) +
        cell("D1", "NOT.THERE(C1,5)", 800) +
        cell("E1", "D1*2", 1600),
    );
    expect(edits).toEqual([]);
    expect(kept.filter(({ isOutdated }) => isOutdated)).toEqual([]);
  });

  it("does not stop a formula that need not read it", () => {
    const { edits } = calculated(`${CHAIN}${cell("G1", "IF(C1>1,C1,D1)", 5)}`);
    expect(edits).toContainEqual({ kind: "result", sheet: "Sheet1", address: "G1", value: 1000 });
  });

  it("shows no old number in another spreadsheet program either", async () => {
    const chain = CHAIN.replace("NOT.THERE(C1,5)", "[1]Other!A1+C1");
    const { bytes, kept } = calculated(chain);
    expect(kept.map(({ address }) => address)).toEqual(["D1", "E1"]);
    const [made] = [...(await reopened(new Map([["job", bytes]]))).values()];
    if (made === undefined) throw new Error("nothing was made");
    const sheet = readSheet(openWorkbook(made, "job.xlsx"), "Sheet1");
    expect(valueAt(sheet, 1, 5)).not.toBe(1600);
    expect(valueAt(sheet, 1, 6)).toBe(10);
  }, 170_000);

  it("closes a circle: what changed in it is old for all of it", () => {
    const { kept } = calculated(
      number("A1", 400) + cell("C1", "_xldudf_VANE_AIRFLOW(A1,2)+D1", 5) + cell("D1", "C1*2+E1", 7) + cell("E1", "1+1"),
    );
    expect(kept.map(({ address }) => address).sort()).toEqual(["C1", "D1"]);
  });
});

describe("what a contractor's workbook holds", () => {
  const sums = (formulas: Readonly<Record<string, string>>) => {
    const cells = Object.entries(formulas).map(([address, formula]) => cell(address, formula));
    const { workbook, kept } = calculated(number("A1", 400) + cells.join(""));
    const sheet = readSheet(workbook, "Sheet1");
    return { kept, values: Object.keys(formulas).map((address) => valueAt(sheet, 1, address.charCodeAt(0) - 64)) };
  };

  it("a block of several sheets is summed sheet by sheet, also where their names need quotes", () => {
    const parts = plainParts(
      `<row r="1">${number("A1", 400)}${cell("B1", "SUM('Floor 1:Floor 2'!C1:C3)", 2400)}${cell("C1", "SUM(F1:F2!C1)", 0)}</row>`,
    );
    const names = ["Floor 1", "Floor 2", "F1", "F2"];
    const added: Record<string, string> = {};
    let list = parts["xl/workbook.xml"] ?? "";
    let relationships = parts["xl/_rels/workbook.xml.rels"] ?? "";
    let types = parts["[Content_Types].xml"] ?? "";
    names.forEach((name, index) => {
      const id = index + 20;
      added[`xl/worksheets/sheet${id}.xml`] =
        `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="1">${cell("C1", `_xldudf_VANE_AIRFLOW(${400 + index},2)`)}</row></sheetData></worksheet>`;
      list = list.replace("</sheets>", `<sheet name="${name}" sheetId="${id}" r:id="rId${id}"/></sheets>`);
      relationships = relationships.replace(
        "</Relationships>",
        `<Relationship Id="rId${id}" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet${id}.xml"/></Relationships>`,
      );
      types = types.replace(
        "</Types>",
        `<Override PartName="/xl/worksheets/sheet${id}.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>`,
      );
    });
    const workbook = openWorkbook(
      zipParts({
        ...parts,
        ...added,
        "xl/workbook.xml": list,
        "xl/_rels/workbook.xml.rels": relationships,
        "[Content_Types].xml": types,
      }),
      "floors.xlsx",
    );
    const { edits, kept } = calculateXlsx(workbook);
    expect(kept).toEqual([]);
    expect(edits.filter(({ sheet }) => sheet === "Sheet1")).toMatchObject([
      { address: "B1", value: 1602 },
      { address: "C1", value: 1610 },
    ]);
  });

  it.each([
    ["-A1^2", 160_000],
    ["-2^2", 4],
    ["MROUND(_xldudf_VANE_AIRFLOW(A1,2.5),5)", 1000],
    ["_xlfn.LET(_xlpm.x,_xldudf_VANE_AIRFLOW(A1,2.5),_xlpm.x*2)", 2000],
    ["_xlfn.SINGLE(_xldudf_VANE_AIRFLOW(A1,2.5))", 1000],
    ["[2]!_xldudf_VANE_AIRFLOW(A1,2.5)", 1000],
    ["SUM(OFFSET(A1,0,0,1,1))", 400],
    ['INDIRECT("A"&1)', 400],
    ["SUM(A1:INDEX(A:A,1))", 400],
    ["SUM((A1,A1))", 800],
    ["SUM(A1:A2 A1:A9)", 400],
    ["SUM(CHOOSE({1,2},A1:A1,A1:A1))", 800],
    ["ROUNDUP(4.44,2)", 4.44],
    ["ROUNDDOWN(2.26+2.94,2)", 5.2],
    ["TRUNC(10.04,2)", 10.04],
    ['IF(FALSE,"x")', false],
    ['VALUE("1-Jan-2014")', 41_640],
  ])("%s is %s", (formula, value) => {
    expect(sums({ B1: formula }).values).toEqual([value]);
    expect(sums({ B1: formula }).kept).toEqual([]);
  });

  it("the block that a formula fills is read by its first cell", () => {
    const { workbook } = calculated(
      `${number("A1", 400)}<c r="B1"><f t="array" ref="B1:C1">_xlfn.SEQUENCE(1,2)</f></c><c r="C1"/>${cell("D1", "SUM(_xlfn.ANCHORARRAY(B1))")}`,
    );
    expect(valueAt(readSheet(workbook, "Sheet1"), 1, 4)).toBe(3);
  });
});
