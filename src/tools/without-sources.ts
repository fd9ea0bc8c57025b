import ts from "typescript";

/** What a published table says of itself for docs/sources.md; no function and no screen reads it. */
const OF_THE_TABLE = new Set(["source", "standing"]);

/** Takes the source and the standing out of published tables, so that no bundle carries them. */
export function withoutSources(context: ts.TransformationContext): ts.Transformer<ts.SourceFile> {
  const visit = (node: ts.Node): ts.Node | undefined => {
    const isOfTheTable =
      ts.isPropertyAssignment(node) &&
      ts.isIdentifier(node.name) &&
      OF_THE_TABLE.has(node.name.text) &&
      ts.isStringLiteral(node.initializer);
    return isOfTheTable ? undefined : ts.visitEachChild(node, visit, context);
  };
  return (file) => ts.visitEachChild(file, visit, context);
}
