import {
  AIRFLOW_SCALE,
  againstText,
  GAPS,
  isPartMeasured,
  JOB_LIMITS,
  measuredSum,
  percentOfDesign,
  plusMinusOfSum,
  remainder,
  unit,
  verdictByRule,
} from "../plain-formulas.js";
import { numberInput, offeredInput, textInput } from "../plan-parts.js";
import type { ColumnSpec, RowCell, TableSpec } from "../table-block.js";
import type { BalanceBlock } from "../template-options.js";
import type { BalanceColumns } from "./balance-columns.js";
import { designByRule, designFromColumn, largerShare, ruleColumns, volumeColumn } from "./rule-columns.js";
import { splitColumn } from "./share-columns.js";

/** Columns of the other tables, and where systems are named. */
export interface RoomSources extends Pick<BalanceColumns, "outlets" | "systems"> {
  readonly systemsSheet: string;
}

const ROOMS = 30;
const HEADER_ROW = 5;
const rowsOf = (letter: string) => `$${letter}$${HEADER_ROW + 1}:$${letter}$${HEADER_ROW + ROOMS}`;
const cfm = unit("cfm", "L/s");
const load = unit("Btu/h", "W");

function loadInput(title: string) {
  return numberInput(title, "Sensible load of the room, from the load calculation. All rooms in one unit.", 0, null);
}

/** A figure of a room's system. */
function ofSystem(at: RowCell, { systems }: RoomSources, key: string): string {
  return `SUMIFS(${systems(key)},${systems("system")},${at("system")})`;
}

/** The loads of all rooms on a room's system. */
function loadsOfSystem(at: RowCell, letter: string): string {
  return `SUMPRODUCT(--(${rowsOf("B")}=${at("system")}),${rowsOf(letter)})`;
}

/** A room's share of its system's airflow by a load. */
function share(at: RowCell, key: string, letter: string, airflow: string): string {
  const all = loadsOfSystem(at, letter);
  return `=IF(COUNT(${at(key)})=0,"",IF(${at(key)}*${airflow}=0,"",VANE.DESIGN.SHARE(${at(key)},${all},${airflow})))`;
}

function ofKind(at: RowCell, outlets: RoomSources["outlets"], kind: string) {
  return [
    [outlets("room"), at("room")],
    [outlets("kind"), `"${kind}"`],
  ] as const;
}

function measured(at: RowCell, outlets: RoomSources["outlets"], kind: string): string {
  return measuredSum(outlets("airflow"), ofKind(at, outlets, kind));
}

