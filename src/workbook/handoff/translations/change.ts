import { UNCERTAINTY_DEFAULTS } from "../../../../shared/tables/uncertainty-defaults.js";
import { MOST_COMPARED_FREEDOM } from "../../../core/index.js";
import type { BlockText } from "../block-text.js";
import {
  allMissing,
  allOf,
  anyMissing,
  anyOf,
  choose,
  EMPTY,
  isOmitted,
  MISSING,
  measured,
  needing,
  optional,
  part,
  WRONG,
} from "../formula-text.js";
import { overReadings } from "../readings-text.js";
import type { CallArguments } from "../translation.js";
import { comparedCoverage } from "./coverage-text.js";

type Text = (name: string) => string;

/** What is assumed of a sweep that nobody repeated. */
const REPEAT_PERCENT = `${UNCERTAINTY_DEFAULTS.repeat.standardPercent}`;

const MOST = MOST_COMPARED_FREEDOM;

/** From this many degrees of freedom on each side, each stands for itself. */
const OWN_FREEDOM = 3;

/** The result after the work, quiet while neither it nor its COUNT is there. */
function afterWork(text: Text, result: string): string {
  const [after, taken] = [text("after"), text("taken")];
  return choose(allMissing([after, taken]), EMPTY, measured(after, taken, result));
}

export function changePercent(text: Text): string {
  const [before, after] = [text("before"), text("after")];
  const change = `100*(${part(after)}-${part(before)})/${part(before)}`;
  return afterWork(text, needing([[before, "above 0"]], change));
}

/** Everything that the words of a comparison rest on, as formula text. */
interface Compared {
  readonly before: string;
  readonly after: string;
  readonly counts: readonly [string, string];
  /** The smallest change that would show. */
  readonly smallest: string;
  /** Whether the repeatability is assumed, and whether sweeps were repeated and did not differ. */
  readonly isAssumed: string;
  readonly isAlike: string;
}

function comparedWords({ before, after, counts, smallest, isAssumed, isAlike }: Compared): string {
  const [b, a] = [part(before), part(after)];
  const answer = `IF(ABS(${a}-${b})>${smallest},IF(${a}>${b},"higher","lower"),"no clear change")`;
  const percent = `100*${smallest}/${b}`;
  const shown = `ROUND(${percent},IF(${percent}<10,1,0))`;
  const [n, m] = counts;
  const isOnce = /^1$/.test(n) && /^1$/.test(m) ? "TRUE" : `${part(n)}+${part(m)}=2`;
  const counted = choose(isOnce, '"one sweep each"', `${part(n)}&" and "&${part(m)}&" sweeps"`);
  const alike = choose(isAlike, '", all alike"', '""');
  const assumed = `${alike}&", repeatability assumed: a change under "`;
  const lead = choose(isAssumed, assumed, '": a change under "');
  return `${answer}&" ("&${counted}&${lead}&${shown}&" % would not show)"`;
}

/** By how much a change is known, where somebody states the ± of both results; nothing where nobody does. */
function amountWords(before: string, after: string, uncertainty: string): string {
  const isUntold = anyMissing([uncertainty]);
  if (isUntold === "TRUE") return "";
  const [b, a] = [part(before), part(after)];
  const digits = (value: string, count: number) => `ROUND(${value},${count - 1}-INT(LOG10(ABS(${value}))))`;
  const change = `(${a}-${b})`;
  const expanded = `(${part(uncertainty)}/100*SQRT(${b}^2+${a}^2))`;
  const shown = `IF(${a}=${b},0,${digits(change, 3)})`;
  const small = `IF(ABS${change}>${expanded},"",": too small to state")`;
  return `&${choose(isUntold, EMPTY, `"; change "&${shown}&" ± "&${digits(expanded, 2)}&${small}`)}`;
}

/** The larger of a square and the least that the display leaves; by IF, since MAX would take a block whole. */
function atLeast(least: string, square: string): string {
  return least === "0" ? square : `IF(${square}<${least},${least},${square})`;
}

/** The square of the least standard uncertainty: that of a display in steps. */
function leastSquare(resolution: string): string {
  return isOmitted(resolution) ? "0" : `(${part(optional(resolution, "0", "0 or more"))}^2/12)`;
}

const sum = (one: string, other: string) => (other === "0" ? one : one === "0" ? other : `(${one}+${other})`);

