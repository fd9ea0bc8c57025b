import { type AST, parse } from "@odoo/o-spreadsheet";
import { cellFunctions, typedName } from "../../src/cells/index.js";

export interface LiteralCall {
  readonly id: string;
  readonly args: readonly unknown[];
}

type Literal = { readonly literal: unknown } | null;

function scalarOf(ast: AST): Literal {
  if (ast.type === "NUMBER" || ast.type === "STRING" || ast.type === "BOOLEAN") return { literal: ast.value };
  if (ast.type === "EMPTY") return { literal: null };
  if (ast.type !== "UNARY_OPERATION" || ast.value !== "-" || ast.operand.type !== "NUMBER") return null;
  return { literal: -ast.operand.value };
}

function literalOf(ast: AST): Literal {
  if ((ast.type as string) !== "ARRAY") return scalarOf(ast);
  const rows = (ast as unknown as { readonly value: readonly (readonly AST[])[] }).value.map((row) =>
    row.map(scalarOf),
  );
  if (rows.some((row) => row.includes(null))) return null;
  return { literal: rows.map((row) => row.map((cell) => cell?.literal)) };
}

/**
 * Reads a formula that is one VANE call with plain literals for arguments, as Excel would send the call; null where
 * it is more than that.
 */
export function literalCall(formula: string): LiteralCall | null {
  const ast = parse(formula);
  if (ast.type !== "FUNCALL") return null;
  const declaration = cellFunctions.find((one) => typedName(one) === ast.value.toUpperCase());
  if (declaration === undefined) return null;
  const literals = ast.args.map(literalOf);
  if (literals.includes(null) || literals.length > declaration.parameters.length) return null;
  const args = declaration.parameters.map(({ isBlock }, index) => {
    const value = literals[index]?.literal ?? null;
    return isBlock && value !== null && !Array.isArray(value) ? [[value]] : value;
  });
  return { id: declaration.id, args };
}
