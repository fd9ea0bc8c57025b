import { STANDARD_AIR } from "../../../../shared/tables/standard-air.js";
import { kgM3FromLbFt3, velocityFromPressure } from "../../../core/index.js";
import { EMPTY, inUnits, isOmitted, MISSING, part, WRONG } from "../formula-text.js";
import { holdsText, nonZeroCount, overReadings } from "../readings-text.js";
import { type CallArguments, ofBlocks, type Translation } from "../translation.js";
import { densityText } from "./openings.js";

/** Velocity at a velocity pressure of 1 in air of density 1: fpm for in.w.c. and lb/ft3, m/s for Pa and kg/m3. */
const INCH_POUND_CONSTANT = velocityFromPressure(1, 1);
const METRIC_CONSTANT = Math.SQRT2;

const STANDARD_METRIC = kgM3FromLbFt3(STANDARD_AIR.densityLbFt3);

/** Density of standard air in the person's unit. */
export const standardDensity = (units: string) => inUnits(units, `${STANDARD_AIR.densityLbFt3}`, `${STANDARD_METRIC}`);

/** Whether COUNT of the cells stands for `taken`, or every cell must hold a reading. */
function isPlainCount(block: string, taken: string): boolean {
  const plain = (text: string) => text.replaceAll(/[\s$]/g, "").toUpperCase();
  return isOmitted(taken) || plain(taken) === plain(`COUNT(${block})`);
}

/**
 * Each pressure above 0, and 0 for every other cell. An empty text would spoil a product, so it is joined behind a 0
 * and read as a number again.
 */
function pressuresAboveZero(block: string): string {
  return `(${part(block)}>0)*VALUE(SUBSTITUTE("0"&${part(block)},"0-","-"))`;
}

function pressureText({ text, isBlock }: CallArguments): string {
  const [pressures, units] = [text("pressures"), text("units")];
  const density = densityText(text("density"), standardDensity(units));
  const constant = inUnits(units, `${INCH_POUND_CONSTANT}`, `${METRIC_CONSTANT}`);
  return overReadings(pressures, isBlock("pressures"), text("taken"), ({ count }) => {
    const roots = `SUMPRODUCT(SQRT(${pressuresAboveZero(pressures)}))`;
    return `${constant}*${roots}/${count}/SQRT(${density})`;
  });
}

function spreadText({ text, isBlock }: CallArguments): string | null {
  const [readings, taken] = [text("readings"), text("taken")];
  if (!isPlainCount(readings, taken)) return null;
  return overReadings(readings, isBlock("readings"), taken, ({ mean }) => {
    return `IF(${mean}>0,STDEVP(${readings})/AVERAGE(${readings})*100,${WRONG})`;
  });
}

function checkText({ text, isBlock }: CallArguments): string {
  const [readings, kind] = [text("readings"), text("kind")];
  const k = part(kind);
  const ratio = isOmitted(kind) ? "SQRT(0.1)" : `IF(${k}="pressure",0.1,SQRT(0.1))`;
  return overReadings(readings, isBlock("readings"), text("taken"), ({ count }) => {
    const limit = `MAX(0,${readings})*${ratio}*(1+1E-12)`;
    const above = `SUMPRODUCT(--ISNUMBER(${readings}),--(${part(readings)}>${limit}))`;
    const negative = `SUMPRODUCT(--ISNUMBER(${readings}),--(${part(readings)}<0))`;
    const enough = `100*${above}/${count}>75`;
    const backwards = `${negative}&" of "&${count}&" run backwards"`;
    const few = `"only "&${above}&" of "&${count}&" above a tenth of the largest velocity pressure"`;
    const faults = `IF(${negative}>0,${backwards}&IF(${enough},"","; "),"")&IF(${enough},"",${few})`;
    const words = `IF(AND(${negative}=0,${enough}),"plane suitable","move the plane: "&${faults})`;
    return isOmitted(kind) ? words : `IF(OR(${k}="velocity",${k}="pressure",${k}="",${k}=0),${words},${WRONG})`;
  });
}

function sweepText({ text }: CallArguments): string {
  const [velocities, seconds, taken] = [text("velocities"), text("seconds"), text("taken")];
  const [v, s] = [part(velocities), part(seconds)];
  const swept = nonZeroCount(velocities);
  const untimed = `SUMPRODUCT(--ISNUMBER(${velocities}),--(${v}<>0),1-ISNUMBER(${seconds})*(${s}<>0))`;
  const timedHere = `--ISNUMBER(${seconds}),--(${s}<>0)`;
  const still = `SUMPRODUCT(1-ISNUMBER(${velocities})*(${v}<>0),${timedHere})`;
  const zeros = `SUMPRODUCT(--(${v}=0),${timedHere})`;
  const weighted = `SUMPRODUCT(${velocities},${seconds})`;
  const moving = `${weighted}/SUMPRODUCT(--ISNUMBER(${velocities}),--(${v}<>0),${seconds})`;
  const all = `${weighted}/SUM(${seconds})`;
  const timed = (result: string) => `IF(${untimed}>0,${MISSING},IF(MIN(${seconds})<0,${WRONG},${result}))`;
  const wrong = `OR(${holdsText(velocities)},${holdsText(seconds)},ROWS(${velocities})*COLUMNS(${velocities})<>ROWS(${seconds})*COLUMNS(${seconds}))`;
  const undecided = `IF(${swept}=0,${EMPTY},IF(${still}>0,${MISSING},${timed(moving)}))`;
  if (isOmitted(taken)) return `IF(${wrong},${WRONG},${undecided})`;
  const t = part(taken);
  const withZeros = `IF(AND(${t}=${swept}+${zeros},${zeros}=${still}),${timed(all)},${WRONG})`;
  return `IF(${wrong},${WRONG},IF(${t}=${swept},IF(${swept}=0,${EMPTY},${timed(moving)}),${withZeros}))`;
}

export const READINGS: Readonly<Record<string, Translation>> = {
  "TRAVERSE.AVERAGE": ofBlocks(["readings"], ({ text, isBlock }) =>
    overReadings(text("readings"), isBlock("readings"), text("taken"), ({ mean }) => mean),
  ),
  "TRAVERSE.PRESSURE": ofBlocks(["pressures"], pressureText),
  "TRAVERSE.SPREAD": ofBlocks(["readings"], spreadText),
  "TRAVERSE.CHECK": ofBlocks(["readings"], checkText),
  "SWEEP.AVERAGE": ofBlocks(["velocities", "seconds"], sweepText),
};
