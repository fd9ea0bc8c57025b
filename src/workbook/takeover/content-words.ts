import { type ColumnContent, LIST_COLUMN_KEYS, LIST_COLUMNS, type ListColumnKey } from "../lists/index.js";

/** What a person calls a content, beside the headings that a list knows. */
const OTHER_WORDS: Readonly<Partial<Record<ListColumnKey, readonly string[]>>> = {
  outlet: ["tag"],
  make: ["make", "type"],
  width: ["width"],
  size: ["size"],
  factor: ["factor"],
  effectiveArea: ["ak"],
  area: ["area"],
  design: ["design"],
  found: ["airflow as found"],
  left: ["airflow as left"],
  percent: ["percent"],
  foundPercent: ["percent as found"],
  leftPercent: ["percent as left"],
};

const READING_WORDS: readonly (readonly [string, ColumnContent])[] = [
  ...(["now", "found", "left"] as const).flatMap((state) => {
    const behind = state === "now" ? [""] : [` as ${state}`, state === "found" ? " before" : " after"];
    return behind.flatMap((words) =>
      [`readings${words}`, `reading${words}`].map(
        (word) => [word, { key: "reading", state, holds: "velocity" } as const] as const,
      ),
    );
  }),
  ["sweeps", { key: "reading", state: "now", holds: "sweep" }],
  ["sweep", { key: "reading", state: "now", holds: "sweep" }],
  ["seconds", { key: "reading", state: "now", holds: "seconds" }],
];

/** Every word for a content, in small letters. */
export const CONTENT_WORDS: ReadonlyMap<string, ColumnContent> = new Map([
  ...LIST_COLUMN_KEYS.flatMap((key) =>
    [...LIST_COLUMNS[key].headings.map((heading) => heading.toLowerCase()), ...(OTHER_WORDS[key] ?? [])].map(
      (word) => [word, { key }] as const,
    ),
  ),
  ...READING_WORDS,
]);

/** A content in words: `design airflow`, `a reading as found`. */
export function contentWord(content: ColumnContent): string {
  if (content.key !== "reading") return LIST_COLUMNS[content.key].headings[0].toLowerCase();
  if (content.holds === "seconds") return "seconds of a sweep";
  const state = content.state === "now" ? "" : ` as ${content.state}`;
  return content.holds === "sweep" ? "average of a sweep" : `reading${state}`;
}
