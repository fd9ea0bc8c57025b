import { UNCERTAINTY_DEFAULTS } from "../../shared/tables/uncertainty-defaults.js";
import {
  type AirflowDoubt,
  airflowBudget,
  airflowUncertainty,
  gaugeLimits,
  instrumentLimits,
  repeatUncertainty,
} from "../core/index.js";
import { missingInput, wrongInput } from "./cell-error.js";
import { type CellResult, guard, NOTHING_YET } from "./guard.js";
import { overBlocks } from "./over-blocks.js";
import { pressuresInWg } from "./read-density.js";
import {
  allReadings,
  asSingle,
  isGiven,
  readNeeded,
  readOptional,
  readOptionalZero,
  readReadings,
} from "./read-range.js";
import { readUnits } from "./unit-system.js";

/** Typed instead of a percent where the whole area is free, as in a duct. */
const NO_FACTOR = "none";

function readFactorDoubt(value: unknown): AirflowDoubt["factorPercent"] {
  const single = asSingle(value);
  if (typeof single === "string" && single.trim().toLowerCase() === NO_FACTOR) return "none";
  if (typeof single === "string" && single !== "") {
    throw wrongInput('factor must be its ± in percent, or "none" where the whole area is free, as in a duct.');
  }
  return readOptional("factor", single, "assumed");
}

/** A repeat figure says nothing without the count that it comes from: two sweeps know it far worse than ten. */
function readRepeats(repeat: number | "assumed", repeats: unknown): number {
  const count = readOptional("repeats", repeats, null);
  if (count === null) {
    if (repeat === "assumed") return Number.POSITIVE_INFINITY;
    throw missingInput("repeats is missing beside repeat. Enter how many whole sweeps the repeat figure comes from.");
  }
  if (Number.isSafeInteger(count) && count >= 2) return count - 1;
  throw wrongInput("repeats must be how many whole sweeps were made, 2 or more.");
}

/** Points that were read; their spread must be told as soon as there are two. */
function readPoints(points: unknown, spread: unknown): AirflowDoubt["points"] {
  const pointCount = readOptional("points", points, null);
  if (pointCount === null) return null;
  if (!(Number.isSafeInteger(pointCount) && pointCount >= 1)) throw wrongInput("points must be how many were read.");
  if (pointCount === 1) return { pointCount, spreadPercent: 0 };
  const spreadPercent = readOptionalZero("spread", spread, null);
  if (spreadPercent === null) {
    throw missingInput("spread is missing beside points. Enter 100*STDEV/AVERAGE of the readings.");
  }
  return { pointCount, spreadPercent };
}

function readDoubt(parts: readonly unknown[]): AirflowDoubt {
  const [instrument, factor, area, repeat, repeats, points, spread] = parts;
  const repeatPercent = readOptional("repeat", repeat, "assumed");
  return {
    instrumentPercent: readOptional("instrument", instrument, "assumed"),
    factorPercent: readFactorDoubt(factor),
    areaPercent: readOptional("area", area, "assumed"),
    repeatPercent,
    repeatDegreesOfFreedom: readRepeats(repeatPercent, repeats),
    points: readPoints(points, spread),
    pitot: null,
  };
}

/**
 * The ± of an airflow (95 %). What is left out is assumed, and an assumed factor usually causes most of it. Columns of
 * equal height give a column.
 *
 * @customfunction UNCERTAINTY.AIRFLOW
 * @param airflow The airflow; the ± comes in its unit [cfm or L/s].
 * @param [instrument] The ± of the reading from the data sheet; 10 when left out [%].
 * @param [factor] The ± of a published factor; 20 when left out, "none" for a duct or an open end [%].
 * @param [area] The ± of the area; 2 when left out [%].
 * @param [repeat] How well the average of repeated sweeps repeats, as UNCERTAINTY.REPEAT gives it; 5 when left out [%].
 * @param [repeats] How many whole sweeps the repeat figure comes from; few widen the ±. Needed beside repeat.
 * @param [points] How many points were read over the opening; leave out for a sweep.
 * @param [spread] How much the readings at the points differ, 100*STDEV/AVERAGE of them [%].
 * @returns The ± of the airflow [cfm or L/s].
 */
export function vaneUncertaintyAirflow(
  airflow: any[][],
  instrument?: any[][],
  factor?: any[][],
  area?: any[][],
  repeat?: any[][],
  repeats?: any[][],
  points?: any[][],
  spread?: any[][],
): any[][] {
  const names = ["airflow", "instrument", "factor", "area", "repeat", "repeats", "points", "spread"];
  const blocks = [airflow, instrument, factor, area, repeat, repeats, points, spread];
  return overBlocks(names, blocks, (oneAirflow, ...doubts) => {
    if (!isGiven(asSingle(oneAirflow))) return NOTHING_YET;
    return airflowUncertainty(readNeeded("airflow", oneAirflow), readDoubt(doubts));
  });
}

/**
 * Where the ± of an airflow comes from, as a table: each part, how much of the doubt it causes, and whether it was
 * assumed.
 *
 * @customfunction UNCERTAINTY.BUDGET
 * @param [instrument] The ± of the reading from the data sheet; 10 when left out [%].
 * @param [factor] The ± of a published factor; 20 when left out, "none" for a duct or an open end [%].
 * @param [area] The ± of the area; 2 when left out [%].
 * @param [repeat] How well the average of repeated sweeps repeats, as UNCERTAINTY.REPEAT gives it; 5 when left out [%].
 * @param [repeats] How many whole sweeps the repeat figure comes from; few widen the ±. Needed beside repeat.
 * @param [points] How many points were read over the opening; leave out for a sweep.
 * @param [spread] How much the readings at the points differ, 100*STDEV/AVERAGE of them [%].
 * @returns A table of four columns with a heading, the parts, their sum and the ± with what rules it.
 */
