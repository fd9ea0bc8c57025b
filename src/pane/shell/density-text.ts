import type { UnitSystemName } from "../../core/index.js";
import { kgM3FromLbFt3 } from "../../core/index.js";
import { fixedFigure } from "../controls/shown-figure.js";

/** Says the density of the air in the job's unit. */
export function densityText(densityLbFt3: number, units: UnitSystemName): string {
  return units === "si"
    ? `Density of the air: ${fixedFigure(kgM3FromLbFt3(densityLbFt3), 3)} kg/m³`
    : `Density of the air: ${fixedFigure(densityLbFt3, 4)} lb/ft³`;
}
