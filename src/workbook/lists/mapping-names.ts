import { columnLetters, parseRange } from "../../xlsx/address.js";
import { type Finding, findingAt } from "../finding.js";
import type { SourceName } from "../source/index.js";
import {
  type ColumnContent,
  type ColumnMapping,
  type MappedColumn,
  type StatedForRows,
  TITLE_USES,
} from "./column-mapping.js";
import { LIST_COLUMN_KEYS, OUTLET_KINDS, type ReadingHeading, type ReadingState } from "./columns.js";
import { MAPPED_UNIT_NAMES, type MappedUnitName } from "./mapped-unit.js";

/*
 * How a workbook keeps what its columns hold: one hidden name for each, which refers to the cell of its heading.
 *
 *   _vanesheet.list1.width.in               'Floor 1'!$D$6
 *   _vanesheet.list1.readings.now.velocity.fpm.1   'Floor 1'!$F$6:$K$6
 *   _vanesheet.list1.factor.is.0.75         'Floor 1'!$A$6
 *   _vanesheet.list1.factor.at              'Floor 1'!$N$2
 *   _vanesheet.list1.titles.are.system      'Floor 1'!$A$6
 *   _vanesheet.list1.rows                   'Floor 1'!$A$7:$A$46
 *
 * A spreadsheet program moves names with their cells, so that the list is still known after a column was inserted or
 * the sheet renamed; one whose column was deleted is told.
 */

/** With what the name of a mapped column begins. */
export const MAPPING_NAME_PREFIX = "_vanesheet.";

const NAME = /^_vanesheet\.list(\d{1,4})\.(.+)$/;
const FACTOR = /^factor\.is\.(\d+(?:\.\d+)?)$/;
const KIND = /^kind\.is\.([a-z_]+)$/;
const TITLES = /^titles\.are\.([a-z]+)$/;
const READINGS = /^readings\.(now|found|left)\.(velocity|sweep|seconds)\.([a-z0-9]+)\.\d+$/;
const COLUMN = /^([a-z]+)(?:\.([a-z0-9]+))?$/;

const KEYS = new Map(LIST_COLUMN_KEYS.map((key) => [key.toLowerCase(), key] as const));

/** Whether a name belongs to a mapping of columns. */
export const isMappingName = (name: string) => name.toLowerCase().startsWith(MAPPING_NAME_PREFIX);

const unitNamed = (name: string | undefined): MappedUnitName | null =>
  MAPPED_UNIT_NAMES.find((unit) => unit === name) ?? null;

const REFERS_TO = /^=?(?:'((?:[^']|'')+)'|([^'!]+))!(\$?[A-Z]{1,3}\$?\d+(?::\$?[A-Z]{1,3}\$?\d+)?)$/i;

function placeOf(refersTo: string) {
  const [, quoted, plain, range = ""] = REFERS_TO.exec(refersTo.trim()) ?? [];
  const sheet = quoted?.replaceAll("''", "'") ?? plain;
  const cells = parseRange(range.replaceAll("$", ""));
  return sheet === undefined || cells === undefined ? undefined : { sheet, cells };
}

interface ReadName {
  readonly content: ColumnContent | undefined;
  readonly unit: MappedUnitName | null;
  readonly stated: StatedForRows;
  /** Whether it is the block of the outlets' rows, or the cell of a factor, rather than a heading. */
  readonly is: "heading" | "rows" | "factor cell";
}

function readName(what: string): ReadName | undefined {
  const none = { content: undefined, unit: null, stated: {}, is: "heading" as const };
  if (what === "rows") return { ...none, is: "rows" };
  if (what === "factor.at") return { ...none, is: "factor cell" };
  const [, factor] = FACTOR.exec(what) ?? [];
  if (factor !== undefined) return { ...none, stated: { factor: Number(factor) } };
  const [, kind] = KIND.exec(what) ?? [];
  const known = OUTLET_KINDS.find((one) => one === kind?.replaceAll("_", " "));
  if (kind !== undefined) return known === undefined ? undefined : { ...none, stated: { kind: known } };
  const [, titles] = TITLES.exec(what) ?? [];
  const use = TITLE_USES.find((one) => one === titles);
  if (titles !== undefined) return use === undefined ? undefined : { ...none, stated: { titles: use } };
  const [, state, holds, unit] = READINGS.exec(what) ?? [];
  if (state !== undefined && holds !== undefined) {
    const content = { key: "reading", state: state as ReadingState, holds: holds as ReadingHeading["holds"] } as const;
    return { ...none, content, unit: unitNamed(unit) };
  }
  const [, key = "", ofColumn] = COLUMN.exec(what) ?? [];
  const column = KEYS.get(key);
  return column === undefined ? undefined : { ...none, content: { key: column }, unit: unitNamed(ofColumn) };
}

/** Mappings that a workbook keeps, and what is wrong with them. */
export interface KeptMappings {
  readonly value: readonly ColumnMapping[];
  readonly findings: readonly Finding[];
}

interface Draft {
  readonly list: number;
  sheet: string | undefined;
  headerRow: number;
  lastRow: number | null;
  readonly columns: MappedColumn[];
  stated: StatedForRows;
  readonly lost: string[];
}

