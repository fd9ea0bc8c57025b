import { type ChangeByUncertainty, changeWords } from "../../core/index.js";
import { airflowUnit, type JobDetails, type OutletRow, outletChange } from "../../workbook/index.js";
import { Section } from "../controls/section.js";
import { figure, fixedFigure, wordsWithFigures } from "../controls/shown-figure.js";
import { airflowText } from "./quantity-text.js";

interface OutletChangesProps {
  readonly outlets: readonly OutletRow[];
  /** What the pane remembers of an outlet before something was first set; undefined where it does not. */
  readonly asFound: (outlet: OutletRow) => number | undefined;
  readonly job: JobDetails;
}

function howMuchWords(change: number, known: ChangeByUncertainty, units: JobDetails["units"]): string {
  return changeWords(change, known.changeExpanded, known.isShown, figure, ` ${airflowUnit(units)}`);
}

/** Before and after: did it change, and by how much is that known. */
export function OutletChanges({ outlets, asFound, job }: OutletChangesProps) {
  const changes = outlets.flatMap((outlet) => {
    const before = outlet.before ?? asFound(outlet) ?? null;
    const after = outlet.after ?? (outlet.before === null ? outlet.measured : null);
    return before === null || after === null ? [] : (outletChange(outlet, before, after, job) ?? []);
  });
  return (
    <Section title="Before and after">
      {changes.length === 0 ? (
        <p class="vs-hint">
          Nothing to compare yet. Once a damper, branch or fan was set here, the pane remembers what each outlet gave
          before. A sheet “Before and after” or a job summary keeps it in the workbook.
        </p>
      ) : (
        <ul class="vs-plain">
          {changes.map(({ outlet, before, after, verdict }) => (
            <li key={outlet.id}>
              <strong>
                {outlet.name}: {airflowText(before, job.units)} → {airflowText(after, job.units)} (
                {verdict.changePercent > 0 ? "+" : ""}
                {fixedFigure(verdict.changePercent, 1)} %)
              </strong>
              <dl class="vs-answers">
                <dt>Did it change?</dt>
                <dd>{wordsWithFigures(verdict.didChange.words)}</dd>
                <dt>By how much?</dt>
                <dd>{howMuchWords(after - before, verdict.howMuch, job.units)}</dd>
              </dl>
            </li>
          ))}
        </ul>
      )}
    </Section>
  );
}
