import { useCallback, useEffect, useState } from "preact/hooks";
import { type OutletsOfWorkbook, readOutletLists } from "../../workbook/index.js";
import { usePane } from "../shell/pane-context.js";
import { useWatch } from "../shell/use-watch.js";

/** The outlets of the workbook, read at first and whenever its cells change. */
export interface OutletsInView {
  /** Null until the first reading is in. */
  readonly outlets: OutletsOfWorkbook | null;
  readonly reload: () => Promise<void>;
}

export function useOutlets(): OutletsInView {
  const { host, job, run } = usePane();
  const [outlets, setOutlets] = useState<OutletsOfWorkbook | null>(null);
  const { units } = job.details;
  const reload = useCallback(async () => setOutlets(await readOutletLists(host, units)), [host, units]);
  const report = useCallback((cause: unknown) => void run(() => Promise.reject(cause)), [run]);
  useEffect(() => {
    reload().catch(report);
  }, [reload, report]);
  useWatch(() => void reload().catch(report), report);
  return { outlets, reload };
}
