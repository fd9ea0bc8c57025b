/** What a cell holds before the formula is calculated; null is a cell with nothing in it. */
export type Content = number | string | boolean | null;

/** What a cell shows. */
export type Shown = number | string | boolean | { readonly error: string; readonly message: string };

/** One cell, or a block of rows that spills. */
export type HostResult = Shown | readonly (readonly Shown[])[];

/** A cell in error: its code, and a part of its message that says what to do. */
export interface ExpectedError {
  readonly error: string;
  readonly says: string;
}

export type ExpectedCell = number | string | boolean | ExpectedError;

/** One formula on a sheet, and what every host must show for it. */
export interface ContractCase {
  readonly title: string;
  readonly cells: Readonly<Record<string, Content>>;
  readonly formula: string;
  readonly expected: ExpectedCell | readonly (readonly ExpectedCell[])[];
}

const NO_CELLS = {};

/** Four readings, of which the last is blank. */
const HALF_READ = { A1: 400, A2: 420, A3: 380, A4: null };

/** Four readings, of which the last is a dead spot. */
const DEAD_SPOT = { A1: 400, A2: 420, A3: 380, A4: 0 };

const MEAN_OF_READ = 400;
const MEAN_WITH_DEAD_SPOT = 300;

/** 12 in x 12 in is 1 ft2: what is free of it is the factor alone. */
const blanksAndZeros: readonly ContractCase[] = [
  {
    title: "a blank among readings is refused, with what to add",
    cells: HALF_READ,
    formula: "=VANE.TRAVERSE.AVERAGE(A1:A4)",
    expected: { error: "#VALUE!", says: "taken" },
  },
  {
    title: "a dead spot among readings is refused alike, since it may be a blank",
    cells: DEAD_SPOT,
    formula: "=VANE.TRAVERSE.AVERAGE(A1:A4)",
    expected: { error: "#VALUE!", says: "row 4, column 1" },
  },
  {
    title: "with the count of the cells a blank never lowers an average",
    cells: HALF_READ,
    formula: "=VANE.TRAVERSE.AVERAGE(A1:A4,COUNT(A1:A4))",
    expected: MEAN_OF_READ,
  },
  {
    title: "with the count of the cells a dead spot counts",
    cells: DEAD_SPOT,
    formula: "=VANE.TRAVERSE.AVERAGE(A1:A4,COUNT(A1:A4))",
    expected: MEAN_WITH_DEAD_SPOT,
  },
  {
    title: "a count that cannot be right is refused",
    cells: HALF_READ,
    formula: "=VANE.TRAVERSE.AVERAGE(A1:A4,7)",
    expected: { error: "#VALUE!", says: "COUNT" },
  },
  {
    title: "nothing measured yet shows an empty cell",
    cells: NO_CELLS,
    formula: "=VANE.TRAVERSE.AVERAGE(A1:A4,COUNT(A1:A4))",
    expected: "",
  },
  {
    title: "nothing measured yet is quiet even where the size is missing too",
    cells: NO_CELLS,
    formula: "=VANE.AIRFLOW.FACE(B1,B2,A1:A4,B3,COUNT(A1:A4))",
    expected: "",
  },
  {
    title: "readings without a size say what is missing",
    cells: { A1: 400, A2: 420 },
    formula: "=VANE.AIRFLOW.FACE(B1,B2,A1:A2,0.75)",
    expected: { error: "#N/A", says: "width" },
  },
  {
    title: "a factor that is not given is 0.75, whether its cell is blank or the argument is left out",
    cells: { A1: 400, B1: 12, B2: 12, B3: null },
    formula: "=VANE.AIRFLOW.FACE(B1,B2,A1,B3)-VANE.AIRFLOW.FACE(B1,B2,A1)+VANE.AIRFLOW.FACE(B1,B2,A1,)",
    expected: 300,
  },
  {
    title: "a blank height means a round opening",
    cells: { A1: 400, B1: 12, B2: null },
    formula: "=ROUND(VANE.AIRFLOW.FACE(B1,B2,A1,1)-400*PI()/4,9)",
    expected: 0,
  },
  {
    title: "a velocity that is blank or 0 asks for the count",
    cells: { A1: 0 },
    formula: "=VANE.AIRFLOW(A1,1)",
    expected: { error: "#N/A", says: "taken" },
  },
  { title: "a measured 0 is an airflow of 0", cells: { A1: 0 }, formula: "=VANE.AIRFLOW(A1,1,COUNT(A1))", expected: 0 },
  {
    title: "a percent without a design says what is missing",
    cells: { A1: 100, B1: null },
    formula: "=VANE.DESIGN.PERCENT(A1,B1)",
    expected: { error: "#N/A", says: "design" },
  },
];

