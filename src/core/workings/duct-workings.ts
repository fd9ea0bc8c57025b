import type { Fpm, InWg, LbFt3 } from "../units/quantity.js";
import { type AirflowContext, airflowSteps } from "./airflow-steps.js";
import { areaStep } from "./area-step.js";
import type { OpeningSize } from "./opening-size.js";
import { pointsStep, pressuresStep } from "./velocity-steps.js";
import type { Workings } from "./workings.js";

/** What was measured over the section of a duct. */
export interface DuctMeasurement extends AirflowContext {
  /** Inside size, lining deducted. */
  readonly size: OpeningSize;
  readonly readings:
    | { readonly kind: "velocities"; readonly velocitiesFpm: readonly Fpm[] }
    | {
        readonly kind: "pressures";
        readonly pressuresInWg: readonly InWg[];
        readonly densityLbFt3: LbFt3;
        readonly densityBasis: "stated" | "assumed";
        /** Coefficient of the tube; 1 for a standard Pitot tube as the trade takes it, about 0.84 for a Type S. */
        readonly pitotFactor: number;
      };
}

/**
 * Returns the steps by which the airflow of a duct was found, each with its formula, numbers, source and assumption.
 *
 * A = w · h or π · d² / 4, V = mean of velocities or C · mean of √pv · √(2 / ρ), Q = V · A
 *
 * @param duct - Inside size and readings; the design airflow and the budget add steps where given
 * @returns Steps in order, in inch-pound units
 * @throws {DomainError} When a size, a reading, the density or the design is out of its range
 * @source Each step names its own; the steps are those of `airflow`
 * @example
 * ductWorkings({
 *   size: { shape: "rectangle", widthIn: 24, heightIn: 24 },
 *   readings: { kind: "pressures", pressuresInWg: [0.5], densityLbFt3: 0.075, densityBasis: "stated", pitotFactor: 1 },
 *   designCfm: null,
 *   budget: null,
 * }).map((step) => step.result) // => [4, 2834.5, 11338]
 */
export function ductWorkings(duct: DuctMeasurement): Workings {
  const area = areaStep("Inside area", duct.size);
  const { readings } = duct;
  const velocity = readings.kind === "velocities" ? pointsStep(readings.velocitiesFpm) : pressuresStep(readings);
  return [area, velocity, ...airflowSteps(velocity.result, { name: "Area", symbol: "A", areaFt2: area.result }, duct)];
}
