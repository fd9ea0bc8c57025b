import { DESIGN_LIMITS } from "../../shared/tables/design-limits.js";
import { airflow, designVerdict, freeAreaOnBasis, percentOfDesign } from "../core/index.js";
import { assumedBudget } from "./assumed-budget.js";
import { missingInput, wrongInput } from "./cell-error.js";
import { asCellError, type CellResult, guard, NOTHING_YET } from "./guard.js";
import { asBlock, isGiven, readMean, readOptional, readOptionalZero } from "./read-range.js";
import { readArea } from "./read-size.js";
import { readUnits, type UnitSystem } from "./unit-system.js";

type Row = readonly unknown[];

/** What every row of the sheet shares. */
interface SheetRules {
  readonly system: UnitSystem;
  readonly minusPercent: number;
  readonly plusPercent: number;
}

const RESULT_COLUMNS = 7;
const AIRFLOW_COLUMN = 3;

/** The ± of an airflow by what its factor rests on, everything else being assumed [%]. */
const DOUBT_PERCENT = {
  "assumed factor": assumedBudget("assumed").expandedPercent,
  "published factor": assumedBudget("published").expandedPercent,
  open: assumedBudget("open").expandedPercent,
};

/**
 * Results of a whole block of outlets in one call, a row each: area, free area, mean velocity, airflow, ±, percent of
 * design and verdict. A row in which nothing stands stays empty.
 *
 * @customfunction SHEET.OUTLETS
 * @param sizes Two columns: width and height; a row without a height is round [in or mm].
 * @param factor Column of free-area factors; 0.75 is assumed where one is blank [ratio].
 * @param design Column of design airflows; percent and verdict stay empty where one is blank [cfm or L/s].
 * @param readings Block of readings, a row an outlet [fpm or m/s].
 * @param [taken] Column with the COUNT of each row's readings, so that a measured 0 is told from a blank cell.
 * @param [minus] How far below design is allowed; 10 when left out [%].
 * @param [plus] How far above design is allowed; 10 when left out [%].
 * @param [units] "ip" (in, fpm, cfm) or "si" (mm, m/s, L/s); inch-pound when left out.
 * @returns Seven columns, a row an outlet.
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
): any[][] {
  return guard(() => {
    const rows = asBlock(readings);
    const counts = isGivenBlock(taken) ? asBlock(taken) : null;
    const columns = { sizes: asBlock(sizes), factor: asBlock(factor), design: asBlock(design), taken: counts ?? rows };
    for (const [name, block] of Object.entries(columns)) requireRows(name, block.length, rows.length);
    const rules = {
      system: readUnits(units),
      minusPercent: readOptionalZero("minus", minus, DESIGN_LIMITS.minusPercent),
      plusPercent: readOptionalZero("plus", plus, DESIGN_LIMITS.plusPercent),
    };
    return rows.map((row, index) =>
      outletResults(
        columns.sizes[index] as Row,
        columns.factor[index]?.[0],
        columns.design[index]?.[0],
        row,
        counts?.[index]?.[0],
        rules,
      ),
    );
  });
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
function outletResults(
  size: Row,
  factor: unknown,
  design: unknown,
  readings: Row,
  taken: unknown,
  rules: SheetRules,
): CellResult[] {
  const results = new Array<CellResult>(RESULT_COLUMNS).fill(NOTHING_YET);
  try {
    fillResults(results, size, factor, design, readings, taken, rules);
  } catch (thrown) {
    results.fill(NOTHING_YET);
    results[AIRFLOW_COLUMN] = asCellError(thrown);
  }
  return results;
}

/** Fills in as many of the seven results as the row allows, from the left. */
function fillResults(
  results: CellResult[],
  [width, height]: Row,
  factor: unknown,
  design: unknown,
  readings: Row,
  taken: unknown,
  { system, minusPercent, plusPercent }: SheetRules,
): void {
  const velocity = readMean("readings", [readings], taken);
  if (velocity === null && !isGiven(width)) {
    if (isGiven(height)) throw missingInput("width is missing beside a height. Enter both, or a diameter as width.");
    return;
  }
  const areaFt2 = readArea(system, width, height);
  const { freeAreaFt2, freeAreaRatio, basis } = freeAreaOnBasis(areaFt2, readOptional("factor", factor, null), null);
  results[0] = system.fromFt2(areaFt2);
  results[1] = system.fromFt2(freeAreaFt2);
  if (velocity === null) return;
  const flowCfm = airflow(system.toFpm(velocity), freeAreaFt2);
  const doubt = basis === "assumed factor" || freeAreaRatio < 1 ? basis : "open";
  results[2] = velocity;
  results[AIRFLOW_COLUMN] = system.fromCfm(flowCfm);
  results[4] = system.fromCfm((Math.abs(flowCfm) * DOUBT_PERCENT[doubt as keyof typeof DOUBT_PERCENT]) / 100);
  const designGiven = readOptional("design", design, null);
  if (designGiven === null) return;
  const designCfm = system.toCfm(designGiven);
  results[5] = percentOfDesign(flowCfm, designCfm);
  results[6] = designVerdict(flowCfm, designCfm, minusPercent, plusPercent);
}
