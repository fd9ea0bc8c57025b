import { useId, useMemo, useReducer, useRef } from "preact/hooks";
import { EVERY_JOB, rollUp, USUAL_SETTINGS } from "../../workbook/rollup/index.js";
import { Section } from "../controls/section.js";
import { usePane } from "../shell/pane-context.js";
import { readJobFiles } from "./read-job-files.js";
import { RollUpResults } from "./roll-up-results.js";
import { NO_ROLL_UP, rollUpReducer } from "./roll-up-state.js";
import { SummaryButtons } from "./summary-buttons.js";

/** The day here, ISO 8601. */
function today(): string {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}

/** Many jobs' workbooks, chosen here, read one by one and summed up. */
export function RollUpSection() {
  const { run } = usePane();
  const [state, dispatch] = useReducer(rollUpReducer, NO_ROLL_UP);
  const turn = useRef(0);
  const id = useId();
  const { status, fileCount, readCount, latest, figures, findings } = state;
  const result = useMemo(() => rollUp(figures, EVERY_JOB, { ...USUAL_SETTINGS, today: today() }), [figures]);
  const found = useMemo(() => [...findings, ...result.findings], [findings, result]);

  function choose(files: readonly File[]): void {
    turn.current += 1;
    const own = turn.current;
    const isStopped = () => turn.current !== own;
    dispatch({ type: "started", fileCount: files.length });
    readJobFiles(
      files,
      (cameIn) => {
        if (!isStopped()) dispatch({ type: "came in", files: cameIn });
      },
      isStopped,
    ).catch((cause: unknown) => run(() => Promise.reject(cause)));
  }

  function stop(): void {
    turn.current += 1;
    dispatch({ type: "stopped" });
  }

  return (
    <Section title="Roll-up of jobs">
      <p class="vs-lead">
        Choose the workbooks of many jobs: every list of outlets and every traverse in them is summed up. They are read
        on this computer and none is changed.
      </p>
      <div class="vs-field">
        <label for={id}>Workbooks</label>
        <input
          id={id}
          class="vs-files"
          type="file"
          multiple
          accept=".xlsx,.xlsm"
          onChange={(event) => choose([...(event.currentTarget.files ?? [])])}
        />
      </div>
      {status !== "idle" && (
        <div class="vs-progress">
          <progress aria-label="Workbooks read" max={fileCount} value={readCount} />
          <span role="status">
            {status === "done" && `All ${fileCount} read.`}
            {status === "stopped" && `Stopped after ${readCount} of ${fileCount}.`}
            {status === "reading" && `${readCount} of ${fileCount} read`}
          </span>
          {status === "reading" && <span class="vs-hint">{latest}</span>}
        </div>
      )}
      {status === "reading" && (
        <div class="vs-buttons">
          <button type="button" class="vs-button" onClick={stop}>
            Stop
          </button>
        </div>
      )}
      {status !== "idle" && <RollUpResults rollUp={result.value} findings={found} />}
      {status !== "reading" && result.value.jobs.length > 0 && (
        <SummaryButtons rollUp={result.value} findings={found} fileCount={readCount} />
      )}
    </Section>
  );
}
