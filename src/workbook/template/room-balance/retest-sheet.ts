import { columnLetters } from "../../../xlsx/address.js";
import { jobLine } from "../job-line.js";
import { cell, EMPTY_SHEET, numberInput, textInput, wholeInput } from "../plan-parts.js";
import type { CellPlan, SheetPlan, ValidationPlan } from "../sheet-plan.js";
import { tableBlock } from "../table-block.js";
import { pageLines, tablePrint } from "../table-sheet.js";
import type { ColumnOf } from "./balance-columns.js";
import { RETEST_CELLS } from "./retest-draw.js";
import { RETEST_HEADER_ROW, retestTable } from "./retest-table.js";
import { AGREEMENTS, NOT_JUDGED } from "./retest-words.js";

/** Columns of the lines of result and signature: from C to here. */
const LAST_RESULT_COLUMN = 15;
const LAST_SIGNED_COLUMN = 8;

const TITLE = "Room balance: re-test before a witness";

const SIGNED_ROWS = [12, 13, 14] as const;

const INPUTS = [
  ["C5", wholeInput("Share read again", "In percent of the outlets that were measured, 10 to 20 as a rule.", 1, 100)],
  [
    "C6",
    wholeInput("Seed", "Any whole number that the witness names. The same number draws the same outlets.", 1, 999_999),
  ],
  ["C7", numberInput("Must agree within", "In percent of the reported airflow, as the specification says.", 0.1, 100)],
  ["C12:H12", textInput("Witness", "Who watched the readings.")],
  ["C13:H13", textInput("Signature", "Sign here on paper, after the readings.")],
  ["C14:H14", textInput("Day of the re-test", "For example 2026-03-31.")],
] as const;

/** What the sheet says of the whole re-test, and of the rows that it does not judge. */
function statements(agreement: string, outlets: ColumnOf): { readonly result: string; readonly unjudged: string } {
  const { share, seed, within, measured, wanted } = RETEST_CELLS;
  const counted = (word: string) => `COUNTIF(${agreement},"${word}")`;
  const done = `(${counted(AGREEMENTS.agrees)}+${counted(AGREEMENTS.differs)})`;
  const others = `(SUMPRODUCT(--(${agreement}<>""))-${done})`;
  const untagged = `SUMPRODUCT((${outlets("airflow")}<>"")*(${outlets("outlet")}=""))`;
  const differ = `${counted(AGREEMENTS.differs)}&" of "&${wanted}&" differ by more than "&${within}&" %: recalculate, calibrate the meter, and test the whole system again."`;
  const rows = `${others}&IF(${others}=1," row is"," rows are")`;
  const steps: readonly (readonly [string, string])[] = [
    [`${measured}=0`, '"No outlet is measured yet."'],
    [`COUNT(${share},${within})<2`, '"Enter the share and the limit."'],
    [`COUNT(${seed})=0`, `"Type the seed that the witness names."`],
    // Rows that somebody adds count.
    [
      `${wanted}>ROWS(${agreement})`,
      `"The table below has "&ROWS(${agreement})&" rows for "&${wanted}&" outlets: add rows, or lower the share."`,
    ],
    [`${counted(AGREEMENTS.differs)}>0`, differ],
    [`${others}>0`, `${rows}&" not judged: put right what the next line says."`],
    [`${done}<${wanted}`, `${done}&" of "&${wanted}&" read again."`],
  ];
  const all = `"All "&${wanted}&" agree within "&${within}&" %."`;
  const ofWords = Object.values(NOT_JUDGED).map(
    ([word, toDo]) => `IF(${counted(word)}=0,"",${counted(word)}&" ${word}: ${toDo}. ")`,
  );
  const noTag = `IF(${untagged}=0,"",${untagged}&" measured without a tag: enter it, or it cannot be drawn. ")`;
  return {
    result: `=${steps.reduceRight((rest, [condition, words]) => `IF(${condition},${words},${rest})`, all)}`,
    unjudged: `=TRIM(${[...ofWords, noTag].join("&")})`,
  };
}

/** Label, cell and help beside one another. */
function line(row: number, label: string, content: CellPlan, help: string): readonly CellPlan[] {
  return [cell(`B${row}`, label, "label"), content, cell(`D${row}`, help, "unitBeside")];
}

/** A line over several columns, which are merged. */
function wideLine(row: number, label: string, first: CellPlan, lastColumn: number): readonly CellPlan[] {
  const rest = Array.from({ length: lastColumn - 3 }, (_, index) =>
    cell(`${columnLetters(index + 4)}${row}`, null, first.style),
  );
  return [cell(`B${row}`, label, "label"), first, ...rest];
}

