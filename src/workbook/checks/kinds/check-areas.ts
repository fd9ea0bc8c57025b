import { squareFeetFromSquareInches, squareFeetFromSquareMeters } from "../../../core/index.js";
import type { ParsedText } from "../formulas/parse-formula.js";
import {
  argumentOf,
  argumentsOf,
  blockOf,
  callsVane,
  isInSi,
  isOneCell,
  type PlacedCall,
  type PlacedFormula,
  type PlacedRange,
  spellBlock,
  type WorkbookIndex,
} from "../formulas/workbook-index.js";
import { type Draft, grouped, oneCell, shownNumber } from "../support/draft.js";
import { numbersIn } from "../support/readings.js";
import {
  ABSURD_AIRFLOW_TO_DESIGN_RATIO,
  ABSURD_AREA_TO_COLUMN_RATIO,
  AREA_TO_SIZE_RATIO,
  MOST_PLAUSIBLE_AREA_FT2,
  SURELY_PLAUSIBLE_AIRFLOW_TO_DESIGN_RATIO,
  SURELY_PLAUSIBLE_AREA_FT2,
} from "../thresholds.js";

/** One cell that a function takes for an area. */
interface AreaCell {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly value: number;
  readonly isSi: boolean;
  readonly calls: PlacedCall[];
}

interface Evidence {
  readonly problem: string;
  readonly severity: "error" | "warning";
}

function areaCells(index: WorkbookIndex): readonly AreaCell[] {
  const cells = new Map<string, AreaCell>();
  for (const call of index.calls) {
    for (const argument of argumentsOf(call, "area")) {
      const block = blockOf(index, argument, call.formula);
      if (block === undefined) continue;
      for (const { row, column, value } of numbersIn(index, block)) {
        // What our own functions give is in the unit that they say.
        const formula = index.formulaAt(block.sheet, row, column);
        if (formula !== undefined && callsVane(formula)) continue;
        const key = `${block.sheet}!${row},${column}`;
        const known = cells.get(key) ?? {
          sheet: block.sheet,
          row,
          column,
          value,
          isSi: isInSi(index, call),
          calls: [],
        };
        known.calls.push(call);
        cells.set(key, known);
      }
    }
  }
  return [...cells.values()];
}

function single(index: WorkbookIndex, block: PlacedRange | undefined): number | undefined {
  if (block === undefined || !isOneCell(block)) return undefined;
  const value = index.valueAt(block.sheet, block.range.firstRow, block.range.firstColumn);
  return typeof value === "number" && value > 0 ? value : undefined;
}

interface RowSize {
  readonly squareInches: number;
  readonly words: string;
}

/** The whole area of the opening in each row, from its sizes in inches or millimetres, squared. */
function sizesByRow(index: WorkbookIndex): ReadonlyMap<string, RowSize> {
  const sizes = new Map<string, RowSize>();
  for (const call of index.calls) {
    const widthBlock = blockOf(index, argumentOf(call, "width"), call.formula);
    const width = single(index, widthBlock);
    if (widthBlock === undefined || width === undefined) continue;
    const heightBlock = blockOf(index, argumentOf(call, "height"), call.formula);
    const height = single(index, heightBlock);
    const squareInches = height === undefined ? (Math.PI * width ** 2) / 4 : width * height;
    const words =
      height === undefined ? `a diameter of ${shownNumber(width)}` : `${shownNumber(width)} × ${shownNumber(height)}`;
    sizes.set(`${widthBlock.sheet}!${widthBlock.range.firstRow}`, { squareInches, words });
  }
  return sizes;
}

/** A product of two cells and nothing more, such as =B2*C2: a width times a height that nobody divided by 144. */
function plainProduct(index: WorkbookIndex, formula: PlacedFormula | undefined): string | undefined {
  const parsed: ParsedText | undefined = formula && index.parsed(formula);
  if (formula === undefined || parsed === undefined) return undefined;
  const isPlain =
    parsed.operands.length === 2 && parsed.multiplied.length === 2 && !/[/+\-^\d.]/.test(withoutCells(parsed.text));
  if (!isPlain) return undefined;
  const [first, second] = parsed.multiplied.map((operand) => index.resolve(operand, formula));
  if (first === undefined || second === undefined) return undefined;
  return `${spellBlock(index, first, formula.sheet)} × ${spellBlock(index, second, formula.sheet)}`;
}

function withoutCells(text: string): string {
  return text.replace(/'(?:[^']|'')*'!|\w+!|\$?[A-Z]{1,3}\$?\d{1,7}/gi, "");
}

