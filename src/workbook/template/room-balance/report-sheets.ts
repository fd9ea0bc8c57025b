import { jobCell } from "../job-sheet.js";
import { measuredSum, unit } from "../plain-formulas.js";
import { cell, dateInput, EMPTY_SHEET, type InputRule, listInput, textInput } from "../plan-parts.js";
import type { CellPlan, SheetPlan, ValidationPlan } from "../sheet-plan.js";
import type { InputColumn, TableSpec } from "../table-block.js";
import { tableSheet } from "../table-sheet.js";
import type { BalanceColumns } from "./balance-columns.js";

/** What a front page asks of a person: a label, its cell, and what belongs there. */
type Asked = readonly [label: string, rule: InputRule, isDate?: "date"];

const PARTIES: readonly Asked[] = [
  ["Address", textInput("Address", "Where the building is.", 120)],
  ["Owner", textInput("Owner", "For whom the work was done.")],
  ["Designer", textInput("Designer", "Who designed the systems: firm and person.")],
  ["Contractor", textInput("Contractor", "Who built the systems.")],
  [
    "Balanced by",
    textInput("Balanced by", "The firm that balanced, with its license or certificate where one is asked.", 120),
  ],
  ["Specification", textInput("Specification", "The section of the contract that the work follows.")],
  ["Drawings", textInput("Drawings", "Numbers and dates of the drawings that the designs come from.")],
  [
    "State of report",
    listInput("State of report", "preliminary until it was checked in the field, final then.", [
      "preliminary",
      "final",
    ]),
  ],
  ["Day of report", dateInput("Day of report", "The day on which it is handed over."), "date"],
];

const SIGNERS = ["Measured by", "Checked by", "For the owner"] as const;

const FIRST_ROW = 4;

/** The next free row under a block. */
const after = (row: number, lines: number) => row + lines;

function section(row: number, title: string): readonly CellPlan[] {
  return ["A", "B", "C", "D"].map((column) => cell(`${column}${row}`, column === "A" ? title : null, "section"));
}

/** What the job comes to, label beside value, two of them in a row. */
function summaryCells(row: number, { outlets, rooms, systems }: BalanceColumns): readonly CellPlan[] {
  const counted = (word: string) => `=COUNTIF(${outlets("verdict")},"${word}")`;
  const supply = (key: string) => measuredSum(outlets(key), [[outlets("kind"), '"supply"']]);
  const flows = unit("cfm", "L/s").slice(1);
  const figures: readonly (readonly [label: string, formula: string, format: "whole" | "oneDecimal"])[] = [
    ["Systems, rooms", `=COUNTA(${systems("system")})&", "&COUNTA(${rooms("room")})`, "whole"],
    ["Outlets listed", `=COUNTA(${outlets("outlet")})`, "whole"],
    ["Outlets measured", `=COUNT(${outlets("airflow")})`, "whole"],
    ["Within limits", counted("within"), "whole"],
    ["Low", counted("low"), "whole"],
    ["High", counted("high"), "whole"],
    ["Open", counted("open"), "whole"],
    ["Read again", counted("read again"), "whole"],
    ["Supply by design", `=IF(${supply("design")}="","",ROUND(${supply("design")},0)&" "&${flows})`, "whole"],
    ["Supply measured", `=IF(${supply("airflow")}="","",ROUND(${supply("airflow")},0)&" "&${flows})`, "whole"],
  ];
  return figures.flatMap(([label, formula, format], index) => {
    const at = row + Math.floor(index / 2);
    const [left, right] = index % 2 === 0 ? ["A", "B"] : ["C", "D"];
    return [cell(`${left}${at}`, label, "label"), cell(`${right}${at}`, formula, "resultText", format)];
  });
}

/** The air on the day of the readings and the meter, as the sheet of the job states them. */
function conditionCells(row: number): readonly CellPlan[] {
  const shown: readonly (readonly [label: string, key: string, unitText: string])[] = [
    ["Air temperature", "temperature", unit("°F", "°C").slice(1)],
    ["Relative humidity", "humidity", '"%"'],
    ["Barometer", "barometer", unit("inHg", "kPa").slice(1)],
    ["Elevation", "elevation", unit("ft", "m").slice(1)],
    ["Instrument", "instrument", '""'],
    ["Serial number", "serial", '""'],
    ["Calibration", "calibration", '""'],
    ["Technician", "technician", '""'],
  ];
  return shown.flatMap(([label, key, unitText], index) => {
    const at = row + Math.floor(index / 2);
    const [left, right] = index % 2 === 0 ? ["A", "B"] : ["C", "D"];
    const value = jobCell(key);
    const formula = `=IF(${value}="","not stated",${value}&" "&${unitText})`;
    return [cell(`${left}${at}`, label, "label"), cell(`${right}${at}`, formula, "resultText")];
  });
}

/**
 * The front page of the report: the job and who took part, what it comes to, the air and the meter, what follows, and
 * room for signatures.
 *
 * @param contents - What each of the following sheets holds, by its name
 */
