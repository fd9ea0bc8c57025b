import { useState } from "preact/hooks";
import type { UnitSystemName } from "../../core/index.js";
import type { LogChoices } from "../../logger/index.js";
import { LogAnswers } from "./log-answers.js";
import { SweepPicker } from "./sweep-picker.js";
import type { TakenLogSweep } from "./taken-log-sweep.js";
import { type LogFile, useLog } from "./use-log.js";

interface LoggedFileProps {
  readonly file: LogFile;
  readonly isOneOfSeveral: boolean;
  readonly units: UnitSystemName;
  readonly onTake: (sweeps: readonly TakenLogSweep[]) => void;
}

/** One log: what was found in it, and the sweeps of each of its probes. */
export function LoggedFile({ file, isOneOfSeveral, units, onTake }: LoggedFileProps) {
  const [choices, setChoices] = useState<LogChoices>({});
  const { log, logger, failure } = useLog(file, choices);
  const problem = failure ?? log?.problem ?? null;
  return (
    <section aria-label={file.name}>
      {isOneOfSeveral && <h4 class="vs-log-name">{file.name}</h4>}
      {problem !== null && (
        <p class="vs-error" role="alert">
          {isOneOfSeveral ? `${file.name}: ${problem}` : problem}
        </p>
      )}
      {log !== null && log.open.length + log.rowCount > 0 && (
        <LogAnswers log={log} choices={choices} onChoose={(name, value) => setChoices({ ...choices, [name]: value })} />
      )}
      {log !== null &&
        logger !== null &&
        log.problem === null &&
        log.channels.map(({ name, series }) => (
          <div key={JSON.stringify([name, choices])}>
            {log.channels.length > 1 && <h4 class="vs-log-name">{name}</h4>}
            <SweepPicker series={series} logger={logger} units={units} onTake={onTake} />
          </div>
        ))}
    </section>
  );
}
