import { headingOf } from "../../lists/index.js";
import { readingColumns } from "../common-columns.js";
import { resultColumn } from "../face-results.js";
import { percentOfDesign, unit } from "../plain-formulas.js";
import { dateInput, type InputRule, offeredInput, textInput } from "../plan-parts.js";
import type { ColumnSpec, InputColumn, RowCell } from "../table-block.js";

/** Where the meters of a job are named: their column and their sheet; null where the workbook lists none. */
export interface NamedInstruments {
  readonly range: string;
  readonly sheet: string;
}

function text(key: string, header: string, width: number, rule: InputRule): InputColumn {
  return { kind: "input", key, header, unit: "", width, format: "general", style: "inputText", rule };
}

/** What is written down of one visit, beside its readings. */
function record(state: "found" | "left", instruments: NamedInstruments | null): readonly InputColumn[] {
  const [when, message] =
    state === "found" ? ["Found", "before anything was changed"] : ["Left", "after the last change"];
  const meter = `The meter of the readings ${message}.`;
  return [
    text(
      `${state}Damper`,
      `Damper as ${state}`,
      10,
      textInput(`Damper as ${state}`, `Its position ${message}: full open, 40 %, 3 of 8.`, 30),
    ),
    {
      ...text(`${state}Day`, `${when} on`, 11, dateInput(`${when} on`, `The day of the readings ${message}.`)),
      format: "date",
    },
    text(`${state}By`, `${when} by`, 13, textInput(`${when} by`, `Who took the readings ${message}.`)),
    text(
      `${state}With`,
      `${when} with`,
      10,
      instruments === null
        ? textInput(`${when} with`, meter, 40)
        : offeredInput(`${when} with`, meter, instruments.range, instruments.sheet),
    ),
  ];
}

/**
 * In the table of outlets: each as found and as left. The readings as found stand in columns of their own; those of the
 * sheet are as left.
 *
 * @param flowOf - Spells the airflow of a row from its readings
 */
export function visitColumns(
  points: number,
  instruments: NamedInstruments | null,
  flowOf: (at: RowCell, readings: string) => string,
): readonly ColumnSpec[] {
  const found = (at: RowCell) => `${at("B1")}:${at(`B${points}`)}`;
  return [
    ...readingColumns(
      points,
      "B",
      "Reading as found",
      "One velocity before anything was changed. The pane moves the readings of the sheet here once a damper is set.",
    ),
    ...record("found", instruments),
    ...record("left", instruments),
    resultColumn("foundFlow", headingOf("found", "Airflow as found"), unit("cfm", "L/s"), 9, "oneDecimal", (at) =>
      flowOf(at, found(at)),
    ),
    resultColumn(
      "foundPercent",
      headingOf("foundPercent"),
      "%",
      9,
      "oneDecimal",
      (at) => `=${percentOfDesign(at("foundFlow"), at("design"))}`,
    ),
    resultColumn(
      "change",
      "Change in airflow",
      unit("cfm", "L/s"),
      9,
      "signed",
      (at) => `=IF(COUNT(${at("foundFlow")},${at("airflow")})=2,${at("airflow")}-${at("foundFlow")},"")`,
    ),
  ];
}
