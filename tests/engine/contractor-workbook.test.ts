import { zipSync } from "fflate";
import { beforeAll, describe, expect, it } from "vitest";
import { calculateXlsx, createModel, workbookData } from "../../src/engine/index.js";
import { handoffOf } from "../../src/workbook/index.js";
import {
  type CellValue,
  openWorkbook,
  parseAddress,
  patchWorkbook,
  readSheet,
  valueAt,
  type Workbook,
} from "../../src/xlsx/index.js";
import { recalculated } from "../support/libreoffice.js";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";
const TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml";

interface Outlet {
  readonly tag: string;
  readonly widthIn: number;
  readonly heightIn: number;
  readonly factor: number;
  readonly readingsFpm: readonly [number, number];
  readonly designCfm: number;
}

/** Invented outlets of three floors. */
const FLOORS: readonly (readonly Outlet[])[] = [1, 2, 3].map((floor) =>
  [1, 2, 3].map((number) => ({
    tag: `S-${floor}0${number}`,
    widthIn: 8 + 2 * number,
    heightIn: 6,
    factor: 0.75,
    readingsFpm: [300 + 40 * floor + 10 * number, 320 + 35 * floor],
    designCfm: 90 + 10 * floor + 15 * number,
  })),
);

/** What an outlet delivers: mean velocity times area times factor, with 144 in2 to the square foot. */
const airflowCfm = ({ widthIn, heightIn, factor, readingsFpm: [one, other] }: Outlet) =>
  (((one + other) / 2) * widthIn * heightIn * factor) / 144;

const sum = (numbers: readonly number[]) => numbers.reduce((total, number) => total + number, 0);
const airflows = FLOORS.map((floor) => floor.map(airflowCfm));
const designs = FLOORS.map((floor) => floor.map(({ designCfm }) => designCfm));
const totalCfm = sum(airflows.flat());
const designCfm = sum(designs.flat());

/** A formula, what it comes to by the arithmetic above, and whether the LibreOffice of the tests knows its spelling. */
interface Asked {
  readonly formula: string;
  readonly comes: number | string;
  readonly knows?: false;
  readonly fills?: string;
}

const THROUGH_SHEETS = false;
const TOTALS: Readonly<Record<string, Asked>> = {
  A1: { formula: "SUM('Floor 1:Floor 3'!G2:G4)", comes: totalCfm, knows: THROUGH_SHEETS },
  A2: { formula: "SUM('Floor 1:Floor 3'!H2:H4)", comes: designCfm, knows: THROUGH_SHEETS },
  A3: { formula: "A1/A2", comes: totalCfm / designCfm, knows: THROUGH_SHEETS },
  A4: { formula: "SUM(FirstFloor)*Allowance", comes: sum(airflows[0] ?? []) * 1.05 },
  A5: {
    formula: "COUNTIF('Floor 2'!I2:I4,\">1\")",
    comes: (airflows[1] ?? []).filter((flow, at) => flow > (designs[1]?.[at] ?? 0)).length,
  },
  A6: { formula: "-A7^2", comes: 9 },
  A7: { formula: "COUNTA('Floor 1'!A2:A4)", comes: 3 },
  A8: { formula: "SUBTOTAL(109,Outlets[Airflow])", comes: sum(airflows[0] ?? []) },
};
const LOOK_UPS: Readonly<Record<string, Asked>> = {
  A1: {
    formula: "_xlfn.LET(_xlpm.flow,SUM(FirstFloor),_xlpm.share,0.1,_xlpm.flow*_xlpm.share)",
    comes: sum(airflows[0] ?? []) * 0.1,
    knows: false,
  },
  A2: { formula: 'INDIRECT("\'Floor "&2&"\'!G5")', comes: sum(airflows[1] ?? []) },
  A3: {
    formula: "'Floor 1'!G2:G4/'Floor 1'!H2:H4",
    comes: (airflows[0]?.[0] ?? 0) / (designs[0]?.[0] ?? 1),
    fills: "A3:A5",
  },
  A6: { formula: "SUM(OFFSET('Floor 3'!G2,0,0,3,1))", comes: sum(airflows[2] ?? []) },
  A7: { formula: "INDEX('Floor 2'!G2:G4,MATCH(\"S-202\",'Floor 2'!A2:A4,0))", comes: airflows[1]?.[1] ?? 0 },
  A8: { formula: "MROUND(A7,5)", comes: Math.round((airflows[1]?.[1] ?? 0) / 5) * 5 },
  A9: { formula: 'TEXT(A7,"0.0")&" cfm"', comes: `${(airflows[1]?.[1] ?? 0).toFixed(1)} cfm` },
  A10: { formula: "SUMPRODUCT(('Floor 1'!G2:G4>0)*'Floor 1'!H2:H4)", comes: sum(designs[0] ?? []) },
  A11: { formula: "IFERROR(VLOOKUP(\"none\",'Floor 1'!A2:H4,7,FALSE),0)", comes: 0 },
};

