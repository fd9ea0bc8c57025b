import type { BalanceStep } from "../../core/index.js";
import { asFoundEdits } from "../../workbook/index.js";
import { CheckField } from "../controls/check-field.js";
import { Section } from "../controls/section.js";
import { usePane } from "../shell/pane-context.js";
import { Cautions } from "./cautions.js";
import { isAfterSetting, type NextStep, type StepToConfirm } from "./next-step.js";
import { velocityText } from "./quantity-text.js";
import { ReadingForm } from "./reading-form.js";

interface NextStepProps {
  readonly step: NextStep;
  readonly kind: BalanceStep["kind"];
  readonly typed: string;
  readonly takesFocus: boolean;
  readonly isEntering: boolean;
  readonly isThrottled: boolean;
  readonly onTyped: (text: string) => void;
  readonly onReadings: (readings: readonly number[]) => void;
  readonly onDamper: (isThrottled: boolean) => void;
  readonly onLeave: () => void;
  readonly onConfirm: (step: StepToConfirm) => void;
}

/** What to do now, the velocity to look for, and the field for what the meter then shows. */
export function NextStepView({ step, kind, onConfirm, ...props }: NextStepProps) {
  const { job } = usePane();
  const { read, reason, look, target, confirm } = step;
  return (
    <Section title="Next step">
      <div role="status">
        <p class="vs-step">{step.title}</p>
        {look !== null && (
          <p class="vs-look">
            <span>{target === null ? "Average reading at design" : "Set until the meter averages"}</span>{" "}
            <strong>{velocityText(look, job.details.units)}</strong>
          </p>
        )}
        {step.words !== "" && <p>{step.words}</p>}
      </div>
      {read !== null && (
        <>
          <ReadingForm
            outlet={read}
            typed={props.typed}
            takesFocus={props.takesFocus}
            isEntering={props.isEntering}
            onTyped={props.onTyped}
            onReadings={props.onReadings}
            isKept={isAfterSetting(step) && !step.isAverage && asFoundEdits(read).length > 0}
            isLost={isAfterSetting(step) && !step.isAverage && read.measured !== null && read.asFoundCells.length === 0}
            isAverage={step.isAverage}
          />
          <CheckField label="Its damper is throttled" isChecked={props.isThrottled} onChange={props.onDamper} />
        </>
      )}
      <div class="vs-buttons">
        {confirm !== null && (
          <button type="button" class="vs-button vs-main" onClick={() => onConfirm(confirm)}>
            {confirm.label}
          </button>
        )}
        {reason === "chosen" && (
          <button type="button" class="vs-button" onClick={props.onLeave}>
            Back to the advice
          </button>
        )}
      </div>
      <Cautions kind={kind} />
    </Section>
  );
}
