import { JOB_NAMES, jobCell, jobSheet } from "../job-sheet.js";
import { measuredSum, unit, verdictFormats } from "../native.js";
import { notesSheet } from "../notes-sheet.js";
import { cell, EMPTY_SHEET, lettersOf, quotedSheet } from "../plan-parts.js";
import type { CellPlan, ChartPlan, SheetPlan, WorkbookPlan } from "../sheet-plan.js";
import { PALETTE } from "../style.js";
import { type TableBlock, type TableSpec, tableBlock, tablePlaces } from "../table-block.js";
import { ROOM_BALANCE_NOTES } from "./notes.js";
import { outletsTable } from "./outlets-table.js";
import { roomsTable } from "./rooms-table.js";
import { systemsTable } from "./systems-table.js";

function abroad(sheet: string, spec: TableSpec): (key: string) => string {
  const places = tablePlaces(spec);
  return (key) => `${quotedSheet(sheet)}!${places.fixedRangeOf(key)}`;
}

/** The line under a title: which job, when, by whom. */
export function jobLine(): string {
  const [id, name, date, technician] = ["id", "jobName", "date", "technician"].map(jobCell);
  return `=${id}&IF(${id}="",""," · ")&${name}&IF(${date}="",""," · "&TEXT(${date},"yyyy-mm-dd"))&IF(${technician}="",""," · "&${technician})`;
}

interface Summary {
  readonly label: string;
  readonly content: string;
  readonly format: CellPlan["format"];
}

/** What the whole job comes to, over the table of outlets. */
function summaries(block: TableBlock): readonly Summary[] {
  const range = block.fixedRangeOf;
  const count = (word: string): Summary => ({
    label: `Outlets ${word}`,
    content: `=COUNTIF(${range("verdict")},"${word}")`,
    format: "whole",
  });
  const sum = (label: string, key: string, kind: string): Summary => ({
    label,
    content: `=${measuredSum(range(key), [[range("kind"), `"${kind}"`]])}`,
    format: "oneDecimal",
  });
  const supply = `SUMIFS(${range("airflow")},${range("kind")},"supply",${range("design")},">0")`;
  const design = `SUMIFS(${range("design")},${range("kind")},"supply",${range("airflow")},">-1E300")`;
  return [
    { label: "Outlets listed", content: `=COUNTA(${range("outlet")})`, format: "whole" },
    { label: "Outlets measured", content: `=COUNT(${range("airflow")})`, format: "whole" },
    count("within"),
    count("low"),
    count("high"),
    sum("Supply design", "design", "supply"),
    sum("Supply measured", "airflow", "supply"),
    {
      label: "Percent, of those measured",
      content: `=IF(${design}>0,${supply}/${design}*100,"")`,
      format: "oneDecimal",
    },
    sum("Return measured", "airflow", "return"),
    sum("Exhaust measured", "airflow", "exhaust"),
    sum("Outside air measured", "airflow", "outside air"),
  ];
}

function outletsSheet(name: string, spec: TableSpec): SheetPlan {
  const block = tableBlock(spec);
  const totals = summaries(block).flatMap(({ label, content, format }, index) => {
    const [first, last] = [2 * index + 2, 2 * index + 3].map(lettersOf);
    return {
      merges: [`${first}4:${last}4`, `${first}5:${last}5`],
      cells: [
        cell(`${first}4`, label, "totalLabel"),
        cell(`${last}4`, null, "totalLabel"),
        cell(`${first}5`, content, "total", format),
        cell(`${last}5`, null, "total", format),
      ],
    };
  });
  return {
    ...EMPTY_SHEET,
    name,
    role: "work",
    columnWidths: block.columnWidths,
    rowHeights: { 1: 26, 4: 28, 5: 20, 8: 42 },
    cells: [
      cell("A1", "Room balance: outlets", "title"),
      cell("A2", jobLine(), "lead"),
      cell("A4", "Whole job", "label"),
      cell("A5", unit("cfm", "L/s"), "lead"),
      ...totals.flatMap((total) => total.cells),
      ...block.cells,
    ],
    merges: totals.flatMap((total) => total.merges),
    frozen: { rows: spec.headerRow, columns: 1 },
    tables: [block.table],
    validations: block.validations,
    conditionalFormats: [
      ...verdictFormats(block.rangeOf("verdict")),
      { kind: "word", range: block.rangeOf("basis"), word: "assumed", style: "low" },
    ],
    print: {
      orientation: "landscape",
      area: `A1:${block.lastColumn}${block.lastRow}`,
      repeatedRows: `${spec.headerRow - 1}:${spec.headerRow}`,
      fitToPagesHigh: null,
    },
  };
}

