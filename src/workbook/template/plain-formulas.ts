import { DESIGN_LIMITS, OUTSIDE_AIR_LIMITS } from "../../../shared/tables/design-limits.js";
import { STANDARD_AIR } from "../../../shared/tables/standard-air.js";
import { UNCERTAINTY_DEFAULTS } from "../../../shared/tables/uncertainty-defaults.js";
import { type DesignLimits, kgM3FromLbFt3, LIMIT_TOLERANCE_RATIO } from "../../core/index.js";
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

/** The density of standard air in the system that the job is measured in. */
export const STANDARD_DENSITY = `IF(${UNITS}="si",${kgM3FromLbFt3(STANDARD_AIR.densityLbFt3)},${STANDARD_AIR.densityLbFt3})`;

/** An airflow as the same mass of standard air; empty without the job's density. */
export function asStandardAir(airflow: string): string {
  return `IF(COUNT(${airflow},${jobCell("density")})=2,${airflow}*${jobCell("density")}/${STANDARD_DENSITY},"")`;
}

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

/** What a comparison of two sums says. */
export const SUMS = { agree: "agree", over: "over", under: "under", missing: "design missing" } as const;

/**
 * By how much one sum of designs is over or under another, in words; empty while there is nothing to compare.
 *
 * @param missing - True while some of what goes into the sum has no design
 */
export function againstText(sum: string, whole: string, missing: string): string {
  const off = `ROUND(ABS(${sum}-${whole}),1)`;
  const words = `IF(${off}=0,"${SUMS.agree}",${off}&IF(${sum}>${whole}," ${SUMS.over}"," ${SUMS.under}"))`;
  return `IF(COUNT(${whole})=0,"",IF(${missing},"${SUMS.missing}",IF(COUNT(${sum})=0,"",${words})))`;
}

/** The looks of such a comparison. */
export function againstFormats(range: string): readonly ConditionalFormatPlan[] {
  const [first = ""] = range.split(":");
  return [
    { kind: "word", range, word: SUMS.agree, style: "within" },
    { kind: "word", range, word: SUMS.missing, style: "incomplete" },
    { kind: "formula", range, formula: `RIGHT(${first},${SUMS.over.length})="${SUMS.over}"`, style: "high" },
    { kind: "formula", range, formula: `RIGHT(${first},${SUMS.under.length})="${SUMS.under}"`, style: "low" },
  ];
}

export const VERDICTS = { low: "low", within: "within", high: "high", open: "open" } as const;

/** What stands in place of a verdict while something is missing. */
export const GAPS = {
  noSize: "no size",
  noDesign: "no design",
  noTime: "no time",
  part: "part measured",
  noLimits: "no limits",
  noDensity: "no density",
  old: "read again",
} as const;

/** A limit met exactly on paper counts as met, by the tolerance that every comparison with a limit has. */
const TOLERANCE = LIMIT_TOLERANCE_RATIO.toExponential().toUpperCase();

/** The job's limits for a verdict. */
export interface LimitCells {
  readonly minus: string;
  readonly plus: string;
  /** True where the job states only one of the two. */
  readonly isHalf: string;
}

function pairOf(minusKey: string, plusKey: string, usual: DesignLimits): LimitCells {
  const [minus, plus] = [jobCell(minusKey), jobCell(plusKey)];
  const stated = `COUNT(${minus},${plus})`;
  return {
    minus: `IF(${stated}=0,${usual.minusPercent},${minus})`,
    plus: `IF(${stated}=0,${usual.plusPercent},${plus})`,
    isHalf: `${stated}=1`,
  };
}

const OUTSIDE_LIMITS = pairOf("outsideMinus", "outsidePlus", OUTSIDE_AIR_LIMITS);

/** The job's limits for everything but outside air; the usual ones where it states none. */
export const JOB_LIMITS = pairOf("minus", "plus", DESIGN_LIMITS);

/** The job's limits for an outlet of a kind: outside air has its own. */
export function limitsFor(kind: string): LimitCells {
  const either = (part: keyof LimitCells) => `IF(${kind}="outside air",${OUTSIDE_LIMITS[part]},${JOB_LIMITS[part]})`;
  return { minus: either("minus"), plus: either("plus"), isHalf: either("isHalf") };
}

