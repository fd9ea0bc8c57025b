import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { HEADING_WORDS, KIND_WORDS, MAPPED_UNITS, STATE_WORDS, TITLE_WORDS } from "../../src/workbook/index.js";
import { plainWords } from "../../src/workbook/takeover/read-own-heading.js";

const text = readFileSync(resolve(import.meta.dirname, "../../docs/columns.md"), "utf8");

function rowsUnder(header: string): readonly string[] {
  const [, table = ""] = text.split(`${header}\n`);
  return (table.trim().split("\n\n")[0] ?? "").split("\n").slice(1);
}

const languages = ([name, { en, es, de }]: [string, (typeof STATE_WORDS)["design"]]) =>
  `| ${name} | ${en.join(", ")} | ${es.join(", ")} | ${de.join(", ")} |`;

describe("docs/columns.md", () => {
  it("lists every word of a heading in every language", () => {
    expect(rowsUnder("| holds | English | Spanish | German |"), "write them into docs/columns.md").toEqual(
      Object.entries(HEADING_WORDS).map(languages),
    );
    expect(rowsUnder("| state | English | Spanish | German |")).toEqual(Object.entries(STATE_WORDS).map(languages));
    expect(rowsUnder("| title names | English | Spanish | German |")).toEqual(
      Object.entries(TITLE_WORDS).map(languages),
    );
  });

  it("has words as they are compared: without capitals, accents and signs", () => {
    const words = [...Object.values(HEADING_WORDS), ...Object.values(STATE_WORDS)].flatMap(({ en, es, de }) => [
      ...[...en, ...es, ...de],
    ]);
    expect(words.filter((word) => plainWords(word) !== word)).toEqual([]);
  });

  it("lists every spelling of a unit, and of a kind", () => {
    const units = Object.values(MAPPED_UNITS).filter(({ spellings }) => spellings.length > 0);
    expect(rowsUnder("| unit | written |")).toEqual(
      units.map(({ shown, spellings }) => `| ${shown} | ${spellings.join(", ")} |`),
    );
    expect(rowsUnder("| kind | written |")).toEqual(
      Object.entries(KIND_WORDS).map(([kind, words]) => `| ${kind} | ${words.join(", ")} |`),
    );
  });
});
