import { useMemo, useState } from "preact/hooks";
import type { UnitSystemName } from "../../core/index.js";
import type { LogSegment, LogSeries } from "../../logger/index.js";
import { figure } from "../controls/shown-figure.js";
import { TextField } from "../controls/text-field.js";
import { LogPlot } from "./log-plot.js";
import { SweepCount } from "./sweep-count.js";
import { SweepFacts } from "./sweep-facts.js";
import { SweepList } from "./sweep-list.js";
import { isLasting, type TakenLogSweep, takenLogSweep } from "./taken-log-sweep.js";
import type { OpenLog } from "./use-log.js";

interface SweepPickerProps {
  readonly series: LogSeries;
  readonly logger: NonNullable<OpenLog["logger"]>;
  readonly units: UnitSystemName;
  readonly onTake: (sweeps: readonly TakenLogSweep[]) => void;
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
        aria-valuetext={`${figure(rounded(moment ?? 0))} s`}
        min={0}
        max={most}
        step={step}
        value={moment ?? 0}
        onInput={(event) => onSet(figure(rounded(Number(event.currentTarget.value))))}
      />
    </div>
  );
}

interface OwnSweepProps extends SweepPickerProps {
  /** The only sweep that was found; null where there are several, and whole is where to begin. */
  readonly suggested: LogSegment | null;
}

/** Start and end on the plot, what lies between them, and the way into the list of sweeps. */
function OwnSweep({ series, logger, units, suggested, onTake }: OwnSweepProps) {
  const [typed, setTyped] = useState<{ readonly from?: string; readonly to?: string }>({});
  const last = Math.max(series.rowSeconds.at(-1) ?? 0, 0);
  const fromText = typed.from ?? figure(rounded(suggested?.fromSeconds ?? 0));
  const toText = typed.to ?? figure(rounded(suggested?.toSeconds ?? last));
  const [from, to] = [logger.logMoment(fromText, series), logger.logMoment(toText, series)];
  // The fields show hundredths, and a reading a thousandth beyond one of them still belongs to it.
  const sweep = from === null || to === null ? null : logger.logSweep(series, from - 0.005, to + 0.005);
  const slider = { most: last, step: rounded(Math.max(series.usualIntervalSeconds ?? 1, 0.01)) };
  const isOwn = suggested === null || typed.from !== undefined || typed.to !== undefined;
  return (
    <>
      <LogPlot series={series} taken={[{ fromSeconds: from ?? 0, toSeconds: to ?? last }]} units={units} />
      <p class="vs-hint">
        {isOwn ? "Start and end as you choose." : `Suggested. ${logger.suggestedSweep(series, suggested).reason}`}{" "}
        Seconds count from the first row ({series.startText}).
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
        disabled={sweep === null || !isLasting(sweep)}
        onClick={() => sweep !== null && onTake([takenLogSweep(sweep, units)])}
      >
        Take as sweep
      </button>
    </>
  );
}

/** The sweeps of one probe: a question where their number is in doubt, one with its marks, or several to choose from. */
export function SweepPicker(props: SweepPickerProps) {
  const { series, logger, units, onTake } = props;
  const [wanted, setWanted] = useState<number | undefined>(undefined);
  const { taken, question, ways } = useMemo(() => logger.logSegments(series, wanted), [logger, series, wanted]);
  const [first] = ways;
  if (first === undefined) return null;
  if (taken === null) return <SweepCount question={question} ways={ways} onChoose={setWanted} />;
  const [only, another] = taken.segments;
  if (only !== undefined && another === undefined) return <OwnSweep {...props} suggested={only} />;
  return (
    <>
      <SweepList key={taken.segments.length} series={series} parting={taken} units={units} onTake={onTake} />
      <details class="vs-details">
        <summary>One sweep, with start and end by hand</summary>
        <OwnSweep {...props} suggested={null} />
      </details>
    </>
  );
}
