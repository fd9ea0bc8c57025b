import type { Cell, ConditionalRule, DataValidation, MergeRange, SheetChart, WriteSheet } from "hucre";
import type {
  CellContent,
  ChartPlan,
  ConditionalFormatPlan,
  PrintPlan,
  SheetPlan,
  ValidationPlan,
} from "../template/sheet-plan.js";
import { storedFormula } from "../template/stored-formula.js";
import { PALETTE } from "../template/style.js";
import type { CalculatedCell } from "./calculated-values.js";
import { cellStyle, conditionalStyle } from "./cell-style.js";
import { place } from "./place.js";
import { lookCells } from "./plan-rows.js";

function mergeRange(range: string): MergeRange {
  const [first = "", last = ""] = range.split(":");
  const [from, to] = [place(first), place(last)];
  return { startRow: from.row, startCol: from.col, endRow: to.row, endCol: to.col };
}

function validation({ range, rule, input, error }: ValidationPlan): DataValidation {
  const shared = {
    range,
    allowBlank: true,
    showInputMessage: true,
    showErrorMessage: true,
    inputTitle: input.title,
    inputMessage: input.message,
    errorTitle: error.title,
    errorMessage: error.message,
    errorStyle: error.severity === "stop" ? ("stop" as const) : ("warning" as const),
  };
  switch (rule.kind) {
    case "list":
      return { ...shared, type: "list", values: [...rule.values] };
    case "list from":
      return { ...shared, type: "list", formula1: rule.range };
    case "whole number":
      return {
        ...shared,
        type: "whole",
        operator: "between",
        formula1: `${rule.minimum}`,
        formula2: `${rule.maximum}`,
      };
    case "date":
      return { ...shared, type: "date", operator: "greaterThanOrEqual", formula1: "36526" };
    case "text":
      return { ...shared, type: "textLength", operator: "lessThanOrEqual", formula1: `${rule.longest}` };
    case "number":
      return { ...shared, type: "decimal", ...bounds(rule.minimum, rule.maximum) };
  }
}

/** Formulas stay as they are, and everything that only changes the view is allowed. */
const PROTECTION = {
  sheet: true,
  formatCells: true,
  formatColumns: true,
  formatRows: true,
  sort: true,
  autoFilter: true,
  selectLockedCells: true,
  selectUnlockedCells: true,
} as const;

/** Wider than any reading, for a number that nothing bounds: a validation needs a bound to refuse text. */
const UNBOUNDED = "1000000000";

function bounds(minimum: number | null, maximum: number | null) {
  return {
    operator: "between" as const,
    formula1: minimum === null ? `-${UNBOUNDED}` : `${minimum}`,
    formula2: maximum === null ? UNBOUNDED : `${maximum}`,
  };
}

function conditionalRule(plan: ConditionalFormatPlan, index: number): ConditionalRule {
  const shared = { range: plan.range, priority: index + 1 };
  switch (plan.kind) {
    case "word":
      return {
        ...shared,
        type: "cellIs",
        operator: "equal",
        formula: `"${plan.word}"`,
        style: conditionalStyle(plan.style),
      };
    case "formula":
      return { ...shared, type: "expression", formula: plan.formula, style: conditionalStyle(plan.style) };
    case "scale":
      return {
        ...shared,
        type: "colorScale",
        colorScale: {
          cfvo: [{ type: "min" }, { type: "max" }],
          colors: [opaque(plan.lowColor), opaque(plan.highColor)],
        },
      };
  }
}

function chart(plan: ChartPlan): SheetChart {
  return {
    type: "column",
    title: plan.title,
    series: plan.bars.map(({ name, values }) => ({ name, values, categories: plan.categories, color: PALETTE.bar })),
    anchor: { from: place(plan.from), to: place(plan.to) },
    gapWidth: 60,
    legend: "bottom",
    axes: { x: { title: plan.categoryAxisTitle }, y: { title: plan.valueAxisTitle, scale: { min: 0 } } },
    altText: plan.description,
  };
}

