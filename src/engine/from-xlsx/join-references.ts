import type { Reference } from "../../xlsx/index.js";
import type { FormulaNode } from "../formula/syntax.js";
import { NotOnPage } from "./not-on-page.js";

type ReferenceNode = Extract<FormulaNode, { kind: "reference" }>;
type JoinNode = Extract<FormulaNode, { kind: "join" }>;
type Ends = NonNullable<Reference["rows"]>;

interface Cell {
  readonly row: number;
  readonly column: number;
}

/** The parts of a union, `(A1,B2)`; of anything else itself. */
export function partsOfUnion(node: FormulaNode): readonly FormulaNode[] {
  if (node.kind !== "join" || node.operator !== ",") return [node];
  return [...partsOfUnion(node.left), ...partsOfUnion(node.right)];
}

/**
 * The one block that a block up to another (`D!A1:D!A4`), or what two blocks share, comes to.
 *
 * @throws {NotOnPage} Where that is no one block, or is only known while it is calculated
 */
export function joinedReference(node: JoinNode, cell: Cell): ReferenceNode {
  const [left, right] = [whole(node.left, cell), whole(node.right, cell)];
  if (node.operator === "," || left === undefined || right === undefined) throw refusal();
  const sheets = new Set(
    [left, right].flatMap(({ reference: { sheet } }) => (sheet === null ? [] : [sheet.toLowerCase()])),
  );
  if (sheets.size > 1 || (node.operator === " " && left.reference.sheet !== right.reference.sheet)) throw refusal();
  const [one, other] = [left.reference, right.reference];
  const ends = (a: Reference["rows"], b: Reference["rows"], own: number): Reference["rows"] => {
    if (a === null || b === null) {
      if (node.operator === ":") return null;
      return a ?? b;
    }
    const [from, to] = [sorted(a, own), sorted(b, own)];
    return node.operator === ":"
      ? fixed(Math.min(from[0], to[0]), Math.max(from[1], to[1]))
      : fixed(Math.max(from[0], to[0]), Math.min(from[1], to[1]));
  };
  const rows = ends(one.rows, other.rows, cell.row);
  const columns = ends(one.columns, other.columns, cell.column);
  for (const pair of [rows, columns]) if (pair !== null && pair[0].offset > pair[1].offset) throw refusal();
  return { kind: "reference", reference: { ...one, sheet: one.sheet ?? other.sheet, isRange: true, rows, columns } };
}

function refusal(): NotOnPage {
  return new NotOnPage("it joins references in a way that this page does not calculate");
}

function whole(node: FormulaNode, cell: Cell): ReferenceNode | undefined {
  if (node.kind === "join") return joinedReference(node, cell);
  return node.kind === "reference" && node.lastSheet === undefined ? node : undefined;
}

function sorted([first, last]: Ends, own: number): readonly [number, number] {
  const [one, other] = [first, last].map(({ isFixed, offset }) => (isFixed ? offset : offset + own)) as [
    number,
    number,
  ];
  return one <= other ? [one, other] : [other, one];
}

function fixed(first: number, last: number): Ends {
  return [
    { offset: first, isFixed: true },
    { offset: last, isFixed: true },
  ];
}
