import type { MeasuredResult, TakenMeasurement } from "../../workbook/index.js";
import { airflowUnit, areaUnit, velocityUnit } from "../../workbook/index.js";
import { Section } from "../controls/section.js";
import { fixedFigure, shownNumber, wordsWithFigures } from "../controls/shown-figure.js";
import { HeatMap } from "./drawing/heat-map.js";
import type { PointPlan } from "./understood-plan.js";
import { measurementWarnings } from "./warnings.js";

interface ResultSectionProps {
  readonly taken: TakenMeasurement;
  readonly result: MeasuredResult;
  readonly points: PointPlan | null;
}

/** Mean, spread, airflow and ± as they come, what looks wrong, and the profile. */
export function ResultSection({ taken, result, points }: ResultSectionProps) {
  const { units } = taken;
  const planned = taken.kind === "face sweeps" ? null : taken.readings.length;
  const assumed = result.budget.assumed.map((part) => (part === "Repeat" ? "repeatability" : part.toLowerCase()));
  return (
    <Section title="Result">
      <dl class="vs-result">
        <div class="vs-airflow">
          <dt>Airflow</dt>
          <dd>
            {shownNumber(result.airflow)} {airflowUnit(units)}
            <span class="vs-plus-minus">
              ± {shownNumber(result.plusMinus)} {airflowUnit(units)}
            </span>
          </dd>
        </div>
        <div>
          <dt>Average velocity</dt>
          <dd>
            {shownNumber(result.meanVelocity)} {velocityUnit(units)}
          </dd>
        </div>
        {result.spreadPercent !== null && (
          <div>
            <dt>Spread of readings</dt>
            <dd>{fixedFigure(result.spreadPercent, 1)} %</dd>
          </div>
        )}
        <div>
          <dt>{taken.kind === "duct" ? "Area" : "Free area"}</dt>
          <dd>
            {fixedFigure(result.freeArea, taken.units === "si" ? 4 : 3)} {areaUnit(units)}
          </dd>
        </div>
        <div>
          <dt>{planned === null ? "Sweeps" : "Readings"}</dt>
          <dd>{planned === null ? result.readingCount : `${result.readingCount} of ${planned}`}</dd>
        </div>
      </dl>
      <div role="status">
        <ul class="vs-warnings" aria-label="What looks wrong">
          {measurementWarnings(taken).map((warning) => (
            <li key={warning} class="vs-error">
              {warning}
            </li>
          ))}
        </ul>
      </div>
      <p>{wordsWithFigures(result.budget.summary)}.</p>
      {assumed.length > 0 && (
        <p class="vs-hint">
          Assumed, since the job does not state it: {assumed.join(", ")}.
          {result.spreadPercent !== null && " Spread describes the profile; it is not in the ±."}
        </p>
      )}
      {points !== null && "readings" in taken && (
        <HeatMap points={points} readings={taken.readings} unit={velocityUnit(units)} />
      )}
    </Section>
  );
}
