import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { SOURCE_DOCUMENTS, type SourceDocument } from "../../../shared/tables/documents.js";
import { coreFunctionsIn } from "./core-functions.js";

/** A source as it stands beside a formula, a table's number or a worked case. */
export interface Citation {
  readonly text: string;
  /** Where it stands: `averageVelocity`, `standard-air.ts`, `openings.json`. */
  readonly place: string;
  readonly kind: "formula" | "table" | "case";
}

/** Words by which a source says that no document stands behind it. */
const WITHOUT_DOCUMENT =
  /derived|definition|geometry|common practice|no source|from memory|conservation|each step names its own/i;

/** Every source that stands in src/core, in shared/tables and in shared/cases. */
export function citationsIn(repository: string): readonly Citation[] {
  const formulas = coreFunctionsIn(repository).flatMap(({ name, sources }) =>
    sources.map((text) => ({ text: oneLine(text), place: name, kind: "formula" as const })),
  );
  return [...formulas, ...tableCitations(repository), ...caseCitations(repository)];
}

function oneLine(text: string): string {
  return text.replace(/\s+/g, " ").trim();
}

function tableCitations(repository: string): readonly Citation[] {
  const folder = join(repository, "shared/tables");
  return readdirSync(folder)
    .filter((file) => file.endsWith(".ts") && file !== "documents.ts")
    .flatMap((file) => {
      const text = readFileSync(join(folder, file), "utf8");
      const found = [...text.matchAll(/source:\s*"([^"]+)"|\* Source: ([^\n]+)/g)];
      return found.map(([, inField, inComment]) => ({
        text: oneLine(inField ?? inComment ?? ""),
        place: file,
        kind: "table" as const,
      }));
    });
}

interface CaseFile {
  readonly source?: string;
  readonly cases: readonly { readonly source?: string }[];
}

function caseCitations(repository: string): readonly Citation[] {
  const folder = join(repository, "shared/cases");
  return readdirSync(folder)
    .filter((file) => file.endsWith(".json"))
    .flatMap((file) => {
      const { source, cases } = JSON.parse(readFileSync(join(folder, file), "utf8")) as CaseFile;
      return cases.map((row) => ({ text: oneLine(row.source ?? source ?? ""), place: file, kind: "case" as const }));
    });
}

/** The documents that a source names. */
export function documentsOf(text: string): readonly SourceDocument[] {
  return SOURCE_DOCUMENTS.filter(({ cited }) => text.includes(cited));
}

/** Whether a source says in so many words that it rests on no document. */
export function saysNoDocument(text: string): boolean {
  return WITHOUT_DOCUMENT.test(text);
}
