import { columnLetters, type Reference } from "../../xlsx/index.js";
import { type ArgumentKind, type FunctionSpec, parameterAt } from "../formula/function-spec.js";
import { FormulaFault, parseFormula } from "../formula/parse-formula.js";
import { eachNode, type FormulaNode } from "../formula/syntax.js";
import { functionNamed } from "../functions/index.js";
import { bindNames } from "./bind-names.js";
import { joinedReference, partsOfUnion } from "./join-references.js";
import { NotOnPage } from "./not-on-page.js";

/** A formula as the page's library calculates it the way a spreadsheet program does, or why it cannot. */
export type PageSpelling = { readonly text: string } | { readonly reason: string };

/** What the page's library has no word for. */
const NOT_ON_PAGE = new Set([
  "LAMBDA",
  "MAP",
  "BYROW",
  "BYCOL",
  "REDUCE",
  "SCAN",
  "MAKEARRAY",
  "ISOMITTED",
  "AREAS",
  "SHEETS",
]);

/** Functions whose first arguments may be scalars that a special form calculates itself. */
const SPECIAL_SCALARS: Readonly<Record<string, number>> = { IF: 1, IFERROR: 2, IFNA: 2, SWITCH: 1, CHOOSE: 1 };

/** Special forms whose further arguments are their result: one value where one is meant of them. */
const HANDS_ON = new Set(["IF", "IFS", "SWITCH", "CHOOSE"]);

/** Functions that give a block, of which a formula without the mark of an array shows one value. */
const GIVES_BLOCK = new Set(
  (
    "LINEST LOGEST TREND GROWTH FREQUENCY MINVERSE MMULT TRANSPOSE MUNIT MODE.MULT ROW COLUMN XLOOKUP FILTER SORT SORTBY " +
    "UNIQUE SEQUENCE RANDARRAY VSTACK HSTACK TOROW TOCOL WRAPROWS WRAPCOLS TAKE DROP CHOOSEROWS CHOOSECOLS EXPAND TEXTSPLIT"
  ).split(" "),
);

const SUMS_BESIDE = new Set(["SUMIF", "AVERAGEIF"]);

/** Where a formula stands, and whether blocks are calculated whole in it. */
interface Place {
  readonly row: number;
  readonly column: number;
  readonly sheets: readonly string[];
  /** Whether a name that the library keeps stands for more than one cell. */
  readonly isBlock?: (name: string) => boolean;
}

/**
 * Spells a formula for the page's library where that would read it otherwise: a sign binds tighter than a power, a block where
 * one cell is meant stands for the cell in its row or column, one block of several sheets is listed sheet by sheet.
 *
 * @param text - Without its equals sign, without references to tables
 * @param isArray - Whether the file marks it as an array formula
 */
export function pageSpelling(text: string, place: Place, isArray: boolean): PageSpelling {
  try {
    const read = parseFormula(text, place.row, place.column);
    const node = bindNames(read);
    if (node === read && isPlain(node, place, isArray)) return { text };
    const spelling = spelled(node, place, isArray, false);
    return { text: !isArray && mayBeBlock(node) ? `SINGLE(${spelling})` : spelling };
  } catch (thrown) {
    // What is no formula to us the library is asked itself.
    if (thrown instanceof FormulaFault) return { text };
    if (thrown instanceof NotOnPage) return { reason: thrown.message };
    throw thrown;
  }
}

/** Calls that are spelled otherwise, or not at all. */
const REWRITTEN = new Set([
  ...NOT_ON_PAGE,
  ...SUMS_BESIDE,
  ...HANDS_ON,
  ...GIVES_BLOCK,
  "INDEX",
  "INDIRECT",
  "ROWS",
  "COLUMNS",
  "OFFSET",
  "LOG10",
  "LET",
]);

/** Whether the library reads a formula as a spreadsheet program does. */
function isPlain(node: FormulaNode, place: Place, isArray: boolean): boolean {
  let plain = true;
  eachNode(node, (part) => {
    if (part.kind === "join" || part.kind === "invoke") plain = false;
    if (!isArray && (part.kind === "array" || (part.kind === "name" && place.isBlock?.(part.name) === true)))
      plain = false;
    if (part.kind === "reference" && (part.lastSheet !== undefined || (part.reference.isRange && !isArray)))
      plain = false;
    if (part.kind === "unary" && part.operator !== "%" && part.operator !== "+") plain = false;
    if (part.kind === "call" && REWRITTEN.has(part.name)) plain = false;
  });
  return plain;
}

