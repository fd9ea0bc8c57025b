import ExcelJS from "exceljs";
import type { CheckKind } from "../../../src/workbook/index.js";

/*
 * Mistakes of estimators and technicians, each planted in an invented sheet of plain formulas. A formula's stored result
 * is worked out here, as the spreadsheet program that saved the file would have it. Mistakes as listed in section 16 of
 * the facts of the trade ("errors practitioners make") and common practice.
 */

/** A formula and what the program that saved the file made of it. */
export interface Stored {
  readonly formula: string;
  readonly result: number | string | { readonly error: string };
}

export type OwnCell = number | string | Stored | null;
export type OwnCells = Readonly<Record<string, OwnCell>>;

/** One mistake, the cells in which it differs from a sheet in order, and those of its clean twin. */
export interface Mistake {
  readonly title: string;
  readonly kind: CheckKind;
  readonly cell: string;
  readonly says: RegExp;
  readonly cells: OwnCells;
  /** The same done rightly. */
  readonly twin: OwnCells;
  /** Whether the workbook says what its columns hold. */
  readonly isTakenOver: boolean;
}

const f = (formula: string, result: number | string): Stored => ({ formula, result });

/** Sizes, factors, readings and designs of five invented outlets, in rows 5 to 9. */
const ROWS = [
  { width: 14, height: 6, factor: 0.75, readings: [400, 420, 380, 400], design: 180 },
  { width: 12, height: 6, factor: 0.7, readings: [350, 340, 360, 370], design: 120 },
  { width: 8, height: 4, factor: 0.8, readings: [300, 310, 290, 320], design: 55 },
  { width: 10, height: 10, factor: 0.75, readings: [430, 440, 410, 400], design: 220 },
  { width: 20, height: 8, factor: 0.65, readings: [500, 480, 490, 470], design: 350 },
] as const;

const FIRST = 5;
const LAST = FIRST + ROWS.length - 1;

const mean = (numbers: readonly number[]) => numbers.reduce((sum, one) => sum + one, 0) / numbers.length;

/** Of the outlet in a row. */
const inputs = (row: number) => ROWS[row - FIRST] ?? ROWS[0];
const gross = (row: number) => (inputs(row).width * inputs(row).height) / 144;
export const flowIn = (row: number) => gross(row) * inputs(row).factor * mean(inputs(row).readings);

/** A sheet in order: plain formulas, a total, percents of design and a verdict. */
export function sheetInOrder(): OwnCells {
  const cells: Record<string, OwnCell> = { A1: "Invented job" };
  [
    "Grille",
    "W in",
    "H in",
    "Factor",
    "Vel 1",
    "Vel 2",
    "Vel 3",
    "Vel 4",
    "Design CFM",
    "Actual CFM",
    "% of design",
    "Status",
  ].forEach((heading, index) => {
    cells[`${"ABCDEFGHIJKL".charAt(index)}4`] = heading;
  });
  for (let row = FIRST; row <= LAST; row += 1) {
    const { width, height, factor, readings, design } = inputs(row);
    const percent = flowIn(row) / design;
    Object.assign(cells, {
      [`A${row}`]: `S-${row}`,
      [`B${row}`]: width,
      [`C${row}`]: height,
      [`D${row}`]: factor,
      ...Object.fromEntries(readings.map((reading, index) => [`${"EFGH".charAt(index)}${row}`, reading])),
      [`I${row}`]: design,
      [`J${row}`]: f(`B${row}*C${row}/144*D${row}*AVERAGE(E${row}:H${row})`, flowIn(row)),
      [`K${row}`]: f(`J${row}/I${row}`, percent),
      [`L${row}`]: f(`IF(K${row}<0.9,"LOW",IF(K${row}>1.1,"HIGH","OK"))`, verdict(percent)),
    });
  }
  const rows = Array.from({ length: ROWS.length }, (_, index) => FIRST + index);
  const design = rows.reduce((sum, row) => sum + inputs(row).design, 0);
  const flow = rows.reduce((sum, row) => sum + flowIn(row), 0);
  return {
    ...cells,
    A10: "Total",
    I10: f("SUM(I5:I9)", design),
    J10: f("SUM(J5:J9)", flow),
    K10: f("J10/I10", flow / design),
  };
}

