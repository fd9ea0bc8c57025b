import { OLD_READING } from "../../lists/index.js";
import { resultColumn } from "../face-results.js";
import { AIRFLOW_SCALE, unit } from "../plain-formulas.js";
import { numberInput, textInput } from "../plan-parts.js";
import type { FormatName } from "../style.js";
import { type ColumnSpec, type RowCell, type TableSpec, tablePlaces } from "../table-block.js";
import { USUAL_POINTS } from "../template-options.js";
import type { ColumnOf } from "./balance-columns.js";
import { RETEST_CELLS } from "./retest-draw.js";
import { AGREEMENTS, NOT_JUDGED, RETEST_HEADINGS } from "./retest-words.js";

/** Rows of a new sheet: as many as the largest usual share of a hundred outlets; a larger template has more. */
export const RETEST_ROWS = 20;

/** The largest share that specifications usually ask to read again. */
export const RETEST_SHARE = 0.2;

export const RETEST_HEADER_ROW = 17;

/** By so much an airflow moves where it is rounded to a whole number, in the unit of the job. */
const ROUNDING = "0.5*(1+1E-9)";

/** Conditions and their results in order, the first that holds counts. */
function firstOf(steps: readonly (readonly [condition: string, result: string])[], last: string): string {
  return steps.reduceRight((rest, [condition, result]) => `IF(${condition},${result},${rest})`, last);
}

function resultOf(
  key: string,
  header: string,
  unitText: string,
  width: number,
  format: FormatName,
  formula: (at: RowCell) => string,
): ColumnSpec {
  const style = format === "general" ? "resultText" : "result";
  return resultColumn(key, header, unitText, width, format, formula, style);
}

/** What the list of outlets says of the tag that a row of the witness names. */
function lookUp(outlets: ColumnOf, at: RowCell) {
  // Operators alone go through columns in every program; a function within SUMPRODUCT does not.
  const isIt = `(${outlets("outlet")}&""=${at("read")}&"")`;
  return {
    /** How many outlets have the tag. */
    count: `SUMPRODUCT(--${isIt})`,
    /** How many of them have a number in a column. */
    numbers: (key: string) => `SUMPRODUCT(${isIt}*(${outlets(key)}<>""))`,
    /** The number; right where there is one. */
    number: (key: string) => `SUMPRODUCT(--${isIt},${outlets(key)})`,
    isOld: `SUMPRODUCT(${isIt}*(${outlets("age")}="${OLD_READING}"))>0`,
  };
}

/** Whether the row agrees, or why it is not judged; empty for a row that is not begun, or not read yet. */
function agreement(outlets: ColumnOf, at: RowCell, readings: string, own: (key: string) => string): string {
  const { within } = RETEST_CELLS;
  const { count, numbers, number, isOld } = lookUp(outlets, at);
  const [then, witnessed, off] = [at("then"), at("witnessed"), at("off")];
  const inColumn = (key: string) => `SUMPRODUCT(--(${own(key)}&""=${at("read")}&""))`;
  const word = (key: keyof typeof NOT_JUDGED) => `"${NOT_JUDGED[key][0]}"`;
  const verdict = (agrees: string) => `IF(${agrees},"${AGREEMENTS.agrees}","${AGREEMENTS.differs}")`;
  return firstOf(
    [
      [`TRIM(${at("read")})=""`, `IF(COUNTA(${then},${readings})=0,"",${word("noOutlet")})`],
      [`${count}=0`, word("unlisted")],
      [`${count}>1`, word("repeated")],
      [`${inColumn("read")}>1`, word("twice")],
      [`${inColumn("tag")}=0`, word("notDrawn")],
      [`COUNTA(${readings})>COUNT(${readings})`, word("noNumber")],
      [`COUNT(${readings})=0`, '""'],
      [`COUNT(${then})=0`, word("noAirflow")],
      [isOld, word("old")],
      [`${numbers("airflow")}=0`, word("changed")],
      [`ABS(${number("airflow")}-${then})>${ROUNDING}`, word("changed")],
      [`COUNT(${witnessed})=0`, word("noSize")],
      [`COUNT(${off})=0`, verdict(`${witnessed}=0`)],
    ],
    verdict(`ABS(${off})<=${within}*(1+1E-9)`),
  );
}

/** The outlets that the seed draws, as they are now; beside them what was read, which nothing but a person changes. */
function drawnColumns(outlets: ColumnOf): readonly ColumnSpec[] {
  const { seed, wanted } = RETEST_CELLS;
  const drawn = (at: RowCell, key: string) =>
    `INDEX(${outlets(key)},MATCH(SMALL(${outlets("draw")},${at("number")}),${outlets("draw")},0))`;
  const ifDrawn = (at: RowCell, result: string) => `=IF(${at("number")}="","",${result})`;
  const number = `ROW()-ROW($A$${RETEST_HEADER_ROW})`;
  const most = `MIN(N(${wanted}),COUNT(${outlets("draw")}))`;
  return [
    resultOf("number", "No.", "", 5, "whole", () => `=IF(COUNT(${seed})=0,"",IF(${number}<=${most},${number},""))`),
    resultOf("room", "In room", "", 15, "general", (at) => ifDrawn(at, `${drawn(at, "room")}&""`)),
    resultOf("tag", RETEST_HEADINGS.drawn, "outlet", 9, "general", (at) => ifDrawn(at, `${drawn(at, "outlet")}&""`)),
    resultOf("reported", "Reported", unit("cfm", "L/s"), 9, "oneDecimal", (at) => ifDrawn(at, drawn(at, "airflow"))),
  ];
}

