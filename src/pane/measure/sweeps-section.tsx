import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { sweepAgreement, velocityUnit } from "../../workbook/index.js";
import { Section } from "../controls/section.js";
import { fixedFigure } from "../controls/shown-figure.js";
import { TextField } from "../controls/text-field.js";
import { LoggerFile } from "../logger/logger-file.js";
import type { MeasureProps } from "./measure-props.js";
import { readReading, readSeconds } from "./reading-text.js";
import { SweepTimer } from "./sweep-timer.js";
import { takenSweeps } from "./understood-measurement.js";

const errorOf = (read: object) => ("error" in read ? String(read.error) : null);

/** Timed sweeps over a face: the time by a button, the average that the meter shows, and how well they agree. */
export function SweepsSection({ draft, dispatch, job }: MeasureProps) {
  const rows = useRef<HTMLOListElement>(null);
  const [stops, setStops] = useState(0);
  const unit = velocityUnit(job.units);
  const agreement = sweepAgreement(takenSweeps(draft.sweeps));

  useLayoutEffect(() => {
    if (stops === 0) return;
    const empty = [...(rows.current?.querySelectorAll<HTMLInputElement>("li .vs-velocity input") ?? [])];
    empty.find((input) => input.value === "")?.focus();
  }, [stops]);

  return (
    <Section title="Sweeps">
      <p class="vs-lead">
        Start the averaging of the meter and the time together, cover the whole grille slowly and evenly, stop both.
        Sweep twice or more, the second time crosswise.
      </p>
      <SweepTimer startedAt={draft.sweepStartedAt} dispatch={dispatch} onStop={() => setStops((count) => count + 1)} />
      <ol class="vs-sweeps" ref={rows}>
        {draft.sweeps.map((sweep, index) => (
          <li key={index} aria-label={`Sweep ${index + 1}`}>
            <div class="vs-velocity">
              <TextField
                label={`Sweep ${index + 1}, average`}
                unit={unit}
                value={sweep.velocity}
                error={errorOf(readReading(sweep.velocity))}
                onInput={(velocity) => dispatch({ type: "set sweep", index, changes: { velocity } })}
              />
            </div>
            <div class="vs-seconds">
              <TextField
                label="Time"
                unit="s"
                inputMode="decimal"
                value={sweep.seconds}
                error={errorOf(readSeconds(sweep.seconds))}
                onInput={(seconds) => dispatch({ type: "set sweep", index, changes: { seconds } })}
              />
            </div>
            <button type="button" class="vs-quiet" onClick={() => dispatch({ type: "remove sweep", index })}>
              Remove<span class="vs-hidden"> sweep {index + 1}</span>
            </button>
          </li>
        ))}
      </ol>
      <button type="button" class="vs-button" onClick={() => dispatch({ type: "add sweep" })}>
        Add a sweep timed elsewhere
      </button>
      <LoggerFile
        units={job.units}
        onTake={(sweeps) => {
          for (const sweep of sweeps) dispatch({ type: "take sweep", sweep });
        }}
      />
      {agreement?.differencePercent != null && (
        <p class="vs-understood" role="status">
          The sweeps differ by {fixedFigure(agreement.differencePercent, 1)} %: {agreement.word}.
        </p>
      )}
    </Section>
  );
}
