import { CELL_ERROR_CODES, CellError, FUNCTION_SPELLINGS } from "../../cells/index.js";
import { type FormulaToken, readReference, scanFormula } from "../../xlsx/index.js";
import { CALCULATION_LIMITS } from "../calculator/calculation-limits.js";
import type { BinaryOperator, FormulaNode } from "./syntax.js";
import type { Scalar } from "./values.js";

/** Thrown where a formula cannot be read, or names what is not here; the message says why, after "it". */
export class FormulaFault extends Error {
  constructor(
    message: string,
    /** What a cell shows that holds such a formula and was never calculated elsewhere. */
    readonly code: "#NAME?" | "#REF!" = "#NAME?",
  ) {
    super(message);
  }
}

const TYPED_NAMES: ReadonlyMap<string, string> = new Map(
  FUNCTION_SPELLINGS.map(({ stored, typed }) => [stored.toUpperCase(), typed]),
);

/** How tightly operators bind; a sign binds tighter than any, so that `-2^2` is 4. */
const BINDS: Readonly<Record<string, number>> = {
  "=": 1,
  "<>": 1,
  "<": 1,
  ">": 1,
  "<=": 1,
  ">=": 1,
  "&": 2,
  "+": 3,
  "-": 3,
  "*": 4,
  "/": 4,
  "^": 5,
};

const isBlank = (token: FormulaToken | undefined) => token?.kind === "other" && /^\s$/.test(token.text);
const isPlace = (token: FormulaToken | undefined) =>
  token?.kind === "cell" || token?.kind === "columns" || token?.kind === "rows";

/** Returns a function's name as a person types it, from what a file may spell. */
export function plainName(name: string): string {
  return (
    TYPED_NAMES.get(name.toUpperCase()) ?? name.replace(/^(?:_xlfn\.|_xlws\.|_xlpm\.|_xludf\.)+/i, "").toUpperCase()
  );
}

/**
 * Reads a formula.
 *
 * @param text - Without its equals sign, as typed or as a file stores it; references to tables already spelled as cells
 * @param row - Of the cell that holds it
 * @param column - Of the cell that holds it
 * @throws {FormulaFault} What cannot be read
 * @source Operators and their order: ECMA-376-1:2016, section 18.17.2.2
 */
export function parseFormula(text: string, row: number, column: number): FormulaNode {
  const reader = new Reader(scanFormula(text), row, column);
  return reader.whole();
}

class Reader {
  private at = 0;
  private depth = 0;
  private operations = 0;

  constructor(
    private readonly tokens: readonly FormulaToken[],
    private readonly row: number,
    private readonly column: number,
  ) {}

  whole(): FormulaNode {
    const node = this.expression(0);
    if (this.peek() !== undefined) throw new FormulaFault(`it cannot be read at "${this.peek()?.text}"`);
    return node;
  }

  private token(ahead = 0): FormulaToken | undefined {
    return this.tokens[this.at + ahead];
  }

  /** The next token that is no blank; blanks before it are passed over. */
  private peek(): FormulaToken | undefined {
    while (isBlank(this.token())) this.at += 1;
    return this.token();
  }

  private takes(text: string): boolean {
    if (this.peek()?.text !== text || this.peek()?.kind !== "other") return false;
    this.at += 1;
    return true;
  }

  private needs(text: string): void {
    if (!this.takes(text)) throw new FormulaFault(`it lacks "${text}"`);
  }

  private counted<Node extends FormulaNode>(node: Node): Node {
    this.operations += 1;
    if (this.operations > CALCULATION_LIMITS.operations) {
      throw new FormulaFault(`it has more than ${CALCULATION_LIMITS.operations} operations and calls`);
    }
    return node;
  }

  private deeper<Result>(read: () => Result): Result {
    this.depth += 1;
    if (this.depth > CALCULATION_LIMITS.depth) {
      throw new FormulaFault(`it has more than ${CALCULATION_LIMITS.depth} brackets within brackets`);
    }
    const result = read();
    this.depth -= 1;
    return result;
  }

  private operator(): BinaryOperator | undefined {
    const token = this.peek();
    if (token?.kind !== "other") return undefined;
    const two = token.text + (this.token(1)?.text ?? "");
    if (two === "<>" || two === "<=" || two === ">=") return two;
    return token.text in BINDS ? (token.text as BinaryOperator) : undefined;
  }

