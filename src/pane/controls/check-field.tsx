interface CheckFieldProps {
  readonly label: string;
  readonly isChecked: boolean;
  readonly onChange: (isChecked: boolean) => void;
}

/** Something that holds or does not. */
export function CheckField({ label, isChecked, onChange }: CheckFieldProps) {
  return (
    <label class="vs-choice">
      <input type="checkbox" checked={isChecked} onChange={(event) => onChange(event.currentTarget.checked)} />
      <span>{label}</span>
    </label>
  );
}
