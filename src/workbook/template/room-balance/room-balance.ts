import { jobLine } from "../job-line.js";
import { JOB_NAMES, jobCell, jobSheet } from "../job-sheet.js";
import { notesSheet } from "../notes-sheet.js";
import { againstFormats, JOB_LIMITS, measuredSum, unit, verdictFormats } from "../plain-formulas.js";
import { cell, EMPTY_SHEET, quotedSheet } from "../plan-parts.js";
import type { ChartPlan, SheetPlan, TemplatePlan } from "../sheet-plan.js";
import { PALETTE } from "../style.js";
import { columnsOfOtherSheet, type TableBlock, type TableSpec, tableBlock, tablePlaces } from "../table-block.js";
import { pageEndColumns, pageLines, tablePrint, tableSheet } from "../table-sheet.js";
import { type BalanceBlock, type TemplateOptions, USUAL_POINTS } from "../template-options.js";
import { type Total, totalsBand } from "../totals-band.js";
import { AREA_WORDS } from "./area-columns.js";
import type { BalanceColumns } from "./balance-columns.js";
import { instrumentsSheet, instrumentsTable } from "./instruments-sheet.js";
import { roomBalanceNotes } from "./notes.js";
import { outletsTable } from "./outlets-table.js";
import { remarksSheet, reportSheet } from "./report-sheets.js";
import { seedCell } from "./retest-draw.js";
import { retestSheet } from "./retest-sheet.js";
import { roomsTable } from "./rooms-table.js";
import { systemsTable } from "./systems-table.js";

/** What the whole job comes to, over the table of outlets. */
function totals(block: TableBlock): readonly Total[] {
  const range = block.fixedRangeOf;
  const count = (word: string): Total => ({
    label: `Outlets ${word}`,
    formula: `=COUNTIF(${range("verdict")},"${word}")`,
    format: "whole",
  });
  const sum = (label: string, key: string, kind: string): Total => ({
    label,
    formula: `=${measuredSum(range(key), [[range("kind"), `"${kind}"`]])}`,
    format: "oneDecimal",
  });
  const supply = `SUMIFS(${range("airflow")},${range("kind")},"supply",${range("design")},">0")`;
  const design = `SUMIFS(${range("design")},${range("kind")},"supply",${range("airflow")},">-1E300")`;
  return [
    { label: "Outlets listed", formula: `=COUNTA(${range("outlet")})`, format: "whole" },
    { label: "Outlets measured", formula: `=COUNT(${range("airflow")})`, format: "whole" },
    count("within"),
    count("low"),
    count("high"),
    count("open"),
    { label: "Open by their ±", formula: `=COUNTIF(${range("decided")},"open")`, format: "whole" },
    sum("Supply design", "design", "supply"),
    sum("Supply measured", "airflow", "supply"),
    {
      label: "Percent, of those measured",
      formula: `=IF(${design}>0,${supply}/${design}*100,"")`,
      format: "oneDecimal",
    },
    sum("Supply as standard air", "standardFlow", "supply"),
    sum("Return measured", "airflow", "return"),
    sum("Exhaust measured", "airflow", "exhaust"),
    sum("Outside air measured", "airflow", "outside air"),
  ];
}

/** What a meter is called that shows standard velocity, unless it corrects itself. */
const THERMAL_WORDS = ["thermal", "thermo-an", "hot-wire", "hot wire", "mass flow", "mass-flow"];

/** Says over the outlets what a thermal meter needs; empty for another. */
function meterLine(isThermal: boolean): string {
  if (isThermal) {
    const density = jobCell("density");
    return `=IF(COUNT(${density})=0,"Enter the air temperature on the sheet Job: without it no reading of a thermal meter becomes an airflow.","For a thermal meter: readings are standard velocity, airflows are actual, by the velocity factor.")`;
  }
  const words = THERMAL_WORDS.map((word) => `ISNUMBER(SEARCH("${word}",${jobCell("instrument")}))`).join(",");
  return `=IF(OR(${words}),"The meter of the job is thermal: set it to actual velocity, or use a room balance with the block thermal.","")`;
}

/** Columns of the outlets after which a printed page may end. */
const SECTIONS = ["design", "age", "velocity", "decided", "foundWith", "leftWith", "change"];

