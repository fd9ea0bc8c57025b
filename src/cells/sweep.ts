import { sweepAverage } from "../core/index.js";
import { missingInput, wrongInput } from "./cell-error.js";
import { guard, NOTHING_YET } from "./guard.js";
import { asBlock, isBlank, isGiven, readNeeded, readTaken } from "./read-range.js";

interface Sweep {
  readonly place: string;
  readonly velocity: unknown;
  readonly seconds: unknown;
}

function pairUp(velocities: unknown, seconds: unknown): readonly Sweep[] {
  const times = asBlock(seconds).flat();
  const speeds = asBlock(velocities).flat();
  if (times.length !== speeds.length) {
    throw wrongInput(
      `seconds has ${times.length} cells, but velocities has ${speeds.length}. Give one time for each sweep.`,
    );
  }
  return speeds.map((velocity, index) => ({ place: `sweep ${index + 1}`, velocity, seconds: times[index] }));
}

/**
 * Average velocity of timed sweeps over a grille or register, each weighted by how long it lasted.
 *
 * @customfunction SWEEP.AVERAGE
 * @param velocities Average velocity that the meter showed for each sweep [fpm or m/s].
 * @param seconds How long each sweep lasted [s].
 * @param [taken] COUNT of the velocity cells; lets a 0 reading count and a blank be skipped.
 * @returns Average velocity, in the unit of the velocities.
 * @roles velocities=readings taken
 */
export function vaneSweepAverage(velocities: any[][], seconds: any[][], taken?: any): any {
  return guard(() => {
    const begun = pairUp(velocities, seconds).filter((sweep) => isGiven(sweep.velocity) || isGiven(sweep.seconds));
    const undecided = begun.filter((sweep) => !isGiven(sweep.velocity));
    const measured = begun.filter((sweep) => isGiven(sweep.velocity));
    const zerosCount = zerosAreMeasured(measured.length, undecided, readTaken(taken));
    const sweeps = zerosCount ? begun : measured;
    if (sweeps.length === 0) return NOTHING_YET;
    const velocitiesFpm = sweeps.map(({ place, velocity }) =>
      isGiven(velocity) ? readNeeded(`velocities, ${place},`, velocity) : 0,
    );
    return sweepAverage(
      velocitiesFpm,
      sweeps.map(({ place, seconds: time }) => readNeeded(`seconds, ${place},`, time)),
    );
  });
}

/** A time beside a velocity of 0 is a dead face or a sweep not yet entered; only `taken` tells. */
function zerosAreMeasured(measuredCount: number, undecided: readonly Sweep[], taken: number | null): boolean {
  const [first] = undecided;
  if (taken === null) {
    if (first === undefined || measuredCount === 0) return false;
    throw missingInput(
      `velocities, ${first.place}, is 0 or blank beside a time. Enter it, or add the argument taken = COUNT of the velocity cells if 0 was measured.`,
    );
  }
  const typedZeros = undecided.filter(({ velocity }) => !isBlank(velocity)).length;
  if (taken === measuredCount) return false;
  if (taken === measuredCount + typedZeros && typedZeros === undecided.length) return true;
  throw wrongInput(
    `taken is ${taken}, but velocities holds ${measuredCount} sweeps and ${undecided.length} zeros or blanks beside a time. Enter every sweep whole, and give taken as COUNT of the velocity cells.`,
  );
}
