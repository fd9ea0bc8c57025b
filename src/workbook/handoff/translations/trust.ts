import { PLAUSIBLE } from "../../../../shared/tables/plausible-ranges.js";
import { UNCERTAINTY_DEFAULTS } from "../../../../shared/tables/uncertainty-defaults.js";
import { pascalsFromInchesOfWater } from "../../../core/index.js";
import {
  allOf,
  anyMissing,
  choose,
  EMPTY,
  inUnits,
  isOmitted,
  MISSING,
  needing,
  optional,
  optionalZero,
  part,
  WRONG,
} from "../formula-text.js";
import { overReadings } from "../readings-text.js";
import { type CallArguments, ofBlocks, ofValues, type Translation } from "../translation.js";
import { changePercent, changeSweeps, changeVerdict } from "./change.js";
import { coverage } from "./coverage-text.js";

type Text = (name: string) => string;

/** What is assumed of a sweep that nobody repeated, and of a reading at one point. */
const REPEAT_PERCENT = `${UNCERTAINTY_DEFAULTS.repeat.standardPercent}`;
const ONE_POINT_PERCENT = `${UNCERTAINTY_DEFAULTS.onePoint.standardPercent}`;

/** The ± of a factor: assumed, none where the whole area is free, or as given. */
function factorDoubtText(factor: string): string {
  const assumed = `${UNCERTAINTY_DEFAULTS.assumedFactor.plusMinusPercent}`;
  if (isOmitted(factor)) return assumed;
  if (factor.toLowerCase() === '"none"') return "0";
  const f = part(factor);
  const given = `IF(ISNUMBER(${factor})*(${f}>=0),${f},${WRONG})`;
  return choose(anyMissing([factor]), assumed, `IF(LOWER(TRIM(${f}))="none",0,${given})`);
}

/** A count that must be a whole number from some least on; a wrong input otherwise. */
function counted(text: string, least: number, result: string): string {
  if (/^\d+$/.test(text)) return Number(text) >= least ? result : WRONG;
  const n = part(text);
  return `IF(ISNUMBER(${text}),IF(${allOf([`${n}>=${least}`, `${n}=INT(${n})`])},${result},${WRONG}),${WRONG})`;
}

/** A part that repeats or points tell: its figure, and its degrees of freedom; "" where it is taken as certain. */
type Limited = readonly [own: string, freedom: string];

/** What a part adds to the square of the ±, widened by how few repeats or points it rests on. */
function widenedSquare([own, freedom]: Limited): string {
  return `(${freedom === "" ? "2" : coverage(freedom)}*(${own}))^2`;
}

function repeatSquare(repeat: string, repeats: string): string {
  const assumed = widenedSquare([REPEAT_PERCENT, ""]);
  const isFigure = allOf([`ISNUMBER(${repeat})`, `${part(repeat)}>=0`]);
  const stated = widenedSquare([part(repeat), `${part(repeats)}-1`]);
  const found = counted(repeats, 2, /^[\d.]+$/.test(repeat) ? stated : `IF(${isFigure},${stated},${WRONG})`);
  const isAssumed = anyMissing([repeat]);
  const counting = choose(isAssumed, counted(repeats, 2, assumed), found);
  return choose(anyMissing([repeats]), choose(isAssumed, assumed, MISSING), counting);
}

/** What the points add, and nothing where a sweep has none. */
function pointsSquare(points: string, spread: string): string {
  const isSweep = anyMissing([points]);
  if (isSweep === "TRUE") return "0";
  const isNumber = /^[\d.]+$/.test(spread);
  const own = optionalZero(spread, "0");
  const checked = isOmitted(spread) || isNumber ? own : `IF((${own})<0,${WRONG},${own})`;
  const isUntold = isOmitted(spread) ? "TRUE" : isNumber ? "FALSE" : `${part(spread)}=""`;
  const one = widenedSquare([ONE_POINT_PERCENT, ""]);
  const many = widenedSquare([`(${checked})/SQRT(${part(points)})`, `${part(points)}-1`]);
  const some = choose(`${part(points)}=1`, one, choose(isUntold, MISSING, many));
  return choose(isSweep, "0", counted(points, 1, some));
}

