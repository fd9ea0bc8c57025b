import { UNCERTAINTY_DEFAULTS } from "../../../../shared/tables/uncertainty-defaults.js";
import { pascalsFromInchesOfWater, TRAVERSE_RULES } from "../../../core/index.js";
import { jobCell } from "../job-sheet.js";
import {
  AIRFLOW_SCALE,
  doubtPercent,
  JOB_LIMITS,
  percentOfDesign,
  plusMinusOf,
  pointsOf,
  STANDARD_DENSITY,
  UNITS,
  unit,
  verdictByRule,
} from "../plain-formulas.js";
import { type InputRule, listInput, numberInput, textInput, wholeInput } from "../plan-parts.js";
import type { FormatName, StyleName } from "../style.js";
import { BLOCK, CELLS, LINE_NUMBERS, LINES, OVAL_LABEL, POINTS, ROWS, readingColumn } from "./places.js";

/** What a person states about the plane. */
export interface TraverseInput {
  readonly label: string;
  readonly start: string | null;
  readonly unit: string;
  readonly style: StyleName;
  readonly rule: InputRule;
}

/** What follows from the readings. */
export interface TraverseResult {
  readonly label: string;
  readonly unit: string;
  readonly format: FormatName;
  readonly formula: string;
}

function text(label: string, message: string, start: string | null = null): TraverseInput {
  return { label, start, unit: "", style: "inputText", rule: textInput(label, message) };
}

