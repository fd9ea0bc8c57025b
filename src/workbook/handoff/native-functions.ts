/*
 * What functions of spreadsheet programs make of blocks: whether they take a block whole, or one value after the other.
 * A function in none of the lists is asked for its size only where every argument is one value.
 */

/** Functions whose result is one value, whatever blocks they take. */
const WHOLE = new Set(
  `SUM COUNT COUNTA COUNTBLANK AVERAGE AVERAGEA MIN MAX MINA MAXA PRODUCT MEDIAN MODE MODE.SNGL STDEV STDEVP STDEV.S
  STDEV.P STDEVA STDEVPA VAR VARP VAR.S VAR.P VARA VARPA SUMSQ SUMPRODUCT AND OR XOR GEOMEAN HARMEAN AVEDEV DEVSQ NPV
  IRR SUBTOTAL ROWS COLUMNS CORREL SLOPE INTERCEPT RSQ PEARSON COVAR CONCAT TEXTJOIN TRIMMEAN SKEW KURT SUMXMY2 SUMX2MY2
  SUMX2PY2 MULTINOMIAL GCD LCM AREAS ISREF CELL SHEET SHEETS PI TODAY NOW RAND NA TRUE FALSE`.split(/\s+/),
);

/** Functions that take every argument value by value, so that a block gives a block. */
const BY_VALUE = new Set(
  `IF IFERROR IFNA IFS SWITCH NOT ISNUMBER ISTEXT ISBLANK ISERROR ISERR ISNA ISLOGICAL ISNONTEXT ISEVEN ISODD ABS ROUND
  ROUNDUP ROUNDDOWN MROUND INT TRUNC SQRT EXP LN LOG LOG10 POWER MOD SIGN SIN COS TAN ASIN ACOS ATAN ATAN2 SINH COSH TANH
  RADIANS DEGREES CEILING FLOOR EVEN ODD LEN LEFT RIGHT MID TRIM CLEAN UPPER LOWER PROPER VALUE TEXT FIXED SUBSTITUTE
  REPLACE FIND SEARCH REPT EXACT CHAR CODE CONCATENATE DATE YEAR MONTH DAY TIME HOUR MINUTE SECOND WEEKDAY EDATE EOMONTH
  DATEVALUE CONVERT QUOTIENT FACT ERROR.TYPE TYPE`.split(/\s+/),
);

/** Functions of which some arguments are taken value by value, counted from 0, and the others whole. */
const SOME_BY_VALUE: ReadonlyMap<string, (place: number) => boolean> = new Map([
  ...["COUNTIF", "LARGE", "SMALL", "PERCENTILE", "QUARTILE", "PERCENTRANK"].map(
    (name) => [name, (place: number) => place === 1] as const,
  ),
  ...["SUMIF", "AVERAGEIF"].map((name) => [name, (place: number) => place === 1] as const),
  ...["VLOOKUP", "HLOOKUP"].map((name) => [name, (place: number) => place === 0 || place === 2] as const),
  ...["MATCH", "LOOKUP", "RANK", "RANK.EQ", "RANK.AVG", "FORECAST", "XLOOKUP", "XMATCH"].map(
    (name) => [name, (place: number) => place === 0] as const,
  ),
  ["COUNTIFS", (place: number) => place % 2 === 1] as const,
  ...["SUMIFS", "AVERAGEIFS", "MAXIFS", "MINIFS"].map(
    (name) => [name, (place: number) => place > 0 && place % 2 === 0] as const,
  ),
]);

/** Functions that give cells, not their values. */
const GIVES_CELLS = new Set(["OFFSET", "INDIRECT", "INDEX"]);

/** Functions that take several numbers or blocks and care for nothing but their values. */
const TAKES_LISTS = new Set([
  "SUM",
  "COUNT",
  "COUNTA",
  "AVERAGE",
  "MIN",
  "MAX",
  "MEDIAN",
  "STDEV",
  "STDEVP",
  "PRODUCT",
]);

/** Whether a function takes an argument value by value; undefined where that is not known. */
export function takesByValue(name: string, place: number): boolean | undefined {
  if (WHOLE.has(name)) return false;
  if (BY_VALUE.has(name)) return true;
  return SOME_BY_VALUE.get(name)?.(place);
}

export function givesOneValue(name: string): boolean {
  return WHOLE.has(name);
}

/** Whether an array formula can take this function apart value by value. */
export function isByValue(name: string): boolean {
  return BY_VALUE.has(name);
}

export function givesCells(name: string): boolean {
  return GIVES_CELLS.has(name);
}

export function takesLists(name: string): boolean {
  return TAKES_LISTS.has(name);
}
