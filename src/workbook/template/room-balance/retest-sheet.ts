import { jobLine } from "../job-line.js";
import { AIRFLOW_SCALE, unit } from "../plain-formulas.js";
import { cell, EMPTY_SHEET, numberInput, quotedSheet, textInput, wholeInput } from "../plan-parts.js";
import type { CellPlan, SheetPlan, ValidationPlan } from "../sheet-plan.js";
import { type ColumnSpec, type RowCell, type TableSpec, tableBlock } from "../table-block.js";
import { tablePrint } from "../table-sheet.js";

/** Rows of a new sheet: as many as the largest usual share of a hundred outlets; a larger template has more. */
export const RETEST_ROWS = 20;

/** The largest share that specifications usually ask to read again. */
export const RETEST_SHARE = 0.2;
const HEADER_ROW = 15;

/** Fixed cells over the table. */
export const RETEST_CELLS = { share: "$B$5", seed: "$B$6", within: "$B$7", measured: "$B$8", wanted: "$B$9" } as const;

export const AGREEMENTS = { agrees: "agrees", differs: "differs" } as const;

/** Spells the cell of the seed from another sheet. */
export function seedCell(sheet: string): string {
  return `${quotedSheet(sheet)}!${RETEST_CELLS.seed}`;
}

/**
 * The draw of an outlet: a number that hangs on the seed and the row alone, so that whoever types the same seed draws the
 * same outlets. The lowest are read again. Empty for what was not measured.
 */
export function drawOf(airflow: string, seed: string): string {
  const first = `MOD(${seed}*7919+ROW()*104729,46337)`;
  const second = `MOD(${first}*${first}+${seed}*31+ROW(),46337)`;
  return `=IF(OR(COUNT(${airflow})=0,COUNT(${seed})=0),"",MOD(${second}*${second}+${first},46337)+ROW()/1000000)`;
}

type FromOutlets = (key: string) => string;

function retestTable(name: string, outlets: FromOutlets, points: number): TableSpec {
  const { seed, wanted, within } = RETEST_CELLS;
  const drawn = (at: RowCell, key: string) =>
    `IF(${at("number")}="","",INDEX(${outlets(key)},MATCH(SMALL(${outlets("draw")},${at("number")}),${outlets("draw")},0)))`;
  const text = (key: string, header: string, of: string, width: number): ColumnSpec => ({
    kind: "result",
    key,
    header,
    unit: "",
    width,
    format: "general",
    style: "resultText",
    formula: (at) => `=${drawn(at, of)}&""`,
  });
  const readings = (at: RowCell) => `${at("W1")}:${at(`W${points}`)}`;
  const number = (
    key: string,
    header: string,
    unitText: string,
    formula: (at: RowCell) => string,
    width = 9,
  ): ColumnSpec => ({
    kind: "result",
    key,
    header,
    unit: unitText,
    width,
    format: "oneDecimal",
    style: "result",
    formula,
  });
  const message = "What the meter shows while the witness watches, at the same places as before.";
  const columns: readonly ColumnSpec[] = [
    {
      ...number(
        "number",
        "No.",
        "",
        () => `=IF(AND(COUNT(${seed})=1,ROW()-${HEADER_ROW}<=N(${wanted})),ROW()-${HEADER_ROW},"")`,
      ),
      width: 20,
      format: "whole",
    },
    text("tag", "Drawn", "outlet", 10),
    text("ofSystem", "Of system", "system", 9),
    text("inRoom", "In room", "room", 13),
    number("reported", "Reported", unit("cfm", "L/s"), (at) => `=${drawn(at, "airflow")}`),
    ...Array.from({ length: points }, (_, index): ColumnSpec => {
      const key = `W${index + 1}`;
      const rule = numberInput("Witnessed reading", message, -20000, 20000);
      return {
        kind: "input",
        key,
        header: key,
        unit: unit("fpm", "m/s"),
        width: 6,
        format: "general",
        style: "input",
        rule,
      };
    }),
    number(
      "average",
      "Average",
      unit("fpm", "m/s"),
      (at) => `=IF(COUNT(${readings(at)})=0,"",VANE.TRAVERSE.AVERAGE(${readings(at)},COUNT(${readings(at)})))`,
    ),
    number(
      "witnessed",
      "Witnessed",
      unit("cfm", "L/s"),
      (at) => {
        const free = drawn(at, "free");
        return `=IF(OR(${at("number")}="",COUNT(${at("average")})=0),"",${at("average")}*${free}*${AIRFLOW_SCALE})`;
      },
      10.5,
    ),
    number("off", "Off by", "%", (at) => {
      const [one, other] = [at("reported"), at("witnessed")];
      return `=IF(COUNT(${one},${other})<2,"",IF(${one}=0,"",(${other}-${one})/ABS(${one})*100))`;
    }),
    {
      kind: "result",
      key: "agreement",
      header: "Agreement",
      unit: "",
      width: 11,
      format: "general",
      style: "resultCenter",
      formula: (at) =>
        `=IF(COUNT(${at("witnessed")})=0,"",IF(COUNT(${at("off")})=0,"${AGREEMENTS.differs}",IF(ABS(${at("off")})<=${within}*(1+1E-9),"${AGREEMENTS.agrees}","${AGREEMENTS.differs}")))`,
    },
    {
      kind: "input",
      key: "remark",
      header: "Remark",
      unit: "",
      width: 14,
      format: "general",
      style: "inputText",
      rule: textInput("Remark", "What explains a difference, or what the witness saw.", 200),
    },
  ];
  return { name, columns, headerRow: HEADER_ROW, rowCount: RETEST_ROWS };
}