  private expression(bindsMore: number): FormulaNode {
    return this.deeper(() => {
      let left = this.signed();
      for (;;) {
        const operator = this.operator();
        const binds = operator === undefined ? 0 : (BINDS[operator] as number);
        if (operator === undefined || binds <= bindsMore) return left;
        this.at += operator.length;
        left = this.counted({ kind: "binary", operator, left, right: this.expression(binds) });
      }
    });
  }

  private signed(): FormulaNode {
    const token = this.peek();
    if (token?.kind === "other" && (token.text === "-" || token.text === "+" || token.text === "@")) {
      this.at += 1;
      const operator = token.text;
      return this.counted({ kind: "unary", operator, operand: this.deeper(() => this.signed()) });
    }
    let node = this.joined();
    while (this.takes("%")) node = this.counted({ kind: "unary", operator: "%", operand: node });
    return node;
  }

  /** References with the operators that bind them: a colon between what makes references, a blank for what they share. */
  private joined(): FormulaNode {
    let left = this.primary();
    for (;;) {
      const isAfterBlank = isBlank(this.token());
      if (this.takes("#")) left = this.counted({ kind: "unary", operator: "#", operand: left });
      else if (this.takes(":")) left = this.counted({ kind: "join", operator: ":", left, right: this.primary() });
      else if (isAfterBlank && this.sharesNext(left))
        left = this.counted({ kind: "join", operator: " ", left, right: this.primary() });
      else return left;
    }
  }

  private sharesNext(left: FormulaNode): boolean {
    if (left.kind === "value" || left.kind === "array") return false;
    const next = this.peek();
    return isPlace(next) || next?.kind === "name" || next?.kind === "sheet" || next?.text === "(";
  }

  private primary(): FormulaNode {
    const token = this.peek();
    if (token === undefined) throw new FormulaFault("it ends too early");
    if (token.text === "(" && token.kind === "other") return this.inBrackets();
    if (token.text === "{" && token.kind === "other") return this.arrayConstant();
    const reference = this.reference();
    if (reference !== undefined) return reference;
    this.at += 1;
    switch (token.kind) {
      case "number":
        return { kind: "value", value: Number(token.text) };
      case "text":
        if (token.text.length < 2 || !token.text.endsWith('"'))
          throw new FormulaFault("it has a quote that does not end");
        return { kind: "value", value: token.text.slice(1, -1).replaceAll('""', '"') };
      case "error":
        return { kind: "value", value: errorOf(token.text) };
      case "name":
        return this.named(token.text);
      default:
        throw new FormulaFault(`it cannot be read at "${token.text}"`);
    }
  }

  private inBrackets(): FormulaNode {
    this.at += 1;
    let node = this.expression(0);
    while (this.takes(",")) node = this.counted({ kind: "join", operator: ",", left: node, right: this.expression(0) });
    this.needs(")");
    return this.invoked(node);
  }

  private invoked(target: FormulaNode): FormulaNode {
    if (this.token()?.text !== "(") return target;
    this.at += 1;
    return this.invoked(this.counted({ kind: "invoke", target, given: this.given() }));
  }

  private named(spelled: string): FormulaNode {
    if (this.peek()?.text !== "(") {
      const upper = spelled.toUpperCase();
      if (upper === "TRUE" || upper === "FALSE") return { kind: "value", value: upper === "TRUE" };
      return { kind: "name", name: spelled.replace(/^_xlpm\./i, "") };
    }
    this.at += 1;
    const name = plainName(spelled);
    const given = this.given();
    const [only = { kind: "omitted" } as const] = given;
    if (name === "SINGLE") return this.counted({ kind: "unary", operator: "@", operand: only });
    if (name === "ANCHORARRAY") return this.counted({ kind: "unary", operator: "#", operand: only });
    const call = this.counted({ kind: "call", name, given });
    return name === "LAMBDA" ? this.invoked(call) : call;
  }

  /** What stands in the brackets of a call; the opening one is behind. */
  private given(): readonly FormulaNode[] {
    const given: FormulaNode[] = [];
    if (this.takes(")")) return given;
    for (;;) {
      const next = this.peek();
      const isOmitted = next?.kind === "other" && (next.text === "," || next.text === ")");
      given.push(isOmitted ? { kind: "omitted" } : this.expression(0));
      if (this.takes(")")) return given;
      this.needs(",");
    }
  }

