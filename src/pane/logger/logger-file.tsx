import { useId, useState } from "preact/hooks";
import type { UnitSystemName } from "../../core/index.js";
import type { LogChoices } from "../../logger/index.js";
import { LogFindings } from "./log-findings.js";
import { SweepPicker, type TakenLogSweep } from "./sweep-picker.js";
import { type LogFile, useLog } from "./use-log.js";
import "./logger.css";

interface LoggerFileProps {
  readonly units: UnitSystemName;
  readonly onTake: (sweep: TakenLogSweep) => void;
}

/** More than this would stop the pane while it reads; the command line takes larger ones. */
const MOST_BYTES = 32 * 1024 * 1024;

/** A sweep from what an instrument logged: the file, what was found in it, start and end on the plot. */
export function LoggerFile({ units, onTake }: LoggerFileProps) {
  const id = useId();
  const [file, setFile] = useState<LogFile | null>(null);
  const [choices, setChoices] = useState<LogChoices>({});
  const [problem, setProblem] = useState<string | null>(null);
  const [taken, setTaken] = useState<string | null>(null);
  const { log, logger, failure } = useLog(file, choices);

  async function choose(chosen: File | undefined): Promise<void> {
    setFile(null);
    setChoices({});
    setTaken(null);
    setProblem(null);
    if (chosen === undefined) return;
    if (chosen.size > MOST_BYTES) {
      setProblem(`“${chosen.name}” is larger than ${MOST_BYTES / 1024 / 1024} MB. vanesheet readings takes it.`);
      return;
    }
    try {
      setFile({ name: chosen.name, bytes: new Uint8Array(await chosen.arrayBuffer()) });
    } catch (cause) {
      const said = cause instanceof Error ? cause.message : String(cause);
      setProblem(`“${chosen.name}” could not be read: ${said}`);
    }
  }

  const said = problem ?? failure ?? log?.problem ?? null;
  return (
    <details class="vs-details">
      <summary>A sweep from a logger file</summary>
      <div class="vs-field">
        <label for={id}>Logger file, any delimited text with times and velocities</label>
        <input
          id={id}
          type="file"
          class="vs-files"
          accept=".csv,.txt,.tsv,.log,.dat,text/plain"
          onChange={(event) => void choose(event.currentTarget.files?.[0])}
        />
      </div>
      {said !== null && (
        <p class="vs-error" role="alert">
          {said}
        </p>
      )}
      {log !== null && (
        <LogFindings
          key={file?.name}
          log={log}
          choices={choices}
          onChoose={(name, value) => setChoices({ ...choices, [name]: value })}
        />
      )}
      {log?.series != null && logger !== null && log.problem === null && (
        <SweepPicker
          key={JSON.stringify([file?.name, choices])}
          series={log.series}
          logger={logger}
          units={units}
          onTake={(sweep) => {
            onTake(sweep);
            setTaken(`Taken as a sweep: ${sweep.velocity} in ${sweep.seconds} s. It stands in the list of sweeps.`);
          }}
        />
      )}
      <p role="status" class="vs-status">
        {taken}
      </p>
    </details>
  );
}
