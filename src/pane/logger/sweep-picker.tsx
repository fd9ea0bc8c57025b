import { useState } from "preact/hooks";
import type { UnitSystemName } from "../../core/index.js";
import { metersPerSecondFromFpm } from "../../core/index.js";
import type { LogSeries } from "../../logger/index.js";
import { TextField } from "../controls/text-field.js";
import { LogPlot } from "./log-plot.js";
import { SweepFacts } from "./sweep-facts.js";
import type { OpenLog } from "./use-log.js";

/** A sweep as the list of sweeps takes it: in the job's unit. */
export interface TakenLogSweep {
  readonly velocity: string;
  readonly seconds: string;
}

interface SweepPickerProps {
  readonly series: LogSeries;
  readonly logger: NonNullable<OpenLog["logger"]>;
  readonly units: UnitSystemName;
  readonly onTake: (sweep: TakenLogSweep) => void;
}

const MOMENT_ERROR = "Enter seconds after the first row, or a time of day, h:mm:ss.";

/** The finest step that a mark moves by: a hundredth of a second. */
const rounded = (seconds: number) => Number(seconds.toFixed(2));

interface MarkProps {
  readonly label: string;
  readonly text: string;
  readonly moment: number | null;
  readonly most: number;
  readonly step: number;
  readonly onSet: (text: string) => void;
}

/** One mark: typed exactly, or moved along the plot. */
function Mark({ label, text, moment, most, step, onSet }: MarkProps) {
  return (
    <div>
      <TextField
        label={label}
        unit="s"
        isShort
        value={text}
        error={moment === null ? MOMENT_ERROR : null}
        onInput={onSet}
      />
      <input
        type="range"
        class="vs-slider"
        aria-label={`${label}, on the plot`}
        aria-valuetext={`${rounded(moment ?? 0)} s`}
        min={0}
        max={most}
        step={step}
        value={moment ?? 0}
        onInput={(event) => onSet(String(rounded(Number(event.currentTarget.value))))}
      />
    </div>
  );
}

/** Start and end on the plot, what lies between them, and the way into the list of sweeps. */
export function SweepPicker({ series, logger, units, onTake }: SweepPickerProps) {
  const suggested = logger.suggestedSweep(series);
  const [typed, setTyped] = useState<{ readonly from?: string; readonly to?: string }>({});
  if (suggested === null) return null;
  const fromText = typed.from ?? String(rounded(suggested.fromSeconds));
  const toText = typed.to ?? String(rounded(suggested.toSeconds));
  const [from, to] = [logger.logMoment(fromText, series), logger.logMoment(toText, series)];
  // The fields show hundredths, and a reading a thousandth beyond one of them still belongs to it.
  const sweep = from === null || to === null ? null : logger.logSweep(series, from - 0.005, to + 0.005);
  const last = Math.max(series.rowSeconds.at(-1) ?? 0, 0);
  const slider = { most: last, step: rounded(Math.max(series.usualIntervalSeconds ?? 1, 0.01)) };
  return (
    <>
      <LogPlot series={series} fromSeconds={from ?? 0} toSeconds={to ?? last} units={units} />
      <p class="vs-hint">
        {typed.from === undefined && typed.to === undefined
          ? `Suggested. ${suggested.reason}`
          : "Start and end as you chose."}{" "}
        Seconds count from the first row, {series.startText}.
      </p>
      <div class="vs-pair">
        <Mark
          label="Start"
          text={fromText}
          moment={from}
          {...slider}
          onSet={(text) => setTyped({ ...typed, from: text })}
        />
        <Mark label="End" text={toText} moment={to} {...slider} onSet={(text) => setTyped({ ...typed, to: text })} />
      </div>
      {sweep === null ? (
        <p class="vs-error">No reading lies between this start and end.</p>
      ) : (
        <SweepFacts sweep={sweep} units={units} />
      )}
      <button
        type="button"
        class="vs-button vs-main"
        disabled={sweep === null || sweep.durationSeconds <= 0}
        onClick={() => {
          if (sweep === null) return;
          const mean = units === "si" ? metersPerSecondFromFpm(sweep.meanFpm) : sweep.meanFpm;
          onTake({
            velocity: String(Number(mean.toFixed(units === "si" ? 3 : 1))),
            seconds: String(Number(sweep.durationSeconds.toFixed(1))),
          });
        }}
      >
        Take as sweep
      </button>
    </>
  );
}