export function reportSheet(
  name: string,
  columns: BalanceColumns,
  contents: readonly (readonly [sheet: string, holds: string])[],
): SheetPlan {
  const job = FIRST_ROW + 1;
  const jobName = `B${job}:D${job}`;
  const asked = PARTIES.map(([label, rule, kind], index) => {
    const at = job + 1 + Math.floor(index / 2);
    const [left, right] = index % 2 === 0 ? ["A", "B"] : ["C", "D"];
    return { label, rule, left: `${left}${at}`, right: `${right}${at}`, format: kind ?? ("general" as const) };
  });
  // The cell beside the last of them, which are nine.
  const lastAsked = job + Math.ceil(PARTIES.length / 2);
  const measured = { left: `C${lastAsked}`, right: `D${lastAsked}` };
  const summary = after(job, 2 + Math.ceil(PARTIES.length / 2));
  const air = after(summary, 6);
  const list = after(air, 5);
  const signed = after(list, 1 + Math.ceil(contents.length / 2));
  const signatures = SIGNERS.flatMap((signer, index) => {
    const row = signed + 1 + index;
    return [
      { at: `B${row}`, title: `${signer}: name`, message: "The name in print, with the firm.", label: signer, row },
      { at: `D${row}`, title: `${signer}: signature`, message: "Sign here on paper, with the day.", label: "", row },
    ];
  });
  const heads = Object.fromEntries([summary, air, list, signed + 1].map((row) => [row - 1, 24]));
  const date = jobCell("date");
  const validations: readonly ValidationPlan[] = [
    ...asked.map(({ right, rule }) => ({ range: right, ...rule })),
    ...signatures.map(({ at, title, message }) => ({ range: at, ...textInput(title, message) })),
  ];
  return {
    ...EMPTY_SHEET,
    name,
    role: "work",
    columnWidths: [20, 40, 20, 40],
    rowHeights: { 1: 26, ...heads, ...Object.fromEntries(SIGNERS.map((_, index) => [signed + 1 + index, 30])) },
    cells: [
      cell("A1", "Report of air balance", "title"),
      cell("A2", "The front page. Fill the shaded cells; the rest comes from the other sheets.", "lead"),
      ...section(FIRST_ROW, "The job"),
      cell(`A${job}`, "Job", "label"),
      cell(`B${job}`, `=${jobCell("id")}&IF(${jobCell("id")}="",""," · ")&${jobCell("jobName")}`, "resultText"),
      cell(`C${job}`, null, "resultText"),
      cell(`D${job}`, null, "resultText"),
      cell(measured.left, "Date measured", "label"),
      cell(measured.right, `=IF(${date}="","not stated",TEXT(${date},"yyyy-mm-dd"))`, "resultText"),
      ...asked.flatMap(({ label, left, right, format }) => [
        cell(left, label, "label"),
        cell(right, null, "inputText", format),
      ]),
      ...section(summary - 1, "Results"),
      ...summaryCells(summary, columns),
      ...section(air - 1, "Air and instrument"),
      ...conditionCells(air),
      ...section(list - 1, "What follows"),
      ...contents.flatMap(([sheet, holds], index) => {
        const at = list + Math.floor(index / 2);
        const [left, right] = index % 2 === 0 ? ["A", "B"] : ["C", "D"];
        return [cell(`${left}${at}`, sheet, "label"), cell(`${right}${at}`, holds, "lead")];
      }),
      ...section(signed, "Signatures"),
      ...signatures.flatMap(({ at, label, row }) => [
        cell(`${at.startsWith("B") ? "A" : "C"}${row}`, label === "" ? "Signature, day" : label, "label"),
        cell(at, null, "inputText"),
      ]),
    ],
    merges: [jobName],
    validations,
    frozen: { rows: 2, columns: 0 },
    print: { orientation: "landscape", area: `A1:D${signed + SIGNERS.length}`, repeatedRows: null, fitToPagesHigh: 1 },
  };
}

function column(key: string, header: string, width: number, rule: InputRule): InputColumn {
  return { kind: "input", key, header, unit: "", width, format: "general", style: "inputWrapped", rule };
}

function remarksTable(name: string): TableSpec {
  const reported = dateInput("Reported on", "The day on which it was reported, a few days after it was found.");
  return {
    name,
    columns: [
      column("where", "Where", 20, textInput("Where", "System, room or outlet.", 60)),
      column(
        "remark",
        "Remark or deficiency",
        54,
        textInput("Remark or deficiency", "What was found, or what a reader must know.", 250),
      ),
      column(
        "correction",
        "Proposed correction",
        40,
        textInput("Proposed correction", "What should be done, and by whom.", 250),
      ),
      { ...column("reported", "Reported on", 13, reported), format: "date" },
      {
        ...column("corrected", "Corrected on", 13, dateInput("Corrected on", "The day on which it was put right.")),
        format: "date",
      },
    ],
    headerRow: 5,
    rowCount: 20,
  };
}

/** The page of remarks: what was found, what should be done, when it was reported. */
export function remarksSheet(name: string, tableName: string): SheetPlan {
  return tableSheet({
    name,
    title: "Room balance: remarks",
    lead: "Deficiencies with their proposed correction, and whatever else a reader must know.",
    table: remarksTable(tableName),
    verdicts: [],
  });
}