/**
 * The record of a witnessed re-test: outlets drawn at random, read again before a witness, and whether they agree.
 *
 * @param outlets - Spells a column of the table of outlets
 * @param points - How many columns for the readings of the witness at one outlet
 * @param isThermal - Whether the outlets have a velocity factor
 */
export function retestSheet(
  name: string,
  tableName: string,
  outlets: ColumnOf,
  points: number,
  isThermal: boolean,
): SheetPlan {
  const sectionEnds = [`W${points}`];
  const table = retestTable(tableName, outlets, points, isThermal);
  const block = tableBlock(table);
  const { share, seed, within, measured, wanted, result, unjudged } = RETEST_CELLS;
  const at = (address: string) => address.replaceAll("$", "");
  const said = statements(block.fixedRangeOf("agreement"), outlets);
  const help = ["Name and firm.", "On paper, after the readings.", ""];
  const signed = ["Witness", "Signature", "Day"].flatMap((label, index) => {
    const row = SIGNED_ROWS[index] ?? 0;
    const beside = cell(`${columnLetters(LAST_SIGNED_COLUMN + 1)}${row}`, help[index] ?? "", "unitBeside");
    return [...wideLine(row, label, cell(`C${row}`, null, "inputText"), LAST_SIGNED_COLUMN), beside];
  });
  const cells: readonly CellPlan[] = [
    cell("B1", TITLE, "title"),
    cell("B2", jobLine(), "lead"),
    cell("B3", "Outlets drawn by a seed are read again before a witness, same meter, same places.", "lead"),
    cell("B4", "Before the first reading copy Drawn and Reported to Outlet read and Reported then, as values.", "lead"),
    ...line(
      5,
      "Share",
      cell(at(share), 10, "input"),
      "% of them are read again; specifications ask 10 to 20 (UFGS-15951N, 3.2.4).",
    ),
    ...line(6, "Seed", cell(at(seed), null, "input"), "A whole number that the witness names: it draws the outlets."),
    ...line(
      7,
      "Agree within",
      cell(at(within), 10, "input"),
      "% of the reported airflow. 10 is assumed: enter what the specification says.",
    ),
    ...line(
      8,
      "Measured",
      cell(at(measured), `=COUNT(${outlets("airflow")})`, "result", "whole"),
      "outlets of the list.",
    ),
    ...line(
      9,
      "To read again",
      cell(at(wanted), `=ROUNDUP(${measured}*${share}/100,0)`, "result", "whole"),
      "outlets, by the share.",
    ),
    ...wideLine(10, "Result", cell(at(result), said.result, "resultText"), LAST_RESULT_COLUMN),
    ...wideLine(11, "Not judged", cell(at(unjudged), said.unjudged, "resultWrapped"), LAST_RESULT_COLUMN),
    ...signed,
    ...pageLines(table, TITLE, sectionEnds),
    ...block.cells,
  ];
  const validations: readonly ValidationPlan[] = INPUTS.map(([range, rule]) => ({ range, ...rule }));
  const last = columnLetters(LAST_RESULT_COLUMN);
  const signedLast = columnLetters(LAST_SIGNED_COLUMN);
  const agreement = block.rangeOf("agreement");
  return {
    ...EMPTY_SHEET,
    name,
    role: "work",
    columnWidths: block.columnWidths,
    rowHeights: { 1: 26, 10: 18, 11: 40, 12: 18, 13: 30, 14: 18, [RETEST_HEADER_ROW]: 30 },
    cells,
    merges: [`C10:${last}10`, `C11:${last}11`, ...SIGNED_ROWS.map((row) => `C${row}:${signedLast}${row}`)],
    frozen: { rows: RETEST_HEADER_ROW, columns: 1 },
    tables: [block.table],
    validations: [...validations, ...block.validations],
    conditionalFormats: [
      { kind: "word", range: agreement, word: AGREEMENTS.agrees, style: "within" },
      { kind: "word", range: agreement, word: AGREEMENTS.differs, style: "low" },
      ...Object.values(NOT_JUDGED).map(
        ([word]) => ({ kind: "word", range: agreement, word, style: "incomplete" }) as const,
      ),
      { kind: "formula", range: at(unjudged), formula: `${at(unjudged)}<>""`, style: "low" },
    ],
    print: tablePrint(table, sectionEnds),
  };
}
