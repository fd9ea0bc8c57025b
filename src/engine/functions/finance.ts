import { toNumber } from "../formula/coerce.js";
import type { Context } from "../formula/context.js";
import { fn } from "../formula/function-spec.js";
import { ERROR, type Value } from "../formula/values.js";
import { calendarDay } from "./dates.js";
import { flat, numbersOf, sum } from "./each-value.js";

function needs(isSound: boolean): void {
  if (!isSound) throw ERROR.number;
}

const growth = (rate: number, periods: number) => Math.exp(periods * Math.log1p(rate));

/** What a payment each period comes to, for one unit of it, at the end. */
function series(rate: number, periods: number, atStart: number): number {
  if (rate === 0) return periods;
  return (Math.expm1(periods * Math.log1p(rate)) / rate) * (atStart === 0 ? 1 : 1 + rate);
}

function futureValue(rate: number, periods: number, payment: number, present: number, atStart: number): number {
  return -(present * growth(rate, periods) + payment * series(rate, periods, atStart));
}

function presentValue(rate: number, periods: number, payment: number, future: number, atStart: number): number {
  return -(future + payment * series(rate, periods, atStart)) / growth(rate, periods);
}

function payment(rate: number, periods: number, present: number, future: number, atStart: number): number {
  needs(periods !== 0);
  return -(future + present * growth(rate, periods)) / series(rate, periods, atStart);
}

function periodsFor(rate: number, paid: number, present: number, future: number, atStart: number): number {
  if (rate === 0) {
    if (paid === 0) throw ERROR.number;
    return -(present + future) / paid;
  }
  const due = paid * (atStart === 0 ? 1 : 1 + rate);
  const share = (due - future * rate) / (due + present * rate);
  needs(share > 0 && rate > -1);
  return Math.log(share) / Math.log1p(rate);
}

function interest(
  rate: number,
  period: number,
  periods: number,
  present: number,
  future: number,
  atStart: number,
): number {
  needs(period >= 1 && period < periods + 1);
  const paid = payment(rate, periods, present, future, atStart);
  if (period === 1) return atStart === 0 ? -present * rate : 0;
  const owed = futureValue(rate, period - (atStart === 0 ? 1 : 2), paid, present, atStart);
  return (atStart === 0 ? owed : owed - paid) * rate;
}

/** Interest of several periods at once: what is paid less what is paid off, so that no period is gone through. */
function interestOf(rate: number, periods: number, present: number, first: number, last: number, kind: number): number {
  const [from, to, atStart] = [Math.trunc(first), Math.trunc(last), Math.trunc(kind)];
  needs(
    rate > 0 &&
      periods > 0 &&
      present > 0 &&
      from >= 1 &&
      to >= from &&
      to <= periods &&
      (atStart === 0 || atStart === 1),
  );
  const paid = payment(rate, periods, present, 0, atStart);
  const owedAfter = (count: number) =>
    -futureValue(rate, count, paid, present, atStart) * (atStart === 0 ? 1 : 1 / (1 + rate));
  // With payments at the start the first is all principal.
  const before =
    from === 1 ? present : atStart === 0 ? owedAfter(from - 1) : balanceAtStart(rate, from - 1, paid, present);
  const after = atStart === 0 ? owedAfter(to) : balanceAtStart(rate, to, paid, present);
  const principal = after - before;
  return paid * (to - from + 1) - principal;
}

/** What is owed after so many payments at the start of their periods. */
function balanceAtStart(rate: number, count: number, paid: number, present: number): number {
  if (count === 0) return present;
  const afterFirst = present + paid;
  return afterFirst * growth(rate, count - 1) + paid * series(rate, count - 1, 0);
}

/** Finds where a function is 0, from a guess: Newton's steps, and halves where they fail. @throws {CellError} */
function root(of: (x: number) => number, guess: number, least: number): number {
  let x = guess;
  for (let step = 0; step < 100; step += 1) {
    const value = of(x);
    if (!Number.isFinite(value)) break;
    const width = Math.max(1e-7, Math.abs(x) * 1e-7);
    const slope = (of(x + width) - of(x - width)) / (2 * width);
    const next = x - value / slope;
    if (!Number.isFinite(next) || next <= least) break;
    if (Math.abs(next - x) < 1e-14 * Math.max(1, Math.abs(x))) return next;
    x = next;
  }
  const near = Number.isFinite(of(x)) && Math.abs(of(x)) < 1e-9 ? x : undefined;
  if (near !== undefined) return near;
  let low = least + 1e-9;
  for (let width = 0.01; width < 1e6; width *= 1.5) {
    const high = low + width;
    if (of(low) * of(high) <= 0) return halves(of, low, high);
    low = high;
  }
  throw ERROR.number;
}

