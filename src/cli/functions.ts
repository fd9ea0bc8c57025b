import { type CellFunctionDeclaration, callSignature, cellFunctions, NAMESPACE, typedName } from "../cells/index.js";
import { type Command, EXIT, UsageError } from "./command.js";

function find(name: string): CellFunctionDeclaration {
  const id = name
    .trim()
    .toUpperCase()
    .replace(/^=/, "")
    .replace(new RegExp(`^${NAMESPACE}\\.`), "")
    .replace(/\(.*$/, "");
  const found = cellFunctions.find((candidate) => candidate.id === id);
  if (found !== undefined) return found;
  const near = cellFunctions.filter((candidate) => candidate.id.startsWith(id.split(".")[0] ?? id)).map(typedName);
  const hint = near.length > 0 ? ` Near it: ${near.join(", ")}.` : "";
  throw new UsageError(`There is no function "${name}".${hint}`);
}

function help(declaration: CellFunctionDeclaration): string {
  const width = Math.max(0, ...declaration.parameters.map(({ name }) => name.length));
  return [
    `=${callSignature(declaration)}`,
    "",
    declaration.description,
    "",
    ...declaration.parameters.map(
      ({ name, optional, description }) => `  ${name.padEnd(width)}  ${optional ? "optional. " : ""}${description}`,
    ),
  ].join("\n");
}

/** What `--json` prints of a function: the registry's entry without its code. */
function asData(declaration: CellFunctionDeclaration) {
  const { call: _call, ...data } = declaration;
  return { name: typedName(declaration), ...data };
}

export const functionsCommand: Command = {
  usage: "[NAME] [--json]",
  help: ["Lists every cell function, or shows one's arguments. NAME may leave out “VANE.”."],
  options: { json: { type: "boolean" } },
  async run({ positionals, options }) {
    const [name, ...rest] = positionals;
    if (rest.length > 0) throw new UsageError("One function name is taken.");
    if (name !== undefined) {
      const found = find(name);
      console.log(options["json"] === true ? JSON.stringify(asData(found), null, 2) : help(found));
      return EXIT.done;
    }
    if (options["json"] === true) {
      console.log(JSON.stringify(cellFunctions.map(asData), null, 2));
    } else {
      for (const declaration of cellFunctions)
        console.log(`=${callSignature(declaration)}\n    ${declaration.description}`);
    }
    return EXIT.done;
  },
};
