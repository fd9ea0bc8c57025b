import { TextField } from "../controls/text-field.js";
import { usePane } from "../shell/pane-context.js";
import { type AskedField, fieldText, readField } from "./job-fields.js";
import type { StartAction, StartDraft } from "./start-draft.js";

interface JobFieldProps {
  readonly field: AskedField;
  readonly draft: StartDraft;
  readonly dispatch: (action: StartAction) => void;
}

/** One detail of the job; it is stated when the person leaves the field or presses Enter. */
export function JobField({ field, draft, dispatch }: JobFieldProps) {
  const { job, run } = usePane();
  const { detail } = field;
  const typed = draft.texts[detail];
  const read = typed === undefined ? null : readField(field, typed);

  function onCommit(): void {
    if (read === null || "error" in read) return;
    void run(async () => {
      await job.state({ [detail]: read.value });
      dispatch({ type: "stated", detail });
      return null;
    });
  }

  return (
    <TextField
      label={field.label}
      type={field.kind === "date" ? "date" : "text"}
      inputMode={field.kind === "number" ? "decimal" : "text"}
      isShort={field.kind !== "text"}
      unit={field.unit(job.details.units)}
      hint={field.hint}
      value={typed ?? fieldText(field, job.details)}
      error={read !== null && "error" in read ? read.error : null}
      onInput={(text) => dispatch({ type: "typed", detail, text })}
      onCommit={onCommit}
    />
  );
}