/** Whether a part gives a block where spreadsheet programs take one value of it. */
function mayBeBlock(node: FormulaNode): boolean {
  if (node.kind === "array") return true;
  if (node.kind === "binary") return mayBeBlock(node.left) || mayBeBlock(node.right);
  if (node.kind === "unary") return node.operator !== "@" && node.operator !== "#" && mayBeBlock(node.operand);
  if (node.kind !== "call") return false;
  if (GIVES_BLOCK.has(node.name)) return true;
  const spec = functionNamed(node.name);
  if (spec === undefined) return false;
  return node.given.some(
    (part, index) =>
      (/^[rae]$/.test(kindAt(spec, node.name, index)) ? HANDS_ON.has(node.name) : true) && mayBeBlock(part),
  );
}

/** Refuses what the library would give as a block that nobody can tell the one value of. @throws {NotOnPage} */
function refuseMadeBlock({ name, given }: Extract<FormulaNode, { kind: "call" }>): void {
  const [first, ...places] = given;
  const isBlock =
    (name === "INDEX" &&
      places.some((part) => part.kind === "omitted" || (part.kind === "value" && part.value === 0))) ||
    (name === "OFFSET" && (given.length > 3 || (first?.kind === "reference" && first.reference.isRange))) ||
    (name === "INDIRECT" && first?.kind === "value" && typeof first.value === "string" && first.value.includes(":"));
  if (isBlock) throw new NotOnPage("it takes one cell of a block that it makes itself");
}

/** Spells a part of a formula: whole, or, where one value is meant and a name stands for a block, that value. */
function spelled(node: FormulaNode, place: Place, isArray: boolean, isWhole: boolean): string {
  if (isArray || isWhole) return spelledPart(node, place, isArray, isWhole);
  if (node.kind === "call") refuseMadeBlock(node);
  if (node.kind === "name" && place.isBlock?.(node.name) === true) return `SINGLE(${node.name})`;
  return spelledPart(node, place, isArray, isWhole);
}

function spelledPart(node: FormulaNode, place: Place, isArray: boolean, isWhole: boolean): string {
  switch (node.kind) {
    case "value":
      return spelledValue(node.value);
    case "omitted":
      return "";
    case "array":
      return `{${node.rows.map((row) => row.map(spelledValue).join(",")).join(";")}}`;
    case "name":
      return node.name;
    case "reference":
      if (node.lastSheet !== undefined)
        throw new NotOnPage("it goes through several sheets in a way that this page does not calculate");
      return spelledReference(isArray || isWhole ? node.reference : crossing(node.reference, place), place);
    case "call":
      return spelledCall(node, place, isArray, isWhole);
    case "unary":
      if (node.operator === "@") return spelled(node.operand, place, false, false);
      if (node.operator === "#") return `${spelled(node.operand, place, true, true)}#`;
      if (node.operator === "%") return `(${spelled(node.operand, place, isArray, false)})%`;
      return `(${node.operator}(${spelled(node.operand, place, isArray, false)}))`;
    case "binary":
      return `(${spelled(node.left, place, isArray, false)}${node.operator}${spelled(node.right, place, isArray, false)})`;
    case "join":
      return spelledPart(joinedReference(node, place), place, isArray, isWhole);
    default:
      throw new NotOnPage("it calls a LAMBDA in a way that this page does not calculate");
  }
}

function spelledValue(value: Extract<FormulaNode, { kind: "value" }>["value"]): string {
  if (typeof value === "string") return `"${value.replaceAll('"', '""')}"`;
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  if (typeof value === "object" && value !== null) return value.code;
  return String(value);
}

function kindAt(spec: FunctionSpec | undefined, name: string, index: number): ArgumentKind {
  if (spec === undefined) return "r";
  if ("compile" in spec) return index < (SPECIAL_SCALARS[name] ?? 0) ? "v" : "r";
  return parameterAt(spec, index).kind;
}

function spelledCall(
  { name, given }: Extract<FormulaNode, { kind: "call" }>,
  place: Place,
  isArray: boolean,
  isWhole: boolean,
): string {
  if (NOT_ON_PAGE.has(name)) throw new NotOnPage(`${name} is not calculated on this page`);
  if (name === "INDIRECT" && given.length > 1) throw new NotOnPage("it asks INDIRECT for another style of reference");
  if ((name === "ROWS" || name === "COLUMNS") && given.some(goesOn))
    throw new NotOnPage("it counts whole rows or columns");
  const spec = functionNamed(name);
  const texts = (SUMS_BESIDE.has(name) ? withWholeSum(given, place) : given).flatMap(
    (part, index): readonly string[] => {
      const kind = kindAt(spec, name, index);
      const repeats =
        spec !== undefined && "parameters" in spec && spec.repeating === 1 && index >= spec.parameters.length - 1;
      if (part.kind === "reference" && part.lastSheet !== undefined) {
        if (!repeats) throw new NotOnPage("it goes through several sheets in a way that this page does not calculate");
        return throughSheets(part.reference, part.lastSheet, place);
      }
      const isOne = HANDS_ON.has(name) && !isWhole;
      return (repeats ? partsOfUnion(part) : [part]).map((one) =>
        spelled(one, place, isArray || kind === "a", (kind === "r" && !isOne) || kind === "a"),
      );
    },
  );
  // The library takes LOG10 for a cell.
  return `${name === "LOG10" ? "LOG" : name}(${texts.join(",")})`;
}