/** A label without what stands behind it in brackets or after a comma: the title of a message is short. */
const titleOf = (label: string) => label.replace(/(?: \(|,).*/, "");

function number(label: string, unitText: string, message: string, minimum: number | null = 0): TraverseInput {
  return {
    label,
    start: null,
    unit: unitText,
    style: "input",
    rule: numberInput(titleOf(label), message, minimum, null),
  };
}

function whole(label: string, message: string, maximum: number): TraverseInput {
  return { label, start: null, unit: "", style: "input", rule: wholeInput(titleOf(label), message, 1, maximum) };
}

const RULES = [...TRAVERSE_RULES, "Method 1"];

/** In columns A and B. */
export const TEXT_INPUTS: readonly TraverseInput[] = [
  text("Fan or unit", "Its number or tag, as on the drawing."),
  text("What the duct serves", "For example: supply main, return of zone 2."),
  text("Traverse location", "So that it can be found again; mark it on the duct as well."),
  {
    ...text("Readings are", "", "velocity"),
    rule: listInput("Readings are", "velocity from an anemometer, or velocity pressure from a Pitot tube.", [
      "velocity",
      "pressure",
    ]),
  },
  {
    ...text("Rule for the points", ""),
    rule: listInput(
      "Rule for the points",
      "Empty: log-Tchebycheff in a rectangular, log-linear in a round duct. log-linear is for round ducts only.",
      RULES,
    ),
  },
  text("Note", "Damper setting, leaks, what was in the way."),
  {
    ...text(OVAL_LABEL, ""),
    rule: listInput(OVAL_LABEL, "yes: the two sizes are its long side, end to end, and its short side.", ["yes", "no"]),
  },
];

const inches = unit("in", "mm");
const feet = unit("ft", "m");

/** In columns C to H. */
export const NUMBER_INPUTS: readonly TraverseInput[] = [
  number("Width that the probe crosses, or diameter", inches, "Inside, with any lining taken off.", 0.5),
  number("Height (empty: round duct)", inches, "Inside, with any lining taken off. Empty for a round duct.", 0.5),
  number("Wall and lining thickness", inches, "Added to every depth."),
  whole("Lines (empty: as usual)", "Holes up the height, or diameters of a round duct.", LINES),
  whole("Points on a line (empty: as usual)", "How many readings on each line.", POINTS),
  number("Straight duct upstream", feet, "From the last bend, damper or branch."),
  number("Straight duct downstream", feet, "To the next bend, damper or branch."),
  number("Static pressure at the location", unit("in.w.c.", "Pa"), "With its sign: suction is negative.", null),
  number("Design airflow", unit("cfm", "L/s"), "What the design asks of this duct."),
  {
    ...number("Pitot coefficient (empty: 1)", "", "Of the tube: empty for a standard one, about 0.84 for a Type S."),
    rule: numberInput("Pitot coefficient", "Of the tube: empty for a standard one, about 0.84 for a Type S.", 0.5, 1.2),
  },
];

const pressure = `${CELLS.kind}="pressure"`;
/** The tube's coefficient; 1 where none is stated. */
const TUBE = `IF(COUNT(${CELLS.coefficient})=1,${CELLS.coefficient},1)`;
const sized = (formula: string) => `=IF(${CELLS.width}="","",${formula})`;
/** Whether the duct is flat oval, and its sides whichever was typed first; the short one is missing without a height. */
export const IS_OVAL = `${CELLS.oval}="yes"`;
export const MAJOR = `MAX(${CELLS.width},${CELLS.height})`;
export const MINOR = `IF(${CELLS.height}="","",MIN(${CELLS.width},${CELLS.height}))`;
/** As many as a rectangle of the two sides has; a probe crosses the short one. */
const points = (part: string) => {
  const counted = (across: string, along: string, rule: string) =>
    `VANE.TRAVERSE.POINTS(${across},${along},${rule},"${part}",${UNITS})`;
  const ofOval = `IF(${CELLS.height}="","",${counted(MINOR, MAJOR, '"equal area"')})`;
  return `IF(${IS_OVAL},${ofOval},${counted(CELLS.width, CELLS.height, CELLS.rule)})`;
};
/** From the typed cells: the block holds empty text between them. A power, since Gnumeric takes no root of a list here. */
const SUM_OF_ROOTS = LINE_NUMBERS.map((line) => {
  const typed = `$${readingColumn(line)}$${ROWS.gridFirst}:$${readingColumn(line)}$${ROWS.gridLast}`;
  return `SUMPRODUCT(((${typed}>0)*${typed})^0.5)`;
}).join("+");
/** Pressure of the average velocity, as its root has it; a negative one counts as 0. */
const MEAN_PRESSURE = `((${SUM_OF_ROOTS})/COUNT(${BLOCK}))^2`;
const { gauge, density: densityDoubt, pitot } = UNCERTAINTY_DEFAULTS;
const ZERO = `IF(${UNITS}="si",${pascalsFromInchesOfWater(gauge.fixedInWg)},${gauge.fixedInWg})`;
/** A gauge errs by half under the root, the more the lower the pressure; with it density by half, and the tube. */
const GAUGE = `100*(1-SQRT(MAX(0,${1 - gauge.ofReadingPercent / 100}-${ZERO}/(${MEAN_PRESSURE}))))`;
const INSTRUMENT = `IF(${pressure},IF(${MEAN_PRESSURE}>0,SQRT((${GAUGE})^2+${densityDoubt.plusMinusPercent / 2}^2+${pitot.plusMinusPercent}^2),100),${jobCell("instrumentDoubt")})`;
const velocities = LINE_NUMBERS.map(
  (line) => `${readingColumn(line)}${ROWS.velocityFirst}:${readingColumn(line)}${ROWS.velocityLast}`,
).join(",");
const STRAIGHT = `(${MAJOR}-${MINOR})`;
const ofOval = `4*(PI()*${MINOR}^2/4+${MINOR}*${STRAIGHT})/(PI()*${MINOR}+2*${STRAIGHT})`;
const hydraulic = `IF(${CELLS.height}="",${CELLS.width},IF(${IS_OVAL},${ofOval},2*${CELLS.width}*${CELLS.height}/(${CELLS.width}+${CELLS.height})))`;
const diameters = (run: string) => `IF(COUNT(${run})=1,TEXT(${run}*IF(${UNITS}="si",1000,12)/${hydraulic},"0.0"),"?")`;

/** In columns J to P. */
export const RESULTS: readonly TraverseResult[] = [
  {
    label: "Lines",
    unit: "",
    format: "whole",
    formula: sized(`IF(${CELLS.lines}<>"",${CELLS.lines},${points("lines")})`),
  },
  {
    label: "Points on a line",
    unit: "",
    format: "whole",
    formula: sized(`IF(${CELLS.points}<>"",${CELLS.points},${points("line")})`),
  },
  {
    label: "Points planned",
    unit: "",
    format: "whole",
    formula: `=IF(COUNT(${CELLS.linesUsed},${CELLS.pointsUsed})=2,${CELLS.linesUsed}*${CELLS.pointsUsed},"")`,
  },
  { label: "Readings taken", unit: "", format: "whole", formula: `=COUNT(${BLOCK})` },
  {
    label: "Area",
    unit: unit("ft²", "m²"),
    format: "fourDecimals",
    formula: sized(
      `IF(${IS_OVAL},VANE.OPENING.OVAL(${MAJOR},${MINOR},${UNITS}),IF(${CELLS.height}="",VANE.OPENING.ROUND(${CELLS.width},${UNITS}),VANE.OPENING.RECT(${CELLS.width},${CELLS.height},${UNITS})))`,
    ),
  },
  {
    label: "Average velocity",
    unit: unit("fpm", "m/s"),
    format: "oneDecimal",
    formula: `=IF(COUNT(${CELLS.asRead})=0,"",${CELLS.asRead}*IF(${pressure},${CELLS.densityRatio}*${TUBE},1))`,
  },
  {
    label: "Airflow",
    unit: unit("cfm", "L/s"),
    format: "oneDecimal",
    formula: `=IF(COUNT(${CELLS.area},${CELLS.velocity})=2,${CELLS.area}*${CELLS.velocity}*${AIRFLOW_SCALE},"")`,
  },
  {
    label: "± (95 %)",
    unit: unit("cfm", "L/s"),
    format: "oneDecimal",
    formula: `=${plusMinusOf(CELLS.airflow, CELLS.doubt)}`,
  },
  {
    label: "Percent of design",
    unit: "%",
    format: "oneDecimal",
    formula: `=${percentOfDesign(CELLS.airflow, CELLS.design)}`,
  },
  {
    label: "Verdict",
    unit: "",
    format: "general",
    formula: `=IF(COUNT(${CELLS.percent})=0,"",${verdictByRule(CELLS.airflow, CELLS.design, CELLS.plusMinus, JOB_LIMITS)})`,
  },
  {
    label: "Design velocity",
    unit: unit("fpm", "m/s"),
    format: "oneDecimal",
    formula: `=IF(COUNT(${CELLS.design},${CELLS.area})=2,${CELLS.design}/${CELLS.area}/${AIRFLOW_SCALE},"")`,
  },
  {
    label: "Airflow as standard air",
    unit: unit("cfm", "L/s"),
    format: "oneDecimal",
    formula: `=IF(COUNT(${CELLS.airflow},${CELLS.density})=2,${CELLS.airflow}*${CELLS.density}/${STANDARD_DENSITY},"")`,
  },
  {
    label: "Spread of the velocities",
    unit: "%",
    format: "oneDecimal",
    formula: `=IF(COUNT(${velocities})<2,"",IF(AVERAGE(${velocities})>0,STDEVP(${velocities})/AVERAGE(${velocities})*100,""))`,
  },
  {
    label: "Straight duct, diameters",
    unit: "",
    format: "general",
    formula: `=IF(OR(${CELLS.width}="",COUNT(${CELLS.before},${CELLS.after})=0),"",${diameters(CELLS.before)}&" before, "&${diameters(CELLS.after)}&" after")`,
  },
];

/** Steps between the readings and the results, beside the print area. */
export const STEPS: readonly TraverseResult[] = [
  {
    label: "Density of the air",
    unit: unit("lb/ft³", "kg/m³"),
    format: "fourDecimals",
    formula: `=IF(COUNT(${jobCell("density")})=0,"",${jobCell("density")})`,
  },
  {
    label: "Root of standard density over density",
    unit: "",
    format: "fourDecimals",
    formula: `=IF(COUNT(${CELLS.density})=0,1,SQRT(${STANDARD_DENSITY}/${CELLS.density}))`,
  },
  {
    label: "Average velocity, pressures as in standard air",
    unit: unit("fpm", "m/s"),
    format: "oneDecimal",
    formula: `=IF(COUNT(${BLOCK})=0,"",IF(${pressure},VANE.TRAVERSE.PRESSURE(${BLOCK},0,COUNT(${BLOCK}),${UNITS}),VANE.TRAVERSE.AVERAGE(${BLOCK},COUNT(${BLOCK}))))`,
  },
  {
    label: "Velocity at a pressure of 1, standard air",
    unit: unit("fpm", "m/s"),
    format: "oneDecimal",
    formula: `=IF(COUNT(${BLOCK})=0,"",VANE.TRAVERSE.PRESSURE(1,0,1,${UNITS}))`,
  },
  {
    label: "± percent (95 %)",
    unit: "%",
    format: "oneDecimal",
    formula: `=${doubtPercent(`COUNT(${BLOCK})>0`, '"none"', pointsOf(BLOCK, `IF(${pressure},50,100)`), INSTRUMENT)}`,
  },
];

/** Says whether the plane suits a traverse, from the readings as they are. */
export const PLANE = `=IF(COUNT(${BLOCK})=0,"",VANE.TRAVERSE.CHECK(${BLOCK},COUNT(${BLOCK}),${CELLS.kind}))`;