/** What a person enters for a row: the outlet, what was reported of it, and the readings. */
function readColumns(points: number, drawnTags: string): readonly ColumnSpec[] {
  const offered = "Copy the drawn outlets and their airflows here, as values, before the first reading.";
  const message = "What the meter shows while the witness watches, at the same places as before.";
  return [
    {
      kind: "input",
      key: "read",
      header: RETEST_HEADINGS.read,
      unit: "outlet",
      width: 9,
      format: "general",
      style: "inputText",
      rule: {
        rule: { kind: "list from", range: drawnTags },
        input: { title: RETEST_HEADINGS.read, message: offered },
        error: {
          title: RETEST_HEADINGS.read,
          message: "This outlet is not drawn now. Its readings are not judged.",
          severity: "advise",
        },
      },
    },
    {
      kind: "input",
      key: "then",
      header: "Reported then",
      unit: unit("cfm", "L/s"),
      width: 9,
      format: "oneDecimal",
      style: "input",
      rule: numberInput("Reported then", "The reported airflow, as the witness saw it.", null, null),
    },
    ...Array.from(
      { length: points },
      (_, index): ColumnSpec => ({
        kind: "input",
        key: `W${index + 1}`,
        header: `${RETEST_HEADINGS.reading}${index + 1}`,
        unit: unit("fpm", "m/s"),
        width: 6,
        format: "general",
        style: "input",
        rule: numberInput("Witnessed reading", message, -20000, 20000),
      }),
    ),
  ];
}

/**
 * The table of a re-test: the outlets drawn, and beside them those that were read. A row of the witness belongs to the
 * outlet that it names, so that no other seed and no sorted list puts its readings beside another.
 *
 * @param outlets - Spells a column of the table of outlets
 * @param points - How many columns for the readings of the witness at one outlet
 * @param isThermal - Whether the outlets have a velocity factor
 */
export function retestTable(name: string, outlets: ColumnOf, points: number, isThermal: boolean): TableSpec {
  const own = (key: string) => tablePlaces(spec).fixedRangeOf(key);
  const readings = (at: RowCell) => `${at("W1")}:${at(`W${points}`)}`;
  const columns = (places: (key: string) => string): readonly ColumnSpec[] => [
    ...drawnColumns(outlets),
    ...readColumns(points, places("tag")),
    // Where the readings fill the page, the results are printed on another, which names the outlets again.
    ...(points > USUAL_POINTS["room-balance"]
      ? [resultOf("again", "Outlet again", "outlet", 9, "general", (at) => `=${at("read")}&""`)]
      : []),
    resultOf("average", "Average", unit("fpm", "m/s"), 8, "oneDecimal", (at) => {
      const counted = `VANE.TRAVERSE.AVERAGE(${readings(at)},COUNT(${readings(at)}))`;
      return `=IF(COUNT(${readings(at)})=0,"",${counted})`;
    }),
    resultOf("witnessed", "Airflow read", unit("cfm", "L/s"), 9, "oneDecimal", (at) => {
      const { count, numbers, number } = lookUp(outlets, at);
      const isKnown = `AND(TRIM(${at("read")})<>"",COUNT(${at("average")})=1,${count}=1,${numbers("free")}=1${isThermal ? `,${numbers("velocityFactor")}=1` : ""})`;
      const factor = isThermal ? `*${number("velocityFactor")}` : "";
      return `=IF(${isKnown},${at("average")}*${number("free")}*${AIRFLOW_SCALE}${factor},"")`;
    }),
    resultOf("off", "Off by", "%", 7, "oneDecimal", (at) => {
      const [one, other] = [at("then"), at("witnessed")];
      return `=IF(COUNT(${one},${other})<2,"",IF(${one}=0,"",(${other}-${one})/ABS(${one})*100))`;
    }),
    {
      ...resultOf(
        "agreement",
        RETEST_HEADINGS.agreement,
        "",
        12,
        "general",
        (at) => `=${agreement(outlets, at, readings(at), own)}`,
      ),
      style: "resultCenter",
    },
    {
      kind: "input",
      key: "remark",
      header: "Remark",
      unit: "",
      width: 14,
      format: "general",
      style: "inputText",
      rule: textInput("Remark", "What explains a difference, or what the witness saw.", 200),
    },
  ];
  const base = { name, headerRow: RETEST_HEADER_ROW, rowCount: RETEST_ROWS };
  // The list that a cell offers is a column of the same table, whose place hangs on no list.
  const unplaced: TableSpec = { ...base, columns: columns(() => "") };
  const spec: TableSpec = { ...base, columns: columns(tablePlaces(unplaced).fixedRangeOf) };
  return spec;
}
