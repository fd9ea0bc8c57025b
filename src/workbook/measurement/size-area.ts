import type { UnitSystemName } from "../../core/index.js";
import { flatOvalArea, inchesFromMillimeters, rectangleArea, roundArea } from "../../core/index.js";
import type { TakenSize } from "./taken.js";

/**
 * Returns the whole area of an opening or a duct.
 *
 * @param units - Those of the size: in or mm
 * @returns Area [ft2]
 * @throws {DomainError} When the size makes no opening
 */
export function sizeAreaFt2(size: TakenSize, units: UnitSystemName): number {
  const inches = (length: number) => (units === "si" ? inchesFromMillimeters(length) : length);
  switch (size.shape) {
    case "round":
      return roundArea(inches(size.diameter));
    case "rectangular":
      return rectangleArea(inches(size.width), inches(size.height));
    case "flat oval":
      return flatOvalArea(inches(size.major), inches(size.minor));
  }
}
