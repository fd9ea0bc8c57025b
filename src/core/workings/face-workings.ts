import type { Fpm, Ratio, Second, SquareFoot } from "../units/quantity.js";
import { type AirflowContext, airflowSteps } from "./airflow-steps.js";
import { areaStep } from "./area-step.js";
import { freeAreaSteps } from "./free-area-steps.js";
import type { OpeningSize } from "./opening-size.js";
import { pointsStep, sweepsStep } from "./velocity-steps.js";
import type { Workings } from "./workings.js";

/** What was measured at a grille, register or louver. */
export interface FaceMeasurement extends AirflowContext {
  readonly size: OpeningSize;
  /** Published factor, null where none is known. */
  readonly freeAreaRatio: Ratio | null;
  /** Published effective area, null where none is known. */
  readonly effectiveAreaFt2: SquareFoot | null;
  readonly readings:
    | { readonly kind: "points"; readonly velocitiesFpm: readonly Fpm[] }
    | { readonly kind: "sweeps"; readonly velocitiesFpm: readonly Fpm[]; readonly timesSeconds: readonly Second[] };
}

/**
 * Returns the steps by which the airflow of a face was found, each with its formula, numbers, source and assumption.
 *
 * A = w · h, Af = A · F, V = mean of readings, Q = V · Af, P = 100 · Q / Qd, U = k · √Σu²
 *
 * @param face - Size, factor or effective area, readings; the design airflow and the budget add steps where given
 * @returns Steps in order, in inch-pound units
 * @throws {DomainError} When a size, a reading, the factor or the design is out of its range
 * @source Each step names its own; the steps are those of `faceAirflow`, `percentOfDesign` and `airflowBudget`
 * @example
 * faceWorkings({
 *   size: { shape: "rectangle", widthIn: 12, heightIn: 6 },
 *   freeAreaRatio: 0.75,
 *   effectiveAreaFt2: null,
 *   readings: { kind: "points", velocitiesFpm: [380, 420] },
 *   designCfm: null,
 *   budget: null,
 * }).map((step) => step.result) // => [0.5, 0.375, 400, 150]
 */
export function faceWorkings(face: FaceMeasurement): Workings {
  const area = areaStep("Opening area", face.size);
  const free = freeAreaSteps(area.result, face.freeAreaRatio, face.effectiveAreaFt2);
  const { readings } = face;
  const velocity =
    readings.kind === "points"
      ? pointsStep(readings.velocitiesFpm)
      : sweepsStep(readings.velocitiesFpm, readings.timesSeconds);
  return [
    area,
    ...free.steps,
    velocity,
    ...airflowSteps(velocity.result, { name: "Free area", symbol: "Af", areaFt2: free.freeAreaFt2 }, face),
  ];
}
