import {
  airflow,
  averageVelocity,
  coverageFactor,
  type DesignLimits,
  designVerdict,
  freeAreaOnBasis,
  percentOfDesign,
  pointsUncertainty,
  sampleSpread,
} from "../core/index.js";
import { assumedBudget } from "./assumed-budget.js";
import { missingInput, wrongInput } from "./cell-error.js";
import { asCellError, type CellResult, guard, NOTHING_YET } from "./guard.js";
import { readLimits } from "./read-limits.js";
import { allReadings, asBlock, asSingle, isGiven, readOptional, readReadings } from "./read-range.js";
import { readArea } from "./read-size.js";
import { readUnits, type UnitSystem } from "./unit-system.js";
import { isWrittenSize } from "./written/written-size.js";

type Row = readonly unknown[];

/** The cells of one outlet, wherever each of them is. */
interface OutletCells {
  readonly width: unknown;
  readonly height: unknown;
  readonly factor: unknown;
  readonly design: unknown;
  readonly readings: Row;
  readonly taken: unknown;
}

/** What every row of the sheet shares. */
interface SheetRules {
  readonly system: UnitSystem;
  /** Asked for only where something is judged. */
  readonly limits: () => DesignLimits;
}

const RESULT_COLUMNS = 7;

/** Rows of a whole column: what is empty below the last outlet of one is no result. */
const WHOLE_COLUMN_ROWS = 1_048_576;
const AIRFLOW_COLUMN = 3;

const WIDTH_MISSING =
  "width is missing beside a height. Enter both, or a diameter as width; where the heights come first, give the widths as sizes and the heights as heights.";

/** What an airflow's ± comes from besides its points, by what its factor rests on [%]. */
const EXPANDED_PERCENT = {
  "assumed factor": assumedBudget("assumed", {}).expandedPercent,
  "published factor": assumedBudget("published", {}).expandedPercent,
  open: assumedBudget("open", {}).expandedPercent,
};

/** The ± of an airflow from points over an opening, everything else being assumed [%]. */
function expandedPercent(factor: keyof typeof EXPANDED_PERCENT, readings: readonly number[]): number {
  const { standardPercent, degreesOfFreedom } = pointsUncertainty(readings.length, sampleSpread(readings));
  return Math.hypot(EXPANDED_PERCENT[factor], coverageFactor(degreesOfFreedom) * standardPercent);
}

/**
 * Results of a whole block of outlets in one call, one row per outlet: area, free area, average velocity, airflow, ±, percent of
 * design and verdict. An empty row stays empty, and so does a row of headings.
 *
 * @customfunction SHEET.OUTLETS
 * @param sizes Two columns, width and height; or the column of widths alone, with heights at the end. A row without a height is round [in or mm].
 * @param factor Column of free-area factors; 0.75 is assumed where one is blank [ratio].
 * @param design Column of design airflows; percent and verdict stay empty where one is blank [cfm or L/s].
 * @param readings Block of readings, one row per outlet [fpm or m/s].
 * @param [taken] Column with the COUNT of each row's readings; lets a 0 reading count and a blank be skipped.
 * @param [minus] How far below design is allowed, with plus; both 10 when both are left out, "none" for nothing [%].
 * @param [plus] How far above design is allowed, with minus [%].
 * @param [units] "ip" (in, fpm, cfm) or "si" (mm, m/s, L/s); inch-pound when left out.
 * @param [heights] Column of heights where sizes is the column of widths alone; "round" where sizes holds diameters [in or mm].
 * @returns Seven columns, one row per outlet.
 * @roles factor design readings taken units
 */
export function vaneSheetOutlets(
  sizes: any[][],
  factor: any[][],
  design: any[][],
  readings: any[][],
  taken?: any[][],
  minus?: any,
  plus?: any,
  units?: any,
  heights?: any[][],
): any[][] {
  return guard(() => {
    const rows = asBlock(readings);
    const { widthOf, heightOf } = readSizes(sizes, heights, rows.length);
    const counts = isGivenBlock(taken) ? asBlock(taken) : null;
    const columns = { factor: asBlock(factor), design: asBlock(design), taken: counts ?? rows };
    for (const [name, block] of Object.entries(columns)) requireRows(name, block.length, rows.length);
    let limits: DesignLimits | null = null;
    const rules: SheetRules = {
      system: readUnits(units),
      limits: () => {
        limits ??= readLimits(minus, plus);
        return limits;
      },
    };
    const outletAt = (index: number): OutletCells => ({
      width: widthOf(index),
      height: heightOf(index),
      factor: columns.factor[index]?.[0],
      design: columns.design[index]?.[0],
      readings: rows[index] as Row,
      taken: counts?.[index]?.[0],
    });
    // A large block is gone through row by row: all its outlets at once would take more memory than the results.
    return Array.from({ length: usedRowCount(rows.length, outletAt) }, (_, index) =>
      outletResults(outletAt(index), rules),
    );
  });
}

