import { join, relative } from "node:path";
import ts from "typescript";

export interface CoreParameter {
  readonly name: string;
  /** What the docstring says about it, without the name; undefined where the docstring is silent. */
  readonly comment: string | undefined;
}

export interface CoreFunction {
  readonly name: string;
  /** File of the declaration, seen from the repository. */
  readonly file: string;
  readonly parameters: readonly CoreParameter[];
  /** The text above the first tag. */
  readonly description: string;
  readonly returnsNumbers: boolean;
  readonly returns: string | undefined;
  readonly throws: readonly string[];
  readonly sources: readonly string[];
  readonly examples: readonly string[];
}

/** Every function that the door of src/core exports, with its docstring, in the order of their names. */
export function coreFunctionsIn(repository: string): readonly CoreFunction[] {
  const door = join(repository, "src/core/index.ts");
  const program = ts.createProgram([door], {
    target: ts.ScriptTarget.ES2022,
    module: ts.ModuleKind.ESNext,
    moduleResolution: ts.ModuleResolutionKind.Bundler,
    resolveJsonModule: true,
    strict: true,
    types: [],
  });
  const checker = program.getTypeChecker();
  const source = program.getSourceFile(door);
  const module = source && checker.getSymbolAtLocation(source);
  if (!module) throw new Error(`${door} is not a module`);
  const functions: CoreFunction[] = [];
  for (const exported of checker.getExportsOfModule(module)) {
    const symbol = exported.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(exported) : exported;
    const declaration = symbol.valueDeclaration;
    if (declaration && ts.isFunctionDeclaration(declaration)) {
      functions.push(described(repository, exported.name, symbol, declaration, checker));
    }
  }
  return functions.sort((one, other) => one.name.localeCompare(other.name));
}

function described(
  repository: string,
  name: string,
  symbol: ts.Symbol,
  declaration: ts.FunctionDeclaration,
  checker: ts.TypeChecker,
): CoreFunction {
  const tags = ts.getJSDocTags(declaration);
  const text = (tag: ts.JSDocTag) => ts.getTextOfJSDocComment(tag.comment) ?? "";
  const named = (tagName: string) => tags.filter((tag) => tag.tagName.text === tagName).map(text);
  const comments = new Map(tags.filter(ts.isJSDocParameterTag).map((tag) => [tag.name.getText(), text(tag)]));
  const signature = checker.getSignatureFromDeclaration(declaration);
  return {
    name,
    file: relative(repository, declaration.getSourceFile().fileName),
    parameters: declaration.parameters.map((parameter) => {
      const parameterName = parameter.name.getText();
      return { name: parameterName, comment: comments.get(parameterName) };
    }),
    description: ts.displayPartsToString(symbol.getDocumentationComment(checker)),
    returnsNumbers: signature ? isNumeric(checker.getReturnTypeOfSignature(signature), checker) : false,
    returns: named("returns")[0],
    throws: tags.filter((tag) => tag.tagName.text === "throws").map((tag) => tag.getText()),
    sources: named("source"),
    examples: named("example"),
  };
}

/** Whether a type is a number, with or without a unit, or a list of numbers. */
function isNumeric(type: ts.Type, checker: ts.TypeChecker): boolean {
  const element = checker.isArrayType(type) ? checker.getTypeArguments(type as ts.TypeReference)[0] : type;
  return element !== undefined && checker.isTypeAssignableTo(element, checker.getNumberType());
}