function tableSheet(name: string, title: string, lead: string, spec: TableSpec): SheetPlan {
  const block = tableBlock(spec);
  return {
    ...EMPTY_SHEET,
    name,
    role: "work",
    columnWidths: block.columnWidths,
    rowHeights: { 1: 26, [spec.headerRow]: 56 },
    cells: [cell("A1", title, "title"), cell("A2", jobLine(), "lead"), cell("A3", lead, "lead"), ...block.cells],
    frozen: { rows: spec.headerRow, columns: 1 },
    tables: [block.table],
    validations: block.validations,
    conditionalFormats: verdictFormats(block.rangeOf("verdict")),
    print: {
      orientation: "landscape",
      area: `A1:${block.lastColumn}${block.lastRow}`,
      repeatedRows: `${spec.headerRow - 1}:${spec.headerRow}`,
      fitToPagesHigh: null,
    },
  };
}

function chartSheet(name: string, outletsName: string, spec: TableSpec): SheetPlan {
  const outlets = abroad(outletsName, spec);
  const firstRow = 30;
  const limits = tablePlaces(spec).lastRow - spec.headerRow;
  const rows = Array.from({ length: limits }, (_, index) => {
    const row = firstRow + index;
    return [
      cell(`A${row}`, `=100-${jobCell("minus")}`, "result", "oneDecimal"),
      cell(`B${row}`, `=100+${jobCell("plus")}`, "result", "oneDecimal"),
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
      cell(`A${firstRow - 1}`, "Lower limit", "header"),
      cell(`B${firstRow - 1}`, "Upper limit", "header"),
      ...rows.flat(),
    ],
    charts: [chart],
    print: { orientation: "landscape", area: "A1:N27", repeatedRows: null, fitToPagesHigh: 1 },
  };
}

/**
 * The sheets of a room balance: outlets with their readings, rooms with their loads, systems with their fans.
 *
 * @param suffix - Put behind every sheet and table name where a workbook holds a second balance; "" otherwise
 */
export function roomBalance(suffix: string): WorkbookPlan {
  const names = {
    outlets: `Outlets${suffix}`,
    rooms: `Rooms${suffix}`,
    systems: `Systems${suffix}`,
    chart: `Chart${suffix}`,
    notes: `Room balance notes${suffix}`,
  };
  const tableName = (base: string) => `${base}${suffix.replaceAll(/[^A-Za-z0-9]/g, "")}`;
  const outletPlaces = (rooms: string, systems: string) =>
    outletsTable(tableName("Outlets"), rooms, systems, names.rooms, names.systems);
  const fromOutlets = abroad(names.outlets, outletPlaces("", ""));
  const systems = systemsTable(tableName("Systems"), fromOutlets);
  const fromSystems = abroad(names.systems, systems);
  const rooms = roomsTable(tableName("Rooms"), {
    outlets: fromOutlets,
    systems: fromSystems,
    systemsSheet: names.systems,
  });
  const outlets = outletPlaces(abroad(names.rooms, rooms)("room"), fromSystems("system"));
  return {
    template: "room-balance",
    title: "Room balance",
    description: "Airflow of every outlet from its readings, against design, by room and by system.",
    sheets: [
      jobSheet(),
      outletsSheet(names.outlets, outlets),
      tableSheet(
        names.rooms,
        "Room balance: rooms",
        "Design airflow by share of load, or as set; what the outlets of each room deliver.",
        rooms,
      ),
      tableSheet(
        names.systems,
        "Room balance: systems",
        "Supply against return and outside air, and the record of each fan.",
        systems,
      ),
      chartSheet(names.chart, names.outlets, outlets),
      notesSheet(
        names.notes,
        "How to fill a room balance, what it assumes, and what to be careful about.",
        ...ROOM_BALANCE_NOTES,
      ),
    ],
    names: [...JOB_NAMES],
  };
}
