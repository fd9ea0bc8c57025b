import { COVERAGE_FACTORS } from "../../../../shared/tables/coverage-factors.js";
import { PLAUSIBLE } from "../../../../shared/tables/plausible-ranges.js";
import { UNCERTAINTY_DEFAULTS } from "../../../../shared/tables/uncertainty-defaults.js";
import { pascalsFromInchesOfWater } from "../../../core/index.js";
import type { BlockText } from "../block-text.js";
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
  measured,
  needing,
  optional,
  optionalZero,
  part,
  WRONG,
} from "../formula-text.js";
import { overReadings } from "../readings-text.js";
import { type CallArguments, ofBlocks, ofValues, type Translation } from "../translation.js";

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

/** The coverage factor for degrees of freedom, as the table has it. */
export function coverage(freedom: string): string {
  const from = COVERAGE_FACTORS.map(([degrees]) => degrees).join(",");
  return `LOOKUP(${freedom},{${from}},{${COVERAGE_FACTORS.map(([, factor]) => factor).join(",")}})`;
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

/** The result after the work, quiet while neither it nor its COUNT is there. */
function afterWork(text: Text, result: string): string {
  const [after, taken] = [text("after"), text("taken")];
  return choose(allMissing([after, taken]), EMPTY, measured(after, taken, result));
}

function changePercent(text: Text): string {
  const [before, after] = [text("before"), text("after")];
  const change = `100*(${part(after)}-${part(before)})/${part(before)}`;
  return afterWork(text, needing([[before, "above 0"]], change));
}

/** Where no repeatability is stated; the others, and the amount, are worded in a way that no plain formula repeats. */
function changeVerdict(text: Text): string | null {
  const stated = ["repeatability", "uncertainty", "sweeps", "afterRepeatability", "afterSweeps"].map(text);
  if (stated.some((one) => !isOmitted(one) && Number(one) !== 0)) return null;
  const [before, after] = [text("before"), text("after")];
  const [b, a] = [part(before), part(after)];
  const smallest = `2*${REPEAT_PERCENT}/100*SQRT(${b}^2+${a}^2)`;
  const answer = `IF(ABS(${a}-${b})>${smallest},IF(${a}>${b},"higher","lower"),"no clear change")`;
  const percent = `100*(${smallest})/${b}`;
  const shown = `IF(${percent}<10,ROUND(${percent},1),ROUND(${percent},0))`;
  const words = `${answer}&" (one sweep each, repeatability assumed: no statement better than ± "&${shown}&" %)"`;
  return afterWork(text, needing([[before, "above 0"]], words));
}

/** What is known of one side of a comparison of sweeps, as formula text. */
interface SideText {
  readonly count: string;
  readonly mean: string;
  readonly list: string;
}

/** The smallest change that would show between two sets of sweeps, with what it rests on. */
function smallestShown(before: SideText, after: SideText) {
  const [n, m, b, a] = [before.count, after.count, part(before.mean), part(after.mean)];
  const [freedomB, freedomA] = [`(${n}-1)`, `IF(${a}=0,0,${m}-1)`];
  const freedom = `(${freedomB}+${freedomA})`;
  const [squareB, squareA] = [`DEVSQ(${before.list})`, `DEVSQ(${after.list})`];
  const relative = `(${squareB}/${b}^2+IF(${a}=0,0,${squareA}/${a}^2))`;
  const means = `SQRT(${b}^2/${n}+${a}^2/${m})`;
  const [ownB, ownA] = [`(${squareB}/(${n}-1)/${n})`, `(${squareA}/(${m}-1)/${m})`];
  const welchFreedom = `(${ownB}+${ownA})^2/(${ownB}^2/(${n}-1)+${ownA}^2/(${m}-1))`;
  const isAssumed = `(${freedom}=0)+(${relative}<1E-20)`;
  const isPooled = `(${n}<4)+(${freedomA}<3)`;
  const factor = coverage(`IF(${isPooled},${freedom},${welchFreedom})+1E-9`);
  const found = `${factor}*IF(${isPooled},SQRT(${relative}/${freedom})*${means},SQRT(${ownB}+${ownA}))`;
  return { smallest: `IF(${isAssumed},2*${REPEAT_PERCENT}/100*${means},${found})`, isAssumed, isAlike: `${freedom}>0` };
}

function comparedWords(before: SideText, after: SideText): string {
  const [b, a] = [part(before.mean), part(after.mean)];
  const { smallest, isAssumed, isAlike } = smallestShown(before, after);
  const answer = `IF(ABS(${a}-${b})>${smallest},IF(${a}>${b},"higher","lower"),"no clear change")`;
  const percent = `100*${smallest}/${b}`;
  const shown = `ROUND(${percent},IF(${percent}<10,1,0))`;
  const counts = `IF(${before.count}+${after.count}=2,"one sweep each",${before.count}&" and "&${after.count}&" sweeps")`;
  const assumed = `IF(${isAlike},", all alike","")&", repeatability assumed: no statement better than ± "`;
  const [lead, end] = [
    `IF(${isAssumed},${assumed},": a change under ")`,
    `IF(${isAssumed}," %)"," % would not show)")`,
  ];
  return `${answer}&" ("&${counts}&${lead}&${shown}&${end}`;
}

/** Where the cells themselves are compared; by how much it is known is worded in a way that no plain formula repeats. */
function changeSweeps(call: CallArguments): string | null {
  const { text } = call;
  const [before, after] = [call.block("before"), call.block("after")];
  if (!isOmitted(text("uncertainty")) && Number(text("uncertainty")) !== 0) return null;
  if (before.list === undefined || after.list === undefined) return null;
  const isCounted = (name: string, block: BlockText) => isOmitted(text(name)) || call.isCountOf(name, block);
  if (!isCounted("takenBefore", before) || !isCounted("taken", after)) return null;
  const ofBefore: CallArguments = {
    ...call,
    text: (name) => text(name === "taken" ? "takenBefore" : name),
    isCountOf: (name, block) => call.isCountOf(name === "taken" ? "takenBefore" : name, block),
  };
  // Where nothing is refused every number counts, zeros with them.
  const side = (list: string): SideText => ({ count: `COUNT(${list})`, mean: `AVERAGE(${list})`, list });
  const [one, other] = [side(before.list), side(after.list)];
  const isBelow = ({ minimum }: BlockText, { count }: SideText) => `(${count}>1)*(${minimum}<0)`;
  const isOdd = anyOf([isBelow(before, one), isBelow(after, other), `${one.mean}<=0`]);
  const words = `IF(${isOdd},${WRONG},${comparedWords(one, other)})`;
  const compared = overReadings(ofBefore, before, () => overReadings(call, after, () => words));
  // What is wrong after the work shows before the work was read, too.
  const isUnread = `${part(isOmitted(text("takenBefore")) ? before.nonZero : before.count)}=0`;
  const unread = `IF(${before.holdsText},${before.sum}+${WRONG},${overReadings(call, after, () => EMPTY)})`;
  return `IF(${isUnread},${unread},${compared})`;
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
      const percent = `100*STDEV(${list})/SQRT(${count})/(${mean})`;
      return `IF(${count}<2,${MISSING},IF(${minimum}>0,${percent},${WRONG}))`;
    });
  }),
  "CHANGE.PERCENT": ofValues(changePercent),
  "CHANGE.VERDICT": ofValues(changeVerdict),
  "CHANGE.SWEEPS": ofBlocks(["before", "after"], changeSweeps),
  "UNCERTAINTY.PITOT": ofBlocks(["pressures"], pitotDoubt),
};
