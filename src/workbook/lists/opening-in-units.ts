import type { UnitSystemName } from "../../core/index.js";
import type { OpeningInputs } from "./airflow-from-readings.js";
import type { RowOpening } from "./listed-outlet.js";

/** What a row says of its opening, in the units of the job where it does not say its own. */
export function inUnits(opening: RowOpening, units: UnitSystemName): OpeningInputs {
  return { ...opening, sizeUnits: opening.sizeUnits ?? units, areaUnits: opening.areaUnits ?? units };
}
