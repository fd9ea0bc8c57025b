import { columnLetters } from "../../xlsx/index.js";
import { chanceOf } from "../simulate/random.js";
import { corpusPlace } from "./corpus-workbook.js";

/** So deep are calls within calls. */
const DEEPEST = 4;
/** Of the formulas so many have the mark of an array. */
const ARRAY_SHARE = 0.1;

/*
 * Left out is where LibreOffice is known to go its own way, which the corpus judges by documentation: truth values and
 * empty texts in blocks, truth values of array formulas, sums through sheets, 0^0, CODE,
 * ISLOGICAL of what is calculated, WEEKNUM, dates before March 1900.
 */
const NUMBER_RANGES = ["D!A1:A8", "D!G1:G8", "D!I1:I4", "D!J1:J4", "D!L1:L8", "D!I1:K4", "Nums"];
const EQUAL_RANGES = ["D!A1:A8", "D!G1:G8", "D!L1:L8", "Nums"];
const TEXTS = ['"S-1"', '"hall 12"', '""', '"Äpfel"', '" two  words "', '"120"', '"a*b"'];
const CRITERIA = ['">3"', '"<>1"', "5", '"<=8"', '"=13"', '"a*"', '"<>"'];

/**
 * Makes formulas of functions and operators within each other over the data of the corpus, most of them over what
 * formulas before them gave: one of many errors and types spreads as it does in a real workbook.
 *
 * @param seed - The same seed gives the same formulas
 */