const verdict = (percent: number) => (percent < 0.9 ? "LOW" : percent > 1.1 ? "HIGH" : "OK");

/** The row with another airflow, and the percent and verdict that follow from it. */
function withFlow(row: number, formula: string, result: number): OwnCells {
  const percent = result / inputs(row).design;
  return { [`J${row}`]: f(formula, result), ...followed(row, percent) };
}

const followed = (row: number, percent: number): OwnCells => ({
  [`K${row}`]: f(`J${row}/I${row}`, percent),
  [`L${row}`]: f(`IF(K${row}<0.9,"LOW",IF(K${row}>1.1,"HIGH","OK"))`, verdict(percent)),
});

const flow = (title: string, row: number, formula: string, result: number, says: RegExp): Mistake => ({
  title,
  kind: "result-not-from-inputs",
  cell: `J${row}`,
  says,
  cells: withFlow(row, formula, result),
  twin: {},
  isTakenOver: true,
});

const allRows = (of: (row: number) => OwnCells): OwnCells =>
  Object.assign({}, ...Array.from({ length: ROWS.length }, (_, index) => of(FIRST + index)));

const partialMean = (row: number, ...at: readonly number[]) =>
  mean(at.map((index) => inputs(row).readings[index] ?? 0));
const sum = (row: number) => 4 * mean(inputs(row).readings);
const effective = (row: number) => gross(row) * inputs(row).factor;

/** A percent that rounding takes over the limit: 89.6 % of design. */
const NEARLY = flowIn(5) / 0.896;

