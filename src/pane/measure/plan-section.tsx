import type { AnyDuctSection } from "../../core/index.js";
import { lengthUnit } from "../../workbook/index.js";
import { ChoiceField } from "../controls/choice-field.js";
import { readTypedNumber } from "../controls/read-typed-number.js";
import { Section } from "../controls/section.js";
import { TextField } from "../controls/text-field.js";
import { Cautions } from "./cautions.js";
import type { MeasureProps } from "./measure-props.js";
import { angleWords, siteWords } from "./site-words.js";
import { SizeField } from "./size-field.js";

const RULES = [
  { value: "log", label: "Log (recommended)" },
  { value: "equal area", label: "Equal area" },
] as const;

const METHODS = [
  { value: "points", label: "Readings at points" },
  { value: "sweeps", label: "Timed sweeps" },
] as const;

const RULE_HINT = {
  log: "Log-linear in a round duct, log-Tchebycheff in a rectangular one: they follow the profile at the wall.",
  "equal area": "Each point in the middle of an equal part of the area.",
} as const;

/** How it is measured: the rule, the number of points, the wall to pass; or points against sweeps at a face. */
export function PlanSection(props: MeasureProps) {
  const { draft, dispatch, understood } = props;
  const plan = understood?.plan ?? null;
  const isDuct = draft.kind === "duct";
  return (
    <Section title="Points">
      {draft.shape === "flat oval" && isDuct ? (
        <p class="vs-hint vs-said">A flat oval takes points in equal areas, along lines from holes in its long side.</p>
      ) : isDuct ? (
        <ChoiceField
          legend="Rule for the points"
          choices={RULES}
          value={draft.rule}
          onChoose={(rule) => dispatch({ type: "set", changes: { rule } })}
          hint={RULE_HINT[draft.rule]}
        />
      ) : (
        <ChoiceField
          legend="Method"
          choices={METHODS}
          value={draft.method}
          onChoose={(method) => dispatch({ type: "set", changes: { method } })}
        />
      )}
      {(isDuct || draft.method === "points") && <CountFields {...props} />}
      {plan !== null && "error" in plan && <p class="vs-error">{plan.error}</p>}
      <Cautions kind={draft.kind} />
    </Section>
  );
}

const LINES_LABELS = {
  round: "Diameters",
  rectangular: "Lines, one over the other",
  "flat oval": "Lines",
} as const;

interface SiteFieldsProps extends Pick<MeasureProps, "draft" | "dispatch" | "job"> {
  readonly section: AnyDuctSection | null;
}

/** Whether the duct is straight for long enough at the place of the traverse. */
function SiteFields({ draft, dispatch, job, section }: SiteFieldsProps) {
  const unit = job.units === "si" ? "m" : "ft";
  const site = section === null ? null : siteWords(draft, section, job.units);
  const angle = angleWords(draft.angle);
  const errorOf = (text: string) => {
    const read = readTypedNumber(text, 0, null);
    return "error" in read ? read.error : null;
  };
  return (
    <>
      <div class="vs-pair">
        <TextField
          label="Straight upstream"
          inputMode="decimal"
          unit={unit}
          value={draft.upstream}
          error={errorOf(draft.upstream)}
          hint="Duct from the last fitting, damper or fan."
          onInput={(upstream) => dispatch({ type: "set", changes: { upstream } })}
        />
        <TextField
          label="Straight downstream"
          inputMode="decimal"
          unit={unit}
          value={draft.downstream}
          error={errorOf(draft.downstream)}
          hint="Duct to the next fitting or the open end."
          onInput={(downstream) => dispatch({ type: "set", changes: { downstream } })}
        />
      </div>
      {site !== null && <p class={`vs-said ${site.isTooNear ? "vs-error" : "vs-understood"}`}>{site.words}</p>}
      <TextField
        label="Angle of the flow"
        inputMode="decimal"
        unit="°"
        value={draft.angle}
        error={"error" in angle ? angle.error : null}
        understood={"words" in angle ? angle.words : null}
        hint="Optional: turn a Pitot tube at each point until it reads null; the average of these angles without their signs."
        onInput={(text) => dispatch({ type: "set", changes: { angle: text } })}
      />
    </>
  );
}

function CountFields({ draft, dispatch, job, understood }: MeasureProps) {
  const isDuct = draft.kind === "duct";
  const plan = understood?.plan ?? null;
  const points = plan !== null && "points" in plan ? plan.points : null;
  const linesLabel = LINES_LABELS[draft.shape];
  const usual = (typed: string, count: number | undefined) =>
    typed.trim() === "" && count !== undefined ? `Usual: ${count}` : null;
  const lines = isDuct ? draft.ductLines : draft.faceLines;
  const perLine = isDuct ? draft.ductPoints : draft.facePoints;
  return (
    <>
      <div class="vs-pair">
        <TextField
          label={linesLabel}
          inputMode="numeric"
          value={lines}
          understood={usual(lines, points?.lines)}
          onInput={(text) => dispatch({ type: "set", changes: isDuct ? { ductLines: text } : { faceLines: text } })}
        />
        <TextField
          label="Points on each"
          inputMode="numeric"
          value={perLine}
          understood={usual(perLine, points?.pointsPerLine)}
          onInput={(text) => dispatch({ type: "set", changes: isDuct ? { ductPoints: text } : { facePoints: text } })}
        />
      </div>
      {isDuct && <SiteFields {...{ draft, dispatch, job }} section={points?.section ?? null} />}
      {isDuct && (
        <SizeField
          label="Wall and lining thickness"
          unit={lengthUnit(job.units)}
          hint="Added to every depth."
          value={draft.wall}
          read={understood?.sizes.wall}
          onInput={(wall) => dispatch({ type: "set", changes: { wall } })}
        />
      )}
    </>
  );
}
