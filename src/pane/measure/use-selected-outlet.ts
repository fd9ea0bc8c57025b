import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import { readSelectedOutlet, type SelectedOutlet } from "../../workbook/index.js";
import { failureMessage } from "../shell/message.js";
import { usePane } from "../shell/pane-context.js";
import { useSelectionWatch, useWatch } from "../shell/use-watch.js";

/** What is selected, or why it cannot be told. */
export interface SelectionInView {
  /** Undefined until the selection was read; null where nothing belongs to it. */
  readonly outlet: SelectedOutlet | null | undefined;
  readonly failure: string | null;
}

const NOTHING: SelectionInView = { outlet: undefined, failure: null };

/** Reads which row of a list is selected and what it says, again whenever another is selected or a cell changes. */
export function useSelectedOutlet(): SelectionInView {
  const { host, job } = usePane();
  const { units } = job.details;
  const [selected, setSelected] = useState(NOTHING);
  const turn = useRef(0);
  // Nobody asked for it: a failure, as while a cell is being edited in Excel, is said in place and not as an alert.
  // What was selected before is still shown: what is typed meanwhile stays with its row.
  const fail = useCallback(
    (cause: unknown) => setSelected(({ outlet }) => ({ outlet, failure: failureMessage(cause).text })),
    [],
  );
  const reload = useCallback(() => {
    turn.current += 1;
    const own = turn.current;
    readSelectedOutlet(host, units).then(
      (outlet) => {
        if (own === turn.current) setSelected({ outlet, failure: null });
      },
      (cause: unknown) => {
        if (own === turn.current) fail(cause);
      },
    );
  }, [host, units, fail]);
  useEffect(reload, [reload]);
  useWatch(reload);
  useSelectionWatch(reload);
  return selected;
}
