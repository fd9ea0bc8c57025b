import { COVERAGE_FACTORS } from "../../../../shared/tables/coverage-factors.js";
import { UNCERTAINTY_DEFAULTS } from "../../../../shared/tables/uncertainty-defaults.js";
import {
  allMissing,
  anyMissing,
  choose,
  EMPTY,
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
import { ofBlocks, ofValues, type Translation } from "../translation.js";

type Text = (name: string) => string;

/** Half of the ± at 95 % that is assumed for a sweep that nobody repeated. */
const REPEAT_PERCENT = `${UNCERTAINTY_DEFAULTS.repeat.plusMinusPercent / 2}`;

/** The ± of a factor: assumed, none where the whole area is free, or as given. */
function factorDoubtText(factor: string): string {
  const assumed = `${UNCERTAINTY_DEFAULTS.assumedFactor.plusMinusPercent}`;
  if (isOmitted(factor)) return assumed;
  if (factor.toLowerCase() === '"none"') return "0";
  const f = part(factor);
  const given = `IF(ISNUMBER(${factor})*(${f}>=0),${f},${WRONG})`;
  return choose(anyMissing([factor]), assumed, `IF(LOWER(TRIM(${f}))="none",0,${given})`);
}

/** The coverage factor for effective degrees of freedom that only the repeats limit. */
function coverage(standard: string, repeat: string, repeats: string): string {
  const freedom = `1/((${repeat}/${standard})^4/(${part(repeats)}-1))`;
  const rows = COVERAGE_FACTORS.length + 1;
  const factor = `IF(${repeat}=0,2,CHOOSE(MIN(${rows},INT(${freedom})),${COVERAGE_FACTORS.join(",")},2))`;
  return `IF(ISNUMBER(${repeats})*(${part(repeats)}>=2)*(${part(repeats)}=INT(${part(repeats)})),${factor},${WRONG})`;
}

function uncertainty(text: Text): string {
  const [airflow, repeat, repeats] = [text("airflow"), text("repeat"), text("repeats")];
  const { instrument, area } = UNCERTAINTY_DEFAULTS;
  const limits = [
    optional(text("instrument"), `${instrument.plusMinusPercent}`, "0 or more"),
    factorDoubtText(text("factor")),
    optional(text("area"), `${area.plusMinusPercent}`, "0 or more"),
  ];
  const ownRepeat = optional(repeat, REPEAT_PERCENT, "0 or more");
  const standard = `SQRT((${limits.map((limit) => `(${limit})^2`).join("+")})/3+(${ownRepeat})^2)`;
  const known = choose(anyMissing([repeats]), "2", coverage(standard, `(${ownRepeat})`, repeats));
  const factor = isOmitted(repeats) ? "2" : choose(anyMissing([repeat]), "2", known);
  const result = `ABS(${airflow})*${factor}*${standard}/100`;
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

/** Answers by repeatability alone; the amount by full uncertainty is worded in a way that no plain formula repeats. */
function changeVerdict(text: Text): string | null {
  const uncertain = text("uncertainty");
  if (!isOmitted(uncertain) && Number(uncertain) !== 0) return null;
  const [before, after, repeat] = [text("before"), text("after"), text("repeatability")];
  const [b, a] = [part(before), part(after)];
  const percent = optional(repeat, REPEAT_PERCENT, "0 or more");
  const z = `ABS(${a}-${b})/((${percent})/100*SQRT(${b}^2+${a}^2))`;
  const answer = `IF(${z}>2,IF(${a}>${b},"higher","lower"),"no change shown")`;
  const assumed = choose(anyMissing([repeat]), `"; repeatability of ${REPEAT_PERCENT} % assumed"`, EMPTY);
  const words = `${answer}&" (repeatability: z "&TEXT(${z},"0.0")&")"&${assumed}`;
  return afterWork(text, needing([[before, "any"]], words));
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
};
