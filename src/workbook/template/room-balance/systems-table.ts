import {
  againstText,
  asStandardAir,
  GAPS,
  isPartMeasured,
  JOB_LIMITS,
  measuredSum,
  percentOfDesign,
  plusMinusOfSum,
  remainder,
  UNITS,
  unit,
  verdictByRule,
} from "../plain-formulas.js";
import { type InputRule, numberInput, textInput, wholeInput } from "../plan-parts.js";
import type { ColumnSpec, RowCell, TableSpec } from "../table-block.js";
import type { BalanceBlock } from "../template-options.js";
import type { BalanceColumns } from "./balance-columns.js";

const cfm = unit("cfm", "L/s");
const pressure = unit("in.w.c.", "Pa");

function input(key: string, header: string, unitText: string, width: number, rule: InputRule): ColumnSpec {
  const style = rule.rule.kind === "text" ? "inputText" : "input";
  return { kind: "input", key, header, unit: unitText, width, format: "general", style, rule };
}

function flow(key: string, header: string, message: string): ColumnSpec {
  return input(key, header, cfm, 10, numberInput(header, message, 0, null));
}

function pressureInput(key: string, header: string, message: string): ColumnSpec {
  return input(key, header, pressure, 11, numberInput(header, message, -10000, 10000));
}

/** What a system moves in each season, and what the rules for its rooms need; the larger airflow is the fan's design. */
function seasonColumns(): readonly ColumnSpec[] {
  const difference = (key: string, header: string, season: string) =>
    input(
      key,
      header,
      unit("°F", "°C"),
      9,
      numberInput(header, `Supply air against room air when the system ${season}, without a sign.`, 0.1, 150),
    );
  return [
    flow("heatingSupply", "Heating supply", "Supply airflow when the system heats. Heating loads share it."),
    flow("coolingSupply", "Cooling supply", "Supply airflow when the system cools. Cooling loads share it."),
    {
      kind: "result",
      key: "supplyDesign",
      header: "Supply design",
      unit: cfm,
      width: 10,
      format: "oneDecimal",
      style: "result",
      formula: (at) => {
        const [heating, cooling] = [at("heatingSupply"), at("coolingSupply")];
        return `=IF(COUNT(${heating},${cooling})=0,"",MAX(${heating},${cooling}))`;
      },
    },
    difference("heatingDifference", "Heating ΔT", "heats"),
    difference("coolingDifference", "Cooling ΔT", "cools"),
    input(
      "capacity",
      "Cooling capacity",
      unit("tons", "kW"),
      9,
      numberInput("Cooling capacity", "Of the equipment, for rooms that get their design by tons.", 0.01, null),
    ),
    input(
      "perTon",
      "Airflow per ton",
      unit("cfm/ton", "L/s/kW"),
      9,
      numberInput(
        "Airflow per ton or kW",
        "From the equipment's instructions. Empty: 400 cfm per ton, the federal test rule.",
        1,
        1000,
      ),
    ),
    {
      kind: "result",
      key: "byTons",
      header: "Airflow by tons",
      unit: cfm,
      width: 10,
      format: "oneDecimal",
      style: "result",
      formula: (at) =>
        `=IF(COUNT(${at("capacity")})=0,"",VANE.DESIGN.TONS(${at("capacity")},${at("perTon")},${UNITS}))`,
    },
  ];
}

