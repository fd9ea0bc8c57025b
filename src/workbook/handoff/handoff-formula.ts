import { cellFunctions, typedName } from "../../cells/index.js";
import { scanFormula } from "../../xlsx/formula/scan-formula.js";
import { type CellRange, cellCount, columnLetters } from "../../xlsx/index.js";
import { bare, type FormulaNode, idOfCall, isWellFormed, nodesIn, readFormulaTree } from "./formula-tree.js";
import { takesByValue } from "./native-functions.js";
import { type FormulaPlace, NO_PLACES, type Places } from "./places.js";
import { isOneValue, type Sizes, sizesIn } from "./sizes.js";
import { LONGEST_FORMULA, plainWriter, SPILL_OPERATOR, type StuckCall, type WrittenFormula } from "./write-formula.js";

/** What becomes of one formula in a hand-off copy. */
export type HandoffFormula =
  /** It calls none of our functions. */
  | { readonly kind: "unchanged" }
  | {
      readonly kind: "plain";
      readonly formula: string;
      readonly functions: readonly string[];
      /** Whether it must be an array formula. */
      readonly isArray: boolean;
    }
  | ValueHandoff;

/** No plain formula gives it: its value stays, and these functions are why. */
export interface ValueHandoff {
  readonly kind: "value";
  readonly functions: readonly string[];
  readonly reasons: readonly string[];
}

/** Where a formula stands, and how its cell holds it. */
export interface FormulaHome {
  readonly places: Places;
  readonly place: FormulaPlace;
  /**
   * plain: in its cell alone, where a block means the cell beside the formula; array: over cells that it fills as it is;
   * dynamic: over as many cells as it gives.
   */
  readonly form: "plain" | "array" | "dynamic";
  /** The cells that an array formula fills. */
  readonly fills: CellRange | undefined;
  /** Whether references to parts of tables stay. */
  readonly keepsTables: boolean;
}

const NO_HOME: FormulaHome = {
  places: NO_PLACES,
  place: { sheet: "", row: 1, column: 1 },
  form: "dynamic",
  fills: undefined,
  keepsTables: false,
};

const BROKEN = "A quote or a bracket of it is not closed, or too many are within each other.";
const TOO_LONG = "The plain formula would be longer than a cell holds.";

const TYPED_NAMES = new Map([
  ...cellFunctions.map((declaration) => [declaration.id, typedName(declaration)] as const),
  [SPILL_OPERATOR, SPILL_OPERATOR],
]);

function named(ids: readonly string[]): readonly string[] {
  return [...new Set(ids)].flatMap((id) => TYPED_NAMES.get(id) ?? []);
}

const MAY_CALL = /VANE[._]/i;

/** The ids of our functions that a formula calls, whether or not it can be read. */
export function calledIn(formula: string): readonly string[] {
  // Most formulas of a workbook call none, and need not be taken apart.
  if (!MAY_CALL.test(formula)) return [];
  const tokens = scanFormula(formula);
  return tokens.flatMap(({ kind, text }, index) => {
    const id = kind === "name" && tokens[index + 1]?.text === "(" ? idOfCall(text) : undefined;
    return id === undefined ? [] : [id];
  });
}

