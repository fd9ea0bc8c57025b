import type { JobDetails } from "../../workbook/index.js";
import type { MeasureDraft } from "./measure-draft.js";
import type { MeasureAction } from "./measure-reducer.js";
import type { UnderstoodMeasurement } from "./understood-measurement.js";

/** What every part of the tab is given. */
export interface MeasureProps {
  readonly draft: MeasureDraft;
  readonly dispatch: (action: MeasureAction) => void;
  readonly job: JobDetails;
  /** Null until sizes can be read. */
  readonly understood: UnderstoodMeasurement | null;
}
