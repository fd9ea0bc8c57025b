import { ASSUMED_FREE_AREA } from "../../../shared/tables/assumed-free-area.js";
import { freeAreaOnBasis } from "../openings/free-area-on-basis.js";
import type { Ratio, SquareFoot } from "../units/quantity.js";
import type { WorkingInput, Workings } from "./workings.js";

const ASSUMED_FACTOR =
  `Factor ${ASSUMED_FREE_AREA.metal.freeAreaRatio}, because none is published for this grille; ` +
  "the real one may be off by 10 % or more";

/** Steps that end in a free area, and that area. */
export interface FreeAreaSteps {
  readonly steps: Workings;
  readonly freeAreaFt2: SquareFoot;
}

/** The steps from the area of a face to the part of it that is free. */
export function freeAreaSteps(
  areaFt2: SquareFoot,
  freeAreaRatio: Ratio | null,
  effectiveAreaFt2: SquareFoot | null,
): FreeAreaSteps {
  const free = freeAreaOnBasis(areaFt2, freeAreaRatio, effectiveAreaFt2);
  const area: WorkingInput = { name: "Area", symbol: "A", value: areaFt2, unit: "ft2" };
  const factor: WorkingInput = { name: "Factor", symbol: "F", value: free.freeAreaRatio, unit: "ratio" };
  const last = {
    title: "Free area",
    symbol: "Af",
    expression: "A * F",
    inputs: [area, factor],
    result: free.freeAreaFt2,
    unit: "ft2",
  } as const;
  if (effectiveAreaFt2 !== null) {
    const steps = [
      {
        title: "Factor from the published effective area",
        symbol: "F",
        expression: "Ae / A",
        inputs: [{ name: "Effective area", symbol: "Ae", value: effectiveAreaFt2, unit: "ft2" }, area],
        result: free.freeAreaRatio,
        unit: "ratio",
        source: "Derived: the factor that makes area times factor the effective area",
        assumed: null,
      },
      { ...last, source: "Effective area published for the grille and the instrument", assumed: null },
    ] as const;
    return { steps, freeAreaFt2: free.freeAreaFt2 };
  }
  const basis =
    freeAreaRatio === null
      ? { source: ASSUMED_FREE_AREA.metal.source, assumed: ASSUMED_FACTOR }
      : { source: "Factor published or measured for the grille", assumed: null };
  return { steps: [{ ...last, ...basis }], freeAreaFt2: free.freeAreaFt2 };
}
