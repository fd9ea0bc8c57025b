import { columnNumber, HostError } from "../../xlsx/index.js";
import { MAPPED_UNITS, type MappedUnitName, OUTLET_KINDS, type StatedForRows, TITLE_USES } from "../lists/index.js";
import { measuredBy } from "./column-content.js";
import { CONTENT_WORDS, contentWord } from "./content-words.js";
import type { ProposedColumn, ProposedList } from "./propose-columns.js";
import { unitSpelled } from "./read-own-heading.js";

/** What a person says of columns, or of every row. */
export type Answer =
  | {
      readonly about: "columns";
      readonly first: number;
      readonly last: number;
      readonly content: ProposedColumn["content"];
      readonly unit: MappedUnitName | null;
    }
  /** The titles over and between the outlets name nothing that counts. */
  | { readonly about: "no titles" }
  | { readonly about: "rows"; readonly lastRow: number }
  | { readonly about: "stated"; readonly stated: StatedForRows };

const EXAMPLES =
  "Write it like D=width in, F:K=readings fpm, M=nothing, factor=0.75, kind=supply, titles=system or rows=46.";

/** Words for a column that holds nothing of a list. */
const NOTHING = new Set(["nothing", "none", "-"]);

function contentIn(said: string, what: string): Pick<Extract<Answer, { about: "columns" }>, "content" | "unit"> {
  const words = what.trim().toLowerCase().replace(/\s+/g, " ");
  if (NOTHING.has(words)) return { content: null, unit: null };
  const known = [...CONTENT_WORDS].sort(([one], [other]) => other.length - one.length);
  const found = known.find(([word]) => words === word || words.startsWith(`${word} `) || words.startsWith(`${word}, `));
  if (found === undefined) {
    const all = [...new Set([...CONTENT_WORDS.values()].map(contentWord))].join(", ");
    throw new HostError(
      `“${said}”: “${what.trim()}” is nothing that a column can hold. It can hold: ${all}, or nothing.`,
    );
  }
  const [word, content] = found;
  const rest = words.slice(word.length).replace(/^[,\s]+/, "");
  if (rest === "") return { content, unit: null };
  const measured = measuredBy(content);
  const spelled = rest === "%" && measured === "ratio" ? "percentfree" : unitSpelled(rest);
  if (spelled === undefined || MAPPED_UNITS[spelled].measures !== measured) {
    const units = Object.values(MAPPED_UNITS).filter(({ measures }) => measures === measured);
    const choice =
      units.length === 0 ? "it has no unit" : `its unit is one of ${units.map(({ shown }) => shown).join(", ")}`;
    throw new HostError(`“${said}”: “${rest}” is not a unit of ${contentWord(content)}; ${choice}.`);
  }
  return { content, unit: spelled };
}

/**
 * Reads what a person says of columns: `D=width in`, `F:K=readings fpm`, `M=nothing`, `factor=0.75`, `kind=supply`,
 * `titles=system`, `rows=46`.
 *
 * @throws {HostError} Where it cannot be read; the message says how it is written
 */
