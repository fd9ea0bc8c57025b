import { jobCell } from "../job-sheet.js";
import { UNITS, unit } from "../plain-formulas.js";
import { type InputRule, listInput, numberInput } from "../plan-parts.js";
import type { ColumnSpec, InputColumn, RowCell } from "../table-block.js";

/** What may give a room its design; each word names the column that holds the airflow. */
export const DESIGN_RULES = {
  larger: "larger share",
  heating: "heating share",
  cooling: "cooling share",
  temperature: "temperature",
  tons: "tons",
  changes: "air changes",
  ventilation: "ventilation",
} as const;

/** What stands in place of the rule where its airflow is not there, or where a design is typed. */
const DESIGN_FROM = { set: "set", missing: "missing" } as const;

const cfm = unit("cfm", "L/s");

function input(key: string, header: string, unitText: string, width: number, rule: InputRule): InputColumn {
  return { kind: "input", key, header, unit: unitText, width, format: "general", style: "input", rule };
}

function airflow(key: string, header: string, formula: (at: RowCell) => string): ColumnSpec {
  return { kind: "result", key, header, unit: cfm, width: 10, format: "oneDecimal", style: "result", formula };
}

export const volumeColumn: InputColumn = {
  kind: "input",
  key: "volume",
  header: "Volume",
  unit: unit("ft³", "m³"),
  width: 9,
  format: "thousands",
  style: "input",
  rule: numberInput("Volume", "Of the room, for air changes; it may stay empty.", 0.1, null),
};

/** The larger of a room's shares by load. */
export function largerShare(at: RowCell): string {
  const shares = `${at("byHeating")},${at("byCooling")}`;
  return `IF(COUNT(${shares})=0,"",MAX(${shares}))`;
}

/** What carries a load at the system's difference of temperature; 0 while one of them is not known. */
function carried(load: string, difference: string): string {
  const call = `VANE.DESIGN.LOAD(${load},${difference},${jobCell("density")},${UNITS})`;
  return `IF(N(${load})*${difference}=0,0,${call})`;
}

/**
 * In the table of rooms: what the rules besides the shares by load need, and what each gives.
 *
 * @param ofSystem - A figure of the room's system
 * @param allCooling - The cooling loads of all rooms on it
 */
export function ruleColumns(
  ofSystem: (at: RowCell, key: string) => string,
  allCooling: (at: RowCell) => string,
): readonly ColumnSpec[] {
  return [
    input(
      "floor",
      "Floor area",
      unit("ft²", "m²"),
      9,
      numberInput("Floor area", "For ventilation by area.", 0.1, null),
    ),
    input(
      "people",
      "People",
      "",
      7,
      numberInput("People", "For ventilation by people: the design occupancy.", 0, 100000),
    ),
    input(
      "perPerson",
      "Air per person",
      cfm,
      8,
      numberInput("Air per person", "The rate for each person that your code asks for this kind of room.", 0, 10000),
    ),
    input(
      "perArea",
      "Air per area",
      unit("cfm/ft²", "L/s/m²"),
      8,
      numberInput("Air per area", "The rate for each ft² or m² that your code asks for this kind of room.", 0, 1000),
    ),
    volumeColumn,
    input(
      "changesWanted",
      "Air changes wanted",
      "per hour",
      8,
      numberInput("Air changes wanted", "How often an hour the air of the room is to change.", 0.01, 1000),
    ),
    airflow("byTemperature", "By temperature", (at) => {
      const heating = carried(at("heating"), ofSystem(at, "heatingDifference"));
      const cooling = carried(at("cooling"), ofSystem(at, "coolingDifference"));
      const known = `N(${at("heating")})*${ofSystem(at, "heatingDifference")}+N(${at("cooling")})*${ofSystem(at, "coolingDifference")}`;
      return `=IF(${known}=0,"",MAX(${heating},${cooling}))`;
    }),
    airflow("byTons", "By tons", (at) => {
      const part = `${at("cooling")}/${allCooling(at)}*${ofSystem(at, "byTons")}`;
      return `=IF(N(${at("cooling")})*${ofSystem(at, "byTons")}=0,"",${part})`;
    }),
    airflow(
      "byChanges",
      "By air changes",
      (at) =>
        `=IF(COUNT(${at("changesWanted")},${at("volume")})<2,"",VANE.DESIGN.CHANGES(${at("changesWanted")},${at("volume")},${UNITS}))`,
    ),
    airflow("byVentilation", "By ventilation", (at) => {
      const [people, area] = [`${at("people")},${at("perPerson")}`, `${at("floor")},${at("perArea")}`];
      const half = `OR(COUNT(${people})=1,COUNT(${area})=1)`;
      const sum = `${at("people")}*${at("perPerson")}+${at("floor")}*${at("perArea")}`;
      return `=IF(OR(COUNT(${people},${area})=0,${half}),"",${sum})`;
    }),
    {
      kind: "input",
      key: "rule",
      header: "Design by",
      unit: "",
      width: 13,
      format: "general",
      style: "inputText",
      rule: listInput(
        "Design by",
        "Which of the airflows beside is the design of the room. Empty: the larger share by load. A design that is set comes first.",
        Object.values(DESIGN_RULES),
      ),
    },
  ];
}

const CHOICES: readonly (readonly [rule: keyof typeof DESIGN_RULES, key: string])[] = [
  ["heating", "byHeating"],
  ["cooling", "byCooling"],
  ["temperature", "byTemperature"],
  ["tons", "byTons"],
  ["changes", "byChanges"],
  ["ventilation", "byVentilation"],
];

/** The design of a room: as set, else by the rule that is chosen for it; empty where that gives nothing. */
export function designByRule(at: RowCell): string {
  const chosen = CHOICES.reduceRight(
    (otherwise, [rule, key]) => `IF(${at("rule")}="${DESIGN_RULES[rule]}",${at(key)},${otherwise})`,
    largerShare(at),
  );
  return `=IF(COUNT(${at("set")})=1,${at("set")},${chosen})`;
}

/** Says which airflow became the design. */
export const designFromColumn: ColumnSpec = {
  kind: "result",
  key: "designFrom",
  header: "Design from",
  unit: "",
  width: 13,
  format: "general",
  style: "resultCenter",
  formula: (at) => {
    const governing = `IF(COUNT(${at("byCooling")})=0,"${DESIGN_RULES.heating}",IF(N(${at("byHeating")})>${at("byCooling")},"${DESIGN_RULES.heating}","${DESIGN_RULES.cooling}"))`;
    const rule = `IF(OR(${at("rule")}="",${at("rule")}="${DESIGN_RULES.larger}"),${governing},${at("rule")})`;
    return `=IF(${at("room")}="","",IF(COUNT(${at("set")})=1,"${DESIGN_FROM.set}",IF(COUNT(${at("design")})=0,"${DESIGN_FROM.missing}",${rule})))`;
  },
};
