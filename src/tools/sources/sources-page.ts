import { SOURCE_DOCUMENTS, type SourceDocument } from "../../../shared/tables/documents.js";
import { type Citation, documentsOf } from "./cited.js";

const STANDING_WORDS: Readonly<Record<SourceDocument["standing"], string>> = {
  read: "read",
  quoted: "read where quoted",
  "from memory": "from memory, unverified",
};

function places(citations: readonly Citation[], kind: Citation["kind"]): readonly string[] {
  return [...new Set(citations.filter((one) => one.kind === kind).map(({ place }) => place))].sort();
}

function listed(names: readonly string[]): string {
  return names.map((name) => `\`${name}\``).join(", ");
}

function documentRow(document: SourceDocument, citations: readonly Citation[]): string {
  const citing = citations.filter(({ text }) => documentsOf(text).includes(document));
  const caseCount = citing.filter(({ kind }) => kind === "case").length;
  const uses = [
    listed([...places(citing, "formula"), ...places(citing, "table")]),
    caseCount === 0 ? "" : `${caseCount} ${caseCount === 1 ? "case" : "cases"} in ${listed(places(citing, "case"))}`,
  ].filter((text) => text !== "");
  return `| ${document.title} | ${STANDING_WORDS[document.standing]} | ${document.note} | ${uses.join("; ")} |`;
}

/** Sources with no document behind them, each with what rests on it. */
function withoutDocument(citations: readonly Citation[]): readonly string[] {
  const texts = new Map<string, Citation[]>();
  for (const citation of citations) {
    if (citation.kind !== "case" && documentsOf(citation.text).length === 0) {
      texts.set(citation.text, [...(texts.get(citation.text) ?? []), citation]);
    }
  }
  return [...texts]
    .sort(([a], [b]) => a.localeCompare(b, "en"))
    .map(([text, citing]) => `| ${text} | ${listed([...places(citing, "formula"), ...places(citing, "table")])} |`);
}

/** Returns docs/sources.md: every document that is cited, its standing and what rests on it, and what has none. */
export function sourcesPage(citations: readonly Citation[]): string {
  const cases = citations.filter(({ kind }) => kind === "case");
  const plain = cases.filter(({ text }) => documentsOf(text).length === 0).length;
  return [
    "# Sources",
    "",
    "Written by `npm run generate` from the comments in src/core, from shared/tables and from shared/cases; change those.",
    "",
    "How far a document can be trusted: **read** means that its words or numbers were seen in a copy of it; **read where quoted**, that they were seen in another document or in an open library that names it; **from memory, unverified**, that no copy was at hand. Each worked case has a standing of its own beside it in shared/cases: a case may be derived from a document that was read.",
    "",
    "## Documents",
    "",
    "| document | standing | what was seen | what rests on it |",
    "|---|---|---|---|",
    ...SOURCE_DOCUMENTS.map((document) => documentRow(document, citations)),
    "",
    "## Formulas and tables with no document behind them",
    "",
    "Definitions, what was derived here, and what the trade does without a source that we know.",
    "",
    "| on what it rests | what rests on it |",
    "|---|---|",
    ...withoutDocument(citations),
    "",
    "## Worked cases",
    "",
    `${cases.length} cases stand in shared/cases. ${cases.length - plain} name a document above; the other ${plain} are worked out by arithmetic or by another program, independently of this code, and say how.`,
    "",
  ].join("\n");
}