/** Where a repeatability is stated with its count, or none at all. */
export function changeVerdict(text: Text): string {
  const [before, after, repeat, ownRepeat] = ["before", "after", "repeatability", "afterRepeatability"].map(text) as [
    string,
    string,
    string,
    string,
  ];
  const [sweeps, ownSweeps, uncertainty] = [text("sweeps"), text("afterSweeps"), text("uncertainty")];
  const [b, a] = [part(before), part(after)];
  const isUntold = (one: string) => anyMissing([one]);
  const n = choose(isUntold(sweeps), "1", part(sweeps));
  const m = choose(isUntold(ownSweeps), n, part(ownSweeps));
  // Degrees of freedom of each side, and the square of the scatter of one of its sweeps.
  const [freedomB, freedomA] = [
    choose(isUntold(repeat), "0", `(${n}-1)`),
    choose(isUntold(ownRepeat), "0", `(${m}-1)`),
  ];
  const freedom = sum(freedomB, freedomA);
  const scatterOf = (one: string, own: string, count: string) =>
    own === "0" ? "0" : `${own}*${choose(isUntold(one), "0", `${part(one)}^2*${count}`)}`;
  const pooled = `(${sum(scatterOf(repeat, freedomB, n), scatterOf(ownRepeat, freedomA, m))}/${freedom})`;
  const least = leastSquare(text("resolution"));
  const square = (value: string, scatter: string, count: string) =>
    atLeast(least, `${value}^2*${scatter}/10000/${count}`);
  const both = (scatter: string) => `(${square(b, scatter, n)}+${square(a, scatter, m)})`;
  const [ownB, ownA] = [square(b, `${part(repeat)}^2`, "1"), square(a, `${part(ownRepeat)}^2`, "1")];
  const welch = `(${ownB}+${ownA})^2/((${ownB})^2/${freedomB}+(${ownA})^2/${freedomA})`;
  const isAssumed = allMissing([repeat, ownRepeat]);
  const isOwn =
    freedomB === "0" || freedomA === "0"
      ? "FALSE"
      : allOf([`${part(freedomB)}>=${OWN_FREEDOM}`, `${part(freedomA)}>=${OWN_FREEDOM}`]);
  // What the display's steps do is no part of a scatter that is assumed.
  const steps = least === "0" ? "" : `+2*${least}`;
  const assumedSmallest = `2*SQRT((${REPEAT_PERCENT}/100)^2*(${b}^2/${n}+${a}^2/${m})${steps})`;
  // By IF, since MIN would take a block whole.
  const factorOf = (one: string) => comparedCoverage(`IF(${one}>${MOST},${MOST},${one})`);
  const ownSmallest = () => `${factorOf(welch)}*SQRT(${ownB}+${ownA})`;
  // The figure of one side for both, of as many sweeps each: the count falls out.
  const isShared = freedomA === "0" && m === n;
  const shared = (value: string) => atLeast(least, `${value}^2*${part(repeat)}^2/10000`);
  const pooledSquare = isShared ? `${shared(b)}+${shared(a)}` : both(pooled);
  const pooledSmallest = () => `${factorOf(freedom)}*SQRT(${pooledSquare})`;
  const smallest =
    isAssumed === "TRUE"
      ? assumedSmallest
      : choose(
          isAssumed,
          assumedSmallest,
          isOwn === "FALSE" ? pooledSmallest() : choose(isOwn, ownSmallest(), pooledSmallest()),
        );
  const words = comparedWords({
    before,
    after,
    counts: [n, m],
    smallest: `(${smallest})`,
    isAssumed,
    isAlike: "FALSE",
  });
  const isWrong = [
    ...[repeat, ownRepeat, uncertainty].map((one) => wrongUnless(one, `${part(one)}>=0`)),
    ...(
      [
        [sweeps, repeat],
        [ownSweeps, ownRepeat],
      ] as const
    ).map(([count, one]) => {
      const isWhole = `${part(count)}=INT(${part(count)})`;
      return wrongUnless(count, `(${part(count)}>=${choose(isUntold(one), "1", "2")})*(${isWhole})`);
    }),
  ].filter((condition) => condition !== "FALSE");
  // A repeatability says nothing without the count that it comes from.
  const uncounted = [counted(repeat, [sweeps]), counted(ownRepeat, [sweeps, ownSweeps])].filter(
    (condition) => condition !== "FALSE",
  );
  const told = `${words}${amountWords(before, after, uncertainty)}`;
  const asked = uncounted.includes("TRUE")
    ? MISSING
    : choose(uncounted.length === 0 ? "FALSE" : anyOf(uncounted), MISSING, told);
  const checked = choose(isWrong.length === 0 ? "FALSE" : anyOf(isWrong), WRONG, asked);
  return afterWork(text, needing([[before, "above 0"]], checked));
}