/** One row a room: its loads, its share of the system's airflow, and what its outlets deliver. */
export function roomsTable(name: string, sources: RoomSources, blocks: readonly BalanceBlock[]): TableSpec {
  const isSeasonal = blocks.includes("seasons");
  const { outlets } = sources;
  const columns: readonly ColumnSpec[] = [
    {
      kind: "input",
      key: "room",
      header: "Room",
      unit: "",
      width: 18,
      format: "general",
      style: "inputText",
      rule: textInput("Room", "Each room once; the outlets name it in the same spelling.", 40),
    },
    {
      kind: "input",
      key: "system",
      header: "System",
      unit: "",
      width: 10,
      format: "general",
      style: "inputText",
      rule: offeredInput("System", "The fan or unit that serves it.", sources.systems("system"), sources.systemsSheet),
    },
    {
      kind: "input",
      key: "heating",
      header: "Heating load",
      unit: load,
      width: 9,
      format: "thousands",
      style: "input",
      rule: loadInput("Heating load"),
    },
    {
      kind: "input",
      key: "cooling",
      header: "Cooling load",
      unit: load,
      width: 9,
      format: "thousands",
      style: "input",
      rule: loadInput("Cooling load"),
    },
    {
      kind: "result",
      key: "byHeating",
      header: "Share by heating",
      unit: cfm,
      width: 9,
      format: "oneDecimal",
      style: "result",
      formula: (at) => share(at, "heating", "C", ofSystem(at, sources, isSeasonal ? "heatingSupply" : "supplyDesign")),
    },
    {
      kind: "result",
      key: "byCooling",
      header: "Share by cooling",
      unit: cfm,
      width: 9,
      format: "oneDecimal",
      style: "result",
      formula: (at) => share(at, "cooling", "D", ofSystem(at, sources, isSeasonal ? "coolingSupply" : "supplyDesign")),
    },
    ...(isSeasonal
      ? ruleColumns(
          (at, key) => ofSystem(at, sources, key),
          (at) => loadsOfSystem(at, "D"),
        )
      : []),
    {
      kind: "input",
      key: "set",
      header: "Design set",
      unit: cfm,
      width: 9,
      format: "general",
      style: "input",
      rule: numberInput(
        "Design set",
        "The designer's airflow for the room. Empty: the larger share by load is taken.",
        0.01,
        null,
      ),
    },
    {
      kind: "result",
      key: "design",
      header: "Design airflow",
      unit: cfm,
      width: 9,
      format: "oneDecimal",
      style: "result",
      formula: (at) => (isSeasonal ? designByRule(at) : `=IF(COUNT(${at("set")})=1,${at("set")},${largerShare(at)})`),
    },
    ...(isSeasonal ? [designFromColumn] : []),
    ...(blocks.includes("shares") ? [splitColumn] : []),
    {
      kind: "result",
      key: "outletDesign",
      header: "Design of outlets",
      unit: cfm,
      width: 9,
      format: "oneDecimal",
      style: "result",
      formula: (at) => `=IF(${at("room")}="","",${measuredSum(outlets("design"), ofKind(at, outlets, "supply"))})`,
    },
    {
      kind: "result",
      key: "against",
      header: "Outlets against room",
      unit: cfm,
      width: 12,
      format: "general",
      style: "resultCenter",
      formula: (at) => {
        const missing = isPartMeasured(outlets("design"), ofKind(at, outlets, "supply"));
        return `=IF(${at("room")}="","",${againstText(at("outletDesign"), at("design"), missing)})`;
      },
    },
    {
      kind: "result",
      key: "supply",
      header: "Supply measured",
      unit: cfm,
      width: 10,
      format: "oneDecimal",
      style: "result",
      formula: (at) => `=IF(${at("room")}="","",${measured(at, outlets, "supply")})`,
    },
    {
      kind: "result",
      key: "plusMinus",
      header: "± (95 %)",
      unit: cfm,
      width: 8,
      format: "oneDecimal",
      style: "result",
      formula: (at) => `=IF(COUNT(${at("supply")})=0,"",${plusMinusOfSum(outlets, ofKind(at, outlets, "supply"))})`,
    },
    {
      kind: "result",
      key: "percent",
      header: "Percent of design",
      unit: "%",
      width: 9,
      format: "oneDecimal",
      style: "result",
      formula: (at) => `=${percentOfDesign(at("supply"), at("design"))}`,
    },
    {
      kind: "result",
      key: "verdict",
      header: "Verdict",
      unit: "",
      width: 12,
      format: "general",
      style: "resultCenter",
      formula: (at) => {
        const verdict = verdictByRule(at("supply"), at("design"), at("plusMinus"), JOB_LIMITS);
        const isPart = isPartMeasured(outlets("airflow"), ofKind(at, outlets, "supply"));
        return `=IF(COUNT(${at("percent")})=0,"",IF(${isPart},"${GAPS.part}",${verdict}))`;
      },
    },
    {
      kind: "result",
      key: "return",
      header: "Return measured",
      unit: cfm,
      width: 10,
      format: "oneDecimal",
      style: "result",
      formula: (at) => `=IF(${at("room")}="","",${measured(at, outlets, "return")})`,
    },
    {
      kind: "result",
      key: "exhaust",
      header: "Exhaust measured",
      unit: cfm,
      width: 10,
      format: "oneDecimal",
      style: "result",
      formula: (at) => `=IF(${at("room")}="","",${measured(at, outlets, "exhaust")})`,
    },
    {
      kind: "result",
      key: "surplus",
      header: "Supply less return and exhaust",
      unit: cfm,
      width: 11,
      format: "signed",
      style: "result",
      formula: (at) => {
        const missing = ["supply", "return", "exhaust"].map((kind) =>
          isPartMeasured(outlets("airflow"), ofKind(at, outlets, kind)),
        );
        return `=${remainder(at("supply"), [at("return"), at("exhaust")], missing)}`;
      },
    },
    ...(isSeasonal ? [] : [volumeColumn]),
    {
      kind: "result",
      key: "changes",
      header: "Air changes",
      unit: "per hour",
      width: 9,
      format: "oneDecimal",
      style: "result",
      formula: (at) =>
        `=IF(COUNT(${at("supply")},${at("volume")})=2,${at("supply")}*IF(${AIRFLOW_SCALE}=1000,3.6,60)/${at("volume")},"")`,
    },
    {
      kind: "input",
      key: "note",
      header: "Note",
      unit: "",
      width: 24,
      format: "general",
      style: "inputText",
      rule: textInput("Note", "What explains a low or a high room.", 200),
    },
  ];
  return { name, columns, headerRow: HEADER_ROW, rowCount: ROOMS };
}