function halves(of: (x: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  const isRising = of(low) < 0;
  for (let step = 0; step < 200; step += 1) {
    const middle = (low + high) / 2;
    if (of(middle) < 0 === isRising) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function rateOf(
  periods: number,
  paid: number,
  present: number,
  future: number,
  atStart: number,
  guess: number,
): number {
  needs(periods > 0);
  return root((rate) => futureValue(rate, periods, paid, present, atStart) + -future, guess, -1);
}

const netPresent = (rate: number, flows: readonly number[]) =>
  sum(flows.map((flow, index) => flow / growth(rate, index + 1)));

function internalRate(flows: readonly number[], guess: number): number {
  needs(flows.some((flow) => flow > 0) && flows.some((flow) => flow < 0) && guess > -1);
  // Seen from the first flow: the present value alone falls to 0 for rates beyond all sense.
  return root((rate) => netPresent(rate, flows) * (1 + rate), guess, -1);
}

interface DatedFlows {
  readonly flows: readonly number[];
  readonly years: readonly number[];
}

function dated(values: Value, dates: Value, context: Context): DatedFlows {
  const flows = flat(values, context).map(toNumber);
  const days = flat(dates, context).map((day) => Math.floor(toNumber(day)));
  for (const day of days) calendarDay(day);
  const [first] = days;
  needs(flows.length === days.length && first !== undefined && days.every((day) => day >= first));
  return { flows, years: days.map((day) => (day - (first as number)) / 365) };
}

const datedPresent = (rate: number, { flows, years }: DatedFlows) =>
  sum(flows.map((flow, index) => flow / growth(rate, years[index] as number)));

function modifiedRate(flows: readonly number[], borrow: number, reinvest: number): number {
  const n = flows.length;
  const gains = sum(flows.map((flow, index) => (flow > 0 ? flow * growth(reinvest, n - 1 - index) : 0)));
  const losses = sum(flows.map((flow, index) => (flow < 0 ? flow / growth(borrow, index) : 0)));
  if (gains === 0 || losses === 0) throw ERROR.division;
  return (gains / -losses) ** (1 / (n - 1)) - 1;
}

function fixedDeclining(cost: number, salvage: number, life: number, period: number, months: number): number {
  const [first, at] = [Math.trunc(months), Math.trunc(period)];
  needs(
    cost >= 0 && salvage >= 0 && life > 0 && at >= 1 && first >= 1 && first <= 12 && at <= life + (first < 12 ? 1 : 0),
  );
  if (cost === 0) return 0;
  const rate = Math.round((1 - (salvage / cost) ** (1 / life)) * 1000) / 1000;
  const start = (cost * rate * first) / 12;
  if (at === 1) return start;
  const left = (cost - start) * (1 - rate) ** (at - 2);
  return at > life ? (left * rate * (12 - first)) / 12 : left * rate;
}

/** The value left after some time of declining by a share, not below the salvage. */
function declined(cost: number, salvage: number, life: number, factor: number, time: number): number {
  const share = Math.min(1, factor / life);
  return Math.max(Math.min(cost, salvage), share === 1 ? (time > 0 ? 0 : cost) : cost * (1 - share) ** time);
}

function doubleDeclining(cost: number, salvage: number, life: number, period: number, factor: number): number {
  needs(cost >= 0 && salvage >= 0 && life > 0 && period >= 1 && period <= life && factor > 0);
  return Math.max(0, declined(cost, salvage, life, factor, period - 1) - declined(cost, salvage, life, factor, period));
}

/** Declining balance, going over to equal parts once these are larger; between any two times, parts of periods too. */
function variable(
  cost: number,
  salvage: number,
  life: number,
  from: number,
  to: number,
  factor: number,
  isPure: boolean,
  context: Context,
): number {
  needs(cost >= 0 && salvage >= 0 && life > 0 && from >= 0 && to >= from && to <= life && factor > 0);
  context.book.budget.spend(Math.ceil(to));
  let total = 0;
  let left = cost;
  const share = Math.min(1, factor / life);
  let isStraight = false;
  for (let period = 0; period < Math.ceil(to); period += 1) {
    const declining = Math.min(left * share, Math.max(0, left - salvage));
    const straight = Math.max(0, left - salvage) / (life - period);
    if (!isPure && straight > declining) isStraight = true;
    const part = isStraight ? straight : declining;
    const covered = Math.max(0, Math.min(period + 1, to) - Math.max(period, from));
    total += part * covered;
    left -= part;
  }
  return total;
}

function fraction(number: number, under: number, isToDecimal: boolean): number {
  const base = Math.trunc(under);
  if (base < 0) throw ERROR.number;
  if (base === 0) throw ERROR.division;
  const whole = Math.trunc(number);
  const scale = 10 ** Math.ceil(Math.log10(base));
  return isToDecimal ? whole + ((number - whole) * scale) / base : whole + ((number - whole) * base) / scale;
}

export const FINANCE = [
  fn("PV", "n n n n? n?", (_, rate, periods, paid, future = 0, kind = 0) =>
    presentValue(rate, periods, paid, future, kind),
  ),
  fn("FV", "n n n n? n?", (_, rate, periods, paid, present = 0, kind = 0) =>
    futureValue(rate, periods, paid, present, kind),
  ),
  fn("PMT", "n n n n? n?", (_, rate, periods, present, future = 0, kind = 0) =>
    payment(rate, periods, present, future, kind),
  ),
  fn("NPER", "n n n n? n?", (_, rate, paid, present, future = 0, kind = 0) =>
    periodsFor(rate, paid, present, future, kind),
  ),
  fn("IPMT", "n n n n n? n?", (_, rate, period, periods, present, future = 0, kind = 0) =>
    interest(rate, period, periods, present, future, kind),
  ),
  fn(
    "PPMT",
    "n n n n n? n?",
    (_, rate, period, periods, present, future = 0, kind = 0) =>
      payment(rate, periods, present, future, kind) - interest(rate, period, periods, present, future, kind),
  ),
  fn("ISPMT", "n n n n", (_, rate, period, periods, present) => present * rate * (period / periods - 1)),
  fn("CUMIPMT", "n n n n n n", (_, rate, periods, present, first, last, kind) =>
    interestOf(rate, periods, present, first, last, kind),
  ),
  fn("CUMPRINC", "n n n n n n", (_, rate, periods, present, first, last, kind) => {
    const all = interestOf(rate, periods, present, first, last, kind);
    return payment(rate, periods, present, 0, kind) * (Math.trunc(last) - Math.trunc(first) + 1) - all;
  }),
  fn("RATE", "n n n n? n? n?", (_, periods, paid, present, future = 0, kind = 0, guess = 0.1) =>
    rateOf(periods, paid, present, future, kind, guess),
  ),
  fn("NPV", "n r*", (context, rate, ...flows) => netPresent(rate, numbersOf(flows as Value[], context))),
  fn("IRR", "r n?", (context, flows, guess = 0.1) => internalRate(numbersOf([flows], context), guess)),
  fn("XNPV", "n r r", (context, rate, flows, dates) => {
    needs(rate > -1);
    return datedPresent(rate, dated(flows, dates, context));
  }),
  fn("XIRR", "r r n?", (context, values, dates, guess = 0.1) => {
    const all = dated(values, dates, context);
    needs(all.flows.some((flow) => flow > 0) && all.flows.some((flow) => flow < 0));
    return root((rate) => datedPresent(rate, all), guess, -1);
  }),
  fn("MIRR", "r n n", (context, flows, borrow, reinvest) =>
    modifiedRate(numbersOf([flows], context), borrow, reinvest),
  ),
  fn("EFFECT", "n n", (_, rate, periods) => {
    const count = Math.trunc(periods);
    needs(rate > 0 && count >= 1);
    return (1 + rate / count) ** count - 1;
  }),
  fn("NOMINAL", "n n", (_, rate, periods) => {
    const count = Math.trunc(periods);
    needs(rate > 0 && count >= 1);
    return count * ((1 + rate) ** (1 / count) - 1);
  }),
  fn("RRI", "n n n", (_, periods, present, future) => {
    needs(periods > 0 && present !== 0);
    return (future / present) ** (1 / periods) - 1;
  }),
  fn("PDURATION", "n n n", (_, rate, present, future) => {
    needs(rate > 0 && present > 0 && future > 0);
    return (Math.log(future) - Math.log(present)) / Math.log1p(rate);
  }),
  fn("FVSCHEDULE", "n r", (context, present, rates) =>
    numbersOf([rates], context).reduce((value, rate) => value * (1 + rate), present),
  ),
  fn("SLN", "n n n", (_, cost, salvage, life) => {
    if (life === 0) throw ERROR.division;
    return (cost - salvage) / life;
  }),
  fn("SYD", "n n n n", (_, cost, salvage, life, period) => {
    needs(life > 0 && period >= 1 && period <= life);
    return ((cost - salvage) * (life - period + 1) * 2) / (life * (life + 1));
  }),
  fn("DB", "n n n n n?", (_, cost, salvage, life, period, months = 12) =>
    fixedDeclining(cost, salvage, life, period, months),
  ),
  fn("DDB", "n n n n n?", (_, cost, salvage, life, period, factor = 2) =>
    doubleDeclining(cost, salvage, life, period, factor),
  ),
  fn("VDB", "n n n n n n? b?", (context, cost, salvage, life, from, to, factor = 2, isPure = false) =>
    variable(cost, salvage, life, from, to, factor, isPure, context),
  ),
  fn("DOLLARDE", "n n", (_, number, under) => fraction(number, under, true)),
  fn("DOLLARFR", "n n", (_, number, under) => fraction(number, under, false)),
];
