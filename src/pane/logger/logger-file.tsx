import { useId, useState } from "preact/hooks";
import type { UnitSystemName } from "../../core/index.js";
import { LoggedFile } from "./logged-file.js";
import type { TakenLogSweep } from "./taken-log-sweep.js";
import type { LogFile } from "./use-log.js";
import "./logger.css";

interface LoggerFileProps {
  readonly units: UnitSystemName;
  readonly onTake: (sweeps: readonly TakenLogSweep[]) => void;
}

/** More than this would stop the pane while it reads; the command line takes larger ones. */
const MOST_BYTES = 32 * 1024 * 1024;

interface Chosen {
  readonly files: readonly LogFile[];
  readonly problems: readonly string[];
}

const NOTHING: Chosen = { files: [], problems: [] };

async function read(file: File): Promise<LogFile | string> {
  if (file.size > MOST_BYTES) {
    return `“${file.name}” is larger than ${MOST_BYTES / 1024 / 1024} MB. Use the command vanesheet readings.`;
  }
  try {
    return { name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) };
  } catch (cause) {
    const said = cause instanceof Error ? cause.message : String(cause);
    return `“${file.name}” could not be read: ${said}`;
  }
}

function takenWords(sweeps: readonly TakenLogSweep[]): string {
  const [only, another] = sweeps;
  if (only !== undefined && another === undefined) {
    return `Taken as a sweep: ${only.velocity} in ${only.seconds} s. It is in the list of sweeps.`;
  }
  const listed = sweeps.map(({ velocity, seconds }) => `${velocity} in ${seconds} s`).join(", ");
  return `Taken as ${sweeps.length} sweeps: ${listed}. They are in the list of sweeps.`;
}

/** Sweeps from what instruments logged: the files, what was found in each, and which of their sweeps to take. */
export function LoggerFile({ units, onTake }: LoggerFileProps) {
  const id = useId();
  const [{ files, problems }, setChosen] = useState<Chosen>(NOTHING);
  const [taken, setTaken] = useState<string | null>(null);

  async function choose(chosen: readonly File[]): Promise<void> {
    setChosen(NOTHING);
    setTaken(null);
    const done = await Promise.all(chosen.map(read));
    setChosen({
      files: done.filter((one) => typeof one !== "string"),
      problems: done.filter((one) => typeof one === "string"),
    });
  }

  return (
    <details class="vs-details">
      <summary>Sweeps from a logger file</summary>
      <div class="vs-field">
        <label for={id}>Logger file, text or .xlsx with times and velocities; several at once if you like</label>
        <input
          id={id}
          type="file"
          multiple
          class="vs-files"
          accept=".csv,.txt,.tsv,.log,.dat,.xlsx,.xlsm,text/plain"
          onChange={(event) => void choose([...(event.currentTarget.files ?? [])])}
        />
      </div>
      {problems.map((problem) => (
        <p key={problem} class="vs-error" role="alert">
          {problem}
        </p>
      ))}
      {files.map((file, index) => (
        <LoggedFile
          key={`${index} ${file.name}`}
          file={file}
          isOneOfSeveral={files.length > 1}
          units={units}
          onTake={(sweeps) => {
            onTake(sweeps);
            setTaken(takenWords(sweeps));
          }}
        />
      ))}
      <p role="status" class="vs-status">
        {taken}
      </p>
    </details>
  );
}