function writtenCells(
  plan: SheetPlan,
  entries: Readonly<Record<string, CellContent>>,
  results: ReadonlyMap<string, CalculatedCell>,
): Map<string, Partial<Cell>> {
  const cells = new Map<string, Partial<Cell>>();
  for (const { at, content: planned, style, format, spills } of plan.cells) {
    const content = entries[at] ?? planned;
    const { row, col } = place(at);
    const look = cellStyle(style, format);
    if (typeof content !== "string" || !content.startsWith("=")) {
      cells.set(`${row},${col}`, { value: content, style: look });
      continue;
    }
    const result = results.get(at);
    if (result === undefined) throw new Error(`${plan.name}!${at} was not calculated.`);
    cells.set(`${row},${col}`, {
      formula: storedFormula(content),
      formulaResult: result.value,
      style: look,
      ...(spills ? { formulaType: "array", formulaRef: at, formulaDynamic: true } : {}),
    });
  }
  return cells;
}

/** Returns a sheet as the writer takes it, each formula in its stored spelling beside its calculated value. */
export function writtenSheet(
  plan: SheetPlan,
  entries: Readonly<Record<string, CellContent>>,
  results: ReadonlyMap<string, CalculatedCell>,
): WriteSheet {
  const { print } = plan;
  return {
    name: plan.name,
    cells: new Map([...writtenCells(plan, entries, results), ...lookCells(plan)]),
    columns: plan.columnWidths.map((width) => ({ width })),
    rowDefs: new Map(Object.entries(plan.rowHeights).map(([row, height]) => [Number(row) - 1, { height }])),
    merges: plan.merges.map(mergeRange),
    dataValidations: plan.validations.map(validation),
    conditionalRules: plan.conditionalFormats.map(conditionalRule),
    ...(plan.frozen.rows + plan.frozen.columns === 0 ? {} : { freezePane: { ...plan.frozen } }),
    ...(plan.role === "report" ? {} : { protection: PROTECTION }),
    pageSetup: {
      paperSize: "letter",
      orientation: print.orientation,
      ...pageFit(print),
      margins: { left: 0.4, right: 0.4, top: 0.5, bottom: 0.6, header: 0.3, footer: 0.3 },
      printArea: fixed(print.area),
      ...(print.repeatedRows === null ? {} : { printTitlesRow: fixed(print.repeatedRows) }),
      ...(print.sideBySide?.repeatedColumns == null
        ? {}
        : { printTitlesColumn: fixed(print.sideBySide.repeatedColumns) }),
    },
    rowBreaks: (print.breakBelow ?? []).map((row) => row - 1),
    colBreaks: (print.sideBySide?.breakAfter ?? []).map((column) => place(`${column}1`).col),
    headerFooter: { oddFooter: "&L&A&CPage &P of &N&R&F" },
    view: { showGridLines: false, tabColor: { rgb: plan.tabColor } },
    tables: plan.tables.map(({ name, range, columns }) => ({
      name,
      range,
      columns: columns.map((column) => ({ name: column.name })),
    })),
    charts: plan.charts.map(chart),
  };
}

/** A colour scale stores its colours with their opacity; the writer adds it everywhere but there. */
function opaque(color: string): string {
  return `FF${color}`;
}

/** One page wide, or pages of a fixed scale: fitting to a width would move the breaks. */
function pageFit({ sideBySide, fitToPagesHigh }: PrintPlan) {
  if (sideBySide !== undefined) return { scale: sideBySide.scalePercent };
  return { fitToPage: true, fitToWidth: 1, fitToHeight: fitToPagesHigh ?? 0 };
}

/** `A1:C9` as `$A$1:$C$9`, and `6:7` as `$6:$7`. */
function fixed(range: string): string {
  return range.replaceAll(/[A-Z]+|[0-9]+/g, (part) => `$${part}`);
}