/** Reads what a workbook keeps of its columns. */
export function mappingsIn(names: readonly SourceName[]): KeptMappings {
  const drafts = new Map<string, Draft>();
  for (const { name, sheet: scope, refersTo } of names) {
    const [, list, what = ""] = NAME.exec(name.toLowerCase()) ?? [];
    const read = list === undefined ? undefined : readName(what);
    if (list === undefined || read === undefined) continue;
    const key = `${scope?.toLowerCase() ?? ""}!${list}`;
    const draft = drafts.get(key) ?? {
      ...{ list: Number(list), sheet: undefined, headerRow: 0, lastRow: null, columns: [], stated: {}, lost: [] },
    };
    drafts.set(key, draft);
    const place = placeOf(refersTo);
    if (place === undefined) {
      draft.lost.push(what.split(".")[0] ?? what);
      continue;
    }
    draft.sheet ??= place.sheet;
    if (place.sheet !== draft.sheet) continue;
    if (read.is === "rows") draft.lastRow = place.cells.lastRow;
    if (read.is === "factor cell") {
      const { firstRow: row, firstColumn: column } = place.cells;
      draft.stated = { ...draft.stated, factorCell: { row, column } };
    }
    if (read.is !== "heading") continue;
    draft.headerRow = Math.max(draft.headerRow, place.cells.firstRow);
    draft.stated = { ...draft.stated, ...read.stated };
    if (read.content === undefined) continue;
    for (let column = place.cells.firstColumn; column <= place.cells.lastColumn; column += 1) {
      draft.columns.push({ ...read.content, column, unit: read.unit });
    }
  }
  const placed = [...drafts.values()].flatMap(({ sheet, ...draft }) =>
    sheet === undefined ? [] : { ...draft, sheet },
  );
  return {
    value: placed.map(({ lost: _, columns, ...mapping }) => ({
      ...mapping,
      columns: [...columns].sort((one, other) => one.column - other.column),
    })),
    findings: placed.flatMap(({ sheet, lost, list }) =>
      lost.map((what) => {
        const problem = `The column that held “${what}” is gone, so it is not read (list ${list} of the workbook).`;
        return findingAt([sheet, ""], "column-gone", "nothing", problem, "Say again what the columns hold.");
      }),
    ),
  };
}

/** Spells a sheet in a reference. */
const quotedName = (sheet: string) => `'${sheet.replaceAll("'", "''")}'`;

/** Columns side by side with the same content, as one run. */
function runsOf(columns: readonly MappedColumn[]): readonly (readonly MappedColumn[])[] {
  const runs: MappedColumn[][] = [];
  for (const one of [...columns].sort((a, b) => a.column - b.column)) {
    const run = runs.at(-1);
    const last = run?.at(-1);
    const goesOn =
      last?.key === "reading" &&
      one.key === "reading" &&
      last.column + 1 === one.column &&
      last.state === one.state &&
      last.holds === one.holds &&
      last.unit === one.unit;
    if (goesOn) run?.push(one);
    else runs.push([one]);
  }
  return runs;
}

/** Returns the hidden names by which a workbook keeps a mapping. */
export function namesOfMapping(mapping: ColumnMapping): readonly SourceName[] {
  const { list, sheet, headerRow, lastRow, columns, stated } = mapping;
  const at = (what: string, firstColumn: number, lastColumn = firstColumn, firstRow = headerRow, last = firstRow) => {
    const first = `$${columnLetters(firstColumn)}$${firstRow}`;
    const range =
      firstColumn === lastColumn && firstRow === last ? first : `${first}:$${columnLetters(lastColumn)}$${last}`;
    return {
      name: `${MAPPING_NAME_PREFIX}list${list}.${what}`,
      sheet: undefined,
      refersTo: `${quotedName(sheet)}!${range}`,
    };
  };
  const first = Math.min(...columns.map(({ column }) => column));
  let runs = 0;
  return [
    ...runsOf(columns).flatMap((run) => {
      const [one, last] = [run[0], run.at(-1)];
      if (one === undefined || last === undefined) return [];
      if (one.key !== "reading") {
        return at(`${one.key.toLowerCase()}${one.unit === null ? "" : `.${one.unit}`}`, one.column);
      }
      runs += 1;
      const unit = one.unit ?? (one.holds === "seconds" ? "s" : "fpm");
      return at(`readings.${one.state}.${one.holds}.${unit}.${runs}`, one.column, last.column);
    }),
    ...(stated.factor === undefined ? [] : [at(`factor.is.${stated.factor}`, first)]),
    ...(stated.factorCell === undefined
      ? []
      : [at("factor.at", stated.factorCell.column, stated.factorCell.column, stated.factorCell.row)]),
    ...(stated.kind === undefined ? [] : [at(`kind.is.${stated.kind.replaceAll(" ", "_")}`, first)]),
    ...(stated.titles === undefined ? [] : [at(`titles.are.${stated.titles}`, first)]),
    ...(lastRow === null ? [] : [at("rows", first, first, headerRow + 1, lastRow)]),
  ];
}
