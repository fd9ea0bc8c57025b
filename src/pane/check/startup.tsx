import { useEffect, useRef } from "preact/hooks";
import { askForTab } from "../shell/asked-tab.js";
import { failureMessage } from "../shell/message.js";
import { usePane } from "../shell/pane-context.js";
import { useFindings } from "./use-findings.js";

/**
 * Lets the host load the add-in with a workbook that holds our formulas, and shows the pane where some of them do not
 * calculate. It draws nothing.
 */
export function Startup() {
  const { host, problems } = usePane();
  const { report } = useFindings();
  const stuckCount = report?.findings.filter(({ kind }) => kind === "stuck-formula").length ?? 0;
  const holdsOurs = report === null ? null : report.vaneFormulaCount > 0 || stuckCount > 0;
  const wasShown = useRef(false);

  useEffect(() => {
    if (holdsOurs === null) return;
    const tell = (text: string | null) => problems.report("load with the workbook", text);
    host.loadWithWorkbook?.(holdsOurs).then(
      () => tell(null),
      (cause: unknown) => {
        // Where nothing of ours is left, nothing is missed.
        if (!holdsOurs) return;
        const how = "Next time, open the pane after opening it, so that its VANE formulas calculate.";
        tell(`${failureMessage(cause).text} ${how}`);
      },
    );
  }, [host, holdsOurs, problems]);

  useEffect(() => {
    if (stuckCount === 0 || wasShown.current || document.visibilityState !== "hidden") return;
    wasShown.current = true;
    askForTab("check");
    // Where Excel does not show it, the offer waits on the tab.
    host.showPane?.().catch(() => undefined);
  }, [host, stuckCount]);
  return null;
}
