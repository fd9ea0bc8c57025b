import { useId } from "preact/hooks";

interface SelectFieldProps {
  readonly label: string;
  readonly choices: readonly { readonly value: string; readonly label: string }[];
  readonly value: string;
  readonly onChoose: (value: string) => void;
}

/** Choices of which one holds, where they are too many to stand side by side. */
export function SelectField({ label, choices, value, onChoose }: SelectFieldProps) {
  const id = useId();
  return (
    <div class="vs-field">
      <label for={id}>{label}</label>
      <select id={id} class="vs-input" value={value} onChange={(event) => onChoose(event.currentTarget.value)}>
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.label}
          </option>
        ))}
      </select>
    </div>
  );
}
