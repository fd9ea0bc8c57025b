import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";

interface ChoiceFieldProps<Value extends string> {
  readonly legend: string;
  readonly choices: readonly { readonly value: Value; readonly label: string }[];
  readonly value: Value;
  readonly onChoose: (value: Value) => void;
  readonly hint?: ComponentChildren;
}

/** A few choices of which one holds. */
export function ChoiceField<Value extends string>({ legend, choices, value, onChoose, hint }: ChoiceFieldProps<Value>) {
  const id = useId();
  return (
    <fieldset class="vs-choices" aria-describedby={hint ? `${id}-hint` : undefined}>
      <legend>{legend}</legend>
      <div class="vs-choice-row">
        {choices.map((choice) => (
          <label key={choice.value} class="vs-choice">
            <input
              type="radio"
              name={id}
              value={choice.value}
              checked={choice.value === value}
              onChange={() => onChoose(choice.value)}
            />
            <span>{choice.label}</span>
          </label>
        ))}
      </div>
      {hint && (
        <p class="vs-hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
    </fieldset>
  );
}
