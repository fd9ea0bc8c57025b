import ts from "typescript";

/** A printed value: numbers carry half a unit of their last printed digit as tolerance. */
export type Printed =
  | { readonly kind: "number"; readonly value: number; readonly tolerance: number }
  | { readonly kind: "exact"; readonly value: string | boolean | null }
  | { readonly kind: "list"; readonly items: readonly Printed[] }
  | { readonly kind: "record"; readonly fields: ReadonlyMap<string, Printed> };

/** Reads the value on the right of an example's arrow: a number, text, true, false, null, a list or a record. */
export function readPrinted(text: string): Printed {
  const source = ts.createSourceFile("printed.ts", `(${text})`, ts.ScriptTarget.ES2022, true);
  const statement = source.statements[0];
  if (!statement || !ts.isExpressionStatement(statement)) throw new Error(`no value in "${text}"`);
  return fromNode(statement.expression);
}

function fromNode(node: ts.Expression): Printed {
  if (ts.isParenthesizedExpression(node)) return fromNode(node.expression);
  if (ts.isNumericLiteral(node)) return numberFrom(node.getText(), 1);
  if (ts.isPrefixUnaryExpression(node) && node.operator === ts.SyntaxKind.MinusToken) {
    return numberFrom(node.operand.getText(), -1);
  }
  if (ts.isStringLiteral(node)) return { kind: "exact", value: node.text };
  if (node.kind === ts.SyntaxKind.TrueKeyword) return { kind: "exact", value: true };
  if (node.kind === ts.SyntaxKind.FalseKeyword) return { kind: "exact", value: false };
  if (node.kind === ts.SyntaxKind.NullKeyword) return { kind: "exact", value: null };
  if (ts.isArrayLiteralExpression(node)) return { kind: "list", items: node.elements.map(fromNode) };
  if (ts.isObjectLiteralExpression(node)) {
    return {
      kind: "record",
      fields: new Map(
        node.properties.map((property) => {
          if (!ts.isPropertyAssignment(property)) throw new Error(`cannot read ${property.getText()}`);
          return [property.name.getText().replaceAll('"', ""), fromNode(property.initializer)];
        }),
      ),
    };
  }
  throw new Error(`cannot read the printed value ${node.getText()}`);
}

function numberFrom(digits: string, sign: number): Printed {
  const plain = digits.replaceAll("_", "");
  const [mantissa = "", exponent = "0"] = plain.toLowerCase().split("e");
  const decimals = mantissa.split(".")[1]?.length ?? 0;
  return { kind: "number", value: sign * Number(plain), tolerance: 0.5 * 10 ** (Number(exponent) - decimals) };
}

/** Says where a value leaves what was printed, or nothing where it agrees to the printed digits. */
export function disagreement(actual: unknown, printed: Printed, path = "value"): string | undefined {
  if (printed.kind === "number") {
    const near =
      typeof actual === "number" &&
      Math.abs(actual - printed.value) <= printed.tolerance * (1 + 1e-9) + 1e-15 * Math.abs(printed.value);
    return near ? undefined : `${path} is ${String(actual)}, printed ${printed.value} ± ${printed.tolerance}`;
  }
  if (printed.kind === "exact") {
    return actual === printed.value ? undefined : `${path} is ${String(actual)}, printed ${String(printed.value)}`;
  }
  if (printed.kind === "list") {
    if (!Array.isArray(actual) || actual.length !== printed.items.length) {
      return `${path} is ${JSON.stringify(actual)}, printed a list of ${printed.items.length}`;
    }
    return firstOf(printed.items.map((item, index) => disagreement(actual[index], item, `${path}[${index}]`)));
  }
  if (typeof actual !== "object" || actual === null) return `${path} is ${String(actual)}, printed a record`;
  const record = actual as Readonly<Record<string, unknown>>;
  return firstOf([...printed.fields].map(([field, item]) => disagreement(record[field], item, `${path}.${field}`)));
}

function firstOf(found: readonly (string | undefined)[]): string | undefined {
  return found.find((one) => one !== undefined);
}
