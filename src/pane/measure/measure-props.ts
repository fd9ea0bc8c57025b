import type { JobDetails, SelectedOutlet } from "../../workbook/index.js";
import type { MeasureDraft } from "./measure-draft.js";
import type { MeasureAction } from "./measure-reducer.js";
import type { UnderstoodMeasurement } from "./understood-measurement.js";

/** What every part of the tab is given. */
export interface MeasureProps {
  readonly draft: MeasureDraft;
  readonly dispatch: (action: MeasureAction) => void;
  readonly job: JobDetails;
  /** The selected row, to which the draft belongs; null where none is selected. */
  readonly place: SelectedOutlet | null;
  /** Why it is not known which row is selected now. */
  readonly placeFailure: string | null;
  /** Null until sizes can be read. */
  readonly understood: UnderstoodMeasurement | null;
}
