import { cellFunctions, storedName, typedName } from "../../cells/index.js";
import { type FormulaToken, scanFormula } from "../../xlsx/formula/scan-formula.js";

/** What every node keeps: its text, piece by piece, so that what nobody changes is written as it was. */
interface Written {
  readonly parts: readonly (string | FormulaNode)[];
}

/**
 * A formula as the hand-off needs it: which references and calls it holds, and what stands around them. Operators keep
 * no order of precedence, since the size of a result does not depend on it.
 */
export type FormulaNode = Written &
  (
    | { readonly kind: "literal" | "omitted" | "unknown" }
    /** An array of constants, row by row. */
    | { readonly kind: "constants"; readonly rows: readonly (readonly string[])[] }
    /** Cells, a name, a part of a table. */
    | { readonly kind: "reference" }
    /** `id` is that of our function; undefined for one of the spreadsheet program, `name` in capitals and unprefixed. */
    | {
        readonly kind: "call";
        readonly name: string;
        readonly id: string | undefined;
        readonly arguments: readonly FormulaNode[];
      }
    /** Operands between operators. */
    | { readonly kind: "operation"; readonly operands: readonly FormulaNode[] }
    | { readonly kind: "group"; readonly inner: FormulaNode }
    /** Several areas in brackets. */
    | { readonly kind: "union"; readonly items: readonly FormulaNode[] }
    /** One value of several: `@`, in a file `_xlfn.SINGLE`. */
    | { readonly kind: "single"; readonly inner: FormulaNode }
    /** The block that the formula of a cell fills: `#`, in a file `_xlfn.ANCHORARRAY`. */
    | { readonly kind: "spilled"; readonly inner: FormulaNode }
    /** From one reference to another, one of them worked out: `A1:INDEX(B:B,3)`. */
    | { readonly kind: "span" }
    /** What two references share. */
    | { readonly kind: "intersection" }
  );

export type CallNode = Extract<FormulaNode, { readonly kind: "call" }>;

const IDS: ReadonlyMap<string, string> = new Map(
  cellFunctions.flatMap((declaration) => [
    [typedName(declaration).toUpperCase(), declaration.id] as const,
    [storedName(declaration).toUpperCase(), declaration.id] as const,
  ]),
);

/** The id of one of our functions by its name in either spelling; undefined for any other name. */
export function idOfCall(name: string): string | undefined {
  return IDS.get(name.toUpperCase());
}

const PREFIX = /^(?:_xlfn\.|_xlws\.|_xludf\.)+/i;
const OPERATORS = new Set(["+", "-", "*", "/", "^", "&", "=", "<", ">", "%"]);
const TRUTHS = new Set(["TRUE", "FALSE"]);

/** The text of a node as it was. */
export function nodeText({ parts }: FormulaNode): string {
  return parts.map((part) => (typeof part === "string" ? part : nodeText(part))).join("");
}

/** A node without the brackets and spaces around it. */
export function bare(node: FormulaNode): FormulaNode {
  if (node.kind === "group") return bare(node.inner);
  if (node.kind === "operation" && node.operands.length === 1) {
    const isAlone = node.parts.every((part) => typeof part !== "string" || part.trim() === "");
    if (isAlone) return bare(node.operands[0] as FormulaNode);
  }
  return node;
}

/** Every node of a formula, the formula itself first. */
export function nodesIn(node: FormulaNode): readonly FormulaNode[] {
  return [node, ...node.parts.flatMap((part) => (typeof part === "string" ? [] : nodesIn(part)))];
}

/** Brackets within brackets that are still taken apart; a spreadsheet program takes 64 calls within each other. */
const DEEPEST = 512;

/**
 * Whether every bracket and every quote is closed: otherwise a piece of the formula means something else elsewhere. What is
 * nested beyond all use counts as not closed.
 */
export function isWellFormed(formula: string): boolean {
  const open: string[] = [];
  for (const { kind, text } of scanFormula(formula)) {
    if (kind === "text" && !/^"(?:[^"]|"")*"$/.test(text)) return false;
    if (kind === "sheet" && !/^'(?:[^']|'')*'$/.test(text)) return false;
    if (kind === "bracket" && !text.endsWith("]")) return false;
    if (text === "(" || text === "{") open.push(text === "(" ? ")" : "}");
    if (open.length > DEEPEST) return false;
    if ((text === ")" || text === "}") && open.pop() !== text) return false;
  }
  return open.length === 0;
}