/** Operators of Excel's own, which other programs do not know: `@` and `#`. */
const OWN_OPERATORS: Readonly<Record<string, string>> = { single: "@", spilled: SPILL_OPERATOR };
const MAY_HOLD_OPERATORS = /_xlfn\.(?:SINGLE|ANCHORARRAY)\(|[@#]/i;

function operatorsIn(root: FormulaNode): readonly string[] {
  return [...new Set(nodesIn(root).flatMap(({ kind }) => OWN_OPERATORS[kind] ?? []))];
}

export function asValue(ids: readonly string[], reasons: readonly string[]): ValueHandoff {
  return { kind: "value", functions: named(ids), reasons: [...new Set(reasons)] };
}

function outcome(written: WrittenFormula, operators: readonly string[], isArray: boolean): HandoffFormula {
  const { text, ids, stuck } = written;
  if (stuck.length > 0) return stuckValue(stuck);
  if (text.length > LONGEST_FORMULA) return asValue(ids, [TOO_LONG]);
  return { kind: "plain", formula: text.trim(), functions: [...named(ids), ...operators], isArray };
}

function stuckValue(stuck: readonly StuckCall[]): HandoffFormula {
  return asValue(
    stuck.map(({ id }) => id),
    stuck.map(({ reason }) => reason),
  );
}

/** Whether a formula without our functions gives something else in an ordinary cell than in an array formula. */
function takesBlocksByValue(root: FormulaNode, { sizeOf }: Sizes): boolean {
  return nodesIn(root).some((node) => {
    const isBlock = (part: FormulaNode) => !isOneValue(sizeOf(part));
    if (node.kind === "operation") return node.operands.some(isBlock);
    if (node.kind !== "call" || node.id !== undefined || node.name === "SUMPRODUCT") return false;
    return node.arguments.some(
      (argument, index) =>
        (takesByValue(node.name, index) ?? bare(argument).kind !== "reference") &&
        bare(argument).kind !== "omitted" &&
        isBlock(argument),
    );
  });
}

/**
 * Puts a formula in plain words of any spreadsheet program.
 *
 * @param formula - As a file stores it or as a person types it, without the equals sign
 * @param home - Where it stands; left out for a formula of its own
 */
export function handoffFormula(formula: string, home: FormulaHome = NO_HOME): HandoffFormula {
  const called = calledIn(formula);
  if (called.length === 0 && !MAY_HOLD_OPERATORS.test(formula)) return { kind: "unchanged" };
  if (!isWellFormed(formula)) return called.length === 0 ? { kind: "unchanged" } : asValue(called, [BROKEN]);
  const root = readFormulaTree(formula);
  const operators = operatorsIn(root);
  if (called.length === 0 && operators.length === 0) return { kind: "unchanged" };
  const { places, place, form, fills, keepsTables } = home;
  if (form === "array") return outcome(writerFor(home).whole(root), operators, true);
  const site = { places, place, keepsTables, intersects: form === "plain" };
  const sizes = sizesIn(places, place);
  const size = sizes.sizeOf(root);
  // Of a block in one cell the first value is seen.
  const isOneOfBlock = size !== undefined && !isOneValue(size) && (fills === undefined || isOneCell(fills));
  const one = isOneOfBlock ? plainWriter(site).cell(root, 0, 0) : undefined;
  if (one !== undefined && one.stuck.length === 0 && !one.wantsArray) return outcome(one, operators, false);
  const whole = plainWriter(site).whole(root);
  const isArray = whole.wantsArray || (form === "dynamic" && takesBlocksByValue(root, sizes));
  return outcome(whole, operators, isArray);
}

function writerFor({ places, place, keepsTables }: FormulaHome) {
  return plainWriter({ places, place, keepsTables, intersects: false });
}

function isOneCell({ firstRow, lastRow, firstColumn, lastColumn }: CellRange): boolean {
  return firstRow === lastRow && firstColumn === lastColumn;
}

/** A block of more cells is gone through by those that the file keeps. */
const MOST_CELLS = 200_000;

function placesOf({ firstRow, lastRow, firstColumn, lastColumn }: CellRange) {
  const width = lastColumn - firstColumn + 1;
  return Array.from({ length: (lastRow - firstRow + 1) * width }, (_, index) => ({
    row: Math.floor(index / width),
    column: index % width,
  }));
}

/** One cell of a block, from its own corner, and what becomes of it. */
export interface HandoffBlockCell {
  readonly row: number;
  readonly column: number;
  readonly handoff: HandoffFormula;
}

/**
 * Puts a formula that fills several cells in plain words: each of its cells by itself, or undefined where the formula goes
 * on filling them all.
 *
 * @param shown - The cells that the file keeps, of a block too large to go through
 */
export function handoffBlock(
  formula: string,
  home: FormulaHome,
  shown: Iterable<{ readonly row: number; readonly column: number }>,
): readonly HandoffBlockCell[] | undefined {
  const { fills, form } = home;
  const whole = handoffFormula(formula, { ...home, form: "array" });
  if (fills === undefined || whole.kind === "unchanged") return undefined;
  const stays = whole.kind === "plain";
  if (form === "array" && stays) return undefined;
  const isOne = form === "array" || !isWellFormed(formula);
  const root = readFormulaTree(formula);
  const operators = operatorsIn(root);
  const cells: HandoffBlockCell[] = [];
  const address = (row: number, column: number) =>
    `${columnLetters(fills.firstColumn + column)}${fills.firstRow + row}`;
  for (const { row, column } of cellCount(fills) > MOST_CELLS ? shown : placesOf(fills)) {
    const written = isOne ? undefined : writerFor(home).cell(root, row, column, address);
    const own = written === undefined ? undefined : outcome(written, operators, written.wantsArray);
    // An array formula over all cells says more than the value of one.
    if (own?.kind !== "plain" && stays) return undefined;
    cells.push({ row, column, handoff: own ?? (whole.kind === "value" ? whole : asValue(calledIn(formula), [])) });
  }
  return cells;
}

/** Longest text within a formula. */
const LONGEST_TEXT = 255;

/** Longer texts are joined from pieces; doubled quotes still fit. */
const PIECE = 120;

/**
 * A formula that shows a value and says in the formula bar where it comes from.
 *
 * @param value - What the cell showed
 * @param functions - The functions that no plain formula replaces
 */
export function notedValue(
  value: number | string | boolean | { readonly error: string } | null,
  functions: readonly string[],
): string {
  const note = `Value of ${functions.join(", ")} when this copy was made; no plain formula gives it.`
    .replaceAll('"', "'")
    .slice(0, LONGEST_TEXT);
  if (typeof value === "number") return `${String(value).toUpperCase()}+0*LEN("${note}")`;
  if (typeof value === "boolean") return `AND(${value ? "TRUE" : "FALSE"},LEN("${note}")>0)`;
  if (value === null) return `LEFT("${note}",0)`;
  if (typeof value === "object") return `${value.error === "#N/A" ? "NA()" : 'VALUE("wrong input")'}+0*LEN("${note}")`;
  const pieces = Array.from({ length: Math.max(1, Math.ceil(value.length / PIECE)) }, (_, index) =>
    value.slice(index * PIECE, (index + 1) * PIECE).replaceAll('"', '""'),
  );
  return `${pieces.map((piece) => `"${piece}"`).join("&")}&LEFT("${note}",0)`;
}
