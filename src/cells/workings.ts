import { UNCERTAINTY_DEFAULTS } from "../../shared/tables/uncertainty-defaults.js";
import {
  type AirflowBudget,
  type AirflowDoubt,
  type DuctMeasurement,
  ductWorkings,
  faceWorkings,
  gaugeLimits,
  type OpeningSize,
  sampleSpread,
  stepNumbers,
  type Workings,
  workingsInSi,
} from "../core/index.js";
import { assumedBudget } from "./assumed-budget.js";
import { CellError, wrongInput } from "./cell-error.js";
import { type CellResult, guard, NOTHING_YET } from "./guard.js";
import { pressuresInWg, readDensity, readPitotFactor } from "./read-density.js";
import { allReadings, asSingle, isGiven, readOptional, readReadings } from "./read-range.js";
import { readSides } from "./read-size.js";
import { readUnits, type UnitSystem } from "./unit-system.js";

/** A size without a height is a diameter. */
function readOpeningSize(system: UnitSystem, width: unknown, height: unknown): OpeningSize {
  const { widthIn, heightIn } = readSides(system, width, height);
  return heightIn === null ? { shape: "round", diameterIn: widthIn } : { shape: "rectangle", widthIn, heightIn };
}

function readDesign(system: UnitSystem, value: unknown): number | null {
  const design = readOptional("design", value, null);
  return design === null ? null : system.toCfm(design);
}

/** A row for each step: title, formula, numbers, result, unit, source, and what was assumed. */
function stepRows(workings: Workings, system: UnitSystem): CellResult[][] {
  const shown = system.name === "si" ? workingsInSi(workings) : workings;
  return shown.map((step) => [
    step.title,
    `${step.symbol} = ${step.expression}`,
    stepNumbers(step),
    step.result,
    step.unit === "ratio" ? NOTHING_YET : step.unit,
    step.source,
    step.assumed === null ? NOTHING_YET : `Assumed: ${step.assumed}`,
  ]);
}

/**
 * The steps by which the airflow of a grille or register was found, one row per step: title, formula, numbers, result, unit, source and
 * what was assumed. The ± rests on defaults for whatever is not stated.
 *
 * @customfunction WORKINGS.FACE
 * @param width Width of the opening, or its diameter where no height is given [in or mm].
 * @param height Height of the opening; blank for a round one [in or mm].
 * @param readings Block of readings over the grille or register [fpm or m/s].
 * @param [factor] Free-area factor, above 0 and at most 1; 0.75 is assumed where nothing is known [ratio].
 * @param [taken] COUNT of the reading cells; lets a 0 reading count and a blank be skipped.
 * @param [design] Design airflow, for the percent of design [cfm or L/s].
 * @param [effectiveArea] Published effective area in place of a factor; both at once are refused [ft2 or m2].
 * @param [units] "ip" (in, fpm, cfm) or "si" (mm, m/s, L/s); inch-pound when left out.
 * @returns Seven columns, a row for each step.
 * @roles width height readings factor taken design effectiveArea=area units
 */
export function vaneWorkingsFace(
  width: any,
  height: any,
  readings: any[][],
  factor?: any,
  taken?: any,
  design?: any,
  effectiveArea?: any,
  units?: any,
): any[][] {
  return guard(() => {
    const system = readUnits(units);
    const read = readReadings("readings", readings, taken);
    if (read === null) return [[NOTHING_YET]];
    const freeAreaRatio = readOptional("factor", factor, null);
    const effective = readOptional("effectiveArea", effectiveArea, null);
    const isAssumed = freeAreaRatio === null && effective === null;
    const velocitiesFpm = allReadings(read).map(system.toFpm);
    const workings = faceWorkings({
      size: readOpeningSize(system, width, height),
      freeAreaRatio,
      effectiveAreaFt2: effective === null ? null : system.toFt2(effective),
      readings: { kind: "points", velocitiesFpm },
      designCfm: readDesign(system, design),
      budget: assumedBudget(isAssumed ? "assumed" : freeAreaRatio === 1 ? "open" : "published", {
        points: pointsOf(velocitiesFpm),
      }),
    });
    return stepRows(workings, system);
  });
}