const textAndErrors: readonly ContractCase[] = [
  {
    title: "text among readings is named with its place",
    cells: { A1: 400, A2: "door shut", A3: 380 },
    formula: "=VANE.TRAVERSE.AVERAGE(A1:A3)",
    expected: { error: "#VALUE!", says: "row 2, column 1" },
  },
  {
    title: "a number that was stored as text is text",
    cells: { A1: 400, A2: "420" },
    formula: "=VANE.TRAVERSE.AVERAGE(A1:A2)",
    expected: { error: "#VALUE!", says: "420" },
  },
  {
    title: "a truth value is not a reading",
    cells: { A1: 400, A2: true },
    formula: "=VANE.TRAVERSE.AVERAGE(A1:A2)",
    expected: { error: "#VALUE!", says: "TRUE" },
  },
  {
    title: "a reading in error passes its code on and is named",
    cells: { A1: 400, A2: "=1/0" },
    formula: "=VANE.TRAVERSE.AVERAGE(A1:A2)",
    expected: { error: "#DIV/0!", says: "row 2, column 1" },
  },
  {
    title: "a missing width in error stays a missing value",
    cells: { A1: 400, B1: "=NA()" },
    formula: "=VANE.AIRFLOW.FACE(B1,12,A1,0.75)",
    expected: { error: "#N/A", says: "width" },
  },
  {
    title: "a factor above 1 is refused",
    cells: { A1: 400 },
    formula: "=VANE.AIRFLOW.FACE(12,12,A1,75)",
    expected: { error: "#VALUE!", says: "factor" },
  },
  {
    title: "an unknown unit system is refused with the two that exist",
    cells: { A1: 400 },
    formula: '=VANE.AIRFLOW.FACE(12,12,A1,0.75,COUNT(A1),"metric")',
    expected: { error: "#VALUE!", says: "si" },
  },
];

const blocks: readonly ContractCase[] = [
  {
    title: "a column gives a column, and each error stays in its own cell",
    cells: { A1: 500, A2: "door shut", A3: "=1/0", A4: 250 },
    formula: "=VANE.AIRFLOW(A1:A4,2)",
    expected: [[1000], [{ error: "#VALUE!", says: "door shut" }], [{ error: "#DIV/0!", says: "velocity" }], [500]],
  },
  {
    title: "a block keeps its rows and columns",
    cells: NO_CELLS,
    formula: "=VANE.AIRFLOW({100,200,300;400,500,600},2)",
    expected: [
      [200, 400, 600],
      [800, 1000, 1200],
    ],
  },
  {
    title: "a column and a column of areas go row by row",
    cells: { A1: 500, A2: 400, B1: 1, B2: 2 },
    formula: "=VANE.AIRFLOW(A1:A2,B1:B2)",
    expected: [[500], [800]],
  },
  {
    title: "columns of unequal height are refused",
    cells: { A1: 500, A2: 400, A3: 300, B1: 1, B2: 2 },
    formula: "=VANE.AIRFLOW(A1:A3,B1:B2)",
    expected: { error: "#VALUE!", says: "freeArea has 2 rows" },
  },
  {
    title: "one cell of a block is one cell",
    cells: { A1: 500 },
    formula: "=VANE.AIRFLOW(A1:A1,2)",
    expected: 1000,
  },
  {
    title: "an array constant is read by rows",
    cells: NO_CELLS,
    formula: "=VANE.AIRFLOW.FACE(12,12,{400,420;380,400},0.75)",
    expected: 300,
  },
  {
    title: "verdicts of a column are words",
    cells: { A1: 80, A2: 100, A3: 120 },
    formula: "=VANE.DESIGN.VERDICT(A1:A3,100)",
    expected: [["low"], ["within"], ["high"]],
  },
];

