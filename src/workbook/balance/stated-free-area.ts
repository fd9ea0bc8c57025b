import { ASSUMED_FREE_AREA } from "../../../shared/tables/assumed-free-area.js";
import type { UnitSystemName } from "../../core/index.js";
import {
  DomainError,
  freeArea,
  inchesFromMillimeters,
  rectangleArea,
  roundArea,
  squareMetersFromSquareFeet,
} from "../../core/index.js";

/** What a row says of its opening. */
export interface StatedOpening {
  readonly width: number | null;
  /** Null for a round opening. */
  readonly height: number | null;
  readonly factor: number | null;
}

/** Returns the free area of an opening in ft² or m²; null without a size, or where a figure is out of range. */
export function statedFreeArea({ width, height, factor }: StatedOpening, units: UnitSystemName): number | null {
  if (width === null) return null;
  const inches = (size: number) => (units === "si" ? inchesFromMillimeters(size) : size);
  try {
    const areaFt2 = height === null ? roundArea(inches(width)) : rectangleArea(inches(width), inches(height));
    const freeFt2 = freeArea(areaFt2, factor ?? ASSUMED_FREE_AREA.metal.freeAreaRatio);
    return units === "si" ? squareMetersFromSquareFeet(freeFt2) : freeFt2;
  } catch (cause) {
    if (cause instanceof DomainError) return null;
    throw cause;
  }
}
