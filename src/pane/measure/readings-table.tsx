import { lengthUnit, velocityUnit } from "../../workbook/index.js";
import { figure } from "../controls/shown-figure.js";
import { depthText } from "./drawing/depth-labels.js";
import { lineLetter } from "./drawing/line-letter.js";
import type { MeasureProps } from "./measure-props.js";
import type { PointPlan } from "./understood-plan.js";

interface ReadingsTableProps extends MeasureProps {
  readonly points: PointPlan;
  readonly readings: readonly (number | null)[];
}

const shownReading = (reading: number | null) => (reading === null ? "–" : figure(reading));

/** Every point with its place, depth and reading; choosing one puts it into the field again. */
export function ReadingsTable({ draft, dispatch, job, points, readings }: ReadingsTableProps) {
  const isDuct = draft.kind === "duct";
  return (
    <details class="vs-details">
      <summary>All points and readings</summary>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls sideways must be reached by the keyboard */}
      <section class="vs-scroll" aria-label="All points and readings" tabIndex={0}>
        <table class="vs-table">
          <thead>
            <tr>
              <th scope="col">Point</th>
              <th scope="col">Line</th>
              {isDuct && <th scope="col">Depth, {lengthUnit(job.units)}</th>}
              <th scope="col">Reading, {velocityUnit(job.units)}</th>
            </tr>
          </thead>
          <tbody>
            {points.plan.points.map(({ number, line, depthIn }, index) => (
              <tr key={number}>
                <th scope="row">
                  <button
                    type="button"
                    class="vs-quiet"
                    onClick={() => dispatch({ type: "go", keys: points.keys, place: index })}
                  >
                    <span class="vs-hidden">Read point </span>
                    {number}
                  </button>
                </th>
                <td>{lineLetter(line)}</td>
                {isDuct && <td>{depthText(depthIn, job.units)}</td>}
                <td>{shownReading(readings[index] ?? null)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </details>
  );
}
