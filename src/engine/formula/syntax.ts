import type { Reference } from "../../xlsx/index.js";
import type { Scalar } from "./values.js";

export type BinaryOperator = "+" | "-" | "*" | "/" | "^" | "&" | "=" | "<>" | "<" | ">" | "<=" | ">=";
export type ReferenceOperator = ":" | " " | ",";
/** `@` takes the one cell of a block that lies in the formula's row or column, `#` the block that a formula fills. */
export type UnaryOperator = "-" | "+" | "%" | "@" | "#";

/** A part of a formula. */
export type FormulaNode =
  | { readonly kind: "value"; readonly value: Scalar }
  | { readonly kind: "omitted" }
  | { readonly kind: "array"; readonly rows: readonly (readonly Scalar[])[] }
  | {
      readonly kind: "reference";
      readonly reference: Reference /** `Jan:Mar!A1` ends here. */;
      readonly lastSheet?: string;
    }
  | { readonly kind: "name"; readonly name: string }
  | { readonly kind: "call"; readonly name: string; readonly given: readonly FormulaNode[] }
  | { readonly kind: "invoke"; readonly target: FormulaNode; readonly given: readonly FormulaNode[] }
  | { readonly kind: "unary"; readonly operator: UnaryOperator; readonly operand: FormulaNode }
  | {
      readonly kind: "binary";
      readonly operator: BinaryOperator;
      readonly left: FormulaNode;
      readonly right: FormulaNode;
    }
  | {
      readonly kind: "join";
      readonly operator: ReferenceOperator;
      readonly left: FormulaNode;
      readonly right: FormulaNode;
    };

/** Calls back with a part of a formula and all parts in it. */
export function eachNode(node: FormulaNode, visit: (node: FormulaNode) => void): void {
  visit(node);
  if (node.kind === "call") for (const given of node.given) eachNode(given, visit);
  else if (node.kind === "invoke") {
    eachNode(node.target, visit);
    for (const given of node.given) eachNode(given, visit);
  } else if (node.kind === "unary") eachNode(node.operand, visit);
  else if (node.kind === "binary" || node.kind === "join") {
    eachNode(node.left, visit);
    eachNode(node.right, visit);
  }
}
