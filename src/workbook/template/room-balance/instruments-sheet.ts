import { CALIBRATION, calibrationFormats, jobCell } from "../job-sheet.js";
import { cell, dateInput, type InputRule, textInput } from "../plan-parts.js";
import type { SheetPlan } from "../sheet-plan.js";
import { type ColumnSpec, type InputColumn, type TableSpec, tablePlaces } from "../table-block.js";
import { tableSheet } from "../table-sheet.js";

/** The cell with the day on which calibrations are judged. */
const DAY_CELL = "$B$3";

function input(key: string, header: string, width: number, rule: InputRule): InputColumn {
  return { kind: "input", key, header, unit: "", width, format: "general", style: "inputText", rule };
}

function day(key: string, header: string, message: string): InputColumn {
  return { ...input(key, header, 12, dateInput(header, message)), format: "date" };
}

/** One row per meter: what it is, and whether its calibration holds. */
export function instrumentsTable(name: string): TableSpec {
  const columns: readonly ColumnSpec[] = [
    input("instrument", "Instrument", 14, textInput("Instrument", "A short name, as the outlets call it: VA-1.", 30)),
    input("model", "Kind and model", 30, textInput("Kind and model", "Kind, manufacturer and model of the meter.")),
    input("serial", "Serial number", 16, textInput("Serial number", "As on the meter and on its certificate.")),
    day("calibrated", "Calibrated on", "The date on the calibration certificate."),
    day("due", "Calibration due", "The last day on which its calibration holds."),
    {
      kind: "result",
      key: "state",
      header: "Calibration",
      unit: "",
      width: 18,
      format: "general",
      style: "resultCenter",
      formula: (at) => {
        const late = `AND(COUNT(${at("calibrated")})=1,${at("calibrated")}>${DAY_CELL})`;
        const judged = `IF(${at("due")}<${DAY_CELL},"${CALIBRATION.expired}",IF(${late},"calibrated later","${CALIBRATION.valid}"))`;
        return `=IF(${at("instrument")}="","",IF(COUNT(${at("due")})=0,"${CALIBRATION.unstated}",${judged}))`;
      },
    },
    input("note", "Note", 30, textInput("Note", "Range, probe, certificate number.", 200)),
  ];
  return { name, columns, headerRow: 7, rowCount: 10 };
}

/** The meters of a job: who measured with what, and whether its calibration held. */
export function instrumentsSheet(name: string, table: TableSpec): SheetPlan {
  const date = jobCell("date");
  return tableSheet({
    name,
    title: "Room balance: instruments",
    lead: "One row per meter. A calibration that has expired is said beside it, and by the checks.",
    table,
    verdicts: [],
    above: [
      cell("A3", "Judged on", "label"),
      cell("B3", `=IF(COUNT(${date})=1,${date},TODAY())`, "resultCenter", "date"),
      cell("C3", `=IF(COUNT(${date})=1,"the day measured","today: the sheet Job has no day measured")`, "unitBeside"),
    ],
    formats: [
      ...calibrationFormats(tablePlaces(table).rangeOf("state")),
      { kind: "word", range: tablePlaces(table).rangeOf("state"), word: "calibrated later", style: "low" },
    ],
  });
}
