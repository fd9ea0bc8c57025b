export { freeAreaRatioOf, type MeasuredResult, measuredResult } from "./measured-result.js";
export type { Placement, Refusal } from "./placement.js";
export { planPlacement } from "./plan-placement.js";
export { type KnownOpening, readSelectedOutlet, type SelectedOutlet } from "./selected-outlet.js";
export { sizeAreaFt2 } from "./size-area.js";
export { type SweepAgreement, sweepAgreement } from "./sweep-agreement.js";
export {
  type TakenDuct,
  type TakenMeasurement,
  type TakenPoints,
  type TakenSize,
  type TakenSweep,
  takenReadings,
} from "./taken.js";
