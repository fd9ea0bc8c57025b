import { squareMetersFromSquareFeet, type UnitSystemName } from "../../core/index.js";
import { formatAddress, parseRange } from "../../xlsx/address.js";
import { placeOf, sentencesOf } from "../finding.js";
import type { BlockAddress, InteractiveHost } from "../host.js";
import {
  countingAreaFt2,
  findLists,
  inUnits,
  type ListedOutlet,
  type ListRow,
  listAt,
  type OutletList,
  readListedOutlet,
  rowCell,
  rowFormula,
  rowsOf,
  traversesOn,
} from "../lists/index.js";
import { hostSource, shownText } from "../source/index.js";

/** What the selected row of a list of outlets says of its opening. Null is what it does not say, never 0. */
export interface KnownOpening {
  readonly sheet: string;
  readonly row: number;
  /** The outlet's tag, "" where none stands. */
  readonly name: string;
  /** The units of the row's sizes. */
  readonly units: UnitSystemName;
  /** Null where the row gives no size, or one that cannot be read. */
  readonly shape: "round" | "rectangular" | null;
  /** Width, or the diameter of a round opening; in or mm. */
  readonly width: number | null;
  readonly height: number | null;
  /** Free-area factor. */
  readonly factor: number | null;
  /** What is published as free or effective, and takes no factor; ft² or m², in the units of the job. */
  readonly effectiveArea: number | null;
  /** Whether the sheet says that its factor is given or assumed. */
  readonly factorIs: "given" | "assumed" | null;
  /** What stands in the row and cannot be taken; each names its cell and says what to do. */
  readonly findings: readonly string[];
}

/** Columns of which the opening speaks. */
const OPENING = [
  ...(["width", "height", "size", "diameter", "factor"] as const),
  ...(["area", "freeArea", "effectiveArea"] as const),
] as const;

const AREAS: ReadonlySet<string> = new Set(["area", "freeArea", "effectiveArea"]);

function openingOf(outlet: ListedOutlet): Pick<KnownOpening, "shape" | "width" | "height" | "factor" | "factorIs"> {
  const { width, height, factor } = outlet;
  const isClear = (key: (typeof OPENING)[number]) => !findingsOf(outlet, [key]).length;
  const hasFactor = factor !== null || (outlet.factorIs === "assumed" && isClear("factor"));
  const isSized = (["width", "height", "size", "diameter"] as const).every(isClear);
  return {
    ...(isSized
      ? { shape: height !== null ? "rectangular" : width !== null ? "round" : null, width, height }
      : { shape: null, width: null, height: null }),
    factor,
    factorIs: hasFactor ? outlet.factorIs : null,
  };
}

/** What is wrong with the cells of some columns of the row. */
function findingsOf(
  { list, row, findings }: ListedOutlet,
  keys: readonly (typeof OPENING)[number][],
): readonly string[] {
  const places = new Set(
    keys.flatMap((key) => {
      const column = list.columns.get(key);
      // A calculated area is wrong because a size is: that is said of the size.
      const isCalculated = AREAS.has(key) && rowFormula(list, row.row, key) !== undefined;
      return column === undefined || isCalculated ? [] : [formatAddress(row.row, column)];
    }),
  );
  return findings
    .filter(({ cell }) => places.has(cell))
    .map((finding) => `${placeOf(finding)}: ${sentencesOf(finding)}`);
}

/** What is selected, where a measurement belongs to it: a row of a list of outlets, or a sheet for one traverse. */
export interface SelectedOutlet {
  /** Stays with the outlet while rows are sorted or inserted: the sheet and its tag, or its row where it has none. */
  readonly id: string;
  /** As a person calls it: `S1`, or `row 9`. */
  readonly label: string;
  /** The cell to go back to. */
  readonly cell: BlockAddress;
  /** Null where the sheet does not tell. */
  readonly measured: "duct" | "face" | null;
  /** Null where the row says nothing of its opening. */
  readonly opening: KnownOpening | null;
}