const plain: readonly ContractCase[] = [
  {
    title: "a negative velocity keeps its sign",
    cells: { A1: -500 },
    formula: "=VANE.AIRFLOW(A1,2)",
    expected: -1000,
  },
  {
    title: "a result is used by a native formula",
    cells: { A1: 400 },
    formula: '=IF(VANE.AIRFLOW(A1,2)>700,"enough","short")',
    expected: "enough",
  },
  {
    title: "a result in error is caught by a native formula",
    cells: { A1: "none" },
    formula: '=IFERROR(VANE.AIRFLOW(A1,2),"check")',
    expected: "check",
  },
  {
    title: "a name is found in small letters too",
    cells: NO_CELLS,
    formula: "=vane.airflow(400,2)",
    expected: 800,
  },
  {
    title: "a limit of percent belongs to within",
    cells: NO_CELLS,
    formula: "=VANE.DESIGN.VERDICT(90,100,10,10)",
    expected: "within",
  },
  {
    title: "just below the limit is low",
    cells: NO_CELLS,
    formula: "=VANE.DESIGN.VERDICT(89.99,100,10,10)",
    expected: "low",
  },
];

/** What every host must give alike: Excel, the page, and files. Groups by what they are about. */
/** 12.5 in x 8 in is 100 in2; 12 in round is 36π in2; an inch is 25.4 mm exactly (NIST SP 811, B.8). */
const writtenSizes: readonly ContractCase[] = [
  {
    title: "a fraction of an inch that is text is read as it is written on a grille",
    cells: { A1: "12 1/2", B1: 8 },
    formula: "=VANE.OPENING.RECT(A1,B1)",
    expected: 100 / 144,
  },
  {
    title: "a length with its unit is read in the units of the call",
    cells: { A1: '12.5"', B1: "8 in" },
    formula: '=VANE.OPENING.RECT(A1,B1,"si")',
    expected: (12.5 * 25.4 * 8 * 25.4) / 1e6,
  },
  {
    title: "feet and inches are read",
    cells: { A1: "1' 2\"", B1: 6 },
    formula: "=VANE.OPENING.RECT(A1,B1)",
    expected: 84 / 144,
  },
  {
    title: "millimeters in an inch-pound call are read by their unit",
    cells: { A1: "254 mm", B1: 10 },
    formula: "=VANE.OPENING.RECT(A1,B1)",
    expected: 100 / 144,
  },
  {
    title: "a width may hold both sides while no height is given",
    cells: { A1: "14x6", B1: null, C1: 400 },
    formula: "=VANE.AIRFLOW.FACE(A1,B1,C1,0.75)",
    expected: (84 / 144) * 0.75 * 400,
  },
  {
    title: "a width may hold a diameter that says so",
    cells: { A1: "12 round", C1: 400 },
    formula: "=VANE.AIRFLOW.FACE(A1,,C1,1)",
    expected: ((36 * Math.PI) / 144) * 400,
  },
  {
    title: "both sides in the width beside a height are refused, with what to enter",
    cells: { A1: "14x6", B1: 6 },
    formula: "=VANE.OPENING.RECT(A1,B1)",
    expected: { error: "#VALUE!", says: "two cells" },
  },
  {
    title: "a fraction without a unit among millimeters is refused",
    cells: { A1: "12 1/2", B1: 200 },
    formula: '=VANE.OPENING.RECT(A1,B1,"si")',
    expected: { error: "#VALUE!", says: "write the unit" },
  },
  {
    title: "a number that is text is refused as everywhere",
    cells: { A1: "14", B1: 6 },
    formula: "=VANE.OPENING.RECT(A1,B1)",
    expected: { error: "#VALUE!", says: "stored as text" },
  },
  {
    title: "a comma that may be a thousand is refused",
    cells: { A1: "1,200 mm", B1: 600 },
    formula: '=VANE.OPENING.RECT(A1,B1,"si")',
    expected: { error: "#VALUE!", says: "thousands without a comma" },
  },
  {
    title: "6/8, which Excel turns into a date, is refused as a size",
    cells: { A1: 46181 },
    formula: "=VANE.OPENING.ROUND(A1)",
    expected: { error: "#VALUE!", says: "a date" },
  },
];

export const FUNCTION_CASES: Readonly<Record<string, readonly ContractCase[]>> = {
  "blank cells, zeros and what was left out": blanksAndZeros,
  "text and errors among the arguments": textAndErrors,
  "sizes as they are written on a grille": writtenSizes,
  "blocks and what spills": blocks,
  "values and native formulas around them": plain,
};