export const MISTAKES: readonly Mistake[] = [
  flow("in² in one row", 6, "B6*C6*D6*AVERAGE(E6:H6)", 144 * flowIn(6), /left in in²: nothing divides by 144/),
  flow("a factor left out", 6, "B6*C6/144*AVERAGE(E6:H6)", flowIn(6) / 0.7, /The factor 0\.7 is missing/),
  flow(
    "a factor applied twice",
    7,
    "B7*C7/144*D7*D7*AVERAGE(E7:H7)",
    flowIn(7) * 0.8,
    /The factor 0\.8 is applied twice/,
  ),
  flow(
    "another constant than the factor of the row",
    8,
    "B8*C8/144*0.82*AVERAGE(E8:H8)",
    (flowIn(8) * 0.82) / 0.75,
    /multiplies by 0\.82, where the factor of the outlet is 0\.75/,
  ),
  flow(
    "a constant besides the factor",
    9,
    "B9*C9/144*D9*0.85*AVERAGE(E9:H9)",
    flowIn(9) * 0.85,
    /multiplies by 0\.85 as well as by the factor 0\.65/,
  ),
  {
    ...flow(
      "an empty cell counted as 0",
      7,
      "B7*C7/144*D7*SUM(E7:H7)/4",
      (effective(7) * (sum(7) - 320)) / 4,
      /divided by 4|averaged in as 0/,
    ),
    cells: { ...withFlow(7, "B7*C7/144*D7*SUM(E7:H7)/4", (effective(7) * (sum(7) - 320)) / 4), H7: null },
    twin: { ...withFlow(7, "B7*C7/144*D7*AVERAGE(E7:H7)", effective(7) * partialMean(7, 0, 1, 2)), H7: null },
  },
  flow(
    "a sum divided by one too few",
    6,
    "B6*C6/144*D6*SUM(E6:H6)/3",
    (effective(6) * sum(6)) / 3,
    /The sum of 4 readings is divided by 3/,
  ),
  flow("a sum in place of an average", 6, "B6*C6/144*D6*SUM(E6:H6)", effective(6) * sum(6), /added up, not averaged/),
  flow(
    "fpm taken as m/s",
    8,
    "B8*C8/144*D8*AVERAGE(E8:H8)*196.85",
    flowIn(8) * 196.8504,
    /taken as m\/s, but are in fpm: 1 m\/s is 196\.85 fpm/,
  ),
  flow("m/s taken as fpm", 8, "B8*C8/144*D8*AVERAGE(E8:H8)*0.00508", flowIn(8) * 0.00508, /turned from fpm into m\/s/),
  flow(
    "a range one reading short",
    9,
    "B9*C9/144*D9*AVERAGE(E9:G9)",
    effective(9) * partialMean(9, 0, 1, 2) * 1,
    /leaves out column H, which holds a reading/,
  ),
  flow(
    "a range one reading short where it makes no difference",
    5,
    "B5*C5/144*D5*AVERAGE(E5:G5)",
    flowIn(5),
    /leaves out H5, which holds a reading.*no difference that shows here/,
  ),
  flow(
    "a range that takes the design in",
    9,
    "B9*C9/144*D9*AVERAGE(E9:I9)",
    effective(9) * mean([...ROWS[4].readings, 350]),
    /takes column I in, which holds no reading/,
  ),
  flow(
    "the largest reading in place of the average",
    6,
    "B6*C6/144*D6*MAX(E6:H6)",
    effective(6) * 370,
    /MAX takes the largest reading/,
  ),
  flow("the width twice", 5, "B5*B5/144*D5*AVERAGE(E5:H5)", (flowIn(5) * 14) / 6, /The width is taken twice/),
  flow(
    "a rectangle calculated as round",
    8,
    "PI()*B8^2/4/144*D8*AVERAGE(E8:H8)",
    (flowIn(8) * Math.PI) / 4,
    /is a rectangle and is calculated as round/,
  ),
  flow(
    "the size of another row",
    7,
    "B6*C6/144*D7*AVERAGE(E7:H7)",
    gross(6) * 0.8 * mean(ROWS[2].readings),
    /reads row 6, which belongs to another outlet/,
  ),
  flow(
    "an area that is rounded first",
    7,
    "ROUND(B7*C7/144,1)*D7*AVERAGE(E7:H7)",
    0.2 * 0.8 * mean(ROWS[2].readings),
    /rounded to 0\.2 ft² before it is used/,
  ),
  flow(
    "in² and a missing factor at once",
    6,
    "B6*C6*AVERAGE(E6:H6)",
    (144 * flowIn(6)) / 0.7,
    /left in in².*The factor 0\.7 is missing/,
  ),
  {
    title: "in² in the whole column",
    kind: "result-not-from-inputs",
    cell: "J5:J9",
    says: /nothing divides by 144\. The same in 5 rows/,
    cells: allRows((row) => withFlow(row, `B${row}*C${row}*D${row}*AVERAGE(E${row}:H${row})`, 144 * flowIn(row))),
    twin: {},
    isTakenOver: true,
  },
  {
    title: "an airflow typed over its formula",
    kind: "formula-replaced",
    cell: "J7",
    says: /was typed over the formula/,
    cells: { J7: 52, ...followed(7, 52 / 55) },
    twin: {},
    isTakenOver: true,
  },
  {
    title: "a reading stored as text",
    kind: "text-reading",
    cell: "F6",
    says: /stored as text, so that an average leaves it out/,
    cells: { F6: "340", ...withFlow(6, "B6*C6/144*D6*AVERAGE(E6:H6)", effective(6) * partialMean(6, 0, 2, 3)) },
    twin: {},
    isTakenOver: true,
  },
  {
    title: "a reading that a formula takes from an empty cell",
    kind: "blank-as-zero",
    cell: "H6",
    says: /N6, which is empty: it shows 0/,
    cells: { H6: f("N6", 0), ...withFlow(6, "B6*C6/144*D6*AVERAGE(E6:H6)", effective(6) * mean([350, 340, 360, 0])) },
    twin: { H6: f("N6", 370), N6: 370 },
    isTakenOver: true,
  },
  {
    title: "a percent rounded before it is judged",
    kind: "percent-rounded",
    cell: "L5",
    says: /rounded to 90 before it is judged against 90; unrounded it is 89\.6/,
    cells: {
      I5: NEARLY,
      K5: f("J5/I5", 0.896),
      L5: f('IF(ROUND(K5,2)<0.9,"LOW",IF(ROUND(K5,2)>1.1,"HIGH","OK"))', "OK"),
    },
    twin: { I5: NEARLY, K5: f("J5/I5", 0.896), L5: f('IF(K5<0.9,"LOW",IF(K5>1.1,"HIGH","OK"))', "LOW") },
    isTakenOver: true,
  },
  {
    title: "percents that are averaged",
    kind: "percents-added-up",
    cell: "K10",
    says: /averages the percents of outlets \(.* %\); together they have .* % of their design/,
    cells: { K10: f("AVERAGE(K5:K9)", 0.97) },
    twin: {},
    isTakenOver: true,
  },
  {
    title: "percents that are added up",
    kind: "percents-added-up",
    cell: "K10",
    says: /adds up the percents/,
    cells: { K10: f("SUM(K5:K9)", 4.85) },
    twin: {},
    isTakenOver: true,
  },
  {
    title: "design over airflow",
    kind: "result-not-from-inputs",
    cell: "K6",
    says: /It divides the design by the airflow/,
    cells: {
      K6: f("I6/J6", 120 / flowIn(6)),
      L6: f('IF(K6<0.9,"LOW",IF(K6>1.1,"HIGH","OK"))', verdict(120 / flowIn(6))),
    },
    twin: {},
    isTakenOver: true,
  },
  {
    title: "a total that stops short",
    kind: "range-stops-short",
    cell: "J10",
    says: /takes J5:J8 and leaves out J9/,
    cells: { J10: f("SUM(J5:J8)", 1) },
    twin: {},
    isTakenOver: true,
  },
  {
    title: "a total that begins too low",
    kind: "range-stops-short",
    cell: "I10",
    says: /takes I6:I9 and leaves out I5/,
    cells: { I10: f("SUM(I6:I9)", 745) },
    twin: {},
    isTakenOver: true,
  },
];