function outletsSheet(name: string, spec: TableSpec, blocks: readonly BalanceBlock[]): SheetPlan {
  const block = tableBlock(spec);
  const band = totalsBand(totals(block), 4, pageEndColumns(spec, SECTIONS));
  return {
    ...EMPTY_SHEET,
    name,
    role: "work",
    columnWidths: block.columnWidths,
    rowHeights: { 1: 26, 4: 28, 5: 20, 8: 42 },
    cells: [
      cell("B1", "Room balance: outlets", "title"),
      cell("B2", meterLine(blocks.includes("thermal")), "label"),
      ...pageLines(spec, "Room balance: outlets", SECTIONS),
      cell("A4", "Whole job", "label"),
      cell("A5", unit("cfm", "L/s"), "lead"),
      ...band.cells,
      ...block.cells,
    ],
    merges: band.merges,
    frozen: { rows: spec.headerRow, columns: 1 },
    tables: [block.table],
    validations: block.validations,
    conditionalFormats: [
      ...verdictFormats(block.rangeOf("verdict")),
      ...verdictFormats(block.rangeOf("decided")),
      { kind: "word", range: block.rangeOf("basis"), word: "assumed", style: "low" },
      ...(blocks.includes("areas")
        ? AREA_WORDS.map((word) => ({ kind: "word", range: block.rangeOf("areaFrom"), word, style: "low" }) as const)
        : []),
    ],
    print: tablePrint(spec, SECTIONS),
  };
}

function chartSheet(name: string, outletsName: string, spec: TableSpec): SheetPlan {
  const outlets = columnsOfOtherSheet(outletsName, spec);
  const firstRow = 30;
  const limits = tablePlaces(spec).lastRow - spec.headerRow;
  const rows = Array.from({ length: limits }, (_, index) => {
    const row = firstRow + index;
    return [
      cell(`A${row}`, `=IF(${JOB_LIMITS.isHalf},NA(),100-${JOB_LIMITS.minus})`, "result", "oneDecimal"),
      cell(`B${row}`, `=IF(${JOB_LIMITS.isHalf},NA(),100+${JOB_LIMITS.plus})`, "result", "oneDecimal"),
    ];
  });
  const last = firstRow + limits - 1;
  const sheet = quotedSheet(name);
  const chart: ChartPlan = {
    title: "Percent of design by outlet",
    categories: outlets("outlet"),
    bars: [{ name: "Measured", values: outlets("percent") }],
    lines: [
      { name: "Lower limit", values: `${sheet}!$A$${firstRow}:$A$${last}` },
      { name: "Upper limit", values: `${sheet}!$B$${firstRow}:$B$${last}` },
    ],
    categoryAxisTitle: "Outlet",
    valueAxisTitle: "Percent of design",
    from: "A4",
    to: "N27",
    description:
      "A bar for each outlet shows its airflow in percent of design, between lines for the lower and upper limit.",
  };
  return {
    ...EMPTY_SHEET,
    name,
    role: "work",
    tabColor: PALETTE.bar,
    columnWidths: [11, 11, ...Array.from({ length: 12 }, () => 10)],
    rowHeights: { 1: 26 },
    cells: [
      cell("A1", "Room balance: percent of design by outlet", "title"),
      cell("A2", jobLine(), "lead"),
      // The chart covers this line.
      cell("A5", "The chart is here, in Excel and other programs that draw it; it stays in the file.", "lead"),
      cell(`A${firstRow - 1}`, "Lower limit", "header"),
      cell(`B${firstRow - 1}`, "Upper limit", "header"),
      ...rows.flat(),
    ],
    charts: [chart],
    print: { orientation: "landscape", area: "A1:N27", repeatedRows: null, fitToPagesHigh: 1 },
  };
}

type SheetNames = Readonly<
  Record<"outlets" | "rooms" | "systems" | "instruments" | "retest" | "remarks" | "chart", string>
>;

