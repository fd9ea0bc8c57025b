import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";
import { describedBy } from "./described-by.js";

interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onInput: (text: string) => void;
  /** The person left the field, or asked for it by Enter. */
  readonly onCommit?: (isAsked: boolean) => void;
  readonly unit?: string;
  readonly hint?: ComponentChildren;
  /** What was understood of the text; said politely as it changes. */
  readonly understood?: string | null;
  readonly error?: string | null;
  readonly type?: "text" | "date";
  readonly inputMode?: "text" | "decimal" | "numeric";
  readonly isShort?: boolean;
}

/** A labelled field with its unit, what it understood, and what is wrong with it, all tied to it for a screen reader. */
export function TextField({ type = "text", isShort = false, ...props }: TextFieldProps) {
  const id = useId();
  const ids = { unit: `${id}-unit`, hint: `${id}-hint`, understood: `${id}-understood`, error: `${id}-error` };
  const shared = {
    id,
    class: "vs-input",
    autocomplete: "off" as const,
    spellcheck: false,
    value: props.value,
    onInput: (event: InputEvent) => props.onInput((event.currentTarget as HTMLInputElement).value),
    onBlur: () => props.onCommit?.(false),
    onKeyDown: (event: KeyboardEvent) => {
      if (event.key === "Enter") props.onCommit?.(true);
    },
    "aria-invalid": props.error ? ("true" as const) : undefined,
    "aria-describedby": describedBy({
      [ids.unit]: props.unit,
      [ids.error]: props.error,
      [ids.understood]: props.understood,
      [ids.hint]: props.hint,
    }),
  };
  return (
    <div class={isShort ? "vs-field vs-short" : "vs-field"}>
      <label for={id}>{props.label}</label>
      <div class="vs-input-row">
        {type === "date" ? (
          <input type="date" {...shared} />
        ) : (
          <input type="text" inputMode={props.inputMode ?? "text"} {...shared} />
        )}
        {props.unit && (
          <span class="vs-unit" id={ids.unit}>
            {props.unit}
          </span>
        )}
      </div>
      {props.error && (
        <p class="vs-error" id={ids.error}>
          {props.error}
        </p>
      )}
      {props.understood && (
        <p class="vs-understood" id={ids.understood}>
          {props.understood}
        </p>
      )}
      {props.hint && (
        <p class="vs-hint" id={ids.hint}>
          {props.hint}
        </p>
      )}
    </div>
  );
}