/** Whether a figure is stated whose count is not. */
function counted(figure: string, counts: readonly string[]): string {
  const isUntold = anyMissing([figure]);
  if (isUntold === "TRUE") return "FALSE";
  const isUncounted = allMissing(counts);
  if (isUncounted === "FALSE" || isUntold === "FALSE") return isUncounted;
  const isTold = `1-(${isUntold}>0)`;
  return isUncounted === "TRUE" ? isTold : allOf([isTold, `(${isUncounted})>0`]);
}

/** Whether an argument that was given is no number or does not hold what it must. */
function wrongUnless(text: string, demand: string): string {
  const isUntold = anyMissing([text]);
  if (isUntold === "TRUE") return "FALSE";
  const isWrong = `1-ISNUMBER(${text})*(${demand})`;
  return isUntold === "FALSE" ? `(${isWrong})>0` : `IF(${isUntold},0,${isWrong})>0`;
}

/** What is known of one side of a comparison of sweeps, as formula text. */
interface SideText {
  readonly count: string;
  readonly mean: string;
  readonly list: string;
}

/** The comparison of two sets of sweeps, from the cells that hold them; each is one value, so that MAX may be asked. */
function comparedSides(before: SideText, after: SideText, resolution: string): Compared {
  const [n, m, b, a] = [before.count, after.count, part(before.mean), part(after.mean)];
  const freedomA = `IF(${a}=0,0,${m}-1)`;
  const freedom = `(${n}-1+${freedomA})`;
  const [squareB, squareA] = [`DEVSQ(${before.list})`, `DEVSQ(${after.list})`];
  const relative = `(${squareB}/${b}^2+IF(${a}=0,0,${squareA}/${a}^2))`;
  const isStepless = isOmitted(resolution) || Number(resolution) === 0;
  // A blank cell is 0 to SUM in every program.
  const least = `SUM(${resolution})`;
  const floored = (square: string) => (isStepless ? square : `MAX(${square},${least}^2/12)`);
  const means = `(${b}^2/${n}+${a}^2/${m})`;
  const shared = `${relative}/${freedom}`;
  const pooled = isStepless
    ? `SQRT(${shared}*${means})`
    : `SQRT(${floored(`${shared}*${b}^2/${n}`)}+${floored(`${shared}*${a}^2/${m}`)})`;
  // What the display's steps do is no part of a scatter that is assumed.
  const assumed = `2*SQRT((${REPEAT_PERCENT}/100)^2*${means}${isStepless ? "" : `+${least}^2/6`})`;
  const [ownB, ownA] = [floored(`${squareB}/(${n}-1)/${n}`), floored(`${squareA}/(${m}-1)/${m}`)];
  const welch = `(${ownB}+${ownA})^2/((${ownB})^2/(${n}-1)+(${ownA})^2/(${m}-1))`;
  const isAlike = `(${relative}<1E-20)`;
  const isAssumed = `(${freedom}=0)+${isStepless ? isAlike : `${isAlike}*(${least}=0)`}`;
  const isPooled = `(${n}<=${OWN_FREEDOM})+(${freedomA}<${OWN_FREEDOM})`;
  const factor = comparedCoverage(`MIN(${MOST},IF(${isPooled},${freedom},${welch}))`);
  const found = `${factor}*IF(${isPooled},${pooled},SQRT(${ownB}+${ownA}))`;
  const smallest = `IF(${isAssumed},${assumed},${found})`;
  return { before: before.mean, after: after.mean, counts: [n, m], smallest, isAssumed, isAlike: `${freedom}>0` };
}

/** Where the cells themselves are compared. */
export function changeSweeps(call: CallArguments): string | null {
  const { text } = call;
  const [before, after] = [call.block("before"), call.block("after")];
  // Its formula takes one figure for all sweeps.
  if (call.isBlock("uncertainty") || call.isBlock("resolution")) return null;
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
  const uncertainty = text("uncertainty");
  const wrong = [uncertainty, text("resolution")].map((given) => wrongUnless(given, `${part(given)}>=0`));
  const odd = [isBelow(before, one), isBelow(after, other), `${one.mean}<=0`];
  const isOdd = anyOf([...odd, ...wrong.filter((condition) => condition !== "FALSE")]);
  const compared = comparedWords(comparedSides(one, other, text("resolution")));
  const words = `IF(${isOdd},${WRONG},${compared}${amountWords(one.mean, other.mean, uncertainty)})`;
  const asked = overReadings(ofBefore, before, () => overReadings(call, after, () => words));
  // What is wrong after the work shows before the work was read, too.
  const isUnread = `${part(isOmitted(text("takenBefore")) ? before.nonZero : before.count)}=0`;
  const unread = `IF(${before.holdsText},${before.sum}+${WRONG},${overReadings(call, after, () => EMPTY)})`;
  return `IF(${isUnread},${unread},${asked})`;
}