/** Each part stands once under the root: written out for every case the formula would be longer than a cell holds. */
function uncertainty(text: Text): string {
  const airflow = text("airflow");
  const { instrument, area } = UNCERTAINTY_DEFAULTS;
  const limits = [
    optional(text("instrument"), `${instrument.plusMinusPercent}`, "0 or more"),
    factorDoubtText(text("factor")),
    optional(text("area"), `${area.plusMinusPercent}`, "0 or more"),
  ];
  const squares = [
    repeatSquare(text("repeat"), text("repeats")),
    pointsSquare(text("points"), text("spread")),
    `4*(${limits.map((limit) => `(${limit})^2`).join("+")})/3`,
  ];
  const result = `ABS(${airflow})*SQRT(${squares.join("+")})/100`;
  return choose(anyMissing([airflow]), EMPTY, needing([[airflow, "any"]], result));
}

function instrumentPercent(text: Text): string {
  const [velocity, percent, fixed] = [
    text("velocity"),
    optionalZero(text("percent"), "0"),
    optionalZero(text("fixed"), "0"),
  ];
  const v = part(velocity);
  const result = `IF(((${percent})<0)+((${fixed})<0),${WRONG},100*((${percent})/100*${v}+(${fixed}))/${v})`;
  const stated = `IF(((${percent})=0)*((${fixed})=0),${MISSING},${result})`;
  return choose(anyMissing([velocity]), EMPTY, needing([[velocity, "above 0"]], stated));
}

/** The ± of a gauge through the root of every pressure at both of its ends, with density by half and the tube. */
function pitotDoubt(call: CallArguments): string {
  const { text } = call;
  const [pressures, units] = [call.block("pressures"), text("units")];
  const { gauge, density, pitot } = UNCERTAINTY_DEFAULTS;
  const percent = optional(text("percent"), `${gauge.ofReadingPercent}`, "0 or more");
  const usualFixed = inUnits(units, `${gauge.fixedInWg}`, `${pascalsFromInchesOfWater(gauge.fixedInWg)}`);
  const fixed = optional(text("fixed"), usualFixed, "0 or more");
  const densityPercent = optional(text("density"), `${density.plusMinusPercent}`, "0 or more");
  const tubePercent = optional(text("coefficient"), `${pitot.plusMinusPercent}`, "0 or more");
  const { most } = PLAUSIBLE.velocityPressureInWg;
  const limit = inUnits(units, `${most}`, `${pascalsFromInchesOfWater(most)}`);
  const at = (sign: "+" | "-") => part(pressures.rootSum((p) => `(${p}${sign}(${percent})/100*${p}${sign}(${fixed}))`));
  const asRead = part(pressures.rootSum());
  return overReadings(call, pressures, () => {
    const gaugePercent = `100*MAX(${at("+")}/${asRead}-1,1-${at("-")}/${asRead})`;
    const whole = `SQRT((${gaugePercent})^2+((${densityPercent})/2)^2+(${tubePercent})^2)`;
    return `IF((${pressures.largest}>${limit})+(${asRead}=0),${WRONG},${whole})`;
  });
}

export const TRUST: Readonly<Record<string, Translation>> = {
  "UNCERTAINTY.AIRFLOW": ofValues(uncertainty),
  "UNCERTAINTY.INSTRUMENT": ofValues(instrumentPercent),
  "UNCERTAINTY.REPEAT": ofBlocks(["repeats"], (call) => {
    const repeats = call.block("repeats");
    const { list, minimum } = repeats;
    if (list === undefined || (!isOmitted(call.text("taken")) && !call.isCountOf("taken", repeats))) return null;
    return overReadings(call, repeats, ({ count, mean }) => {
      const scatter = `STDEV(${list})/SQRT(${count})`;
      const resolution = optional(call.text("resolution"), "0", "0 or more");
      const least = `${part(resolution)}/SQRT(12)`;
      // By IF, since MAX would take a block whole.
      const standard = resolution === "0" ? scatter : `IF(${scatter}<${least},${least},${scatter})`;
      const percent = `100*${standard}/(${mean})`;
      return `IF(${count}<2,${MISSING},IF(${minimum}>0,${percent},${WRONG}))`;
    });
  }),
  "CHANGE.PERCENT": ofValues(changePercent),
  "CHANGE.VERDICT": ofValues(changeVerdict),
  "CHANGE.SWEEPS": ofBlocks(["before", "after"], changeSweeps),
  "UNCERTAINTY.PITOT": ofBlocks(["pressures"], pitotDoubt),
};