/** Whether a reference goes to whole rows or columns. */
function goesOn(node: FormulaNode): boolean {
  return node.kind === "reference" && (node.reference.rows === null || node.reference.columns === null);
}

/** What is summed is as large as what is asked, whatever size its reference has. */
function withWholeSum(given: readonly FormulaNode[], { row, column }: Place): readonly FormulaNode[] {
  const [asked, wanted, of, ...rest] = given;
  if (asked?.kind !== "reference" || wanted === undefined || of?.kind !== "reference") return given;
  const grown = (ends: Reference["rows"], like: Reference["rows"], own: number): Reference["rows"] => {
    if (ends === null || like === null) return ends;
    const [first, last] = [at(ends[0], own), at(ends[0], own) + at(like[1], own) - at(like[0], own)];
    return [
      { offset: first, isFixed: true },
      { offset: last, isFixed: true },
    ];
  };
  const { reference } = of;
  const rows = grown(reference.rows, asked.reference.rows, row);
  const columns = grown(reference.columns, asked.reference.columns, column);
  return [asked, wanted, { ...of, reference: { ...reference, isRange: true, rows, columns } }, ...rest];
}

/** The same block of each sheet from one to another. */
function throughSheets(reference: Reference, lastSheet: string, place: Place): readonly string[] {
  const lower = place.sheets.map((sheet) => sheet.toLowerCase());
  const [one, other] = [lower.indexOf(reference.sheet?.toLowerCase() ?? ""), lower.indexOf(lastSheet.toLowerCase())];
  if (one < 0 || other < 0) return ["#REF!"];
  return place.sheets
    .slice(Math.min(one, other), Math.max(one, other) + 1)
    .map((sheet) => spelledReference({ ...reference, sheet }, place));
}

type End = NonNullable<Reference["rows"]>[number];

const at = ({ isFixed, offset }: End, own: number) => (isFixed ? offset : offset + own);

/** The one cell of a block that lies in the formula's row or column. @throws {NotOnPage} Where there is none */
function crossing(reference: Reference, { row, column }: Place): Reference {
  const { rows, columns, isRange } = reference;
  if (!isRange) return reference;
  const ends = (pair: Reference["rows"], own: number) =>
    pair === null ? undefined : ([at(pair[0], own), at(pair[1], own)] as const);
  const [rowEnds, columnEnds] = [ends(rows, row), ends(columns, column)];
  const within = (pair: readonly [number, number] | undefined, own: number) =>
    pair === undefined || (own >= Math.min(...pair) && own <= Math.max(...pair));
  const one = (value: number) =>
    [
      { offset: value, isFixed: true },
      { offset: value, isFixed: true },
    ] as const;
  if (
    rowEnds?.[0] === rowEnds?.[1] &&
    columnEnds?.[0] === columnEnds?.[1] &&
    rowEnds !== undefined &&
    columnEnds !== undefined
  ) {
    return { ...reference, isRange: false };
  }
  if (columnEnds !== undefined && columnEnds[0] === columnEnds[1] && within(rowEnds, row))
    return { ...reference, isRange: false, rows: one(row) };
  if (rowEnds !== undefined && rowEnds[0] === rowEnds[1] && within(columnEnds, column))
    return { ...reference, isRange: false, columns: one(column) };
  throw new NotOnPage("it takes one cell of a block that has none in its row or column");
}

function spelledReference({ sheet, isRange, rows, columns }: Reference, { row, column }: Place): string {
  const end = (index: 0 | 1): string => {
    const letter =
      columns === null ? "" : `${columns[index].isFixed ? "$" : ""}${columnLetters(at(columns[index], column))}`;
    const digits = rows === null ? "" : `${rows[index].isFixed ? "$" : ""}${at(rows[index], row)}`;
    return letter + digits;
  };
  const prefix = sheet === null ? "" : `'${sheet.replaceAll("'", "''")}'!`;
  return prefix + (isRange ? `${end(0)}:${end(1)}` : end(0));
}
