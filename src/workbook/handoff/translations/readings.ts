import { PLAUSIBLE } from "../../../../shared/tables/plausible-ranges.js";
import { STANDARD_AIR } from "../../../../shared/tables/standard-air.js";
import { kgM3FromLbFt3, pascalsFromInchesOfWater, velocityFromPressure } from "../../../core/index.js";
import type { BlockPiece } from "../block-text.js";
import {
  allMissing,
  allOf,
  anyMissing,
  anyOf,
  choose,
  EMPTY,
  inUnits,
  isOmitted,
  MISSING,
  needing,
  optional,
  part,
  WRONG,
} from "../formula-text.js";
import { overReadings } from "../readings-text.js";
import { type CallArguments, ofBlocks, ofValues, type Translation } from "../translation.js";
import { densityText } from "./openings.js";

/** Velocity at a velocity pressure of 1 in air of density 1: fpm for in.w.c. and lb/ft3, m/s for Pa and kg/m3. */
const INCH_POUND_CONSTANT = velocityFromPressure(1, 1);
const METRIC_CONSTANT = Math.SQRT2;

const STANDARD_METRIC = kgM3FromLbFt3(STANDARD_AIR.densityLbFt3);

/** Density of standard air in the person's unit. */
export const standardDensity = (units: string) => inUnits(units, `${STANDARD_AIR.densityLbFt3}`, `${STANDARD_METRIC}`);

function pressureText(call: CallArguments): string {
  const { text } = call;
  const [pressures, units] = [call.block("pressures"), text("units")];
  const density = densityText(text("density"), standardDensity(units), units);
  const { most } = PLAUSIBLE.velocityPressureInWg;
  const limit = inUnits(units, `${most}`, `${pascalsFromInchesOfWater(most)}`);
  const factor = optional(text("coefficient"), "1", "above 0");
  const f = part(factor);
  const isTooMuch = [`${pressures.largest}>${limit}`];
  const isOdd = anyOf(factor === "1" ? isTooMuch : [...isTooMuch, `${f}<0.5`, `${f}>1.2`]);
  const constant = inUnits(units, `${INCH_POUND_CONSTANT}`, `${METRIC_CONSTANT}`);
  return overReadings(call, pressures, ({ count }) => {
    const velocity = `${constant}*${part(pressures.rootSum())}/${count}/SQRT(${density})`;
    return `IF(${isOdd},${WRONG},${factor === "1" ? "" : `${f}*`}${velocity})`;
  });
}

function spreadText(call: CallArguments): string | null {
  const readings = call.block("readings");
  const { list } = readings;
  if (list === undefined || (!isOmitted(call.text("taken")) && !call.isCountOf("taken", readings))) return null;
  return overReadings(call, readings, ({ mean }) => {
    return `IF(${mean}>0,STDEVP(${list})/AVERAGE(${list})*100,${WRONG})`;
  });
}

function checkText(call: CallArguments): string {
  const [readings, kind] = [call.block("readings"), call.text("kind")];
  const k = part(kind);
  const ratio = isOmitted(kind) ? "SQRT(0.1)" : `IF(${k}="pressure",0.1,SQRT(0.1))`;
  return overReadings(call, readings, ({ count }) => {
    const limit = `${readings.largest}*${ratio}*(1+1E-12)`;
    const [above, negative] = [part(readings.countAbove(limit)), part(readings.countBelowZero)];
    const enough = `100*${above}/${count}>75`;
    const backwards = `${negative}&" of "&${count}&" show reverse flow"`;
    const few = `"only "&${above}&" of "&${count}&" above a tenth of the largest velocity pressure"`;
    const faults = `IF(${negative}>0,${backwards}&IF(${enough},"","; "),"")&IF(${enough},"",${few})`;
    const words = `IF((${negative}=0)*(${enough}),"location suitable","move the traverse location: "&${faults})`;
    return isOmitted(kind) ? words : `IF((${k}="velocity")+(${k}="pressure")+(${k}="")+(${k}=0),${words},${WRONG})`;
  });
}

/** A sum over the pieces of two blocks, each beside its own. */
function overPairs(
  one: readonly BlockPiece[],
  other: readonly BlockPiece[],
  tell: (one: string, other: string) => string,
): string {
  return one.map(({ text }, index) => tell(text, other[index]?.text ?? "")).join("+");
}

/** Whether two pieces hold references of the same height and width, which is what COUNTIFS asks for. */
function isPaired(one: BlockPiece, other: BlockPiece | undefined): boolean {
  const isReference = ({ kind }: BlockPiece) => kind === "cell" || kind === "cells";
  if (other === undefined || !isReference(one) || !isReference(other)) return false;
  return one.rows === other.rows && one.columns === other.columns;
}

