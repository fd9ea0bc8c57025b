import { useId } from "preact/hooks";
import type { LogAnswer } from "../../logger/index.js";
import { TextField } from "../controls/text-field.js";

interface AnswerFieldProps {
  readonly label: string;
  /** Of what is typed; undefined where it has none. */
  readonly unit: string | undefined;
  readonly answer: LogAnswer;
  /** What was typed for it; undefined where it was left as found. */
  readonly typed: string | undefined;
  readonly onChoose: (value: string) => void;
}

/** One answer with its reason; another answer takes its place. */
export function AnswerField({ label, unit, answer, typed, onChoose }: AnswerFieldProps) {
  const id = useId();
  const { value, standing, reason, choices } = answer;
  const hint = `${standing[0]?.toUpperCase() ?? ""}${standing.slice(1)}. ${reason}`;
  if (choices.length === 0) {
    return (
      <TextField
        label={label}
        {...(unit === undefined ? {} : { unit })}
        value={typed ?? value ?? ""}
        error={typed !== undefined && standing !== "given" ? "Write lowest..highest, such as 0.4..30." : null}
        hint={hint}
        onInput={onChoose}
      />
    );
  }
  return (
    <div class="vs-field">
      <label for={id}>{label}</label>
      <select
        id={id}
        class="vs-input"
        value={value ?? ""}
        aria-invalid={value === null ? "true" : undefined}
        aria-describedby={`${id}-hint`}
        onChange={(event) => onChoose(event.currentTarget.value)}
      >
        {value === null && <option value="">choose …</option>}
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.label}
          </option>
        ))}
      </select>
      <p class={value === null ? "vs-error" : "vs-hint"} id={`${id}-hint`}>
        {hint}
      </p>
    </div>
  );
}
