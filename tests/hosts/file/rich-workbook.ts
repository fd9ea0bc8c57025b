import { Buffer } from "node:buffer";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import type { Cell } from "hucre";
import { writeXlsx } from "hucre/xlsx";

const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const OUTLETS = 12;

/** One grey pixel, the smallest picture there is. */
const PICTURE = new Uint8Array(
  Buffer.from("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==", "base64"),
);

const HEADERS = ["Outlet", "Room", "Width", "Height", "R1", "R2", "R3", "Airflow", "Design", "Percent"];

const outletRow = (index: number) => {
  const readings = [0, 1, 2].map((column) => 380 + 7 * index + 11 * column);
  return [`S-${index + 1}`, ["Office", "Hall", "Store"][index % 3] ?? "", 14, 6, ...readings, null, 180, null];
};

function formulaCells(): Map<string, Partial<Cell>> {
  const cells = new Map<string, Partial<Cell>>();
  for (let row = 2; row <= OUTLETS + 1; row += 1) {
    const formula = `_xldudf_VANE_AIRFLOW_FACE(C${row},D${row},E${row}:G${row},FreeRatio,COUNT(E${row}:G${row}))`;
    cells.set(`${row - 1},7`, { value: null, formula, formulaResult: 1 });
    cells.set(`${row - 1},9`, { value: null, formula: `100*H${row}/I${row}`, formulaResult: 1 });
  }
  cells.set("5,5", { value: 430, comment: { author: "Invented technician", text: "Damper half shut" } });
  const area = { formula: "_xldudf_VANE_OPENING_RECT(C2:C13,D2:D13)", formulaRef: "L2:L13", formulaResult: 1 } as const;
  cells.set("1,11", { value: null, ...area, formulaType: "array", formulaDynamic: true });
  cells.set("13,7", { value: null, formula: "SUM(H2:H13)", formulaResult: 1 });
  return cells;
}

/** Adds the data of another program: a part of its own, which the workbook leads to. */
function withCustomParts(bytes: Uint8Array): Uint8Array {
  const parts = unzipSync(bytes);
  const list = "xl/_rels/workbook.xml.rels";
  const relationship = `<Relationship Id="rIdData" Type="${OFFICE}/customXml" Target="../customXml/item1.xml"/></Relationships>`;
  return zipSync({
    ...parts,
    [list]: strToU8(strFromU8(parts[list] ?? new Uint8Array()).replace("</Relationships>", relationship)),
    "customXml/item1.xml": strToU8('<job xmlns="urn:invented:office"><number>D-001</number></job>'),
    "customXml/itemProps1.xml": strToU8(
      `<ds:datastoreItem xmlns:ds="http://schemas.openxmlformats.org/officeDocument/2006/customXml" ds:itemID="{2F1A6C0E-0000-4000-8000-000000000001}"/>`,
    ),
    "customXml/_rels/item1.xml.rels": strToU8(
      `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${OFFICE}/customXmlProps" Target="itemProps1.xml"/></Relationships>`,
    ),
  });
}

/** A workbook of an invented job with everything that people keep beside cells, macros included, made by a library. */
export async function richWorkbook(): Promise<Uint8Array> {
  const bytes = await writeXlsx({
    sheets: [
      {
        name: "Outlets",
        rows: [HEADERS, ...Array.from({ length: OUTLETS }, (_, index) => outletRow(index)), []],
        cells: formulaCells(),
        images: [{ data: PICTURE, type: "png", anchor: { from: { row: 16, col: 8 }, to: { row: 18, col: 9 } } }],
        charts: [
          {
            type: "column",
            title: "Airflow by outlet",
            series: [{ name: "Airflow", values: "Outlets!$H$2:$H$13", categories: "Outlets!$A$2:$A$13" }],
            anchor: { from: { row: 16, col: 0 }, to: { row: 30, col: 7 } },
          },
        ],
        conditionalRules: [
          {
            type: "cellIs",
            priority: 1,
            range: "J2:J13",
            operator: "lessThan",
            formula: "90",
            style: { font: { bold: true } },
          },
        ],
        dataValidations: [{ range: "E2:G13", type: "decimal", operator: "between", formula1: "0", formula2: "6000" }],
        sparklines: [{ dataRange: "Outlets!E2:G2", location: "K2" }],
        pageSetup: { orientation: "landscape" },
      },
      { name: "Inputs", rows: [["Free area ratio", 0.75]] },
      {
        name: "By room",
        rows: [],
        pivotTables: [
          {
            name: "ByRoom",
            sourceSheet: "Outlets",
            sourceRange: "A1:J13",
            targetCell: "A3",
            rows: ["Room"],
            values: [{ field: "Design" }],
          },
        ],
      },
    ],
    namedRanges: [
      { name: "FreeRatio", range: "Inputs!$B$1" },
      { name: "AllAirflow", range: "Outlets!$H$2:$H$13" },
    ],
    properties: { creator: "Invented technician", custom: { "Job number": "D-001" } },
    vbaProject: new Uint8Array(Buffer.from("d0cf11e0a1b11ae1".padEnd(1024, "0"), "hex")),
  });
  return withCustomParts(bytes);
}
