import { Section } from "../controls/section.js";
import { PlanDrawing } from "./drawing/plan-drawing.js";
import { readingsOf } from "./measure-draft.js";
import type { MeasureProps } from "./measure-props.js";
import { pointWords } from "./point-words.js";
import { ReadingEntry } from "./reading-entry.js";
import { ReadingsTable } from "./readings-table.js";
import type { PointPlan } from "./understood-plan.js";
import { planNotes } from "./warnings.js";

interface ReadingsSectionProps extends MeasureProps {
  readonly points: PointPlan;
}

/** The drawn plan, and the readings one after another. */
export function ReadingsSection(props: ReadingsSectionProps) {
  const { draft, job, understood, points } = props;
  const typed = readingsOf(draft);
  const current = Math.min(draft.place, points.keys.length - 1);
  const taken = understood?.taken ?? null;
  const readings = taken !== null && "readings" in taken ? taken.readings : [];
  const status = statusText(props, current);
  const { shape } = points.section;
  return (
    <Section title="Readings">
      {planNotes(points, typed).map((note) => (
        <p key={note} class="vs-flag">
          {note}
        </p>
      ))}
      <PlanDrawing
        points={points}
        units={job.units}
        current={current}
        taken={points.keys.map((key) => (typed[key] ?? "") !== "")}
        hasDepths={draft.kind === "duct"}
        description={`Cross-section, ${shape}, with ${points.keys.length} points on ${points.lines} lines. Lit: point ${current + 1}, ${pointWords(points, current, draft.kind, job.units)}.`}
      />
      {shape === "flat oval" && (
        <p class="vs-hint vs-said">
          Below the drawing: how far each hole is from the left end, inside. Each point’s depth is beside its field.
        </p>
      )}
      <ReadingEntry {...props} current={current} />
      <p role="status" class="vs-status">
        {status}
      </p>
      <ReadingsTable {...props} readings={readings} />
    </Section>
  );
}

/** Says which point is next, or that all had their turn. */
function statusText({ draft, job, points }: ReadingsSectionProps, current: number): string {
  const typed = readingsOf(draft);
  const visited = points.keys.filter((key) => typed[key] !== undefined);
  const taken = visited.filter((key) => typed[key] !== "").length;
  if (visited.length < points.keys.length) {
    return `${taken} taken. Next: point ${current + 1}, ${pointWords(points, current, draft.kind, job.units)}.`;
  }
  const untaken = points.keys.length - taken;
  return untaken === 0
    ? `All ${taken} points are taken. The result is below.`
    : `${taken} of ${taken + untaken} points read, ${untaken} skipped. The result is below.`;
}
