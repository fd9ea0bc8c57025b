import { requirePositive } from "../check/require.js";
import { averageVelocity } from "../readings/average-velocity.js";
import { averageVelocityFromPressures } from "../readings/average-velocity-from-pressures.js";
import { sweepAverage } from "../readings/sweep-average.js";
import type { Fpm, InWg, LbFt3, Second } from "../units/quantity.js";
import type { WorkingStep } from "./workings.js";

const RESULT = { symbol: "V", unit: "fpm" } as const;

/** The step from velocities at points to their mean. */
export function pointsStep(velocitiesFpm: readonly Fpm[]): WorkingStep {
  return {
    ...RESULT,
    title: "Average velocity",
    expression: "mean(v)",
    inputs: [{ name: "Readings", symbol: "v", value: velocitiesFpm, unit: "fpm" }],
    result: averageVelocity(velocitiesFpm),
    source: "ISO 5802:2001 and NAVFAC MO-114 vol. 3, ch. 2: arithmetic mean over points of equal weight",
    assumed: null,
  };
}

/** The step from timed sweeps to their mean. */
export function sweepsStep(velocitiesFpm: readonly Fpm[], timesSeconds: readonly Second[]): WorkingStep {
  return {
    ...RESULT,
    title: "Average velocity of the sweeps",
    expression: "dot(v, t) / sum(t)",
    inputs: [
      { name: "Sweeps", symbol: "v", value: velocitiesFpm, unit: "fpm" },
      { name: "Times", symbol: "t", value: timesSeconds, unit: "s" },
    ],
    result: sweepAverage(velocitiesFpm, timesSeconds),
    source: "Derived: each sweep weighted with its time",
    assumed: null,
  };
}

/** Velocity pressures with what turns them into velocities. */
interface PressureReadings {
  readonly pressuresInWg: readonly InWg[];
  readonly densityLbFt3: LbFt3;
  readonly densityBasis: "stated" | "assumed";
  readonly pitotFactor: number;
}

/** The step from velocity pressures to a mean velocity: the mean of the roots, never the root of the mean. */
export function pressuresStep({
  pressuresInWg,
  densityLbFt3,
  densityBasis,
  pitotFactor,
}: PressureReadings): WorkingStep {
  requirePositive("pitotFactor", pitotFactor);
  const negative = pressuresInWg.filter((pressureInWg) => pressureInWg < 0).length;
  const assumed = [
    ...(densityBasis === "assumed" ? ["Density of standard air, because none is stated"] : []),
    ...(negative > 0
      ? [`${negative} negative of ${pressuresInWg.length} pressures counted as 0 (common practice)`]
      : []),
  ];
  return {
    ...RESULT,
    title: "Average velocity from velocity pressures",
    expression: `${pitotFactor === 1 ? "" : "Cp * "}mean(map(p, sqrt)) * sqrt(2 / rho)`,
    inputs: [
      {
        name: "Velocity pressures",
        symbol: "p",
        value: pressuresInWg.map((pressureInWg) => Math.max(pressureInWg, 0)),
        unit: "inWG",
      },
      { name: "Density", symbol: "rho", value: densityLbFt3, unit: "lb/ft3" },
      ...(pitotFactor === 1
        ? []
        : [{ name: "Pitot coefficient", symbol: "Cp", value: pitotFactor, unit: "ratio" } as const]),
    ],
    result: pitotFactor * averageVelocityFromPressures(pressuresInWg, densityLbFt3),
    source: "40 CFR 60 App. A-1, Method 2: average of the square roots; V = Cp sqrt(2 p / rho)",
    assumed: assumed.length > 0 ? assumed.join("; ") : null,
  };
}