const escaped = (text: string) => text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
const valueXml = (address: string, value: number | string) =>
  typeof value === "number"
    ? `<c r="${address}"><v>${value}</v></c>`
    : `<c r="${address}" t="inlineStr"><is><t>${value}</t></is></c>`;
const formulaXml = (address: string, { formula, fills }: Pick<Asked, "formula" | "fills">) =>
  `<c r="${address}"><f${fills === undefined ? "" : ` t="array" ref="${fills}"`}>${escaped(formula)}</f></c>`;
const sheetXml = (rows: readonly string[], tail = "") =>
  `<worksheet xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheetData>${rows.map((cells, index) => `<row r="${index + 1}">${cells}</row>`).join("")}</sheetData>${tail}</worksheet>`;

const HEADINGS = ["Outlet", "Width", "Height", "Factor", "V1", "V2", "Airflow", "Design", "Share"];

function floorXml(outlets: readonly Outlet[], isTable: boolean): string {
  const rows = outlets.map(({ tag, widthIn, heightIn, factor, readingsFpm, designCfm: design }, index) => {
    const at = index + 2;
    const values = [tag, widthIn, heightIn, factor, ...readingsFpm].map((value, column) =>
      valueXml(`${"ABCDEF"[column]}${at}`, value),
    );
    const share = isTable ? "Outlets[[#This Row],[Airflow]]/Outlets[[#This Row],[Design]]" : `G${at}/H${at}`;
    return [
      ...values,
      formulaXml(`G${at}`, { formula: `_xldudf_VANE_AIRFLOW_FACE(B${at},C${at},E${at}:F${at},D${at})` }),
      valueXml(`H${at}`, design),
      formulaXml(`I${at}`, { formula: share }),
    ].join("");
  });
  const headings = HEADINGS.map((heading, column) => valueXml(`${"ABCDEFGHI"[column]}1`, heading)).join("");
  const tail = isTable ? '<tableParts count="1"><tablePart r:id="rId1"/></tableParts>' : "";
  return sheetXml([headings, ...rows, formulaXml("G5", { formula: "SUM(G2:G4)" })], tail);
}

const askedXml = (asked: Readonly<Record<string, Asked>>) =>
  sheetXml(
    Array.from({ length: 11 }, (_, index) => {
      const one = asked[`A${index + 1}`];
      return one === undefined ? "" : formulaXml(`A${index + 1}`, one);
    }),
  );

/** The workbook, no formula with a stored result. */
function contractorWorkbook(): Uint8Array {
  const sheets: readonly (readonly [string, string])[] = [
    ...FLOORS.map((floor, index) => [`Floor ${index + 1}`, floorXml(floor, index === 0)] as const),
    ["Totals", askedXml(TOTALS)],
    ["Look-ups", askedXml(LOOK_UPS)],
    ["Notes", sheetXml([valueXml("A1", "Invented outlets")])],
  ];
  const table = `<table xmlns="${MAIN}" id="1" name="Outlets" displayName="Outlets" ref="A1:I4"><tableColumns count="9">${HEADINGS.map((name, index) => `<tableColumn id="${index + 1}" name="${name}"/>`).join("")}</tableColumns></table>`;
  const relationships = (lines: readonly string[]) =>
    `<Relationships xmlns="${PACKAGE}/relationships">${lines.join("")}</Relationships>`;
  const parts: Record<string, string> = {
    "[Content_Types].xml": `<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" ContentType="${TYPE}.sheet.main+xml"/><Override PartName="/xl/tables/table1.xml" ContentType="${TYPE}.table+xml"/>${sheets.map((_, index) => `<Override PartName="/xl/worksheets/sheet${index + 1}.xml" ContentType="${TYPE}.worksheet+xml"/>`).join("")}</Types>`,
    "_rels/.rels": relationships([
      `<Relationship Id="rId1" Type="${OFFICE}/officeDocument" Target="xl/workbook.xml"/>`,
    ]),
    "xl/workbook.xml": `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets>${sheets.map(([name], index) => `<sheet name="${name}" sheetId="${index + 1}" r:id="rId${index + 1}"/>`).join("")}</sheets><definedNames><definedName name="Allowance">1.05</definedName><definedName name="FirstFloor">'Floor 1'!$G$2:$G$4</definedName></definedNames></workbook>`,
    "xl/_rels/workbook.xml.rels": relationships(
      sheets.map(
        (_, index) =>
          `<Relationship Id="rId${index + 1}" Type="${OFFICE}/worksheet" Target="worksheets/sheet${index + 1}.xml"/>`,
      ),
    ),
    "xl/worksheets/_rels/sheet1.xml.rels": relationships([
      `<Relationship Id="rId1" Type="${OFFICE}/table" Target="../tables/table1.xml"/>`,
    ]),
    "xl/tables/table1.xml": table,
  };
  sheets.forEach(([, xml], index) => {
    parts[`xl/worksheets/sheet${index + 1}.xml`] = xml;
  });
  const text = new TextEncoder();
  return zipSync(Object.fromEntries(Object.entries(parts).map(([name, xml]) => [name, text.encode(xml)])));
}

