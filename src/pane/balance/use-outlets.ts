import { useCallback } from "preact/hooks";
import { type OutletsOfWorkbook, readOutletLists } from "../../workbook/index.js";
import { usePane } from "../shell/pane-context.js";
import { useReading } from "../shell/use-reading.js";

/** The outlets of the workbook, read at first and whenever its cells change. */
export interface OutletsInView {
  /** Null until the first reading is in. */
  readonly outlets: OutletsOfWorkbook | null;
  readonly reload: () => Promise<void>;
}

export function useOutlets(): OutletsInView {
  const { host, job, problems } = usePane();
  const { units } = job.details;
  const read = useCallback(() => readOutletLists(host, units), [host, units]);
  const { known, reload } = useReading(host, problems, read);
  return { outlets: known?.value ?? null, reload };
}
