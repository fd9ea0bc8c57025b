import { distance } from "fastest-levenshtein";
import { type ListedOutlet, OUTLET_KINDS } from "../../lists/index.js";
import type { WorkbookIndex } from "../formulas/workbook-index.js";
import type { CheckedList } from "../listed/checked-lists.js";
import { nameTables } from "../listed/name-tables.js";
import { type Draft, grouped, oneCell } from "../support/draft.js";

type NameKey = "room" | "system";

/** Up to so many letters apart one name is offered for another. Own choice. */
const MOST_LETTERS_APART = 3;

const inSmall = (text: string) => text.toLowerCase();

/** A name without what people spell now so and now so: case, spaces, dashes and dots. */
const bare = (text: string) => inSmall(text).replace(/[^\p{L}\p{N}]/gu, "");

function nearest(text: string, names: readonly string[]): string | undefined {
  const same = names.find((name) => bare(name) === bare(text));
  if (same !== undefined) return same;
  const [best] = names
    .map((name) => ({ name, apart: distance(inSmall(name), inSmall(text)) }))
    .sort((one, other) => one.apart - other.apart);
  return best !== undefined && best.apart <= Math.min(MOST_LETTERS_APART, text.length / 2) ? best.name : undefined;
}

/** What a cell of the row holds, with every space. */
function rawText(index: WorkbookIndex, sheet: number, row: number, column: number): string {
  const value = index.valueAt(sheet, row, column);
  return typeof value === "string" || typeof value === "number" ? String(value) : "";
}

const isBegun = ({ row, design, measured }: ListedOutlet) => row.hasReading || design !== null || measured !== null;

interface NamedCell {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly text: string;
  readonly isBegun: boolean;
}

function unknownName(key: NameKey, cell: NamedCell, names: readonly string[]): Draft {
  const like = nearest(cell.text, names);
  const isBlank = cell.text.trim() === "";
  const spaces = like !== undefined && inSmall(like.trim()) === inSmall(cell.text.trim());
  const table = key === "room" ? "rooms" : "systems";
  return {
    kind: key === "room" ? "unknown-room" : "unknown-system",
    severity: isBlank ? "warning" : "error",
    isUnfinished: isBlank,
    sheet: cell.sheet,
    range: oneCell(cell.row, cell.column),
    problem: isBlank
      ? `The row names no ${key}, so its airflow is in the total of none.`
      : `There is no ${key} “${cell.text}” in the table of ${table}, so its airflow is in the total of none.`,
    action: isBlank
      ? `Enter the ${key} as the table of ${table} spells it.`
      : like === undefined
        ? `Spell it as the table of ${table} does, or add it there.`
        : spaces
          ? `Enter “${like}” without other spaces.`
          : `If “${like}” is meant, enter it so; otherwise add the ${key} to the table.`,
  };
}

/** Cells of a key in every list, and of the systems of rooms. */
function namedCells(index: WorkbookIndex, lists: readonly CheckedList[], key: NameKey): readonly NamedCell[] {
  const ofLists = lists.flatMap(({ sheet, list, outlets }) => {
    const column = list.columns.get(key);
    if (column === undefined) return [];
    return outlets.map((outlet): NamedCell => {
      const { row } = outlet.row;
      return { sheet, row, column, text: rawText(index, sheet, row, column), isBegun: isBegun(outlet) };
    });
  });
  if (key === "room") return ofLists;
  const ofRooms = nameTables(index, "rooms").flatMap(({ sheet, columns, names }) => {
    const column = columns.get("system");
    if (column === undefined) return [];
    return names.map(
      ({ row }): NamedCell => ({ sheet, row, column, text: rawText(index, sheet, row, column), isBegun: true }),
    );
  });
  return [...ofLists, ...ofRooms];
}

/** Where no table says how names are spelled: one that differs from a more frequent one in dashes or spaces alone. */
function otherSpellings(key: NameKey, cells: readonly NamedCell[]): readonly Draft[] {
  const named = cells.filter(({ text }) => text.trim() !== "");
  return [...grouped(named, ({ text }) => bare(text)).values()].flatMap((same): readonly Draft[] => {
    const spellings = [...grouped(same, ({ text }) => inSmall(text.trim())).values()].sort(
      (one, other) => other.length - one.length,
    );
    const [usual, ...others] = spellings;
    const like = usual?.[0]?.text.trim();
    if (usual === undefined || like === undefined) return [];
    return others.flat().map((cell) => ({
      kind: key === "room" ? "unknown-room" : "unknown-system",
      severity: "warning" as const,
      sheet: cell.sheet,
      range: oneCell(cell.row, cell.column),
      problem: `The ${key} is “${cell.text.trim()}” here and “${like}” elsewhere: totals take them for two.`,
      action: `If one ${key} is meant, spell it the same in every row.`,
    }));
  });
}

function checkKey(index: WorkbookIndex, lists: readonly CheckedList[], key: NameKey): readonly Draft[] {
  const tables = nameTables(index, key === "room" ? "rooms" : "systems");
  const cells = namedCells(index, lists, key);
  if (tables.length === 0) return otherSpellings(key, cells);
  const names = tables.flatMap((table) => table.names.map(({ text }) => text));
  const known = new Set(names.map(inSmall));
  return cells
    .filter(({ text, isBegun: begun }) => (text.trim() === "" ? begun : !known.has(inSmall(text))))
    .map((cell) => unknownName(key, cell, names));
}

function checkKinds({ sheet, list, outlets }: CheckedList): readonly Draft[] {
  const column = list.columns.get("kind");
  if (column === undefined) return [];
  return outlets.flatMap((outlet): readonly Draft[] => {
    const { kind, kindText, row } = outlet;
    if (kind !== null || (kindText === "" && !isBegun(outlet))) return [];
    const like = nearest(kindText, OUTLET_KINDS);
    return [
      {
        kind: "unknown-kind",
        severity: "error",
        isUnfinished: kindText === "",
        sheet,
        range: oneCell(row.row, column),
        problem:
          kindText === ""
            ? "The row does not say what kind of outlet it is, so its airflow is in no total."
            : `“${kindText}” is not a kind of outlet, so its airflow is in no total.`,
        action:
          kindText !== "" && like !== undefined
            ? `If ${like} is meant, enter it so. The kinds are ${OUTLET_KINDS.join(", ")}.`
            : `Enter one of ${OUTLET_KINDS.join(", ")}.`,
      },
    ];
  });
}

/** Outlets of rooms, systems and kinds that there are not: no total has them. */
export function checkNames(index: WorkbookIndex, lists: readonly CheckedList[]): readonly Draft[] {
  return [
    ...checkKey(index, lists, "room"),
    ...checkKey(index, lists, "system"),
    ...lists.flatMap((list) => checkKinds(list)),
  ];
}