export function vaneUncertaintyBudget(
  instrument?: any,
  factor?: any,
  area?: any,
  repeat?: any,
  repeats?: any,
  points?: any,
  spread?: any,
): any[][] {
  return guard(() => {
    const budget = airflowBudget(readDoubt([instrument, factor, area, repeat, repeats, points, spread]));
    const parts = budget.rows.map(({ name, contributionPercent, sharePercent }): CellResult[] => [
      name,
      contributionPercent,
      sharePercent,
      budget.assumed.includes(name) ? "assumed" : "given",
    ]);
    return [
      ["Part", "One standard deviation, %", "How much of the doubt, %", "Basis"],
      ...parts,
      ["Together", budget.standardPercent, budget.standardPercent === 0 ? 0 : 100, "root of the sum of squares"],
      ["± (95 %)", budget.expandedPercent, NOTHING_YET, budget.summary],
    ];
  });
}

/**
 * The ± of one reading in percent, from a data sheet that says ±(percent of reading + a fixed part).
 *
 * @customfunction UNCERTAINTY.INSTRUMENT
 * @param velocity The reading [fpm or m/s].
 * @param percent The part of the data sheet in percent of reading [%].
 * @param [fixed] The fixed part of the data sheet, in the unit of the reading; it rules at low velocity [fpm or m/s].
 * @returns The ± of the reading [%].
 */
export function vaneUncertaintyInstrument(velocity: any[][], percent: any[][], fixed?: any[][]): any[][] {
  return overBlocks(
    ["velocity", "percent", "fixed"],
    [velocity, percent, fixed],
    (oneVelocity, onePercent, oneFixed) => {
      if (!isGiven(asSingle(oneVelocity))) return NOTHING_YET;
      const reading = readNeeded("velocity", oneVelocity);
      const ofReadingPercent = readOptionalZero("percent", onePercent, 0);
      const fixedPart = readOptionalZero("fixed", oneFixed, 0);
      if (ofReadingPercent === 0 && fixedPart === 0) {
        throw missingInput("percent is missing. Enter what the data sheet says, in percent of reading.");
      }
      return (100 * instrumentLimits(reading, ofReadingPercent, fixedPart)) / reading;
    },
  );
}

/**
 * The ± that gauge, density and tube leave on the average velocity of a Pitot traverse: enter it as instrument in
 * UNCERTAINTY.AIRFLOW. At low pressures the fixed part of the gauge rules.
 *
 * @customfunction UNCERTAINTY.PITOT
 * @param pressures Block of velocity pressures [in.w.c. or Pa].
 * @param [percent] The gauge's ± in percent of reading; 2 when left out [%].
 * @param [fixed] Its fixed ±, such as its zero or half a division; 0.005 in.w.c. when left out [in.w.c. or Pa].
 * @param [density] The ± of the density; 3 when left out, as without a barometer [%].
 * @param [coefficient] The ± of the tube's coefficient; 1 when left out [%].
 * @param [taken] COUNT of the same cells; lets a 0 reading count and a blank be skipped.
 * @param [units] "ip" (in.w.c.) or "si" (Pa); inch-pound when left out.
 * @returns The ± of the average velocity [%].
 * @roles taken
 */
export function vaneUncertaintyPitot(
  pressures: any[][],
  percent?: any,
  fixed?: any,
  density?: any,
  coefficient?: any,
  taken?: any,
  units?: any,
): any {
  return guard(() => {
    const system = readUnits(units);
    const read = readReadings("pressures", pressures, taken);
    if (read === null) return NOTHING_YET;
    const { gauge, density: air, pitot } = UNCERTAINTY_DEFAULTS;
    const limitsOf = (argument: string, value: unknown) => {
      const given = readOptional(argument, value, null);
      if (given !== null && given < 0) throw wrongInput(`${argument} must be 0 or more.`);
      return given;
    };
    const givenFixed = limitsOf("fixed", fixed);
    const gaugePercent = gaugeLimits(
      pressuresInWg(system, allReadings(read)),
      limitsOf("percent", percent) ?? gauge.ofReadingPercent,
      givenFixed === null ? gauge.fixedInWg : system.toInWg(givenFixed),
    );
    // Under the root of the velocity the density counts half.
    return Math.hypot(
      gaugePercent,
      (limitsOf("density", density) ?? air.plusMinusPercent) / 2,
      limitsOf("coefficient", coefficient) ?? pitot.plusMinusPercent,
    );
  });
}

/**
 * How well the average of whole sweeps or traverses at one place repeats. Never for the points of one traverse: they
 * differ by the profile, not by chance.
 *
 * @customfunction UNCERTAINTY.REPEAT
 * @param repeats Results of whole repeats, two or more [fpm, cfm or SI].
 * @param [taken] COUNT of the same cells; lets a 0 reading count and a blank be skipped.
 * @param [resolution] The smallest step of the meter's display; no average repeats better than it allows [fpm, cfm or SI].
 * @returns One standard deviation of the average, in percent of it [%].
 * @roles taken
 */
export function vaneUncertaintyRepeat(repeats: any[][], taken?: any, resolution?: any): any {
  return guard(() => {
    const read = readReadings("repeats", repeats, taken);
    if (read === null) return NOTHING_YET;
    const results = allReadings(read);
    if (results.length < 2) throw missingInput("repeats holds one result. Repeat the whole sweep at least once more.");
    return repeatUncertainty(results, readOptional("resolution", resolution, 0)).standardPercent;
  });
}