function pointsOf(velocities: readonly number[]): AirflowDoubt["points"] {
  return { pointCount: velocities.length, spreadPercent: sampleSpread(velocities) };
}

/** The ± of a traverse: of pressures the gauge, the density and the tube stand in the instrument's place. */
function ductBudget(readings: DuctMeasurement["readings"]): AirflowBudget {
  if (readings.kind === "velocities") return assumedBudget("open", { points: pointsOf(readings.velocitiesFpm) });
  const { gauge } = UNCERTAINTY_DEFAULTS;
  return assumedBudget("open", {
    // Without pressure anywhere there is no airflow whose ± could be told in percent.
    instrumentPercent: readings.pressuresInWg.some((pressure) => pressure > 0)
      ? gaugeLimits(readings.pressuresInWg, gauge.ofReadingPercent, gauge.fixedInWg)
      : "assumed",
    points: pointsOf(readings.pressuresInWg.map((pressure) => Math.sqrt(Math.max(pressure, 0)))),
    pitot: { densityPercent: "assumed", coefficientPercent: "assumed" },
  });
}

/** Says whether the readings of a duct are velocity pressures. */
function arePressures(value: unknown): boolean {
  const single = asSingle(value);
  if (single instanceof CellError) throw new CellError(single.code, `quantity is in error: ${single.message}`);
  const word = isGiven(single) ? String(single).trim().toLowerCase() : "velocity";
  if (word === "velocity" || word === "pressure") return word === "pressure";
  throw wrongInput('quantity must be "velocity" or "pressure", for what the readings are.');
}

function readDuctReadings(
  system: UnitSystem,
  values: readonly number[],
  quantity: unknown,
  density: unknown,
  coefficient: unknown,
): DuctMeasurement["readings"] {
  if (!arePressures(quantity)) return { kind: "velocities", velocitiesFpm: values.map(system.toFpm) };
  return {
    kind: "pressures",
    pressuresInWg: pressuresInWg(system, values),
    densityLbFt3: readDensity(system, density),
    densityBasis: isGiven(asSingle(density)) ? "stated" : "assumed",
    pitotFactor: readPitotFactor(coefficient),
  };
}

/**
 * The steps by which the airflow of a duct was found, one row per step: title, formula, numbers, result, unit, source and
 * what was assumed. The ± rests on defaults for whatever is not stated.
 *
 * @customfunction WORKINGS.DUCT
 * @param width Inside width of the duct, or its diameter where no height is given [in or mm].
 * @param height Inside height of the duct; blank for a round one [in or mm].
 * @param readings Block of readings, each standing for an equal part of the area [fpm, m/s, in.w.c. or Pa].
 * @param [taken] COUNT of the reading cells; lets a 0 reading count and a blank be skipped.
 * @param [quantity] What the readings are, "velocity" or "pressure"; velocity when left out.
 * @param [density] Density of the air, for pressures; standard air, 0.075 lb/ft3, when left out [lb/ft3 or kg/m3].
 * @param [design] Design airflow, for the percent of design [cfm or L/s].
 * @param [units] "ip" (in, fpm, in.w.c., cfm) or "si" (mm, m/s, Pa, L/s); inch-pound when left out.
 * @param [coefficient] Coefficient of the Pitot tube, for pressures; 1 when left out, about 0.84 for a Type S.
 * @returns Seven columns, a row for each step.
 * @roles width height readings taken quantity=kind-of-reading design units
 */
export function vaneWorkingsDuct(
  width: any,
  height: any,
  readings: any[][],
  taken?: any,
  quantity?: any,
  density?: any,
  design?: any,
  units?: any,
  coefficient?: any,
): any[][] {
  return guard(() => {
    const system = readUnits(units);
    const read = readReadings("readings", readings, taken);
    if (read === null) return [[NOTHING_YET]];
    const measured = readDuctReadings(system, allReadings(read), quantity, density, coefficient);
    const workings = ductWorkings({
      size: readOpeningSize(system, width, height),
      readings: measured,
      designCfm: readDesign(system, design),
      budget: ductBudget(measured),
    });
    return stepRows(workings, system);
  });
}
