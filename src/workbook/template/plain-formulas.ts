import { LIMIT_TOLERANCE_RATIO } from "../../core/index.js";
import { jobCell } from "./job-sheet.js";
import type { ConditionalFormatPlan } from "./sheet-plan.js";

/*
 * Plain formulas that every sheet shares. They stand one native step beside the cell functions, so that no cell
 * function ever waits for another: in Excel each further level costs a noticeable pause.
 */

/** The cell that holds "ip" or "si", as the last argument of every cell function that takes sizes. */
export const UNITS = jobCell("units");

/** The word for a unit in the system that the job is measured in. */
export function unit(inchPound: string, metric: string): string {
  return `=IF(${UNITS}="si","${metric}","${inchPound}")`;
}

/** 1 where airflow is area times velocity as it stands, 1000 where m² times m/s must become L/s. */
export const AIRFLOW_SCALE = `IF(${UNITS}="si",1000,1)`;

/** Percent of design; empty until both are there. */
export function percentOfDesign(measured: string, design: string): string {
  return `IF(COUNT(${measured},${design})=2,IF(${design}>0,${measured}/${design}*100,""),"")`;
}

type Conditions = readonly (readonly [range: string, wanted: string])[];

function conditionsText(conditions: Conditions): string {
  return conditions.map(([range, wanted]) => `${range},${wanted}`).join(",");
}

/** True where some of what every condition names has no value: a sum over the others says little of all. */
export function isPartMeasured(values: string, conditions: Conditions): string {
  const where = conditionsText(conditions);
  return `COUNTIFS(${where})>COUNTIFS(${where},${values},">-1E300")`;
}

/** Adds up what was measured where every condition holds; empty where nothing was, because a missing value is no 0. */
export function measuredSum(values: string, conditions: Conditions): string {
  const where = conditionsText(conditions);
  return `IF(COUNTIFS(${where},${values},">-1E300")=0,"",SUMIFS(${values},${where}))`;
}

/**
 * What remains of a sum when others are taken from it; empty while something is missing, because a missing value is no 0.
 *
 * @param missing - Each true while some of what goes into the sums is not there
 */
export function remainder(sum: string, others: readonly string[], missing: readonly string[]): string {
  return `IF(OR(COUNT(${sum})=0,${missing.join(",")}),"",${sum}-SUM(${others.join(",")}))`;
}

export const VERDICTS = { low: "low", within: "within", high: "high" } as const;

/** What stands in place of a verdict while something is missing. */
export const GAPS = { noSize: "no size", noDesign: "no design", noTime: "no time", part: "part measured" } as const;

/** A limit met exactly on paper counts as met, by the tolerance that every comparison with a limit has. */
const TOLERANCE = LIMIT_TOLERANCE_RATIO.toExponential().toUpperCase();

/** The verdict of two numbers that are there; both limits belong to the band, and nothing is rounded. */
export function verdictOf(measured: string, design: string, minus: string, plus: string): string {
  const low = `${measured}<${design}*(1-${minus}/100)*(1-${TOLERANCE})`;
  const high = `${measured}>${design}*(1+${plus}/100)*(1+${TOLERANCE})`;
  return `IF(${low},"${VERDICTS.low}",IF(${high},"${VERDICTS.high}","${VERDICTS.within}"))`;
}

/** The job's limits for an outlet of a kind: outside air has its own. */
export function limitsFor(kind: string): { readonly minus: string; readonly plus: string } {
  const either = (outside: string, other: string) => `IF(${kind}="outside air",${jobCell(outside)},${jobCell(other)})`;
  return { minus: either("outsideMinus", "minus"), plus: either("outsidePlus", "plus") };
}

/** The job's own repeat figure with the count that it comes from, as two arguments. */
export const JOB_REPEAT = `IF(${jobCell("repeatSweeps")}="","",${jobCell("repeatDoubt")}),IF(${jobCell("repeatDoubt")}="","",${jobCell("repeatSweeps")})`;

/** How many points were read and how much they differ, in percent of their average, as two arguments. */
export function pointsOf(readings: string, scale = "100"): string {
  const spread = `IF(COUNT(${readings})>1,IF(AVERAGE(${readings})=0,0,${scale}*STDEV(${readings})/ABS(AVERAGE(${readings}))),0)`;
  return `COUNT(${readings}),${spread}`;
}

/**
 * The ± of an airflow (95 %), in percent: it follows from inputs alone, so that it waits for no airflow.
 *
 * @param isMeasured - True as soon as there is a reading
 * @param points - What `pointsOf` gives; "" for sweeps
 */
export function doubtPercent(
  isMeasured: string,
  factor: string,
  points: string,
  instrument = jobCell("instrumentDoubt"),
): string {
  const arguments_ = [instrument, factor, jobCell("areaDoubt"), JOB_REPEAT, ...(points === "" ? [] : [points])];
  return `IF(${isMeasured},VANE.UNCERTAINTY.AIRFLOW(100,${arguments_.join(",")}),"")`;
}

/** The ± of an airflow in its own unit. */
export function plusMinusOf(airflow: string, percent: string): string {
  return `IF(COUNT(${airflow},${percent})=2,ABS(${airflow})*${percent}/100,"")`;
}

/** The ± of a free-area factor as the cell functions take it: empty where it is assumed, "none" for an open area. */
export function factorDoubt(factor: string): string {
  return `IF(${factor}="","",IF(${factor}=1,"none",${jobCell("factorDoubt")}))`;
}

/** The colours behind the words of a verdict column. */
export function verdictFormats(range: string): readonly ConditionalFormatPlan[] {
  return [
    { kind: "word", range, word: VERDICTS.within, style: "within" },
    { kind: "word", range, word: VERDICTS.low, style: "low" },
    { kind: "word", range, word: VERDICTS.high, style: "high" },
    ...Object.values(GAPS).map((word) => ({ kind: "word" as const, range, word, style: "incomplete" as const })),
  ];
}