/** Mistakes that are found in a sheet of which nobody has said what its columns hold. */
export const WITHOUT_MAPPING: readonly Mistake[] = [
  {
    title: "a formula that differs from those above and below",
    kind: "formula-differs",
    cell: "J7",
    says: /reads otherwise than those above and below it, which would be =B7\*C7\/144\*D7\*AVERAGE\(E7:H7\) here\. It has G7 where H7 would be expected/,
    cells: withFlow(7, "B7*C7/144*D7*AVERAGE(E7:G7)", effective(7) * partialMean(7, 0, 1, 2)),
    twin: {},
    isTakenOver: false,
  },
  {
    title: "the last formula of a column with another constant",
    kind: "formula-differs",
    cell: "J9",
    says: /It has 0\.75 where D9 would be expected/,
    cells: withFlow(9, "B9*C9/144*0.75*AVERAGE(E9:H9)", (flowIn(9) * 0.75) / 0.65),
    twin: {},
    isTakenOver: false,
  },
  {
    title: "a total that stops short",
    kind: "range-stops-short",
    cell: "J10",
    says: /leaves out J9/,
    cells: { J10: f("SUM(J5:J8)", 1) },
    twin: {},
    isTakenOver: false,
  },
  {
    title: "a reading stored as text",
    kind: "text-reading",
    cell: "F6",
    says: /stored as text/,
    cells: { F6: "340" },
    twin: {},
    isTakenOver: false,
  },
  {
    title: "a reading that a formula takes from an empty cell",
    kind: "blank-as-zero",
    cell: "H6",
    says: /N6, which is empty/,
    cells: { H6: f("N6", 0) },
    twin: { H6: f('IF(N6="","",N6)', "") },
    isTakenOver: false,
  },
];

/** Writes cells as a workbook of one sheet. */
export async function ownWorkbook(cells: OwnCells, sheetName = "Grilles"): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet(sheetName);
  for (const [address, content] of Object.entries(cells)) {
    if (content === null) continue;
    // The library's types know errors as results by their own list of names alone.
    sheet.getCell(address).value = (typeof content === "object" ? { ...content } : content) as ExcelJS.CellValue;
  }
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}
