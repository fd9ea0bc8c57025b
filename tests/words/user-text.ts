import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import ts from "typescript";

/** Something that a user may read, and where it is written. */
export interface UserText {
  /** File and line, from the top of the project. */
  readonly place: string;
  /** The text, with `…` for what is filled in. */
  readonly text: string;
}

const FILLED_IN = "…";

/** Attributes of elements that hold words of the program, not of its user. */
const UNSEEN_ATTRIBUTES = new Set(["class", "style", "d", "viewBox", "transform", "points", "href", "rel", "src"]);

/** Calls whose texts go to no user. */
const UNSEEN_CALLS = /^(?:querySelector(?:All)?|closest|matches|RegExp|matchMedia|addEventListener|getAttribute)$/;

/** Whether a text is a piece of a sentence or a label, and no name, path, selector or formula. */
function isForReading(text: string): boolean {
  return (
    /[A-Za-z]{2,} +(?:[A-Za-z]{2,}|…)|… +[a-z]{2,}/.test(text) &&
    !/^\s*[<=(.#[]|[{}]|=>|;$|\bxmlns|^[a-z-]+:/.test(text)
  );
}

function literalText(node: ts.Node): string | null {
  if (ts.isStringLiteralLike(node)) return node.text;
  if (ts.isTemplateExpression(node)) {
    return node.head.text + node.templateSpans.map(({ literal }) => FILLED_IN + literal.text).join("");
  }
  if (ts.isBinaryExpression(node) && node.operatorToken.kind === ts.SyntaxKind.PlusToken) {
    const [left, right] = [literalText(node.left), literalText(node.right)];
    return left === null && right === null ? null : (left ?? FILLED_IN) + (right ?? FILLED_IN);
  }
  return null;
}

/** Joins what stands between two tags into one text; elements in it are words filled in or set apart. */
function elementText(children: readonly ts.JsxChild[]): string {
  return children
    .map((child) => {
      if (ts.isJsxText(child)) return child.text.replace(/\s*\n\s*/g, " ");
      if (ts.isJsxExpression(child)) return (child.expression && literalText(child.expression)) ?? FILLED_IN;
      return FILLED_IN;
    })
    .join("");
}

function isUnseen(node: ts.Node): boolean {
  const { parent } = node;
  if (ts.isImportDeclaration(parent) || ts.isExportDeclaration(parent) || ts.isLiteralTypeNode(parent)) return true;
  if (ts.isJsxAttribute(parent)) return UNSEEN_ATTRIBUTES.has(parent.name.getText());
  if (ts.isCallExpression(parent) || ts.isNewExpression(parent)) {
    const called = parent.expression;
    return UNSEEN_CALLS.test(ts.isPropertyAccessExpression(called) ? called.name.text : called.getText());
  }
  return false;
}

/** Returns every text of a source file that a user may read. */
function textsOf(file: string, name: string): readonly UserText[] {
  const kind = file.endsWith("x") ? ts.ScriptKind.TSX : ts.ScriptKind.TS;
  const source = ts.createSourceFile(file, readFileSync(file, "utf8"), ts.ScriptTarget.ES2022, true, kind);
  const texts: UserText[] = [];
  const add = (node: ts.Node, text: string) => {
    const line = source.getLineAndCharacterOfPosition(node.getStart()).line + 1;
    if (isForReading(text)) texts.push({ place: `${name}:${line}`, text: text.trim() });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isJsxElement(node) || ts.isJsxFragment(node)) {
      add(node, elementText(node.children));
      for (const child of node.children) if (!ts.isJsxText(child)) visit(child);
      if (ts.isJsxElement(node)) visit(node.openingElement);
      return;
    }
    const text = literalText(node);
    if (text !== null && !isUnseen(node)) add(node, text);
    if (text === null || ts.isTemplateExpression(node)) ts.forEachChild(node, visit);
  };
  visit(source);
  return texts;
}

/** Returns every text of a folder's sources that a user may read. */
export function userTexts(folder: string): readonly UserText[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((name) => /\.tsx?$/.test(name) && !name.endsWith(".d.ts"))
    .sort()
    .flatMap((name) => textsOf(join(folder, name), relative(process.cwd(), join(folder, name))));
}