export function randomFormulas(seed: number, count: number): readonly string[] {
  const { uniform } = chanceOf(seed);
  const pick = <T>(items: readonly T[]): T => items[Math.floor(uniform() * items.length)] as T;
  const whole = (from: number, to: number) => from + Math.floor(uniform() * (to - from + 1));
  const kinds: ("number" | "text" | "truth")[] = [];

  /** An earlier formula of the same sheet that gives what is wanted. */
  function earlier(kind: (typeof kinds)[number]): string | undefined {
    const { sheet } = corpusPlace(kinds.length);
    const fitting = kinds.flatMap((known, index) =>
      known === kind && corpusPlace(index).sheet === sheet ? [`${columnLetters(corpusPlace(index).column)}5`] : [],
    );
    return fitting.length === 0 ? undefined : pick(fitting);
  }

  const constant = () =>
    pick([String(whole(0, 12)), String(whole(1, 999) / 100), `-${whole(1, 20)}`, `${whole(1, 90)}%`]);
  const cell = () => pick([`D!A${whole(1, 8)}`, `D!G${whole(1, 8)}`, `D!I${whole(1, 4)}`, `D!L${whole(1, 8)}`, "Rate"]);
  const range = () => pick(NUMBER_RANGES);

  function number(depth: number): string {
    if (depth >= DEEPEST || uniform() < 0.15) return pick([constant, cell, cell, () => earlier("number") ?? cell()])();
    const n = () => number(depth + 1);
    const small = () => String(whole(0, 4));
    const same = () => [pick(EQUAL_RANGES), pick(EQUAL_RANGES)] as const;
    return pick<() => string>([
      () => `(${n()}${pick(["+", "-", "*", "/"])}${n()})`,
      () => `(${n()}${pick(["+", "-", "*", "/"])}${n()})`,
      () => `-${n()}`,
      () => `ABS(${n()})^${whole(1, 4)}`,
      () => `${pick(["INT", "SIGN", "ABS", "EVEN", "ODD", "TRUNC", "N", "RADIANS", "ATAN"])}(${n()})`,
      () => `${pick(["ROUND", "ROUNDUP", "ROUNDDOWN", "TRUNC"])}(${n()},${whole(-1, 3)})`,
      () => `${pick(["SQRT", "LN", "LOG10"])}(ABS(${n()})+1)`,
      () => `${pick(["SQRT", "LN"])}(${n()})`,
      () => `MOD(${n()},${pick(["3", "7", "2.5", "-4"])})`,
      () => `QUOTIENT(${n()},${pick(["3", "-7", "0"])})`,
      () => `${pick(["CEILING.MATH", "FLOOR.MATH"])}(${n()},${pick(["5", "0.5", "2"])})`,
      () =>
        `${pick(["SUM", "AVERAGE", "MIN", "MAX", "COUNT", "COUNTA", "MEDIAN", "PRODUCT", "SUMSQ", "DEVSQ"])}(${range()})`,
      () => `${pick(["SUM", "AVERAGE", "MIN", "MAX", "COUNT"])}(${range()},${n()},${n()})`,
      () =>
        `${pick(["STDEV", "VAR", "STDEVP", "GEOMEAN", "HARMEAN", "AVEDEV", "SKEW", "KURT"])}(${pick(EQUAL_RANGES)})`,
      () => `${pick(["AVERAGEA", "MAXA", "MINA", "STDEVA"])}(${range()})`,
      () => `SUMPRODUCT(${same().join(",")})`,
      () => `SUMPRODUCT((${pick(EQUAL_RANGES)}>${small()})*${pick(EQUAL_RANGES)})`,
      () => `${pick(["SUMIF", "AVERAGEIF", "COUNTIF"])}(${pick(["D!A1:A8", "D!H1:H8", "D!G1:G8"])},${pick(CRITERIA)})`,
      () => `SUMIFS(D!A1:A8,D!G1:G8,${pick(CRITERIA)},D!H1:H8,${pick(CRITERIA)})`,
      () => `${pick(["CORREL", "SLOPE", "INTERCEPT", "RSQ", "COVAR", "STEYX"])}(${same().join(",")})`,
      () => `FORECAST(${n()},D!G1:G8,D!L1:L8)`,
      () => `${pick(["LARGE", "SMALL"])}(${pick(EQUAL_RANGES)},${whole(0, 9)})`,
      () => `${pick(["PERCENTILE", "QUARTILE"])}(D!G1:G8,${pick(["1", "0", "0.5", "0.25"])})`,
      () => `RANK(${pick(["1", "5", "8", "21"])},D!G1:G8${pick(["", ",1"])})`,
      () => `INDEX(D!I1:K4,${whole(1, 5)},${whole(1, 3)})`,
      () => `MATCH(${n()},D!G1:G8,${pick(["0", "1"])})`,
      () => `MATCH(${n()},D!L1:L8,-1)`,
      () => `VLOOKUP(${n()},D!I1:K4,${whole(1, 4)},${pick(["TRUE", "FALSE"])})`,
      () => `HLOOKUP(${n()},D!I1:K4,${whole(1, 4)})`,
      () => `LOOKUP(${n()},D!G1:G8,D!A1:A8)`,
      () => `CHOOSE(${whole(0, 4)},${n()},${n()},${n()})`,
      () => `IF(${truth(depth + 1)},${n()},${n()})`,
      () => `IFERROR(${n()},${n()})`,
      () => `SWITCH(${whole(1, 3)},1,${n()},2,${n()},${n()})`,
      () => `LEN(${text(depth + 1)})`,
      () => `${pick(["FIND", "SEARCH"])}(${pick(['"a"', '"l"', '"-"'])},${text(depth + 1)})`,
      () => `VALUE(${pick(['"12"', '"1.5"', '"50%"', '"S-1"'])})`,
      () => `UNICODE(${text(depth + 1)})`,
      () => `${pick(["YEAR", "MONTH", "DAY", "WEEKDAY"])}(D!D${whole(1, 7)})`,
      () => `DATE(${whole(2000, 2030)},${whole(-2, 15)},${whole(-3, 40)})`,
      () => `${pick(["EDATE", "EOMONTH"])}(D!D${whole(1, 6)},${whole(-15, 15)})`,
      () => `DAYS360(D!D${whole(1, 6)},D!D${whole(1, 6)})`,
      () => `${pick(["GCD", "LCM"])}(${whole(1, 60)},${whole(1, 60)},D!A${whole(1, 8)})`,
      () => `COMBIN(${whole(0, 12)},${whole(0, 6)})`,
      () => `${pick(["ROWS", "COLUMNS"])}(${range()})`,
      () => `${pick(["PMT", "NPER"])}(${pick(["0.05", "Rate", "0"])},${whole(1, 12)},${n()})`,
      () => `SUBTOTAL(${pick(["1", "2", "4", "9", "109"])},${pick(EQUAL_RANGES)})`,
      () => `SUM(Outlets[cfm])/${n()}`,
      () => `ROW(D!A${whole(1, 8)})+COLUMN(D!${pick(["A", "G"])}1)`,
      () => `NORM.DIST(${n()},5,2,TRUE)`,
      () => `BITAND(${whole(0, 60)},${whole(0, 60)})`,
    ])();
  }

  function text(depth: number): string {
    if (depth >= DEEPEST || uniform() < 0.2) {
      return pick([
        () => pick(TEXTS),
        () => `D!C${pick([1, 2, 3, 4, 6, 7, 8])}`,
        () => `D!H${whole(1, 8)}`,
        () => earlier("text") ?? '"x"',
      ])();
    }
    const t = () => text(depth + 1);
    return pick<() => string>([
      () => `(${t()}&${t()})`,
      () => `${pick(["LEFT", "RIGHT"])}(${t()},${whole(0, 5)})`,
      () => `MID(${t()},${whole(1, 4)},${whole(0, 5)})`,
      () => `${pick(["UPPER", "LOWER", "PROPER", "TRIM", "T", "CLEAN"])}(${t()})`,
      () => `SUBSTITUTE(${t()},${pick(['"a"', '"e"', '" "'])},${pick(['"-"', '""'])}${pick(["", ",1"])})`,
      () => `REPLACE(${t()},${whole(1, 3)},${whole(0, 2)},${pick(['"#"', '""'])})`,
      () => `REPT(${pick(TEXTS)},${whole(0, 3)})`,
      () => `TEXT(${number(DEEPEST)},${pick(['"0.00"', '"0"', '"#,##0.0"', '"0%"'])})`,
      () => `FIXED(${cell()},${whole(0, 3)})`,
      () => `IF(${truth(depth + 1)},${t()},${t()})`,
      () => `CHAR(${whole(65, 90)})`,
      () => `TEXTJOIN("-",TRUE,D!H1:H3,${t()})`,
      () => `INDEX(D!H1:H8,${whole(1, 9)})`,
      () => `DEC2HEX(${whole(0, 500)})`,
      () => `ADDRESS(${whole(1, 20)},${whole(1, 20)},${whole(1, 4)})`,
    ])();
  }

  function truth(depth: number): string {
    if (depth >= DEEPEST || uniform() < 0.15)
      return pick([() => pick(["TRUE", "FALSE"]), () => earlier("truth") ?? "TRUE"])();
    const b = () => truth(depth + 1);
    return pick<() => string>([
      () => `(${number(depth + 1)}${pick(["<", ">", "<=", ">=", "=", "<>"])}${number(depth + 1)})`,
      () => `(${text(depth + 1)}${pick(["=", "<>", "<", ">"])}${text(depth + 1)})`,
      () => `${pick(["AND", "OR", "XOR"])}(${b()},${b()})`,
      () => `NOT(${b()})`,
      () => `${pick(["ISNUMBER", "ISTEXT", "ISERROR", "ISNA"])}(${number(depth + 1)})`,
      () => `ISBLANK(D!B${whole(1, 8)})`,
      () => `EXACT(${text(depth + 1)},${text(depth + 1)})`,
      () => `ISERR(D!F${whole(1, 4)})`,
      () => `${pick(["ISEVEN", "ISODD"])}(${number(depth + 1)})`,
    ])();
  }

  return Array.from({ length: count }, () => {
    const kind = pick(["number", "number", "number", "text", "truth"] as const);
    const formula = kind === "number" ? number(0) : kind === "text" ? text(0) : truth(0);
    kinds.push(kind);
    return kind !== "truth" && uniform() < ARRAY_SHARE ? `{=${formula}}` : `=${formula}`;
  });
}