/** One row a fan or unit: its airflows from the outlets, and the record of the fan. */
export function systemsTable(
  name: string,
  { outlets, rooms }: Pick<BalanceColumns, "outlets" | "rooms">,
  blocks: readonly BalanceBlock[],
): TableSpec {
  const ofKind = (at: RowCell, kind: string) =>
    [
      [outlets("system"), at("system")],
      [outlets("kind"), `"${kind}"`],
    ] as const;
  const sum = (at: RowCell, key: string, kind: string) => measuredSum(outlets(key), ofKind(at, kind));
  const result = (key: string, header: string, formula: (at: RowCell) => string): ColumnSpec => ({
    kind: "result",
    key,
    header,
    unit: cfm,
    width: 10,
    format: "oneDecimal",
    style: "result",
    formula: (at) => `=IF(${at("system")}="","",${formula(at)})`,
  });
  const inSystem = (at: RowCell) => [[rooms("system"), at("system")]] as const;
  const against = (key: string, header: string, formula: (at: RowCell) => string): ColumnSpec => ({
    ...result(key, header, formula),
    unit: cfm,
    width: 12,
    format: "general",
    style: "resultCenter",
  });
  const columns: readonly ColumnSpec[] = [
    input(
      "system",
      "System",
      "",
      10,
      textInput("System", "Each fan or unit once; outlets and rooms name it in the same spelling.", 30),
    ),
    input("location", "Location", "", 14, textInput("Location", "Where the fan or unit is.")),
    input("make", "Make and model", "", 16, textInput("Make and model", "From the name plate.")),
    ...(blocks.includes("seasons")
      ? seasonColumns()
      : [
          flow(
            "supplyDesign",
            "Supply design",
            "The fan's supply airflow as specified. It is shared out among the rooms by load.",
          ),
        ]),
    result("roomDesign", "Design of rooms", (at) => measuredSum(rooms("design"), inSystem(at))),
    against("roomsAgainst", "Rooms against fan", (at) => {
      const missing = isPartMeasured(rooms("design"), inSystem(at));
      return againstText(at("roomDesign"), at("supplyDesign"), missing);
    }),
    result("outletDesign", "Design of outlets", (at) => sum(at, "design", "supply")),
    against("outletsAgainst", "Outlets against fan", (at) => {
      const missing = isPartMeasured(outlets("design"), ofKind(at, "supply"));
      return againstText(at("outletDesign"), at("supplyDesign"), missing);
    }),
    result("supply", "Supply measured", (at) => sum(at, "airflow", "supply")),
    {
      ...result("plusMinus", "± (95 %)", (at) => {
        return `IF(COUNT(${at("supply")})=0,"",${plusMinusOfSum(outlets, ofKind(at, "supply"))})`;
      }),
      width: 8,
    },
    result("standardSupply", "Supply as standard air", (at) => asStandardAir(at("supply"))),
    {
      kind: "result",
      key: "percent",
      header: "Percent of design",
      unit: "%",
      width: 9,
      format: "oneDecimal",
      style: "result",
      formula: (at) => `=${percentOfDesign(at("supply"), at("supplyDesign"))}`,
    },
    {
      kind: "result",
      key: "verdict",
      header: "Verdict",
      unit: "",
      width: 13,
      format: "general",
      style: "resultCenter",
      formula: (at) => {
        const verdict = verdictByRule(at("supply"), at("supplyDesign"), at("plusMinus"), JOB_LIMITS);
        const isPart = isPartMeasured(outlets("airflow"), ofKind(at, "supply"));
        return `=IF(COUNT(${at("percent")})=0,"",IF(${isPart},"${GAPS.part}",${verdict}))`;
      },
    },
    flow("returnDesign", "Return design", "The return airflow as specified."),
    result("return", "Return measured", (at) => sum(at, "airflow", "return")),
    flow("outsideDesign", "Outside air design", "The outside air as specified."),
    result("outside", "Outside air measured", (at) => sum(at, "airflow", "outside air")),
    result("exhaust", "Exhaust measured", (at) => sum(at, "airflow", "exhaust")),
    {
      ...result("surplus", "Supply less return and outside air", (at) =>
        remainder(
          at("supply"),
          [at("return"), at("outside")],
          [
            `COUNT(${at("return")},${at("outside")})=0`,
            ...["supply", "return", "outside air"].map((kind) => isPartMeasured(outlets("airflow"), ofKind(at, kind))),
          ],
        ),
      ),
      format: "signed",
      width: 11,
    },
    pressureInput("staticDesign", "External static, design", "As specified."),
    pressureInput("static", "External static, measured", "With filters and coils as found."),
    pressureInput("inlet", "Inlet pressure", "Static pressure at the fan inlet, with its sign."),
    pressureInput("discharge", "Discharge pressure", "Static pressure at the fan discharge."),
    input("speed", "Fan speed", "rpm", 8, numberInput("Fan speed", "Measured, in turns a minute.", 0, 20000)),
    input("power", "Motor power", unit("hp", "kW"), 8, numberInput("Motor power", "From the name plate.", 0, 10000)),
    input("phase", "Phase", "", 7, wholeInput("Phase", "1 or 3.", 1, 3)),
    input("volts", "Volts", "V", 7, numberInput("Volts", "Measured by a qualified person.", 0, 1000)),
    input(
      "amps",
      "Amps",
      "A",
      7,
      numberInput("Amps", "Measured by a qualified person, to compare with the name plate.", 0, 5000),
    ),
    input("note", "Note", "", 22, textInput("Note", "Belt, drive, filters, damper settings, deficiencies.", 200)),
  ];
  return { name, columns, headerRow: 5, rowCount: 8 };
}