/** An outlet has louvers, and the formulas of its row assume a factor, unless the row says that all of it is free. */
function measuredAt({ factor }: ListedOutlet): "face" | null {
  return factor === 1 ? null : "face";
}

function rowId(list: OutletList, { tag, row }: ListedOutlet, rows: readonly ListRow[]): string {
  const column = list.columns.get("outlet");
  if (tag === "" || column === undefined) return `${list.sheet}!${row.row}`;
  const isOnly = rows.filter((one) => shownText(rowCell(list, one.row, "outlet")).trim() === tag).length === 1;
  return isOnly ? `${list.sheet}!${tag}` : `${list.sheet}!${tag}!${row.row}`;
}

/**
 * Reads what the selection is of: a row of a list of outlets, with what it says of its opening, or a traverse sheet;
 * null elsewhere.
 *
 * @param units - In which the job is measured; a row or a heading that names its own counts more
 */
export async function readSelectedOutlet(host: InteractiveHost, units: UnitSystemName): Promise<SelectedOutlet | null> {
  const selection = await host.selection();
  const selected = parseRange(selection?.range ?? "");
  if (selection === null || selected === undefined) return null;
  const sheets = (await host.sheets()).filter(({ name }) => name === selection.sheet);
  const { firstRow: row } = selected;
  const source = await hostSource(host, sheets);
  const { sheets: sources } = source;
  const list = listAt(findLists(source).value, { row, column: selected.firstColumn });
  if (list === undefined) {
    const isTraverse = traversesOn(sources).length > 0;
    const { sheet } = selection;
    const cell = { sheet, range: formatAddress(row, selected.firstColumn) };
    return isTraverse ? { id: sheet, label: `Sheet “${sheet}”`, cell, measured: "duct", opening: null } : null;
  }
  const rows = [...rowsOf(list)];
  const known = rows.find((one) => one.row === row);
  if (known !== undefined && known.is !== "outlet") return null;
  const listRow = known ?? { row, is: "outlet", isBelowTable: false, hasReading: false, isSum: false, text: "" };
  const outlet = readListedOutlet(list, listRow, units);
  return {
    id: rowId(list, outlet, rows),
    label: outlet.tag === "" ? `Row ${row}` : outlet.tag,
    cell: { sheet: list.sheet, range: formatAddress(row, list.columns.get("outlet") ?? selected.firstColumn) },
    measured: measuredAt(outlet),
    opening: knownOpening(outlet, units),
  };
}

/** The area that the row's average velocity is multiplied by, where no size and factor make it. */
function effectiveAreaOf({ opening }: ListedOutlet, units: UnitSystemName): number | null {
  const isStated = opening.freeArea !== null || (opening.width === null && opening.factor !== null);
  const areaFt2 = isStated ? countingAreaFt2(inUnits(opening, units)) : null;
  return areaFt2 === null || units === "ip" ? areaFt2 : squareMetersFromSquareFeet(areaFt2);
}

/** What the sheet multiplies readings by; what is shown before they are put there does not have it. */
function ofVelocityFactor({ list, opening: { velocityFactor } }: ListedOutlet): readonly string[] {
  if (!list.columns.has("velocityFactor")) return [];
  return [
    velocityFactor === null
      ? "The job states no air temperature: without it this list gives no airflow from a thermal meter."
      : `This list is for a thermal meter: its airflow is ${velocityFactor.toFixed(3)} times the one shown here.`,
  ];
}

function knownOpening(outlet: ListedOutlet, units: UnitSystemName): KnownOpening | null {
  const { list, row, tag } = outlet;
  const opening = openingOf(outlet);
  const findings = [...findingsOf(outlet, OPENING), ...ofVelocityFactor(outlet)];
  const effectiveArea = effectiveAreaOf(outlet, units);
  const isKnown = opening.shape !== null || opening.factorIs !== null || effectiveArea !== null;
  if (!isKnown && findings.length === 0) return null;
  const stated = outlet.unitsOf(list.columns.has("width") ? "width" : "height") ?? units;
  return { sheet: list.sheet, row: row.row, name: tag, units: stated, ...opening, effectiveArea, findings };
}