  private arrayConstant(): FormulaNode {
    this.at += 1;
    const rows: Scalar[][] = [[]];
    for (;;) {
      rows.at(-1)?.push(this.constant());
      if (this.takes("}")) break;
      if (this.takes(";")) rows.push([]);
      else this.needs(",");
    }
    if (rows.some((row) => row.length !== rows[0]?.length)) {
      throw new FormulaFault("its block in braces has rows of different length");
    }
    return { kind: "array", rows };
  }

  private constant(): Scalar {
    const isNegative = this.takes("-");
    if (!isNegative) this.takes("+");
    const token = this.peek();
    this.at += 1;
    if (token?.kind === "number") return Number(token.text) * (isNegative ? -1 : 1);
    if (token?.kind === "text") return token.text.slice(1, -1).replaceAll('""', '"');
    if (token?.kind === "error") return errorOf(token.text);
    const word = token?.kind === "name" ? token.text.toUpperCase() : "";
    if (word === "TRUE" || word === "FALSE") return word === "TRUE";
    throw new FormulaFault(
      `its block in braces holds more than numbers, texts and truth values ("${token?.text ?? ""}")`,
    );
  }

  /** A reference at this place, or undefined where none begins. */
  private reference(): FormulaNode | undefined {
    const token = this.token();
    if (token?.kind === "bracket") return this.inAnotherWorkbook();
    if (isPlace(token) && this.token(1)?.text !== "!" && !this.isThroughSheets()) return this.cells("", undefined);
    if (token?.kind === "sheet" && this.token(1)?.text === "!") {
      const name = token.text.slice(1, -1).replaceAll("''", "'");
      if (name.includes("[")) return this.inAnotherWorkbook();
      const [first = "", last] = name.split(":");
      this.at += 2;
      return this.cells(first, last);
    }
    if (this.isThroughSheets()) {
      const [first, last] = [this.token()?.text ?? "", this.token(2)?.text];
      this.at += 4;
      return this.cells(first, last);
    }
    if (token?.kind === "name" && this.token(1)?.text === "!") {
      this.at += 2;
      return this.cells(token.text, undefined);
    }
    return undefined;
  }

  /** Whether `Jan:Mar!` begins here; such names may look like cells. */
  private isThroughSheets(): boolean {
    const isName = (token: FormulaToken | undefined) => token?.kind === "name" || token?.kind === "cell";
    return isName(this.token()) && this.token(1)?.text === ":" && isName(this.token(2)) && this.token(3)?.text === "!";
  }

  private cells(sheet: string, lastSheet: string | undefined): FormulaNode {
    const first = this.token();
    this.at += 1;
    if (first?.kind === "error") return { kind: "value", value: errorOf(first.text) };
    if (first?.kind === "name") return this.named(first.text);
    let text = first?.text ?? "";
    if (
      first?.kind === "cell" &&
      this.token()?.text === ":" &&
      this.token(1)?.kind === "cell" &&
      this.token(2)?.text !== "!"
    ) {
      text += `:${this.token(1)?.text}`;
      this.at += 2;
    }
    const prefix = sheet === "" ? "" : `'${sheet.replaceAll("'", "''")}'!`;
    const reference = readReference(prefix + text, this.row, this.column);
    if (reference === undefined)
      throw new FormulaFault(`it refers to "${text}", which is not a cell of a sheet`, "#REF!");
    return { kind: "reference", reference, ...(lastSheet === undefined ? {} : { lastSheet }) };
  }

  /** `[2]!_xldudf_VANE_AIRFLOW(…)` is a call of ours; anything else in brackets is not here. */
  private inAnotherWorkbook(): FormulaNode {
    const name = this.token(2);
    if (
      this.token()?.kind === "bracket" &&
      this.token(1)?.text === "!" &&
      name?.kind === "name" &&
      TYPED_NAMES.has(name.text.toUpperCase())
    ) {
      this.at += 3;
      return this.named(name.text);
    }
    throw new FormulaFault("it names a table or another workbook");
  }
}

function errorOf(text: string): Scalar {
  const code =
    CELL_ERROR_CODES.find((known) => known === text.toUpperCase()) ??
    (text.toUpperCase() === "#REF" ? "#REF!" : "#VALUE!");
  const message = code === "#REF!" ? "The reference leads to cells that are no longer there." : "";
  return new CellError(code, message);
}