/** Airflow over design where the airflow that follows from an area is set against a design; 0 where it is not. */
function airflowToDesign(index: WorkbookIndex, { calls }: AreaCell, verdicts: ReadonlyMap<string, PlacedCall>): number {
  for (const { call, formula } of calls) {
    if (call.id !== "AIRFLOW") continue;
    const against = verdicts.get(`${formula.sheet}!${formula.row},${formula.column}`);
    const design = against && single(index, blockOf(index, argumentOf(against, "design"), against.formula));
    const airflow = index.valueAt(formula.sheet, formula.row, formula.column);
    if (design !== undefined && typeof airflow === "number") return Math.abs(airflow) / design;
  }
  return 0;
}

/** Calls that set a measured cell against a design, by that cell. */
function comparisons(index: WorkbookIndex): ReadonlyMap<string, PlacedCall> {
  return new Map(
    index.calls.flatMap((call) => {
      const measured = blockOf(index, argumentOf(call, "measured"), call.formula);
      if (measured === undefined || !isOneCell(measured)) return [];
      return [[`${measured.sheet}!${measured.range.firstRow},${measured.range.firstColumn}`, call] as const];
    }),
  );
}

function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor((sorted.length - 1) / 2)] ?? 0;
}

/** Areas in in² where ft² belong, and in mm² where m² belong. */
export function checkAreas(index: WorkbookIndex): readonly Draft[] {
  const cells = areaCells(index);
  const sizes = sizesByRow(index);
  const verdicts = comparisons(index);
  const columns = grouped(cells, ({ sheet, column }) => `${sheet}!${column}`);
  const medians = new Map([...columns].map(([key, areas]) => [key, medianOf(areas.map(({ value }) => value))]));

  function evidence(cell: AreaCell): Evidence | undefined {
    const { sheet, row, column, value, isSi } = cell;
    const [wanted, given] = isSi ? ["m²", "mm²"] : ["ft²", "in²"];
    const area = `The area ${shownNumber(value)}`;
    const size = sizes.get(`${sheet}!${row}`);
    const ratio = size === undefined ? 0 : value / size.squareInches;
    if (size !== undefined && ratio >= AREA_TO_SIZE_RATIO.least && ratio <= AREA_TO_SIZE_RATIO.most) {
      return {
        severity: "error",
        problem: `${area} is what ${size.words} gives in ${given}, but it is taken as ${wanted}.`,
      };
    }
    const areaFt2 = isSi ? squareFeetFromSquareMeters(value) : value;
    if (areaFt2 <= SURELY_PLAUSIBLE_AREA_FT2) return undefined;
    const toDesign = airflowToDesign(index, cell, verdicts);
    if (toDesign > 0 && toDesign < SURELY_PLAUSIBLE_AIRFLOW_TO_DESIGN_RATIO) return undefined;
    const product = plainProduct(index, index.formulaAt(sheet, row, column));
    if (product !== undefined) {
      return {
        severity: "warning",
        problem: `${area} is ${product}, which looks like ${given}, but it is taken as ${wanted}.`,
      };
    }
    if (toDesign >= ABSURD_AIRFLOW_TO_DESIGN_RATIO) {
      return {
        severity: "error",
        problem: `${area} makes the airflow many times its design, as if ${given} were taken as ${wanted}.`,
      };
    }
    const others = medians.get(`${sheet}!${column}`) ?? 0;
    if (others > 0 && value / others >= ABSURD_AREA_TO_COLUMN_RATIO) {
      return {
        severity: "warning",
        problem: `${area} is far above the others of its column (about ${shownNumber(others)}), as ${given} would be.`,
      };
    }
    if (areaFt2 > MOST_PLAUSIBLE_AREA_FT2) {
      return {
        severity: "warning",
        problem: `${area} ${wanted} is larger than any usual opening and looks like ${given}.`,
      };
    }
    return undefined;
  }

  return cells.flatMap((cell) => {
    const found = evidence(cell);
    if (found === undefined) return [];
    const { sheet, row, column, value, isSi } = cell;
    const action = isSi
      ? `Divide by 1,000,000: ${shownNumber(value)} mm² are ${shownNumber(value / 1_000_000)} m²; or use VANE.OPENING.RECT on width and height.`
      : `Divide by 144: ${shownNumber(value)} in² are ${shownNumber(squareFeetFromSquareInches(value))} ft²; or use VANE.OPENING.RECT on width and height.`;
    return [{ kind: "area-in-other-unit", ...found, sheet, range: oneCell(row, column), action }];
  });
}
