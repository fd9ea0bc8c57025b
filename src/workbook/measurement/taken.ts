import type { TraverseRule, UnitSystemName } from "../../core/index.js";

/** Clear inside size, in in or mm. */
export type TakenSize =
  | { readonly shape: "round"; readonly diameter: number }
  | { readonly shape: "rectangular"; readonly width: number; readonly height: number }
  | { readonly shape: "flat oval"; readonly major: number; readonly minor: number };

interface TakenBase {
  readonly units: UnitSystemName;
  readonly size: TakenSize;
}

/** Readings at planned points, line by line; null where none was taken, which is never 0. In fpm or m/s. */
export interface TakenPoints {
  readonly lines: number;
  readonly pointsPerLine: number;
  readonly readings: readonly (number | null)[];
}

export interface TakenDuct extends TakenBase, TakenPoints {
  readonly kind: "duct";
  readonly rule: TraverseRule;
  /** Wall, lining and nipple before the air, in in or mm. */
  readonly wall: number;
}

/** One slow sweep over the whole face: what the meter showed for it, in fpm or m/s, and how long it lasted. */
export interface TakenSweep {
  readonly velocity: number;
  readonly seconds: number;
}

export interface TakenFacePoints extends TakenBase, TakenPoints {
  readonly kind: "face points";
  /** Free-area factor; null where nobody knows it and 0.75 is assumed. */
  readonly factor: number | null;
}

export interface TakenFaceSweeps extends TakenBase {
  readonly kind: "face sweeps";
  readonly factor: number | null;
  readonly sweeps: readonly TakenSweep[];
}

/** A measurement as it was taken, in the units of the job. */
export type TakenMeasurement = TakenDuct | TakenFacePoints | TakenFaceSweeps;

/** The readings that were taken, without those that were not. */
export function takenReadings(taken: TakenMeasurement): readonly number[] {
  if (taken.kind === "face sweeps") return taken.sweeps.map(({ velocity }) => velocity);
  return taken.readings.filter((reading) => reading !== null);
}
