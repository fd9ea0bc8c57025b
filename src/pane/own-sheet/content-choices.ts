import {
  type ColumnContent,
  contentWord,
  LIST_COLUMN_KEYS,
  MAPPED_UNIT_NAMES,
  MAPPED_UNITS,
  measuredBy,
} from "../../workbook/index.js";

interface Choice {
  readonly value: string;
  readonly label: string;
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** A content as the value of a choice box; "" for none. */
export function contentValue(content: ColumnContent | null): string {
  if (content === null) return "";
  return content.key === "reading" ? `reading.${content.state}.${content.holds}` : content.key;
}

const READINGS: readonly ColumnContent[] = [
  { key: "reading", state: "now", holds: "velocity" },
  { key: "reading", state: "found", holds: "velocity" },
  { key: "reading", state: "left", holds: "velocity" },
  { key: "reading", state: "now", holds: "sweep" },
  { key: "reading", state: "now", holds: "seconds" },
];

const CONTENTS: ReadonlyMap<string, ColumnContent> = new Map(
  [...READINGS, ...LIST_COLUMN_KEYS.map((key): ColumnContent => ({ key }))].map((content) => [
    contentValue(content),
    content,
  ]),
);

/** What a choice box chose. */
export const contentOfValue = (value: string): ColumnContent | null => CONTENTS.get(value) ?? null;

/** Everything that a column can hold. */
export const CONTENT_CHOICES: readonly Choice[] = [
  { value: "", label: "Not used" },
  ...[...CONTENTS].map(([value, content]) => ({ value, label: capital(contentWord(content)) })),
];

/** The units that a content can have; none where it holds words. */
export function unitChoices(content: ColumnContent | null): readonly Choice[] {
  const measured = content === null ? undefined : measuredBy(content);
  if (measured === undefined) return [];
  const units = MAPPED_UNIT_NAMES.filter((unit) => MAPPED_UNITS[unit].measures === measured);
  return [
    { value: "", label: "Which unit?" },
    ...units.map((unit) => ({ value: unit, label: MAPPED_UNITS[unit].shown })),
  ];
}
