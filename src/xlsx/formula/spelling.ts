import { scanFormula } from "./scan-formula.js";

/** How it marks functions newer than the file format, their parameters, and functions of worksheets alone. */
const NEWER_PREFIX = /^(?:_xlfn\.|_xlws\.|_xlpm\.|_xludf\.)+/i;

/**
 * Functions newer than the file format that a file spells with a prefix; `_xlws.` comes on top for those that only
 * worksheets know.
 *
 * @source [MS-XLSX] 2.2.2 (formulas, future-function-list)
 */
const NEWER_FUNCTIONS: ReadonlySet<string> = new Set(
  `ACOT ACOTH AGGREGATE ARABIC BASE BETA.DIST BETA.INV BINOM.DIST BINOM.DIST.RANGE BINOM.INV BITAND BITLSHIFT BITOR BITRSHIFT
  BITXOR BYCOL BYROW CEILING.MATH CHISQ.DIST CHISQ.DIST.RT CHISQ.INV CHISQ.INV.RT CHISQ.TEST CHOOSECOLS CHOOSEROWS COMBINA
  CONCAT CONFIDENCE.NORM CONFIDENCE.T COT COTH COVARIANCE.P COVARIANCE.S CSC CSCH DAYS DECIMAL DROP ENCODEURL ERF.PRECISE
  ERFC.PRECISE EXPAND EXPON.DIST F.DIST F.DIST.RT F.INV F.INV.RT F.TEST FIELDVALUE FILTERXML FLOOR.MATH FORECAST.ETS
  FORECAST.LINEAR FORMULATEXT GAMMA GAMMA.DIST GAMMA.INV GAMMALN.PRECISE GAUSS HSTACK HYPGEOM.DIST IFNA IFS IMCOSH IMCOT
  IMCSC IMCSCH IMSEC IMSECH IMSINH IMTAN ISFORMULA ISOMITTED ISOWEEKNUM LAMBDA LET LOGNORM.DIST LOGNORM.INV MAKEARRAY MAP
  MAXIFS MINIFS MODE.MULT MODE.SNGL MUNIT NEGBINOM.DIST NORM.DIST NORM.INV NORM.S.DIST NORM.S.INV NUMBERVALUE PDURATION
  PERCENTILE.EXC PERCENTILE.INC PERCENTRANK.EXC PERCENTRANK.INC PERMUTATIONA PHI POISSON.DIST QUARTILE.EXC QUARTILE.INC
  RANDARRAY RANK.AVG RANK.EQ REDUCE RRI SCAN SEC SECH SEQUENCE SHEET SHEETS SINGLE SKEW.P SORTBY STDEV.P STDEV.S SWITCH T.DIST
  T.DIST.2T T.DIST.RT T.INV T.INV.2T T.TEST TAKE TEXTAFTER TEXTBEFORE TEXTJOIN TEXTSPLIT TOCOL TOROW UNICHAR UNICODE UNIQUE
  VALUETOTEXT VAR.P VAR.S VSTACK WEBSERVICE WEIBULL.DIST WRAPCOLS WRAPROWS XLOOKUP XMATCH XOR Z.TEST`.split(/\s+/),
);
const WORKSHEET_FUNCTIONS: ReadonlySet<string> = new Set(["FILTER", "SORT"]);

/** What stands before an opening bracket, in texts too. */
const CALLED = /[\w.]+(?=\()/g;

/** A function that an add-in brings: as a person types its name, and as a file stores it. */
export interface FunctionSpelling {
  readonly typed: string;
  readonly stored: string;
}

/** Both spellings of the functions' names, each by the other in capitals. */
interface Spellings {
  readonly typed: ReadonlyMap<string, string>;
  readonly stored: ReadonlyMap<string, string>;
  /** Matches every formula that may call one of them, and few others. */
  readonly mayCall: RegExp;
}

/** Made once for each list of functions, and forgotten with it. */
const spellings = new WeakMap<readonly FunctionSpelling[], Spellings>();

function spellingsOf(functions: readonly FunctionSpelling[]): Spellings {
  const known = spellings.get(functions);
  if (known !== undefined) return known;
  const namespaces = new Set(functions.map(({ typed }) => typed.split(".")[0] ?? typed));
  const made = {
    typed: new Map(functions.map(({ typed, stored }) => [stored.toUpperCase(), typed])),
    stored: new Map(functions.map(({ typed, stored }) => [typed.toUpperCase(), stored])),
    mayCall: new RegExp(`(?:${[...namespaces].join("|")})[._]`, "i"),
  };
  spellings.set(functions, made);
  return made;
}

/**
 * Spells a stored formula as a person reads it: VANE.AIRFLOW( for _xldudf_VANE_AIRFLOW(, and no prefixes.
 *
 * @param formula - As the file stores it, without the equals sign
 * @param functions - Those that are spelled otherwise in a file
 * @example
 * readableFormula("_xldudf_VANE_OPENING_RECT(A1,B1)", FUNCTION_SPELLINGS) // => "VANE.OPENING.RECT(A1,B1)"
 */
export function readableFormula(formula: string, functions: readonly FunctionSpelling[]): string {
  if (!formula.includes("_xl")) return formula;
  const { typed } = spellingsOf(functions);
  return scanFormula(formula)
    .map(({ kind, text }) => {
      if (kind !== "name") return text;
      return typed.get(text.toUpperCase()) ?? text.replace(NEWER_PREFIX, "");
    })
    .join("");
}

/**
 * Spells a formula as a file stores it. Names that LET and LAMBDA bind are left as they are.
 *
 * @param formula - As a person reads it, without the equals sign
 * @param functions - Those that are spelled otherwise in a file
 * @example
 * storedFormula("VANE.OPENING.RECT(A1,B1)", FUNCTION_SPELLINGS) // => "_xldudf_VANE_OPENING_RECT(A1,B1)"
 */
export function storedFormula(formula: string, functions: readonly FunctionSpelling[]): string {
  const { stored } = spellingsOf(functions);
  const storedCall = (name: string): string => {
    const capitals = name.toUpperCase();
    const ours = stored.get(capitals);
    if (ours !== undefined) return ours;
    if (WORKSHEET_FUNCTIONS.has(capitals)) return `_xlfn._xlws.${name}`;
    return NEWER_FUNCTIONS.has(capitals) ? `_xlfn.${name}` : name;
  };
  // Most formulas call nothing that is spelled otherwise, and need not be taken apart.
  if (!(formula.match(CALLED) ?? []).some((name) => storedCall(name) !== name)) return formula;
  const tokens = scanFormula(formula);
  return tokens
    .map(({ kind, text }, index) => {
      return kind === "name" && tokens[index + 1]?.text === "(" ? storedCall(text) : text;
    })
    .join("");
}

/** Whether a formula, in either spelling, calls one of the functions. */
export function callsFunction(formula: string, functions: readonly FunctionSpelling[]): boolean {
  const { typed, stored, mayCall } = spellingsOf(functions);
  if (!mayCall.test(formula)) return false;
  return scanFormula(formula).some(({ kind, text }) => {
    const name = text.toUpperCase();
    return kind === "name" && (typed.has(name) || stored.has(name));
  });
}