interface Cell {
  readonly sheet: string;
  readonly address: string;
  readonly comes: number | string;
  readonly knows: boolean;
}

const CELLS: readonly Cell[] = [
  ...FLOORS.flatMap((floor, index) =>
    floor.flatMap((outlet, at): Cell[] => [
      { sheet: `Floor ${index + 1}`, address: `G${at + 2}`, comes: airflowCfm(outlet), knows: true },
      { sheet: `Floor ${index + 1}`, address: `I${at + 2}`, comes: airflowCfm(outlet) / outlet.designCfm, knows: true },
    ]),
  ),
  ...Object.entries(TOTALS).map(([address, one]) => ({
    sheet: "Totals",
    address,
    comes: one.comes,
    knows: one.knows !== false,
  })),
  ...Object.entries(LOOK_UPS).map(([address, one]) => ({
    sheet: "Look-ups",
    address,
    comes: one.comes,
    knows: one.knows !== false,
  })),
  ...[1, 2].map((at) => ({
    sheet: "Look-ups",
    address: `A${3 + at}`,
    comes: (airflows[0]?.[at] ?? 0) / (designs[0]?.[at] ?? 1),
    knows: true,
  })),
];

function inFile(workbook: Workbook) {
  return ({ sheet, address }: Cell): CellValue => {
    const { row, column } = parseAddress(address) ?? { row: 0, column: 0 };
    return valueAt(readSheet(workbook, sheet), row, column);
  };
}

function differences(cells: readonly Cell[], shown: (cell: Cell) => unknown): readonly string[] {
  return cells.flatMap((cell) => {
    const value = shown(cell);
    const isSame =
      typeof value === "number" && typeof cell.comes === "number"
        ? Math.abs(value - cell.comes) <= 1e-9 * Math.max(1, Math.abs(cell.comes))
        : value === cell.comes;
    return isSame ? [] : [`${cell.sheet}!${cell.address} shows ${JSON.stringify(value)} for ${cell.comes}`];
  });
}

function calculated(workbook: Workbook) {
  const { edits, kept } = calculateXlsx(workbook);
  return { kept, workbook: openWorkbook(patchWorkbook(workbook, edits), "job.xlsx") };
}

describe("a contractor's workbook of six sheets", () => {
  const source = openWorkbook(contractorWorkbook(), "job.xlsx");
  const known = CELLS.filter(({ knows }) => knows);
  let handedOff: Uint8Array;
  let reopened: ReadonlyMap<string, Uint8Array>;

  beforeAll(async () => {
    const filled = calculated(source).workbook;
    handedOff = patchWorkbook(filled, handoffOf(filled).edits);
    reopened = await recalculated(new Map([["copy", handedOff]]));
  }, 170_000);

  it("comes to what its arithmetic says by the command", () => {
    const { kept, workbook } = calculated(source);
    expect(kept).toEqual([]);
    expect(differences(CELLS, inFile(workbook))).toEqual([]);
  });

  it("shows the same on the page", () => {
    const { data, kept } = workbookData(source);
    expect(kept).toEqual([]);
    const model = createModel(data);
    const shown = ({ sheet, address }: Cell) => {
      const { row, column } = parseAddress(address) ?? { row: 0, column: 0 };
      const sheetId = model.getters.getSheetIdByName(sheet) ?? "";
      return model.getters.getEvaluatedCell({ sheetId, row: row - 1, col: column - 1 }).value;
    };
    expect(differences(CELLS, shown)).toEqual([]);
  });

  it("shows the same in the hand-off copy, calculated anew by LibreOffice, but for spellings that it does not know", () => {
    const copy = openWorkbook(reopened.get("copy") ?? new Uint8Array(), "copy.xlsx");
    expect(differences(known, inFile(copy))).toEqual([]);
  });

  it("shows the same in the hand-off copy, calculated anew by the command", () => {
    const copy = openWorkbook(handedOff, "copy.xlsx");
    const changed = FLOORS.flatMap((_, index) =>
      [2, 3, 4].flatMap((row) => [2, 5, 6].map((column) => ({ sheet: `Floor ${index + 1}`, row, column }))),
    );
    const { edits, kept } = calculateXlsx(copy, changed);
    expect(kept).toEqual([]);
    expect(differences(CELLS, inFile(openWorkbook(patchWorkbook(copy, edits), "copy.xlsx")))).toEqual([]);
  });
});