export function readAnswer(said: string): Answer {
  const [, name = "", what = ""] = /^\s*([^=]+?)\s*=\s*(.*)$/.exec(said) ?? [];
  if (name === "" || what.trim() === "") throw new HostError(`“${said}” says nothing of a column. ${EXAMPLES}`);
  const plain = name.toLowerCase();
  if (plain === "factor") {
    const factor = Number(what.replace(",", "."));
    if (factor > 0 && factor <= 1) return { about: "stated", stated: { factor } };
    throw new HostError(`“${said}”: a factor is above 0 and at most 1, such as 0.75.`);
  }
  if (plain === "kind") {
    const kind = OUTLET_KINDS.find((one) => one === what.trim().toLowerCase());
    if (kind !== undefined) return { about: "stated", stated: { kind } };
    throw new HostError(`“${said}”: a kind is one of ${OUTLET_KINDS.join(", ")}.`);
  }
  if (plain === "titles") {
    const word = what.trim().toLowerCase();
    const use = TITLE_USES.find((one) => one === word);
    if (use !== undefined) return { about: "stated", stated: { titles: use } };
    if (NOTHING.has(word)) return { about: "no titles" };
    throw new HostError(`“${said}”: titles name one of ${TITLE_USES.join(", ")}, or nothing.`);
  }
  if (plain === "rows") {
    const lastRow = Number(/(\d+)\s*$/.exec(what)?.[1]);
    if (Number.isInteger(lastRow) && lastRow > 0) return { about: "rows", lastRow };
    throw new HostError(`“${said}”: say the last row of the list, such as rows=46.`);
  }
  const [, from = "", to = from] = /^([A-Za-z]{1,3})(?::([A-Za-z]{1,3}))?$/.exec(name) ?? [];
  if (from === "") throw new HostError(`“${said}”: “${name}” is not a column. ${EXAMPLES}`);
  const [first, last] = [columnNumber(from), columnNumber(to)];
  return { about: "columns", first: Math.min(first, last), last: Math.max(first, last), ...contentIn(said, what) };
}

function withColumns(
  { columns, firstColumn, lastColumn }: ProposedList,
  answer: Extract<Answer, { about: "columns" }>,
): readonly ProposedColumn[] {
  // What is said of a column of a list beside is not said of this one.
  const [first, last] = [Math.max(answer.first, firstColumn), Math.min(answer.last, lastColumn)];
  if (first > last) return columns;
  const { content } = answer;
  const changed = new Map(columns.map((one) => [one.column, one]));
  for (let column = first; column <= last; column += 1) {
    const before = changed.get(column);
    const measured = content === null ? undefined : measuredBy(content);
    const kept = before?.unit != null && MAPPED_UNITS[before.unit].measures === measured ? before.unit : null;
    const unit =
      answer.unit ??
      kept ??
      (measured === "seconds" ? "s" : measured === "ratio" ? "ratio" : measured === "percent" ? "percent" : null);
    const isOpen = measured !== undefined && unit === null;
    const question = isOpen ? "In which unit is it?" : "";
    changed.set(column, { column, heading: before?.heading ?? "", content, unit, reason: "as you said", question });
  }
  const isSame = (one: ProposedColumn) =>
    content !== null &&
    content.key !== "reading" &&
    one.content?.key === content.key &&
    (one.column < first || one.column > last);
  // What a person says of one column is said of no other.
  return [...changed.values()]
    .map((one) =>
      isSame(one)
        ? { ...one, content: null, unit: null, question: "", reason: `${one.reason}, but you named another column` }
        : one,
    )
    .sort((one, other) => one.column - other.column);
}

/** What is still missing once columns were named. */
function stillMissing({ missing }: ProposedList, columns: readonly ProposedColumn[]): readonly string[] {
  const has = (key: string) => columns.some(({ content }) => content?.key === key);
  return missing.filter((sentence) => {
    if (sentence.includes("the outlet.")) return !has("outlet");
    if (sentence.includes("the design airflow.")) return !has("design");
    return !(has("airflow") || has("left") || has("reading"));
  });
}

function withAnswer(list: ProposedList, answer: Answer): ProposedList {
  if (answer.about === "rows") return { ...list, lastRow: answer.lastRow };
  if (answer.about === "stated") {
    if (answer.stated.factor === undefined) return { ...list, stated: { ...list.stated, ...answer.stated } };
    const { factorCell: _, ...stated } = list.stated;
    return { ...list, stated: { ...stated, ...answer.stated }, statedReason: "as you said" };
  }
  if (answer.about === "no titles") {
    const { titles: _, ...stated } = list.stated;
    return { ...list, stated };
  }
  const columns = withColumns(list, answer);
  return { ...list, columns, missing: stillMissing(list, columns) };
}

/** A proposal with what a person says of it, one answer after the other. */
export function withAnswers(proposal: ProposedList, answers: readonly Answer[]): ProposedList {
  let list = proposal;
  for (const answer of answers) list = withAnswer(list, answer);
  return list;
}
