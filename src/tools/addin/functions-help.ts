import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { type CellFunctionDeclaration, callSignature, cellFunctions, NAMESPACE } from "../../cells/index.js";
import { helpAnchor } from "./functions-metadata.js";
import { groupTitle } from "./group-title.js";

/** A formula with its result, as something outside this project gives it. */
interface Example {
  readonly formula: string;
  readonly result: string;
  readonly source: string;
}

interface CaseFile {
  readonly source?: string;
  readonly cases?: readonly CaseRow[];
}

interface CaseRow {
  readonly source?: string;
  readonly expected?: unknown;
  readonly cell?: { readonly formula: string; readonly expected?: unknown };
}

const MOST_EXAMPLES = 2;

function shown(expected: unknown): string | null {
  if (typeof expected === "number" || typeof expected === "string" || typeof expected === "boolean") {
    return String(expected);
  }
  return null;
}

/** Returns the published cases that a cell can hold, by the id of the function that they call first. */
function examplesByFunction(folder: string): ReadonlyMap<string, readonly Example[]> {
  const found = new Map<string, Example[]>();
  for (const file of readdirSync(folder)
    .filter((name) => name.endsWith(".json"))
    .sort()) {
    const parsed = JSON.parse(readFileSync(join(folder, file), "utf8")) as CaseFile | readonly CaseRow[];
    const rows = Array.isArray(parsed) ? (parsed as readonly CaseRow[]) : ((parsed as CaseFile).cases ?? []);
    const common = Array.isArray(parsed) ? "" : ((parsed as CaseFile).source ?? "");
    for (const row of rows) {
      const id = new RegExp(`^=${NAMESPACE}\\.([A-Z0-9.]+)\\(`).exec(row.cell?.formula ?? "")?.[1];
      const result = shown(row.cell?.expected ?? row.expected);
      if (id === undefined || result === null || row.cell === undefined) continue;
      const list = found.get(id) ?? [];
      found.set(id, list);
      if (list.length < MOST_EXAMPLES) list.push({ formula: row.cell.formula, result, source: row.source ?? common });
    }
  }
  return found;
}

function text(plain: string): string {
  return plain.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");
}

function section(declaration: CellFunctionDeclaration, examples: readonly Example[]): string {
  const { id, description, parameters } = declaration;
  const rows = parameters.map(
    (one) =>
      `<tr><th scope="row"><code>${one.name}</code></th><td>${one.optional ? "optional" : "needed"}</td><td>${text(one.description)}</td></tr>`,
  );
  const lines = examples.map(
    ({ formula, result, source }) =>
      `<p class="example"><code>${text(formula)}</code> gives <strong>${text(result)}</strong>${source === "" ? "" : ` <small>(${text(source)})</small>`}</p>`,
  );
  return [
    `<section id="${helpAnchor(id)}">`,
    `<h3>${NAMESPACE}.${id}</h3>`,
    `<p>${text(description)}</p>`,
    `<pre>=${text(callSignature(declaration))}</pre>`,
    `<table><tbody>${rows.join("")}</tbody></table>`,
    ...lines,
    "</section>",
  ].join("\n");
}

/** Returns what functions.html says of every cell function, by group, with published examples. */
export function functionsHelp(casesFolder: string): string {
  const examples = examplesByFunction(casesFolder);
  const groups = new Map<string, CellFunctionDeclaration[]>();
  for (const declaration of cellFunctions) {
    const key = declaration.id.split(".")[0] as string;
    groups.set(key, [...(groups.get(key) ?? []), declaration]);
  }
  return [...groups]
    .map(([key, members]) =>
      [`<h2>${text(groupTitle(key))}</h2>`, ...members.map((one) => section(one, examples.get(one.id) ?? []))].join(
        "\n",
      ),
    )
    .join("\n");
}
