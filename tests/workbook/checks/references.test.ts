import { describe, expect, it } from "vitest";
import { checkedFile, checkedHost, checkWorkbook, type WorkbookHost } from "../../../src/workbook/index.js";
import { openWorkbook, patchWorkbook } from "../../../src/xlsx/index.js";
import { plainWorkbook } from "../../xlsx/plain-workbook.js";
import { fileOf, foundInFile, foundInPage } from "./given-workbook.js";

const TWO_SHEETS = {
  "Floor 1": {
    A1: 400,
    A2: 2.1,
    A3: 380,
    C1: "=VANE.AIRFLOW.FACE(Width,Inputs!B2,Readings,'Factor''s'!A1,COUNT(Readings))",
  },
  Inputs: { B1: 14, B2: 6 },
  "Factor's": { A1: 1.3 },
};
const NAMES = { Width: "Inputs!$B$1", Readings: "'Floor 1'!$A$1:$A$3" };

describe("cells that a formula names in another way", () => {
  it("are followed through defined names and to other sheets", async () => {
    const found = (await foundInFile(TWO_SHEETS, NAMES)).map(({ kind, sheet, cell }) => `${sheet}!${cell} ${kind}`);
    expect(found).toEqual(["Floor 1!A2 velocity-in-other-unit", "Factor's!A1 factor-out-of-range"]);
    expect(await foundInPage(TWO_SHEETS, NAMES)).toEqual(await foundInFile(TWO_SHEETS, NAMES));
  });

  it("are followed through references to a table", async () => {
    const cells = {
      A1: "Velocity",
      B1: "Area",
      C1: "Airflow",
      ...Object.fromEntries(
        [2, 3, 4].flatMap((row) => [
          [`A${row}`, row === 3 ? 2.2 : 400],
          [`B${row}`, row === 4 ? 84 : 0.5],
        ]),
      ),
      ...Object.fromEntries(
        [2, 3, 4].map((row) => [`C${row}`, "=VANE.AIRFLOW(Faces[[#This Row],[Velocity]],Faces[[#This Row],[Area]])"]),
      ),
    };
    const table = { name: "Faces", range: "A1:C4", columns: ["Velocity", "Area", "Airflow"] };
    const found = (await foundInFile({ Faces: cells }, {}, [table])).map(({ kind, cell }) => `${cell} ${kind}`);
    expect(found).toEqual(["A3 velocity-in-other-unit", "B4 area-in-other-unit"]);
  });

  it("are followed where Excel shows a table's own column without its name", async () => {
    const values = [
      ["Velocity", "Area", "Airflow"],
      [400, 0.5, 200],
      [2.2, 0.5, 1.1],
      [410, 84, 34_440],
    ];
    const formulas = values.map((_, row) => [null, null, row === 0 ? null : "=VANE.AIRFLOW([@Velocity],Faces[@Area])"]);
    const host: WorkbookHost = {
      kind: "excel",
      sheets: async () => [{ name: "North", usedRange: "B3:D6", isProtected: false }],
      read: async () => [{ address: { sheet: "North", range: "B3:D6" }, values, formulas }],
      names: async () => new Map(),
      tables: async () => [
        {
          name: "Faces",
          sheet: "North",
          range: "B3:D6",
          headerRows: 1,
          totalsRows: 0,
          columns: ["Velocity", "Area", "Airflow"],
        },
      ],
      write: () => Promise.reject(new Error("A check writes nothing.")),
      keepColumns: async () => undefined,
      addTemplate: () => Promise.reject(new Error("A check adds nothing.")),
    };
    const { findings } = checkWorkbook(await checkedHost(host));
    expect(findings.map(({ kind, cell }) => `${cell} ${kind}`)).toEqual([
      "B5 velocity-in-other-unit",
      "C6 area-in-other-unit",
    ]);
  });

  it("do not stop a check where nothing is there: a deleted sheet, an unknown name, another workbook", async () => {
    const cells = {
      A1: "=VANE.AIRFLOW(Attic!A1,0.5)",
      A2: "=VANE.AIRFLOW(Nowhere,0.5)",
      A3: "=VANE.AIRFLOW(#REF!,0.5)",
    };
    const kinds = (await foundInFile({ S: cells })).map(({ kind }) => kind);
    expect(new Set(kinds)).toEqual(new Set(["error-value"]));
  });
});

const call = (row: number, spelled: string, shown: string) =>
  `<row r="${row}"><c r="A${row}"><v>400</v></c><c r="B${row}" t="e"><f>${spelled}(A${row},0.5)</f><v>${shown}</v></c></row>`;

function stuckIn(rows: string) {
  const { findings } = checkWorkbook(checkedFile(openWorkbook(plainWorkbook(rows), "stuck.xlsx")));
  return findings.map(({ kind, cell, problem }) => [kind, cell, problem] as const);
}

describe("calls that wait for the add-in", () => {
  it("are told in one finding a block, in either spelling", () => {
    const rows = [1, 2, 3].map((row) => call(row, "VANE.AIRFLOW", "#NAME?")).join("");
    expect(stuckIn(rows).map(([kind, cell]) => [kind, cell])).toEqual([["stuck-formula", "B1:B3"]]);
    expect(stuckIn(call(1, "_xldudf_VANE_AIRFLOW", "#NAME?")).map(([kind]) => kind)).toEqual(["stuck-formula"]);
  });

  it("are told apart from functions that do not exist", () => {
    const [[kind, cell, problem] = []] = stuckIn(call(1, "_xldudf_VANE_AIRFLUX", "#NAME?"));
    expect([kind, cell]).toEqual(["stuck-formula", "B1"]);
    expect(problem).toContain("VANE.AIRFLUX");
  });

  it("are not found where a file stores a call and its result", () => {
    const row = `<row r="1"><c r="A1"><v>400</v></c><c r="B1"><f>_xldudf_VANE_AIRFLOW(A1,0.5)</f><v>200</v></c></row>`;
    expect(stuckIn(row)).toEqual([]);
  });
});

describe("checking a file", () => {
  it("looks at what the file stores where it was not calculated anew", async () => {
    const workbook = await fileOf({ S: { A1: 0.5, B1: "=VANE.OPENING.FREE(A1,0.75)" } });
    const shown = patchWorkbook(workbook, [{ kind: "result", sheet: "S", address: "B1", value: { error: "#VALUE!" } }]);
    const { findings } = checkWorkbook(checkedFile(openWorkbook(shown, "stored.xlsx")));
    expect(findings.map(({ kind, cell }) => `${cell} ${kind}`)).toEqual(["B1 error-value"]);
  });
});
