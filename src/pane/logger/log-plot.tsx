import type { UnitSystemName } from "../../core/index.js";
import { metersPerSecondFromFpm } from "../../core/index.js";
import type { LogSeries } from "../../logger/index.js";
import { velocityUnit } from "../../workbook/index.js";
import { shownNumber } from "../controls/shown-figure.js";
import { type PlotFrame, plotPath, plotScale } from "./plot-path.js";

interface LogPlotProps {
  readonly series: LogSeries;
  /** What is taken, from start to end. */
  readonly taken: readonly { readonly fromSeconds: number; readonly toSeconds: number }[];
  readonly units: UnitSystemName;
}

const WIDTH = 296;
const HEIGHT = 150;
const FRAME: PlotFrame = { left: 34, right: WIDTH - 4, top: 14, bottom: HEIGHT - 18 };

/** The velocities over time, with what is taken between two marks. */
export function LogPlot({ series, taken, units }: LogPlotProps) {
  const { readings, usualIntervalSeconds } = series;
  const last = Math.max(series.rowSeconds.at(-1) ?? 0, 0);
  const low = readings.reduce((least, { velocityFpm }) => Math.min(least, velocityFpm), 0);
  const high = readings.reduce((most, { velocityFpm }) => Math.max(most, velocityFpm), 0);
  const scale = plotScale(FRAME, [0, last], [low, high]);
  const shown = (fpm: number) => shownNumber(units === "si" ? metersPerSecondFromFpm(fpm) : fpm);
  const path = plotPath(readings, usualIntervalSeconds ?? 1, scale);
  const spans = taken.map(({ fromSeconds, toSeconds }) => ({ from: scale.x(fromSeconds), to: scale.x(toSeconds) }));
  const spanWords = taken.map(
    ({ fromSeconds, toSeconds }) => `${shownNumber(fromSeconds)} s to ${shownNumber(toSeconds)} s`,
  );
  const words = `Velocity over time, ${readings.length} readings in ${Math.round(last)} s, from ${shown(low)} to ${shown(high)} ${velocityUnit(units)}. Taken: ${spanWords.length === 0 ? "nothing" : spanWords.join(", ")}.`;
  return (
    <svg class="vs-log" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={words}>
      {spans.map(({ from, to }, index) => (
        <rect
          key={index}
          class="vs-log-taken"
          x={from}
          y={FRAME.top}
          width={Math.max(to - from, 0)}
          height={FRAME.bottom - FRAME.top}
        />
      ))}
      <path class="vs-log-line" d={path} />
      <path
        class="vs-log-axis"
        d={`M${FRAME.left} ${FRAME.top}V${FRAME.bottom}M${FRAME.left} ${scale.y(0)}H${FRAME.right}`}
      />
      {spans
        .flatMap(({ from, to }) => [from, to])
        .map((x, index) => (
          <path key={index} class="vs-log-mark" d={`M${x} ${FRAME.top - 4}V${FRAME.bottom + 4}`} />
        ))}
      <text x={FRAME.left - 4} y={FRAME.top + 4} text-anchor="end">
        {shown(high)}
      </text>
      <text x={FRAME.left - 4} y={scale.y(0) + 4} text-anchor="end">
        0
      </text>
      <text x={FRAME.left} y={HEIGHT - 4}>
        0 s
      </text>
      <text x={FRAME.right} y={HEIGHT - 4} text-anchor="end">
        {Math.round(last)} s
      </text>
      <text x={FRAME.left + 4} y={9}>
        {velocityUnit(units)}
      </text>
    </svg>
  );
}
