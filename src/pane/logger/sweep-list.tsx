import { useState } from "preact/hooks";
import { metersPerSecondFromFpm, type UnitSystemName } from "../../core/index.js";
import type { LogSegment, LogSeries, Parting } from "../../logger/index.js";
import { velocityUnit } from "../../workbook/index.js";
import { fixedFigure, shortFigure, shownNumber, wordsWithFigures } from "../controls/shown-figure.js";
import { LogPlot } from "./log-plot.js";
import { SweepDoubts } from "./sweep-facts.js";
import { isLasting, type TakenLogSweep, takenLogSweep } from "./taken-log-sweep.js";

interface SweepListProps {
  readonly series: LogSeries;
  readonly parting: Parting;
  readonly units: UnitSystemName;
  readonly onTake: (sweeps: readonly TakenLogSweep[]) => void;
}

function sweepWords({ number, meanFpm, durationSeconds, spreadPercent }: LogSegment, units: UnitSystemName): string {
  const average = shownNumber(units === "si" ? metersPerSecondFromFpm(meanFpm) : meanFpm);
  const spread = spreadPercent === null ? "" : `, spread ${fixedFigure(spreadPercent, 1)} %`;
  return `Sweep ${number}: ${average} ${velocityUnit(units)} in ${shortFigure(durationSeconds, 1)} s${spread}`;
}

/** The sweeps of a log between its rests; those that are ticked are taken in one go. */
export function SweepList({ series, parting, units, onTake }: SweepListProps) {
  const lasting = parting.segments.filter(isLasting);
  const [left, setLeft] = useState<ReadonlySet<number>>(new Set());
  const wanted = lasting.filter(({ number }) => !left.has(number));
  const toggle = (number: number) => {
    const next = new Set(left);
    if (!next.delete(number)) next.add(number);
    setLeft(next);
  };
  return (
    <>
      <LogPlot series={series} taken={wanted} units={units} />
      <fieldset class="vs-log-sweeps">
        <legend>
          {parting.segments.length} sweeps. {wordsWithFigures(parting.reason)}
        </legend>
        {parting.segments.map((sweep) => (
          <div key={sweep.number}>
            <label>
              <input
                type="checkbox"
                checked={wanted.includes(sweep)}
                disabled={!isLasting(sweep)}
                onChange={() => toggle(sweep.number)}
              />{" "}
              {sweepWords(sweep, units)}
            </label>
            <SweepDoubts sweep={sweep} units={units} />
          </div>
        ))}
      </fieldset>
      <p class="vs-hint">Rests and pauses count for nothing. Seconds count from the first row ({series.startText}).</p>
      <button
        type="button"
        class="vs-button vs-main"
        disabled={wanted.length === 0}
        onClick={() => onTake(wanted.map((sweep) => takenLogSweep(sweep, units)))}
      >
        {wanted.length === 1 ? "Take 1 sweep" : `Take ${wanted.length} sweeps`}
      </button>
    </>
  );
}