/** The verdict of two numbers that are there, as measured; both limits belong to the band, and nothing is rounded. */
export function verdictOf(measured: string, design: string, { minus, plus, isHalf }: LimitCells): string {
  const low = `${measured}<${design}*(1-${minus}/100)*(1-${TOLERANCE})`;
  const high = `${measured}>${design}*(1+${plus}/100)*(1+${TOLERANCE})`;
  const word = `IF(${low},"${VERDICTS.low}",IF(${high},"${VERDICTS.high}","${VERDICTS.within}"))`;
  return `IF(${isHalf},"${GAPS.noLimits}",${word})`;
}

/** The verdict that holds at both ends of the ±; open where a limit lies between them, or where no ± is known. */
export function decisionOf(measured: string, design: string, plusMinus: string, limits: LimitCells): string {
  const { minus, plus, isHalf } = limits;
  const low = (end: string) => `${end}<${design}*(1-${minus}/100)*(1-${TOLERANCE})`;
  const high = (end: string) => `${end}>${design}*(1+${plus}/100)*(1+${TOLERANCE})`;
  const [lowest, highest] = [`${measured}-${plusMinus}`, `${measured}+${plusMinus}`];
  const crossed = `IF(OR(${low(lowest)},${high(highest)}),"${VERDICTS.open}","${VERDICTS.within}")`;
  const word = `IF(${low(highest)},"${VERDICTS.low}",IF(${high(lowest)},"${VERDICTS.high}",${crossed}))`;
  return `IF(${isHalf},"${GAPS.noLimits}",IF(COUNT(${plusMinus})=0,"${VERDICTS.open}",${word}))`;
}

/** The verdict by the rule that the job states. */
export function verdictByRule(measured: string, design: string, plusMinus: string, limits: LimitCells): string {
  const guarded = decisionOf(measured, design, plusMinus, limits);
  return `IF(${jobCell("rule")}="guarded",${guarded},${verdictOf(measured, design, limits)})`;
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

/** A figure of the job, or what is assumed where it is empty or 0. */
function statedOr(key: string, assumed: number): string {
  return `IF(SUM(${jobCell(key)})=0,${assumed},${jobCell(key)})`;
}

/**
 * The ± of a sum of outlets (95 %): what meter and factor are off they are off alike at each, and it adds up; what is
 * left of the ± of each outlet is its own, and adds up as squares.
 *
 * @param outlets - Spells a column of the outlets
 * @param conditions - Which outlets count
 */
export function plusMinusOfSum(outlets: (key: string) => string, conditions: Conditions): string {
  const counts = conditions.map(([range, wanted]) => `(${range}=${wanted})`).join("*");
  const [airflow, factor, plusMinus] = [outlets("airflow"), outlets("factor"), outlets("plusMinus")];
  const { instrument, assumedFactor } = UNCERTAINTY_DEFAULTS;
  const meter = `${statedOr("instrumentDoubt", instrument.plusMinusPercent)}^2`;
  const assumed = `(${factor}="")*${assumedFactor.plusMinusPercent ** 2}`;
  const given = `(${factor}<>"")*(${factor}<>1)*${statedOr("factorDoubt", assumedFactor.plusMinusPercent)}^2`;
  // The square of twice the standard uncertainty of limits, in parts of the airflow.
  const shared = `((${meter}+${assumed}+${given})/7500)`;
  // Texts in place of missing numbers count as 0 only between commas.
  const alike = `SUMPRODUCT(${counts}*${shared}^0.5,${airflow})^2`;
  const own = `SUMPRODUCT(${counts},${plusMinus},${plusMinus})-SUMPRODUCT(${counts}*${shared},${airflow},${airflow})`;
  return `SQRT(${alike}+MAX(0,${own}))`;
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
    { kind: "word", range, word: VERDICTS.open, style: "incomplete" },
    ...Object.values(GAPS).map((word) => ({ kind: "word" as const, range, word, style: "incomplete" as const })),
  ];
}