/** Reads a formula without its equals sign, in either spelling; one that is not well formed stays in one piece. */
export function readFormulaTree(formula: string): FormulaNode {
  if (!isWellFormed(formula)) return { kind: "unknown", parts: [formula] };
  const tokens = scanFormula(formula);
  let at = 0;
  const peek = (ahead = 0): FormulaToken | undefined => tokens[at + ahead];
  const take = (): string => {
    at += 1;
    return tokens[at - 1]?.text ?? "";
  };
  const isSpace = (token: FormulaToken | undefined) => token?.kind === "other" && /^\s$/u.test(token.text);
  const spaces = (): string => {
    let text = "";
    while (isSpace(peek())) text += take();
    return text;
  };

  /** Operands and operators up to what closes them. */
  function expression(endsAt: ReadonlySet<string>): FormulaNode {
    const parts: (string | FormulaNode)[] = [];
    const operands: FormulaNode[] = [];
    for (;;) {
      const space = spaces();
      if (space !== "") parts.push(space);
      const token = peek();
      if (token === undefined || endsAt.has(token.text)) break;
      if (OPERATORS.has(token.text)) {
        parts.push(take());
        continue;
      }
      const operand = primary();
      const before = parts.at(-1);
      const left = parts.at(-2);
      const isShared = typeof before === "string" && /^\s+$/u.test(before) && typeof left === "object";
      if (isShared && isPlace(left) && isPlace(operand)) {
        const shared: FormulaNode = { kind: "intersection", parts: [left, before, operand] };
        parts.splice(-2, 2, shared);
        operands.splice(-1, 1, shared);
      } else {
        parts.push(operand);
        operands.push(operand);
      }
    }
    if (operands.length === 0) return { kind: "omitted", parts };
    const [only] = operands;
    return operands.length === 1 && only !== undefined && parts.length === 1
      ? only
      : { kind: "operation", parts, operands };
  }

  /** One operand, with the `@` before it, the `#` behind it and the reference that it begins. */
  function primary(): FormulaNode {
    if (peek()?.text === "@") {
      const sign = take();
      const inner = primary();
      return { kind: "single", parts: [sign, inner], inner };
    }
    let node = simple();
    while (peek()?.text === "#" && isPlace(node)) node = { kind: "spilled", parts: [node, take()], inner: node };
    while (peek()?.text === ":" && isPlace(node)) {
      const colon = take();
      node = { kind: "span", parts: [node, colon, simple()] };
    }
    return node;
  }

  function simple(): FormulaNode {
    const token = peek();
    // A formula that ends in an operator: `@`, `A1:`.
    if (token === undefined) return { kind: "omitted", parts: [] };
    if (token.text === "(") return bracketed();
    if (token.text === "{") return constants();
    if (token.kind === "text" || token.kind === "number") return { kind: "literal", parts: [take()] };
    if (token.kind === "error" && token.text.toUpperCase() !== "#REF!") return { kind: "literal", parts: [take()] };
    if (token.kind === "name" && peek(1)?.text === "(") return call("");
    if (token.kind === "name" && TRUTHS.has(token.text.toUpperCase()) && peek(1)?.text !== "!") {
      return { kind: "literal", parts: [take()] };
    }
    if (token.kind === "other") return { kind: "unknown", parts: [take()] };
    return reference();
  }

  function bracketed(): FormulaNode {
    const { items, parts } = list(")");
    const [only] = items;
    return items.length === 1 && only !== undefined
      ? { kind: "group", parts, inner: only }
      : { kind: "union", parts, items };
  }

  /** What stands between a bracket and the one that closes it, comma by comma. */
  function list(close: string): {
    readonly items: readonly FormulaNode[];
    readonly parts: readonly (string | FormulaNode)[];
  } {
    const parts: (string | FormulaNode)[] = [take()];
    const items: FormulaNode[] = [];
    for (;;) {
      const item = expression(new Set([",", close]));
      items.push(item);
      parts.push(item);
      const mark = take();
      parts.push(mark);
      if (mark !== ",") return { items, parts };
    }
  }

  function constants(): FormulaNode {
    const start = at;
    const rows: string[][] = [[""]];
    take();
    while (at < tokens.length) {
      const text = take();
      const row = rows.at(-1) as string[];
      if (text === "}") break;
      if (text === ";") rows.push([""]);
      else if (text === ",") row.push("");
      else row[row.length - 1] += text;
    }
    const parts = tokens.slice(start, at).map(({ text }) => text);
    return { kind: "constants", parts, rows: rows.map((row) => row.map((cell) => cell.trim())) };
  }

  function call(before: string): FormulaNode {
    const written = take();
    const { items, parts } = list(")");
    const name = written.replace(PREFIX, "").toUpperCase();
    const [only] = items;
    const all = [`${before}${written}`, ...parts];
    if (only !== undefined && name === "SINGLE") return { kind: "single", parts: all, inner: only };
    if (only !== undefined && name === "ANCHORARRAY") return { kind: "spilled", parts: all, inner: only };
    const isEmpty = items.length === 1 && only?.kind === "omitted";
    return { kind: "call", parts: all, name, id: idOfCall(written), arguments: isEmpty ? [] : items };
  }

  /** A reference with its workbook, sheets and second corner, or a name with its part of a table. */
  function reference(): FormulaNode {
    let text = "";
    if (peek()?.kind === "bracket" && (peek(1)?.text === "!" || peek(2)?.text === "!" || peek(2)?.text === ":")) {
      text += take();
      // A call that Excel wrote as one of another workbook: [2]!_xldudf_VANE_AIRFLOW(…).
      if (peek()?.text === "!" && peek(1)?.kind === "name" && peek(2)?.text === "(" && idOfCall(peek(1)?.text ?? "")) {
        text += take();
        return call(text);
      }
    }
    // Sheets from one to another: Floor1:Floor9!A1.
    if (peek(1)?.text === ":" && peek(3)?.text === "!") text += take() + take();
    if (peek(1)?.text === "!") text += take() + take();
    else if (peek()?.text === "!") text += take();
    const first = peek();
    text += take();
    if (first?.kind === "cell" && peek()?.text === ":" && peek(1)?.kind === "cell" && peek(2)?.text !== "!") {
      text += take() + take();
    } else if (first?.kind === "name" && peek()?.kind === "bracket") text += take();
    return { kind: "reference", parts: [text] };
  }

  function isPlace(node: FormulaNode): boolean {
    return !["literal", "constants", "operation", "omitted", "unknown"].includes(node.kind);
  }

  const parts: FormulaNode[] = [];
  // A mark that closes nothing ends an expression; what follows is kept as it is.
  while (at < tokens.length) {
    const node = expression(new Set([",", ")", "}"]));
    parts.push(node);
    if (at < tokens.length) parts.push({ kind: "unknown", parts: [take()] });
  }
  const [only] = parts;
  return parts.length === 1 && only !== undefined ? only : { kind: "unknown", parts };
}