type ColumnReader = (row: number) => unknown;

/**
 * Says where the width and the height of a row are.
 *
 * @throws {CellError} `#VALUE!` when one column alone leaves open whether its openings are round
 */
function readSizes(
  sizes: unknown,
  heights: unknown,
  rowCount: number,
): { readonly widthOf: ColumnReader; readonly heightOf: ColumnReader } {
  const block = asBlock(sizes);
  requireRows("sizes", block.length, rowCount);
  const columnCount = block[0]?.length ?? 0;
  const widthOf: ColumnReader = (row) => block[row]?.[0];
  if (columnCount > 2) {
    throw wrongInput(
      `sizes has ${columnCount} columns. Give the two columns width and height, or the widths as sizes and the heights as heights.`,
    );
  }
  if (!isGivenBlock(heights)) {
    if (columnCount === 2) return { widthOf, heightOf: (row) => block[row]?.[1] };
    throw wrongInput(
      'sizes is one column, which does not say whether the openings are round. Add the argument heights: the column of heights, or "round" where sizes holds diameters.',
    );
  }
  if (columnCount === 2) throw wrongInput("sizes holds heights already. Leave heights out, or give sizes one column.");
  const single = asSingle(heights);
  if (typeof single === "string" && single.trim().toLowerCase() === "round") return { widthOf, heightOf: () => null };
  const column = asBlock(heights);
  requireRows("heights", column.length, rowCount);
  return { widthOf, heightOf: (row) => column[row]?.[0] };
}

/** How many rows count: without the empty ones below the last outlet of whole columns. */
function usedRowCount(rowCount: number, outletAt: (index: number) => OutletCells): number {
  if (rowCount < WHOLE_COLUMN_ROWS) return rowCount;
  const isUsed = ({ readings, ...cells }: OutletCells) => [...Object.values(cells), ...readings].some(isGiven);
  let used = rowCount;
  while (used > 1 && !isUsed(outletAt(used - 1))) used -= 1;
  return used;
}

/** Whether a row holds words and no number: a heading, its units, a title within the list. */
function isHeading({ width, height, factor, design, readings }: OutletCells): boolean {
  if (typeof width === "number" && width !== 0) return false;
  if (typeof width === "string" && isWrittenSize(width)) return false;
  const given = [width, height, factor, design, ...readings].filter(isGiven);
  return given.length > 0 && given.every((cell) => typeof cell === "string");
}

/** An omitted block reaches some hosts as one blank cell. */
function isGivenBlock(block: unknown): boolean {
  const rows = asBlock(block);
  return rows.length > 1 || isGiven(rows[0]?.[0]);
}

function requireRows(name: string, has: number, needed: number): void {
  if (has !== needed) {
    throw wrongInput(`${name} has ${has} rows, but readings has ${needed}. Give every argument the same rows.`);
  }
}

/** An error takes the place of the airflow, so that one bad row shows where it is and the others stand. */
function outletResults(outlet: OutletCells, rules: SheetRules): CellResult[] {
  const results = new Array<CellResult>(RESULT_COLUMNS).fill(NOTHING_YET);
  if (isHeading(outlet)) return results;
  try {
    fillResults(results, outlet, rules);
  } catch (thrown) {
    results.fill(NOTHING_YET);
    results[AIRFLOW_COLUMN] = asCellError(thrown);
  }
  return results;
}

/** Fills in as many of the seven results as the row allows, from the left. */
function fillResults(
  results: CellResult[],
  { width, height, factor, design, readings, taken }: OutletCells,
  { system, limits }: SheetRules,
): void {
  const read = readReadings("readings", [readings], taken);
  if (read === null && !isGiven(width)) {
    if (isGiven(height)) throw missingInput(WIDTH_MISSING);
    return;
  }
  const areaFt2 = readArea(system, width, height);
  const { freeAreaFt2, freeAreaRatio, basis } = freeAreaOnBasis(areaFt2, readOptional("factor", factor, null), null);
  results[0] = system.fromFt2(areaFt2);
  results[1] = system.fromFt2(freeAreaFt2);
  if (read === null) return;
  const velocities = allReadings(read);
  const velocity = averageVelocity(velocities);
  const flowCfm = airflow(system.toFpm(velocity), freeAreaFt2);
  const doubt = basis === "assumed factor" || freeAreaRatio < 1 ? basis : "open";
  results[2] = velocity;
  results[AIRFLOW_COLUMN] = system.fromCfm(flowCfm);
  const percent = expandedPercent(doubt as keyof typeof EXPANDED_PERCENT, velocities);
  results[4] = system.fromCfm((Math.abs(flowCfm) * percent) / 100);
  const designGiven = readOptional("design", design, null);
  if (designGiven === null) return;
  const designCfm = system.toCfm(designGiven);
  const { minusPercent, plusPercent } = limits();
  results[5] = percentOfDesign(flowCfm, designCfm);
  results[6] = designVerdict(flowCfm, designCfm, minusPercent, plusPercent);
}