/** What the sheets behind a front page hold. */
function contentsOf(names: SheetNames, blocks: readonly BalanceBlock[]): readonly (readonly [string, string])[] {
  return [
    [names.outlets, "Readings and airflow of outlets"],
    [names.rooms, "Loads, design and airflow of rooms"],
    [names.systems, "Airflow and record of each fan"],
    ...(blocks.includes("instruments") ? [[names.instruments, "Meters and their calibration"] as const] : []),
    [names.retest, "Readings before a witness"],
    [names.remarks, "Deficiencies and corrections"],
    [names.chart, "Percent of design by outlet"],
  ];
}

/**
 * The sheets of a room balance: outlets with their readings, rooms with their loads, systems with their fans.
 *
 * @param suffix - Put behind every sheet and table name where a workbook holds a second balance; "" otherwise
 */
export function roomBalance(suffix: string, options: TemplateOptions = {}): TemplatePlan {
  const { points = USUAL_POINTS["room-balance"], blocks = [] } = options;
  const names = {
    outlets: `Outlets${suffix}`,
    rooms: `Rooms${suffix}`,
    systems: `Systems${suffix}`,
    report: `Report${suffix}`,
    remarks: `Remarks${suffix}`,
    instruments: `Instruments${suffix}`,
    retest: `Re-test${suffix}`,
    chart: `Chart${suffix}`,
    notes: `Room balance notes${suffix}`,
  };
  const tableName = (base: string) => `${base}${suffix.trim()}`;
  const hasReport = blocks.includes("report");
  const instruments = blocks.includes("instruments") ? instrumentsTable(tableName("Instruments")) : null;
  const named =
    instruments === null
      ? null
      : { range: columnsOfOtherSheet(names.instruments, instruments)("instrument"), sheet: names.instruments };
  // Each table names columns of the others: where they stand follows from tables that name nothing.
  const nothing: BalanceColumns = { outlets: () => "", rooms: () => "", systems: () => "" };
  const tables = (from: BalanceColumns) => ({
    outlets: outletsTable(
      tableName("Outlets"),
      { ...from, names, instruments: named, seed: seedCell(names.retest) },
      options,
    ),
    rooms: roomsTable(tableName("Rooms"), { ...from, systemsSheet: names.systems }, blocks),
    systems: systemsTable(tableName("Systems"), from, blocks),
  });
  const blank = tables(nothing);
  const from: BalanceColumns = {
    outlets: columnsOfOtherSheet(names.outlets, blank.outlets),
    rooms: columnsOfOtherSheet(names.rooms, blank.rooms),
    systems: columnsOfOtherSheet(names.systems, blank.systems),
  };
  const { outlets, rooms, systems } = tables(from);
  const again = (spec: TableSpec, key: string) => againstFormats(tablePlaces(spec).rangeOf(key));
  return {
    template: "room-balance",
    title: "Room balance",
    description: "Airflow of every outlet from its readings, against design, by room and by system.",
    sheets: [
      jobSheet(),
      ...(hasReport ? [reportSheet(names.report, from, contentsOf(names, blocks))] : []),
      outletsSheet(names.outlets, outlets, blocks),
      tableSheet({
        name: names.rooms,
        title: "Room balance: rooms",
        lead: "Design airflow by share of load, or as set; what the outlets of each room deliver.",
        table: rooms,
        formats: again(rooms, "against"),
        sectionsEndAfter: ["changesWanted", "design", "designFrom", "split", "verdict"],
      }),
      tableSheet({
        name: names.systems,
        title: "Room balance: systems",
        lead: "Supply against return and outside air, and the record of each fan.",
        table: systems,
        formats: [...again(systems, "roomsAgainst"), ...again(systems, "outletsAgainst")],
        sectionsEndAfter: ["verdict", "surplus"],
      }),
      ...(instruments === null ? [] : [instrumentsSheet(names.instruments, instruments)]),
      retestSheet(names.retest, tableName("Retest"), from.outlets, points, blocks.includes("thermal")),
      ...(hasReport ? [remarksSheet(names.remarks, tableName("Remarks"))] : []),
      chartSheet(names.chart, names.outlets, outlets),
      notesSheet(
        names.notes,
        "How to fill a room balance, what it assumes, and what to be careful about.",
        ...roomBalanceNotes(blocks),
      ),
    ],
    names: [...JOB_NAMES],
  };
}
