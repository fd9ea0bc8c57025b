import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import { type KnownOpening, readKnownOpening } from "../../workbook/index.js";
import { failureMessage } from "../shell/message.js";
import { usePane } from "../shell/pane-context.js";
import { useSelectionWatch, useWatch } from "../shell/use-watch.js";

/** What the selected row knows, or why it cannot be told. */
export interface SelectedOpening {
  readonly opening: KnownOpening | null;
  readonly failure: string | null;
}

const NOTHING: SelectedOpening = { opening: null, failure: null };

/** Reads what the selected row of a list knows of its opening, again whenever another is selected or a cell changes. */
export function useKnownOpening(): SelectedOpening {
  const { host, job } = usePane();
  const { units } = job.details;
  const [selected, setSelected] = useState(NOTHING);
  const turn = useRef(0);
  // Nobody asked for it: a failure, as while a cell is being edited in Excel, is said in place and not as an alert.
  const fail = useCallback((cause: unknown) => setSelected({ opening: null, failure: failureMessage(cause).text }), []);
  const reload = useCallback(() => {
    turn.current += 1;
    const own = turn.current;
    readKnownOpening(host, units).then(
      (opening) => {
        if (own === turn.current) setSelected({ opening, failure: null });
      },
      (cause: unknown) => {
        if (own === turn.current) fail(cause);
      },
    );
  }, [host, units, fail]);
  useEffect(reload, [reload]);
  useWatch(reload, fail);
  useSelectionWatch(reload, fail);
  return selected;
}