function sweepText(call: CallArguments): string | null {
  const [velocities, seconds, taken] = [call.block("velocities"), call.block("seconds"), call.text("taken")];
  const [v, s] = [velocities.pieces, seconds.pieces];
  const isTwo = v.length === s.length && v.every((piece, index) => isPaired(piece, s[index]));
  if (!isTwo) return null;
  const sum = (tell: (one: string, other: string) => string) => part(overPairs(v, s, tell));
  const swept = part(velocities.nonZero);
  const both = sum((one, other) => `COUNTIFS(${one},">0",${other},">0")+COUNTIFS(${one},"<0",${other},">0")`);
  const still = `${part(seconds.countAbove("0"))}-${both}`;
  const zeros = sum((one, other) => `SUMPRODUCT((${one}=0)*(${other}>0)*(${other}<1E+300))`);
  const weighted = sum((one, other) => `SUMPRODUCT(${one},${other})`);
  const movingSeconds = sum((one, other) => `SUMIF(${one},">0",${other})+SUMIF(${one},"<0",${other})`);
  const moving = `${weighted}/${movingSeconds}`;
  const all = `${weighted}/${seconds.sum}`;
  const timed = (result: string) => `IF(${swept}>${both},${MISSING},${result})`;
  const isWrong = `(${velocities.holdsText})+(${seconds.holdsText})+(${seconds.countBelowZero}>0)`;
  const wrong = `${velocities.sum}+${seconds.sum}+${WRONG}`;
  const undecided = `IF(${swept}=0,${EMPTY},IF(${still}>0,${MISSING},${timed(moving)}))`;
  if (isOmitted(taken)) return `IF(${isWrong},${wrong},${undecided})`;
  const t = part(call.isCountOf("taken", velocities) ? velocities.count : taken);
  const withZeros = `IF((${t}=${swept}+${zeros})*(${zeros}=${still}),${timed(all)},${WRONG})`;
  return `IF(${isWrong},${wrong},IF(${t}=${swept},IF(${swept}=0,${EMPTY},${timed(moving)}),${withZeros}))`;
}

/** A traverse location between the fittings before and after it. */
function siteText(text: CallArguments["text"]): string {
  const [width, height, units] = [text("width"), text("height"), text("units")];
  const [w, h] = [part(width), part(height)];
  const round = anyMissing([height]);
  const diameter = choose(round, w, `2*${w}*${h}/(${w}+${h})`);
  const scale = inUnits(units, "12", "1000");
  const ratio = (run: string) => `(${part(run)}*${scale}/(${diameter}))`;
  const [up, down] = [ratio(text("upstream")), ratio(text("downstream"))];
  const reaches = (least: number, of: string) => `${of}*(1+1E-9)>=${least}`;
  const shown = (of: string) => `TEXT(INT(${of}*10+1E-7)/10,"0.0")`;
  const distances = `": "&${shown(up)}&" diameters downstream of the last fitting, "&${shown(down)}&" upstream of the next"`;
  const isGood = allOf([reaches(8, up), reaches(2, down)]);
  const isUsable = allOf([reaches(2, up), reaches(0.5, down)]);
  const pick = (good: string, usable: string, near: string) =>
    `IF(${isGood},"${good}",IF(${isUsable},"${usable}","${near}"))`;
  const advice = pick(
    "",
    ". Take more points than usual, or find a place with 8 and 2 diameters",
    ". Find a place with at least 2 and 0.5 diameters; 8 and 2 are good",
  );
  const inches = `(${w}/${inUnits(units, "1", "25.4")})`;
  const tube = `IF(${inches}<=10*(1+1E-9),"; use a 1/8 in standard Pitot tube",IF(${inches}<12*(1-1E-9),"; no Type S tube",""))`;
  const probe = choose(round, tube, '""');
  const words = `${pick("good", "usable", "too near")}&${distances}&${advice}&${probe}`;
  const runs = needing(
    [
      [text("upstream"), "0 or more"],
      [text("downstream"), "0 or more"],
    ],
    words,
  );
  const sized = needing([[width, "a length"]], choose(round, runs, needing([[height, "a length"]], runs)));
  return choose(allMissing([width, height]), EMPTY, sized);
}

/** The average of angles without their signs; null where one is worked out within the call. */
function angleText(call: CallArguments): string | null {
  const angles = call.block("angles");
  const { pieces, minimum, largest } = angles;
  if (minimum === undefined || pieces.some(({ kind }) => kind === "array" || kind === "value")) return null;
  const each = pieces.map(({ kind, text }) =>
    kind === "number" ? `ABS(${text})` : `SUMIF(${text},">0")-SUMIF(${text},"<0")`,
  );
  return overReadings(call, angles, ({ count }) => {
    const average = `(${each.join("+")})/${count}`;
    const words = `"average angle "&TEXT(ROUND(${average}*10+1E-7,0)/10,"0.0")&"°`;
    const suitable = `"suitable: "&${words}, 20° allowed"`;
    const swirling = `"swirling: "&${words}, above 20°. Find another place or straighten the flow"`;
    return `IF((${largest}>90)+(${minimum}<-90),${WRONG},IF(${average}<=20*(1+1E-9),${suitable},${swirling}))`;
  });
}

export const READINGS: Readonly<Record<string, Translation>> = {
  "TRAVERSE.AVERAGE": ofBlocks(["readings"], (call) => overReadings(call, call.block("readings"), ({ mean }) => mean)),
  "TRAVERSE.PRESSURE": ofBlocks(["pressures"], pressureText),
  "TRAVERSE.SPREAD": ofBlocks(["readings"], spreadText),
  "TRAVERSE.CHECK": ofBlocks(["readings"], checkText),
  "TRAVERSE.SITE": ofValues(siteText),
  "TRAVERSE.ANGLE": ofBlocks(["angles"], angleText),
  "SWEEP.AVERAGE": ofBlocks(["velocities", "seconds"], sweepText),
};
