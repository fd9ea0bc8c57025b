import type { FormulaNode } from "../formula/syntax.js";
import { eachNode } from "../formula/syntax.js";
import { NotOnPage } from "./not-on-page.js";

/** So many parts may come of putting values in for names. */
const MOST_PARTS = 2_000;

/** What gives another value each time it is calculated. */
const CHANGES = new Set(["RAND", "RANDBETWEEN", "RANDARRAY"]);

type Bound = ReadonlyMap<string, FormulaNode>;

/**
 * Puts the values in for the names that LET, or a LAMBDA that is called at once, gives them: `LET(x,A1,x*x)` is `A1*A1`.
 *
 * @throws {NotOnPage} Where that would be too long, or calculate a random number twice
 */
export function bindNames(node: FormulaNode): FormulaNode {
  let binds = false;
  eachNode(node, (part) => {
    if (part.kind === "invoke" || (part.kind === "call" && part.name === "LET")) binds = true;
  });
  if (!binds) return node;
  const bound = put(node, new Map());
  let parts = 0;
  eachNode(bound, () => {
    parts += 1;
  });
  if (parts > MOST_PARTS) throw new NotOnPage("it is too long without the names that LET gives");
  return bound;
}

function put(node: FormulaNode, names: Bound): FormulaNode {
  switch (node.kind) {
    case "name":
      return names.get(node.name.toUpperCase()) ?? node;
    case "call":
      if (node.name === "LET") return putLet(node.given, names);
      return { ...node, given: node.given.map((part) => put(part, names)) };
    case "invoke":
      return putInvoked(node, names);
    case "unary":
      return { ...node, operand: put(node.operand, names) };
    case "binary":
    case "join":
      return { ...node, left: put(node.left, names), right: put(node.right, names) };
    default:
      return node;
  }
}

function nameOf(node: FormulaNode | undefined): string {
  if (node?.kind !== "name") throw new NotOnPage("it gives a value to what is not a name");
  return node.name.toUpperCase();
}

function requireSteady(node: FormulaNode): FormulaNode {
  let parts = 0;
  eachNode(node, (part) => {
    parts += 1;
    if (part.kind === "call" && CHANGES.has(part.name)) throw new NotOnPage("it gives a name to a random number");
  });
  if (parts > MOST_PARTS) throw new NotOnPage("it is too long without the names that LET gives");
  return node;
}

function putLet(given: readonly FormulaNode[], names: Bound): FormulaNode {
  const inner = new Map(names);
  for (let index = 0; index + 2 < given.length; index += 2) {
    inner.set(nameOf(given[index]), requireSteady(put(given[index + 1] as FormulaNode, inner)));
  }
  const last = given.at(-1);
  if (last === undefined || given.length % 2 === 0) throw new NotOnPage("its LET lacks a calculation");
  return put(last, inner);
}

function putInvoked(node: Extract<FormulaNode, { kind: "invoke" }>, names: Bound): FormulaNode {
  const { target } = node;
  if (target.kind !== "call" || target.name !== "LAMBDA" || target.given.length !== node.given.length + 1) return node;
  const inner = new Map(names);
  node.given.forEach((value, index) => {
    inner.set(nameOf(target.given[index]), requireSteady(put(value, names)));
  });
  return put(target.given.at(-1) as FormulaNode, inner);
}
