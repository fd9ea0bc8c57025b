import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { AVOIDED_WORDS, LONGEST_SENTENCE } from "./glossary.js";
import { type UserText, userTexts } from "./user-text.js";

/** The floors whose texts people meet; the tools' are for developers. */
const FLOORS = ["cells", "cli", "core", "engine", "hosts", "logger", "pane", "workbook", "xlsx"];

/** Lists of words for the program to know: what people write in their own sheets, and names of functions. */
const NOT_OURS = /^src\/workbook\/takeover\/heading-words\.ts|\.generated\.ts/;

/** A list of names in capitals, as of spreadsheet functions. */
const NAMES = /^(?:[A-Z0-9.]+\s+){5,}/;

interface FunctionList {
  readonly functions: readonly {
    readonly id: string;
    readonly description: string;
    readonly parameters: readonly { readonly name: string; readonly description?: string }[];
  }[];
}

function functionTexts(): readonly UserText[] {
  const { functions } = JSON.parse(readFileSync("src/cells/functions.json", "utf8")) as FunctionList;
  return functions.flatMap(({ id, description, parameters }) => [
    { place: id, text: description },
    ...parameters.map(({ name, description: text = "" }) => ({ place: `${id}, ${name}`, text })),
  ]);
}

const TEXTS = [...FLOORS.flatMap((floor) => userTexts(`src/${floor}`)), ...functionTexts()].filter(
  ({ place, text }) => !NOT_OURS.test(place) && !NAMES.test(text),
);

const sentences = (text: string): readonly string[] => text.split(/(?<=[.?!:;])\s+|\n/);

const wordCount = (sentence: string): number => sentence.split(/\s+/).filter((word) => /[\p{L}\d…]/u.test(word)).length;

describe("what our users read", () => {
  it("is found in every floor and in the functions", () => {
    for (const floor of FLOORS)
      expect(
        TEXTS.some(({ place }) => place.startsWith(`src/${floor}/`)),
        floor,
      ).toBe(true);
    expect(TEXTS.length).toBeGreaterThan(3000);
  });

  it.each(AVOIDED_WORDS)("says $say for $avoid", ({ avoid, except }) => {
    const found = TEXTS.filter(({ text }) =>
      avoid.test(except === undefined ? text : text.replace(new RegExp(except, "gi"), "")),
    );
    expect(found.map(({ place, text }) => `${place}: ${text}`)).toEqual([]);
  });

  it(`has no sentence of more than ${LONGEST_SENTENCE} words`, () => {
    const long = TEXTS.flatMap(({ place, text }) =>
      sentences(text)
        .filter((sentence) => wordCount(sentence) > LONGEST_SENTENCE)
        .map((sentence) => `${place}: ${sentence}`),
    );
    expect(long).toEqual([]);
  });
});
