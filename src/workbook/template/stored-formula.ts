import { cellFunctions, storedName, typedName } from "../../cells/index.js";

const STORED_NAMES: ReadonlyMap<string, string> = new Map(
  cellFunctions.map((declaration) => [typedName(declaration), storedName(declaration)]),
);

/** A text in quotes, or everything between two texts. */
const PARTS = /"(?:[^"]|"")*"|[^"]+/g;

/** Returns a formula as a file stores it: without its equals sign, each call under its stored name. */
export function storedFormula(typed: string): string {
  return typed
    .replace(/^=/, "")
    .replaceAll(PARTS, (part) =>
      part.startsWith('"') ? part : part.replaceAll(/\bVANE\.[A-Z.]+(?=\()/g, (name) => STORED_NAMES.get(name) ?? name),
    );
}
