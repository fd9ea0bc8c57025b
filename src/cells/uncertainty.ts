import {
  type AirflowDoubt,
  airflowBudget,
  airflowUncertainty,
  instrumentLimits,
  repeatUncertainty,
} from "../core/index.js";
import { missingInput, wrongInput } from "./cell-error.js";
import { type CellResult, guard, NOTHING_YET } from "./guard.js";
import { overBlocks } from "./over-blocks.js";
import {
  allReadings,
  asSingle,
  isGiven,
  readNeeded,
  readOptional,
  readOptionalZero,
  readReadings,
} from "./read-range.js";

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

function readRepeatFreedom(repeats: unknown): number {
  const count = readOptional("repeats", repeats, Number.POSITIVE_INFINITY);
  if (count === Number.POSITIVE_INFINITY || (Number.isSafeInteger(count) && count >= 2)) return count - 1;
  throw wrongInput("repeats must be how many whole sweeps were made, 2 or more.");
}

function readDoubt(
  instrument: unknown,
  factor: unknown,
  area: unknown,
  repeat: unknown,
  repeats: unknown,
): AirflowDoubt {
  return {
    instrumentPercent: readOptional("instrument", instrument, "assumed"),
    factorPercent: readFactorDoubt(factor),
    areaPercent: readOptional("area", area, "assumed"),
    repeatPercent: readOptional("repeat", repeat, "assumed"),
    repeatDegreesOfFreedom: readRepeatFreedom(repeats),
  };
}

/**
 * The ± of an airflow at about 95 %. What is left out is assumed, and an assumed factor usually dominates. Columns of
 * equal height give a column.
 *
 * @customfunction UNCERTAINTY.AIRFLOW
 * @param airflow The airflow; the ± comes in its unit [cfm or L/s].
 * @param [instrument] The ± of the reading from the data sheet; 10 when left out [%].
 * @param [factor] The ± of a published factor; 20 when left out, "none" for a duct or an open end [%].
 * @param [area] The ± of the area; 2 when left out [%].
 * @param [repeat] Uncertainty of the mean of repeated sweeps, as UNCERTAINTY.REPEAT gives it; 2.5 when left out [%].
 * @param [repeats] How many whole sweeps the repeat figure comes from; few widen the ±.
 * @returns The ± of the airflow [cfm or L/s].
 */
export function vaneUncertaintyAirflow(
  airflow: any[][],
  instrument?: any[][],
  factor?: any[][],
  area?: any[][],
  repeat?: any[][],
  repeats?: any[][],
): any[][] {
  const names = ["airflow", "instrument", "factor", "area", "repeat", "repeats"];
  const blocks = [airflow, instrument, factor, area, repeat, repeats];
  return overBlocks(names, blocks, (oneAirflow, ...doubts) => {
    if (!isGiven(asSingle(oneAirflow))) return NOTHING_YET;
    const [oneInstrument, oneFactor, oneArea, oneRepeat, oneRepeats] = doubts;
    const doubt = readDoubt(oneInstrument, oneFactor, oneArea, oneRepeat, oneRepeats);
    return airflowUncertainty(readNeeded("airflow", oneAirflow), doubt);
  });
}

/**
 * The uncertainty budget of an airflow as a table: each part, its share of the variance, and whether it was assumed.
 *
 * @customfunction UNCERTAINTY.BUDGET
 * @param [instrument] The ± of the reading from the data sheet; 10 when left out [%].
 * @param [factor] The ± of a published factor; 20 when left out, "none" for a duct or an open end [%].
 * @param [area] The ± of the area; 2 when left out [%].
 * @param [repeat] Uncertainty of the mean of repeated sweeps, as UNCERTAINTY.REPEAT gives it; 2.5 when left out [%].
 * @param [repeats] How many whole sweeps the repeat figure comes from; few widen the ±.
 * @returns A table of four columns with a heading, the parts, their sum and the ± with what rules it.
 */
export function vaneUncertaintyBudget(
  instrument?: any,
  factor?: any,
  area?: any,
  repeat?: any,
  repeats?: any,
): any[][] {
  return guard(() => {
    const budget = airflowBudget(readDoubt(instrument, factor, area, repeat, repeats));
    const parts = budget.rows.map(({ name, contributionPercent, sharePercent }): CellResult[] => [
      name,
      contributionPercent,
      sharePercent,
      budget.assumed.includes(name) ? "assumed" : "given",
    ]);
    return [
      ["Part", "Standard uncertainty, %", "Share of variance, %", "Basis"],
      ...parts,
      ["Together", budget.standardPercent, budget.standardPercent === 0 ? 0 : 100, "root of the sum of squares"],
      [`± (k = ${budget.coverageFactor})`, budget.expandedPercent, NOTHING_YET, budget.summary],
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
 * Uncertainty of the mean of whole sweeps or traverses repeated at one place. Never for the points of one traverse:
 * they differ by the profile, not by chance.
 *
 * @customfunction UNCERTAINTY.REPEAT
 * @param repeats Results of whole repeats, two or more [fpm, cfm or SI].
 * @param [taken] COUNT of the same cells, so that a blank cell is not taken for a result of 0.
 * @returns Standard uncertainty in percent of the mean [%].
 * @roles taken
 */
export function vaneUncertaintyRepeat(repeats: any[][], taken?: any): any {
  return guard(() => {
    const read = readReadings("repeats", repeats, taken);
    if (read === null) return NOTHING_YET;
    const results = allReadings(read);
    if (results.length < 2) throw missingInput("repeats holds one result. Repeat the whole sweep at least once more.");
    return repeatUncertainty(results).standardPercent;
  });
}