const INPUTS = [
  ["B5", wholeInput("Share read again", "In percent of the outlets that were measured, 10 to 20 as a rule.", 1, 100)],
  [
    "B6",
    wholeInput("Seed", "Any whole number that the witness names. The same number draws the same outlets.", 1, 999_999),
  ],
  ["B7", numberInput("Must agree within", "In percent of the reported airflow, as the specification says.", 0.1, 100)],
  ["B11:D11", textInput("Witness", "Who watched the readings.")],
  ["B12:D12", textInput("Signature", "Sign here on paper, after the readings.")],
  ["B13:D13", textInput("Day of the re-test", "For example 2026-03-31.")],
] as const;

/**
 * The record of a witnessed re-test: outlets drawn at random, read again before a witness, and whether they agree.
 *
 * @param outlets - Spells a column of the table of outlets
 * @param points - How many columns for the readings of the witness at one outlet
 */
export function retestSheet(name: string, tableName: string, outlets: FromOutlets, points: number): SheetPlan {
  const table = retestTable(tableName, outlets, points);
  const block = tableBlock(table);
  const { share, seed, within, measured, wanted } = RETEST_CELLS;
  const at = (address: string) => address.replaceAll("$", "");
  const agreement = block.fixedRangeOf("agreement");
  const counted = (word: string) => `COUNTIF(${agreement},"${word}")`;
  const done = `(${counted(AGREEMENTS.agrees)}+${counted(AGREEMENTS.differs)})`;
  const result = [
    `IF(COUNT(${seed})=0,"Type the seed that the witness names.",`,
    // Rows that somebody adds count.
    `IF(${wanted}>ROWS(${agreement}),"The table below has "&ROWS(${agreement})&" rows for "&${wanted}&" outlets: add rows, or lower the share.",`,
    `IF(${counted(AGREEMENTS.differs)}>0,${counted(AGREEMENTS.differs)}&" of "&${wanted}&" differ by more than "&${within}&" %: recalculate, calibrate the meter, and test the whole system again.",`,
    `IF(${done}<${wanted},${done}&" of "&${wanted}&" read again.","All "&${wanted}&" agree within "&${within}&" %."))))`,
  ].join("");
  const line = (row: number, label: string, content: CellPlan, help: string): readonly CellPlan[] => [
    cell(`A${row}`, label, "label"),
    content,
    cell(`C${row}`, help, "unitBeside"),
  ];
  /** Wide enough for a hand. */
  const signed = (row: number, label: string, help: string): readonly CellPlan[] => [
    cell(`A${row}`, label, "label"),
    ...["B", "C", "D"].map((column) => cell(`${column}${row}`, null, "inputText")),
    cell(`E${row}`, help, "unitBeside"),
  ];
  const cells: readonly CellPlan[] = [
    cell("A1", "Room balance: re-test before a witness", "title"),
    cell("A2", jobLine(), "lead"),
    cell(
      "A3",
      "Outlets drawn at random are read again while a witness watches, with the same meter and at the same places.",
      "lead",
    ),
    ...line(
      5,
      "Share read again",
      cell(at(share), 10, "input"),
      "%; specifications ask 10 to 20 (UFGS-15951N, 3.2.4).",
    ),
    ...line(6, "Seed", cell(at(seed), null, "input"), "A whole number that the witness names: it draws the outlets."),
    ...line(
      7,
      "Must agree within",
      cell(at(within), 10, "input"),
      "%, of the reported airflow. 10 is assumed: enter what the specification says.",
    ),
    ...line(8, "Outlets measured", cell(at(measured), `=COUNT(${outlets("airflow")})`, "result", "whole"), ""),
    ...line(9, "To read again", cell(at(wanted), `=ROUNDUP(${measured}*${share}/100,0)`, "result", "whole"), ""),
    ...line(10, "Result", cell("B10", `=IF(${measured}=0,"No outlet is measured yet.",${result})`, "resultText"), ""),
    ...["C", "D", "E", "F", "G", "H", "I", "J", "K"].map((column) => cell(`${column}10`, null, "resultText")),
    ...signed(11, "Witness", "Name and firm."),
    ...signed(12, "Signature", "On paper, after the readings."),
    ...signed(13, "Day of the re-test", ""),
    ...block.cells,
  ];
  const seen = new Map(cells.map((one) => [one.at, one]));
  const validations: readonly ValidationPlan[] = INPUTS.map(([range, rule]) => ({ range, ...rule }));
  return {
    ...EMPTY_SHEET,
    name,
    role: "work",
    columnWidths: block.columnWidths,
    rowHeights: { 1: 26, 10: 28, 11: 22, 12: 34, 13: 22, [HEADER_ROW]: 42 },
    cells: [...seen.values()],
    merges: ["B10:K10", "B11:D11", "B12:D12", "B13:D13"],
    frozen: { rows: HEADER_ROW, columns: 1 },
    tables: [block.table],
    validations: [...validations, ...block.validations],
    conditionalFormats: [
      { kind: "word", range: block.rangeOf("agreement"), word: AGREEMENTS.agrees, style: "within" },
      { kind: "word", range: block.rangeOf("agreement"), word: AGREEMENTS.differs, style: "low" },
    ],
    print: {
      ...tablePrint(table, ["reported", `W${points}`]),
      repeatedRows: `${HEADER_ROW - 1}:${HEADER_ROW}`,
    },
  };
}
